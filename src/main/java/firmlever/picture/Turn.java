package firmlever.picture;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * How a picture is turned to stand upright: the tag Orientation of Exif 2.3, section 4.6.4 A, in
 * the order of its values from 1 to 8.
 */
enum Turn {
  NONE(false, false, false),
  MIRRORED(false, true, false),
  HALF(false, true, true),
  HALF_MIRRORED(false, false, true),
  QUARTER_MIRRORED(true, false, false),
  QUARTER_RIGHT(true, true, false),
  QUARTER_RIGHT_MIRRORED(true, true, true),
  QUARTER_LEFT(true, false, true);

  private static final int ORIENTATION = 0x0112;
  private static final int ENTRY_BYTES = 12;
  private static final int TIFF = 42;

  private final boolean swapped;
  private final boolean fromRight;
  private final boolean fromBelow;

  /**
   * @param swapped whether rows become columns
   * @param fromRight whether the upright picture's columns are then counted from its right
   * @param fromBelow whether its rows are counted from below
   */
  Turn(boolean swapped, boolean fromRight, boolean fromBelow) {
    this.swapped = swapped;
    this.fromRight = fromRight;
    this.fromBelow = fromBelow;
  }

  /** Width of the upright picture, of one so wide and high. */
  int width(int width, int height) {
    return swapped ? height : width;
  }

  /**
   * Where a pixel comes to lie in the upright picture, counted along its rows.
   *
   * @param x column before, of {@code width}
   * @param y row before, of {@code height}
   */
  int index(int x, int y, int width, int height) {
    int upWidth = width(width, height);
    int upHeight = swapped ? width : height;
    int column = swapped ? y : x;
    int row = swapped ? x : y;
    return (fromBelow ? upHeight - 1 - row : row) * upWidth
        + (fromRight ? upWidth - 1 - column : column);
  }

  /** The turn a block of Exif asks for; none where it asks for none or cannot be read. */
  static Turn of(byte[] bytes, int from, int to) {
    try {
      ByteBuffer exif = ByteBuffer.wrap(bytes, from, to - from).slice();
      int order = exif.getShort();
      // "II" or "MM", for the makers of the first two machines that wrote it.
      exif.order(order == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
      if (order != 0x4949 && order != 0x4d4d || exif.getShort() != TIFF) {
        return NONE;
      }
      exif.position(exif.getInt());
      int entries = Short.toUnsignedInt(exif.getShort());
      for (int i = 0; i < entries; i++) {
        int at = exif.position();
        if (Short.toUnsignedInt(exif.getShort()) == ORIENTATION) {
          int value = Short.toUnsignedInt(exif.getShort(at + 8));
          return value >= 1 && value <= values().length ? values()[value - 1] : NONE;
        }
        exif.position(at + ENTRY_BYTES);
      }
      return NONE;
    } catch (BufferUnderflowException | IllegalArgumentException | IndexOutOfBoundsException e) {
      return NONE; // It points out of itself: a picture on its side is better than none.
    }
  }
}
