package firmlever.picture;

import firmlever.picture.Unusable.Why;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Set;

/** The chunks of a PNG file, ISO/IEC 15948: a length, a name of four letters, content, a sum. */
final class PngParts {
  private static final byte[] HEAD = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};

  /** What pixels need. Packed texts and profiles are left out: they unpack to any size. */
  private static final Set<String> NEEDED = Set.of("IHDR", "PLTE", "tRNS", "IDAT", "IEND");

  private static final int AROUND_CONTENT = 12;

  private PngParts() {}

  static boolean begin(byte[] file) {
    return file.length > HEAD.length && Arrays.equals(file, 0, HEAD.length, HEAD, 0, HEAD.length);
  }

  /** The file with those chunks only that its pixels need. */
  static Encoded bare(byte[] file) throws Unusable {
    ByteArrayOutputStream kept = new ByteArrayOutputStream(file.length);
    kept.writeBytes(HEAD);
    Turn turn = Turn.NONE;
    int at = HEAD.length;
    String name = "";
    while (!name.equals("IEND")) {
      int left = file.length - at - AROUND_CONTENT;
      int length = left < 0 ? -1 : ByteBuffer.wrap(file).getInt(at);
      if (length < 0 || length > left) {
        throw new Unusable(Why.DAMAGED);
      }
      name = new String(file, at + 4, 4, StandardCharsets.ISO_8859_1);
      if (name.equals("eXIf")) {
        turn = Turn.of(file, at + 8, at + 8 + length);
      }
      if (NEEDED.contains(name)) {
        kept.write(file, at, length + AROUND_CONTENT);
      }
      at += length + AROUND_CONTENT;
    }
    return new Encoded("png", kept.toByteArray(), turn);
  }
}
