package firmlever.bench;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;

/**
 * A code that cameras read, as a path to be drawn black on white.
 *
 * @param size width and height in units, the white margin cameras need included
 * @param path what is black
 */
public record Code(int size, String path) {
  /** The white margin the standard of these codes asks for, ISO/IEC 18004. */
  private static final int MARGIN = 4;

  /** The code of a text, such that a sixth of it may be dirty. */
  static Code of(String text) {
    ByteMatrix dots;
    try {
      dots = Encoder.encode(text, ErrorCorrectionLevel.M).getMatrix();
    } catch (WriterException e) {
      throw new IllegalArgumentException("too long for a code: " + text, e);
    }
    StringBuilder path = new StringBuilder();
    for (int y = 0; y < dots.getHeight(); y++) {
      for (int x = 0; x < dots.getWidth(); x++) {
        if (dots.get(x, y) == 1) {
          path.append('M').append(x + MARGIN).append(' ').append(y + MARGIN).append("h1v1h-1z");
        }
      }
    }
    return new Code(dots.getWidth() + 2 * MARGIN, path.toString());
  }
}
