package firmlever.picture;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Makes pictures as cameras do, with all that they write about them. */
public final class Camera {
  private Camera() {}

  /** The maker's name in what a camera tells. */
  public static final String MAKER = "INVENTED CAMERA";

  /** What stands for the latitude, as three fractions. */
  public static final int[] LATITUDE = {0x11223344, 1, 0x55667788, 1, 0x0badcafe, 100};

  public static final String COMMENT = "taken at the lakeside depot";

  /** A picture in four: red and green above, blue and white below. */
  public static BufferedImage scene(int width, int height, int type) {
    BufferedImage image = new BufferedImage(width, height, type);
    Graphics2D pen = image.createGraphics();
    Color[] colours = {Color.RED, Color.GREEN, Color.BLUE, Color.WHITE};
    for (int i = 0; i < colours.length; i++) {
      pen.setColor(colours[i]);
      pen.fillRect(i % 2 * width / 2, i / 2 * height / 2, width - width / 2, height - height / 2);
    }
    pen.dispose();
    return image;
  }

  /** A JPEG with place, maker, orientation, comment and a film behind its end. */
  public static byte[] photo(int width, int height, int orientation) {
    return photo(width, height, orientation, ByteOrder.LITTLE_ENDIAN);
  }

  static byte[] photo(int width, int height, int orientation, ByteOrder order) {
    byte[] plain = jpeg(scene(width, height, BufferedImage.TYPE_INT_RGB), false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(plain, 0, 2);
    segment(out, 0xe1, exif(orientation, order));
    segment(out, 0xfe, COMMENT.getBytes(StandardCharsets.UTF_8));
    out.write(plain, 2, plain.length - 2);
    out.writeBytes(("a film taken along, Exif, " + MAKER).getBytes(StandardCharsets.UTF_8));
    return out.toByteArray();
  }

  static byte[] jpeg(BufferedImage image, boolean progressive) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      writer.setOutput(out);
      ImageWriteParam param = writer.getDefaultWriteParam();
      if (progressive) {
        param.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
      }
      writer.write(null, new IIOImage(image, null, null), param);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }

  static void segment(ByteArrayOutputStream out, int mark, byte[] content) {
    out.write(0xff);
    out.write(mark);
    out.write(content.length + 2 >> 8);
    out.write(content.length + 2);
    out.writeBytes(content);
  }

  private static byte[] exif(int orientation, ByteOrder order) {
    byte[] tiff = tiff(orientation, order);
    return ByteBuffer.allocate(tiff.length + 6)
        .put("Exif\0\0".getBytes(StandardCharsets.US_ASCII))
        .put(tiff)
        .array();
  }

  /** Maker, orientation and the way to the place, and the place: what Exif lays into TIFF. */
  static byte[] tiff(int orientation, ByteOrder order) {
    byte[] maker = (MAKER + "\0").getBytes(StandardCharsets.US_ASCII);
    ByteBuffer out = ByteBuffer.allocate(200).order(order);
    out.put((order == ByteOrder.LITTLE_ENDIAN ? "II" : "MM").getBytes(StandardCharsets.US_ASCII));
    out.putShort((short) 42).putInt(8);
    out.putShort((short) 3);
    int place = 8 + 2 + 3 * 12 + 4;
    int latitude = place + 2 + 12 + 4;
    int name = latitude + 24;
    entry(out, 0x010f, 2, maker.length).putInt(name);
    entry(out, 0x0112, 3, 1).putShort((short) orientation).putShort((short) 0);
    entry(out, 0x8825, 4, 1).putInt(place);
    out.putInt(0);
    out.putShort((short) 1);
    entry(out, 0x0002, 5, 3).putInt(latitude);
    out.putInt(0);
    for (int each : LATITUDE) {
      out.putInt(each);
    }
    out.put(maker);
    return out.array();
  }

  private static ByteBuffer entry(ByteBuffer out, int tag, int kind, int count) {
    return out.putShort((short) tag).putShort((short) kind).putInt(count);
  }

  /** A PNG of grey levels of one bit, all black, with any chunks before its pixels. */
  static byte[] png(int width, int height, byte[]... chunks) {
    ByteArrayOutputStream pixels = new ByteArrayOutputStream();
    try (DeflaterOutputStream packing = new DeflaterOutputStream(pixels)) {
      byte[] row = new byte[1 + (width + 7) / 8];
      for (int y = 0; y < height; y++) {
        packing.write(row);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return pngOf(width, height, 0, pixels.toByteArray(), chunks);
  }

  static byte[] pngOf(int width, int height, int colours, byte[] pixels, byte[]... chunks) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'});
    byte[] head =
        ByteBuffer.allocate(13)
            .putInt(width)
            .putInt(height)
            .put((byte) 1)
            .put((byte) colours)
            .array();
    out.writeBytes(chunk("IHDR", head));
    for (byte[] each : chunks) {
      out.writeBytes(each);
    }
    out.writeBytes(chunk("IDAT", pixels));
    out.writeBytes(chunk("IEND", new byte[0]));
    return out.toByteArray();
  }

  static byte[] chunk(String name, byte[] content) {
    byte[] letters = name.getBytes(StandardCharsets.US_ASCII);
    CRC32 sum = new CRC32();
    sum.update(letters);
    sum.update(content);
    return ByteBuffer.allocate(12 + content.length)
        .putInt(content.length)
        .put(letters)
        .put(content)
        .putInt((int) sum.getValue())
        .array();
  }

  static byte[] png(BufferedImage image) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  /** What any program makes of a file. */
  public static BufferedImage seen(byte[] file) {
    try {
      return ImageIO.read(new ByteArrayInputStream(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The colour in the middle of a quarter, as a letter; {@code x} and {@code y} are 0 or 1. */
  public static char colour(BufferedImage image, int x, int y) {
    Color c =
        new Color(
            image.getRGB(image.getWidth() * (2 * x + 1) / 4, image.getHeight() * (2 * y + 1) / 4));
    boolean red = c.getRed() > 200;
    boolean green = c.getGreen() > 200;
    boolean blue = c.getBlue() > 200;
    return red && green && blue ? 'W' : red ? 'R' : green ? 'G' : blue ? 'B' : '?';
  }
}
