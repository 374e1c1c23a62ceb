package firmlever.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.sun.management.ThreadMXBean;
import firmlever.document.Limit;
import firmlever.picture.Unusable.Why;
import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.DeflaterOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A plain picture")
class PlainPictureTest {
  private static Why refusal(byte[] file) {
    try {
      PlainPicture.of(file);
      return null;
    } catch (Unusable e) {
      return e.why();
    }
  }

  private static boolean holds(byte[] file, byte[] what) {
    for (int at = 0; at + what.length <= file.length; at++) {
      if (Arrays.equals(file, at, at + what.length, what, 0, what.length)) {
        return true;
      }
    }
    return false;
  }

  private static boolean holds(byte[] file, String what) {
    return holds(file, what.getBytes(StandardCharsets.UTF_8));
  }

  /** The marks of all segments up to the pixels, read by the standard's own rule. */
  private static List<Integer> marks(byte[] file) {
    List<Integer> marks = new ArrayList<>();
    ByteBuffer in = ByteBuffer.wrap(file);
    in.getShort();
    while (!marks.contains(0xda)) {
      assertThat(in.get()).isEqualTo((byte) 0xff);
      marks.add(in.get() & 0xff);
      in.position(in.position() + (in.getShort(in.position()) & 0xffff));
    }
    return marks;
  }

  @Test
  @DisplayName("tells neither where nor when nor with what it was taken, nor what came after it")
  void tellsNothing() throws Unusable {
    for (ByteOrder order : List.of(ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN)) {
      byte[] photo = Camera.photo(60, 40, 1, order);
      byte[] place = ByteBuffer.allocate(4).order(order).putInt(Camera.LATITUDE[0]).array();
      byte[] plain = PlainPicture.of(photo);
      for (String what : List.of("Exif", Camera.MAKER, Camera.COMMENT, "film")) {
        assertThat(holds(photo, what)).as("before: " + what).isTrue();
        assertThat(holds(plain, what)).as("after: " + what).isFalse();
      }
      assertThat(holds(photo, place)).isTrue();
      assertThat(holds(plain, place)).isFalse();
      // The head of the format, tables, frame, scan: no other application segment, no comment.
      assertThat(marks(plain)).containsOnly(0xe0, 0xdb, 0xc0, 0xc4, 0xda).containsOnlyOnce(0xe0);
    }
  }

  /**
   * The tag by the words of its standard: at which side of the upright picture the first row and
   * the first column lie.
   */
  @ParameterizedTest(name = "with orientation {0} has its first row {1} and its first column {2}")
  @CsvSource({
    "1, top, left",
    "2, top, right",
    "3, bottom, right",
    "4, bottom, left",
    "5, left, top",
    "6, right, top",
    "7, right, bottom",
    "8, left, bottom"
  })
  void standsUpright(int orientation, String row, String column) throws Unusable {
    for (ByteOrder order : List.of(ByteOrder.LITTLE_ENDIAN, ByteOrder.BIG_ENDIAN)) {
      BufferedImage seen = Camera.seen(PlainPicture.of(Camera.photo(64, 32, orientation, order)));
      boolean lying = row.equals("left") || row.equals("right");
      assertThat(seen.getWidth()).isEqualTo(lying ? 32 : 64);
      assertThat(seen.getHeight()).isEqualTo(lying ? 64 : 32);
      List<String> first = List.of(row, column);
      assertThat(corner(seen, first)).isEqualTo('R');
      assertThat(corner(seen, List.of(row, opposite(column)))).isEqualTo('G');
      assertThat(corner(seen, List.of(opposite(row), column))).isEqualTo('B');
      assertThat(corner(seen, List.of(opposite(row), opposite(column)))).isEqualTo('W');
    }
  }

  private static String opposite(String side) {
    return switch (side) {
      case "top" -> "bottom";
      case "bottom" -> "top";
      case "left" -> "right";
      default -> "left";
    };
  }

  private static char corner(BufferedImage seen, List<String> sides) {
    return Camera.colour(seen, sides.contains("right") ? 1 : 0, sides.contains("bottom") ? 1 : 0);
  }

  @Test
  @DisplayName("stands as it is where the tag is none, points out of itself, or is cut off")
  void survivesBadTags() throws Unusable {
    byte[] photo = Camera.photo(64, 32, 6);
    int tag = 0;
    while (photo[tag] != 0x12 || photo[tag + 1] != 0x01) {
      tag++;
    }
    for (int at : List.of(2 + 4 + 6 + 4, tag, tag + 8)) {
      byte[] broken = photo.clone();
      broken[at] = (byte) 0xee;
      broken[at + 1] = (byte) 0xee;
      assertThat(Camera.seen(PlainPicture.of(broken)).getWidth()).as("at " + at).isEqualTo(64);
    }
  }

  @Test
  @DisplayName("is as long as a tablet shows, whole to its edges; a small one keeps its size")
  void isOfModerateSize() throws Unusable {
    BufferedImage seen =
        Camera.seen(
            PlainPicture.of(
                Camera.jpeg(Camera.scene(5000, 1000, BufferedImage.TYPE_INT_RGB), false)));
    assertThat(seen.getWidth()).isEqualTo(2048);
    assertThat(seen.getHeight()).isEqualTo(410);
    for (int x = 0; x < 2; x++) {
      for (int y = 0; y < 2; y++) {
        int edge = seen.getRGB(x * 2047, y * 409) & 0xffffff;
        int middle = seen.getRGB(512 + x * 1024, 102 + y * 205) & 0xffffff;
        assertThat(level(edge)).isCloseTo(level(middle), within(4));
      }
    }
    assertThat(Camera.seen(PlainPicture.of(Camera.png(3, 1))).getWidth()).isEqualTo(3);
  }

  private static int level(int rgb) {
    Color c = new Color(rgb);
    return (c.getRed() + c.getGreen() + c.getBlue()) / 3;
  }

  @Test
  @DisplayName("keeps grey levels and palettes as they show; what is clear lies on white")
  void keepsColours() throws Unusable {
    BufferedImage grey = new BufferedImage(40, 40, BufferedImage.TYPE_BYTE_GRAY);
    BufferedImage deep = new BufferedImage(40, 40, BufferedImage.TYPE_USHORT_GRAY);
    for (int i = 0; i < 1600; i++) {
      grey.getRaster().setSample(i % 40, i / 40, 0, 100);
      deep.getRaster().setSample(i % 40, i / 40, 0, 100 << 8);
    }
    for (byte[] file : List.of(Camera.jpeg(grey, false), Camera.png(grey), Camera.png(deep))) {
      int rgb = Camera.seen(PlainPicture.of(file)).getRGB(20, 20);
      assertThat(level(rgb)).isCloseTo(100, within(2));
    }
    for (int type :
        List.of(
            BufferedImage.TYPE_BYTE_INDEXED,
            BufferedImage.TYPE_INT_ARGB,
            BufferedImage.TYPE_3BYTE_BGR)) {
      BufferedImage seen = Camera.seen(PlainPicture.of(Camera.png(Camera.scene(40, 40, type))));
      assertThat(Camera.colour(seen, 0, 0)).isEqualTo('R');
      assertThat(Camera.colour(seen, 1, 1)).isEqualTo('W');
    }
    byte[] clear = Camera.png(new BufferedImage(40, 40, BufferedImage.TYPE_INT_ARGB));
    assertThat(Camera.colour(Camera.seen(PlainPicture.of(clear)), 0, 0)).isEqualTo('W');
    BufferedImage scene = Camera.scene(64, 64, BufferedImage.TYPE_INT_RGB);
    assertThat(Camera.colour(Camera.seen(PlainPicture.of(Camera.jpeg(scene, true))), 1, 0))
        .isEqualTo('G');
  }

  @Test
  @DisplayName("is turned by the tag of a PNG too")
  void turnsPng() throws Unusable {
    byte[] tag = Camera.chunk("eXIf", Camera.tiff(6, ByteOrder.BIG_ENDIAN));
    assertThat(Camera.seen(PlainPicture.of(Camera.png(64, 32, tag))).getWidth()).isEqualTo(32);
  }

  private static long allocated(Runnable work) {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
    work.run();
    return threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
  }

  @Test
  @DisplayName("is made of as many pixels, and of no more: those are refused by the head alone")
  void refusesBombs() {
    int side = 10_000;
    int other = Limit.PHOTO_PIXELS.most() / side;
    assertThat(refusal(Camera.png(side, other))).isNull();
    assertThat(refusal(Camera.png(side, other + 1))).isEqualTo(Why.TOO_LARGE);
    assertThat(refusal(Camera.png(Limit.PHOTO_SIDE.most(), 1))).isNull();
    assertThat(refusal(Camera.png(Limit.PHOTO_SIDE.most() + 1, 1))).isEqualTo(Why.TOO_LARGE);
    byte[] vast = Camera.pngOf(1_000_000, 1_000_000, 0, new byte[10]);
    byte[] jpeg = Camera.jpeg(Camera.scene(16, 16, BufferedImage.TYPE_INT_RGB), false);
    for (int at = 0; at + 8 < jpeg.length; at++) {
      if (jpeg[at] == (byte) 0xff && jpeg[at + 1] == (byte) 0xc0) {
        ByteBuffer.wrap(jpeg).putShort(at + 5, (short) 65_000).putShort(at + 7, (short) 65_000);
      }
    }
    for (byte[] bomb : List.of(vast, jpeg)) {
      assertThat(allocated(() -> assertThat(refusal(bomb)).isEqualTo(Why.TOO_LARGE)))
          .isLessThan(2_000_000);
    }
  }

  @Test
  @DisplayName("unpacks no text on its way, however large that would be")
  void unpacksNoText() throws IOException {
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    packed.writeBytes("Comment\0\0".getBytes(StandardCharsets.US_ASCII));
    try (DeflaterOutputStream packing = new DeflaterOutputStream(packed)) {
      for (int i = 0; i < 100; i++) {
        packing.write(new byte[1_000_000]);
      }
    }
    byte[] text = Camera.chunk("zTXt", packed.toByteArray());
    byte[] palette = Camera.chunk("PLTE", new byte[6]);
    byte[] pixels = {0x78, (byte) 0x9c, 0x63, 0x60, 0, 0, 0, 2, 0, 1};
    byte[] file = Camera.pngOf(1, 1, 3, pixels, palette, text);
    assertThat(allocated(() -> assertThat(refusal(file)).isNull())).isLessThan(20_000_000);
  }

  @Test
  @DisplayName("is made of no text, no other kind of picture, and nothing that ends too early")
  void refusesWhatIsNone() throws IOException {
    ByteArrayOutputStream gif = new ByteArrayOutputStream();
    javax.imageio.ImageIO.write(Camera.scene(9, 9, BufferedImage.TYPE_BYTE_INDEXED), "gif", gif);
    for (byte[] file :
        List.of(
            "I am a photo, says my name".getBytes(StandardCharsets.UTF_8),
            "<svg xmlns='http://www.w3.org/2000/svg'/>".getBytes(StandardCharsets.UTF_8),
            gif.toByteArray(),
            new byte[0],
            new byte[] {(byte) 0xff, (byte) 0xd8})) {
      assertThat(refusal(file)).isEqualTo(Why.NO_PICTURE);
    }
    byte[] jpeg = Camera.jpeg(Camera.scene(64, 64, BufferedImage.TYPE_INT_RGB), false);
    byte[] png = Camera.png(64, 64);
    for (byte[] whole : List.of(jpeg, png)) {
      for (int length = 9; length < whole.length; length += 3) {
        assertThat(refusal(Arrays.copyOf(whole, length))).as(length + " bytes").isNotNull();
      }
    }
  }

  @Test
  @DisplayName("is not gone over a hundred times for a file of a hundred scans")
  void refusesManyScans() {
    byte[] file = Camera.jpeg(Camera.scene(64, 64, BufferedImage.TYPE_INT_RGB), true);
    int last = file.length - 2;
    do {
      last--;
    } while (file[last] != (byte) 0xff || file[last + 1] != (byte) 0xda);
    byte[] scan = Arrays.copyOfRange(file, last, file.length - 2);
    ByteArrayOutputStream many = new ByteArrayOutputStream();
    many.write(file, 0, file.length - 2);
    for (int i = 0; i < 120; i++) {
      many.writeBytes(scan);
    }
    many.write(file, file.length - 2, 2);
    assertThat(refusal(file)).isNull();
    assertThat(refusal(many.toByteArray())).isEqualTo(Why.DAMAGED);
  }

  @Test
  @DisplayName("comes of damaged files or is refused; nothing else ever happens")
  void survivesDamage() {
    Random random = new Random(417);
    List<byte[]> files =
        List.of(
            Camera.photo(40, 30, 6),
            Camera.jpeg(Camera.scene(40, 30, BufferedImage.TYPE_INT_RGB), true),
            Camera.png(Camera.scene(40, 30, BufferedImage.TYPE_INT_ARGB)),
            Camera.png(Camera.scene(40, 30, BufferedImage.TYPE_BYTE_INDEXED)));
    int refused = 0;
    for (int i = 0; i < 2000; i++) {
      byte[] file = files.get(i % files.size()).clone();
      for (int n = random.nextInt(6); n >= 0; n--) {
        file[random.nextInt(file.length)] = (byte) random.nextInt(256);
      }
      refused += refusal(file) == null ? 0 : 1;
    }
    assertThat(refused).isBetween(100, 1900);
  }

  @Test
  @DisplayName("says why it cannot be made")
  void saysWhy() {
    assertThatThrownBy(() -> PlainPicture.of(new byte[20]))
        .isInstanceOf(Unusable.class)
        .hasMessage("NO_PICTURE");
  }
}
