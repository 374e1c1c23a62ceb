package firmlever.picture;

import firmlever.document.Limit;
import firmlever.picture.Unusable.Why;
import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.ImageOutputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * Makes of a picture as it comes from a camera one that is upright, of moderate size, and holds
 * nothing but its pixels: no place, no day, no name of a camera, no thumbnail of what was cut off.
 * Nothing of the file itself is kept. Uses no disk and no screen.
 */
public final class PlainPicture {
  /** What all of them are afterwards. */
  public static final String TYPE = "image/jpeg";

  /** Pixels of the longer side that show what a mechanic must see, and fill any tablet. */
  static final int LONGEST_SIDE = 2048;

  private static final float QUALITY = 0.85f;
  private static final int WHITE = 0xff;

  private PlainPicture() {}

  /**
   * Makes a JPEG of a JPEG or PNG, told by its content.
   *
   * @throws Unusable where it is no such picture, is damaged, or has more pixels than {@link
   *     Limit#PHOTO_PIXELS} or a side longer than {@link Limit#PHOTO_SIDE}; by its head, before any
   *     room is made for them
   */
  public static byte[] of(byte[] file) throws Unusable {
    Encoded encoded = bare(file);
    try {
      return written(upright(decoded(encoded), encoded.turn()));
    } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException e) {
      // The readers throw all of these, depending on where the damage lies.
      throw new Unusable(Why.DAMAGED);
    }
  }

  /** Tells by its first bytes what it is, and takes out what its pixels do not need. */
  private static Encoded bare(byte[] file) throws Unusable {
    if (JpegParts.begin(file)) {
      return JpegParts.bare(file);
    }
    if (PngParts.begin(file)) {
      return PngParts.bare(file);
    }
    throw new Unusable(Why.NO_PICTURE);
  }

  private static BufferedImage decoded(Encoded encoded) throws IOException, Unusable {
    ImageReader reader = ImageIO.getImageReadersByFormatName(encoded.format()).next();
    try (ImageInputStream in =
        new MemoryCacheImageInputStream(new ByteArrayInputStream(encoded.bytes()))) {
      reader.setInput(in, true, true);
      int width = reader.getWidth(0);
      int height = reader.getHeight(0);
      if ((long) width * height > Limit.PHOTO_PIXELS.most()
          || Math.max(width, height) > Limit.PHOTO_SIDE.most()) {
        throw new Unusable(Why.TOO_LARGE);
      }
      ImageReadParam param = reader.getDefaultReadParam();
      // Of a very large one only every second, third pixel is ever in memory.
      int step = Math.max(1, Math.max(width, height) / LONGEST_SIDE);
      param.setSourceSubsampling(step, step, 0, 0);
      return reader.read(0, param);
    } finally {
      reader.dispose();
    }
  }

  /**
   * The picture turned, and made smaller where it is too large: each pixel the mean of those it
   * stands for.
   */
  private static BufferedImage upright(BufferedImage image, Turn turn) {
    int width = image.getWidth();
    int height = image.getHeight();
    double scale = Math.min(1, (double) LONGEST_SIDE / Math.max(width, height));
    int smallWidth = Math.max(1, (int) Math.round(width * scale));
    int smallHeight = Math.max(1, (int) Math.round(height * scale));
    int[] pixels = new int[smallWidth * smallHeight];
    for (int y = 0; y < smallHeight; y++) {
      int top = (int) ((long) y * height / smallHeight);
      int bottom = Math.max(top + 1, (int) ((long) (y + 1) * height / smallHeight));
      int[] rows = rows(image, top, bottom - top);
      for (int x = 0; x < smallWidth; x++) {
        int left = (int) ((long) x * width / smallWidth);
        int right = Math.max(left + 1, (int) ((long) (x + 1) * width / smallWidth));
        pixels[turn.index(x, y, smallWidth, smallHeight)] =
            mean(rows, width, left, right, bottom - top);
      }
    }
    int upWidth = turn.width(smallWidth, smallHeight);
    int upHeight = pixels.length / upWidth;
    BufferedImage upright = new BufferedImage(upWidth, upHeight, BufferedImage.TYPE_INT_RGB);
    upright.setRGB(0, 0, upWidth, upHeight, pixels, 0, upWidth);
    return upright;
  }

  private static int mean(int[] rows, int width, int left, int right, int height) {
    int red = 0;
    int green = 0;
    int blue = 0;
    for (int y = 0; y < height; y++) {
      for (int x = left; x < right; x++) {
        int argb = rows[y * width + x];
        int alpha = argb >>> 24;
        red += onWhite(argb >> 16 & 0xff, alpha);
        green += onWhite(argb >> 8 & 0xff, alpha);
        blue += onWhite(argb & 0xff, alpha);
      }
    }
    int count = (right - left) * height;
    return (red / count) << 16 | (green / count) << 8 | blue / count;
  }

  private static int onWhite(int level, int alpha) {
    return (level * alpha + WHITE * (WHITE - alpha)) / WHITE;
  }

  /** Some rows as alpha, red, green and blue, 8 bits each. */
  private static int[] rows(BufferedImage image, int top, int height) {
    int width = image.getWidth();
    boolean grey =
        image.getColorModel().getColorSpace().getType() == ColorSpace.TYPE_GRAY
            && !(image.getColorModel() instanceof IndexColorModel);
    if (!grey) {
      return image.getRGB(0, top, width, height, null, 0, width);
    }
    // Java takes grey levels for light and would brighten them; cameras write them as they show.
    Raster raster = image.getRaster();
    int shift = image.getColorModel().getComponentSize(0) - 8;
    int[] levels = raster.getSamples(0, top, width, height, 0, (int[]) null);
    int[] alphas =
        raster.getNumBands() > 1 ? raster.getSamples(0, top, width, height, 1, (int[]) null) : null;
    for (int i = 0; i < levels.length; i++) {
      int level = levels[i] >> shift;
      int alpha = alphas == null ? WHITE : alphas[i] >> shift;
      levels[i] = alpha << 24 | level << 16 | level << 8 | level;
    }
    return levels;
  }

  private static byte[] written(BufferedImage image) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      writer.setOutput(out);
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(QUALITY);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
