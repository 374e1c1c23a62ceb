package firmlever.picture;

import firmlever.picture.Unusable.Why;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** The segments of a JPEG file, ITU-T T.81 annex B: a mark of two bytes, a length, content. */
final class JpegParts {
  private static final int MARK = 0xff;
  private static final int FIRST_RESTART = 0xd0;
  private static final int LAST_RESTART = 0xd7;
  private static final int START = 0xd8;
  private static final int END = 0xd9;
  private static final int SCAN = 0xda;
  private static final int FIRST_APPLICATION = 0xe0;
  private static final int EXIF = 0xe1;
  private static final int COLOURS = 0xee;
  private static final int LAST_APPLICATION = 0xef;
  private static final int COMMENT = 0xfe;

  /** Progressive files have some ten; each costs a way through all pixels, however short it is. */
  private static final int MOST_SCANS = 100;

  private static final byte[] EXIF_HEAD = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);

  /** The segment JFIF asks for: it says that three components are brightness and two colours. */
  private static final byte[] JFIF = {
    (byte) 0xff, (byte) 0xe0, 0, 16, 'J', 'F', 'I', 'F', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0
  };

  private JpegParts() {}

  static boolean begin(byte[] file) {
    return file.length > 3 && at(file, 0) == MARK && at(file, 1) == START && at(file, 2) == MARK;
  }

  /**
   * The file without application segments and comments, all of which only tell about it, and
   * without what follows its end.
   */
  static Encoded bare(byte[] file) throws Unusable {
    ByteArrayOutputStream kept = new ByteArrayOutputStream(file.length);
    Turn turn = Turn.NONE;
    boolean coloursTold = false;
    int scans = 0;
    int at = 2;
    for (int mark = mark(file, at); mark != END; mark = mark(file, at)) {
      at = pastFill(file, at);
      int end = segmentEnd(file, at);
      if (mark == EXIF && startsAsExif(file, at + 4, end)) {
        turn = Turn.of(file, at + 4 + EXIF_HEAD.length, end);
      }
      // One of them says how colours are written; without it they come out wrong.
      coloursTold |= mark == COLOURS;
      boolean tellsAbout = mark >= FIRST_APPLICATION && mark <= LAST_APPLICATION || mark == COMMENT;
      int next = mark == SCAN ? scanEnd(file, end) : end;
      if (!tellsAbout || mark == COLOURS) {
        kept.write(file, at, next - at);
      }
      if (mark == SCAN && ++scans > MOST_SCANS) {
        throw new Unusable(Why.DAMAGED);
      }
      at = next;
    }
    ByteArrayOutputStream whole = new ByteArrayOutputStream(kept.size() + 2 * JFIF.length);
    whole.write(file, 0, 2);
    if (!coloursTold) {
      whole.writeBytes(JFIF);
    }
    whole.writeBytes(kept.toByteArray());
    whole.write(MARK);
    whole.write(END);
    return new Encoded("jpeg", whole.toByteArray(), turn);
  }

  /** A mark may have any number of its first byte before it. */
  private static int pastFill(byte[] file, int from) {
    int at = from;
    while (at + 1 < file.length && at(file, at) == MARK && at(file, at + 1) == MARK) {
      at++;
    }
    return at;
  }

  private static int mark(byte[] file, int from) throws Unusable {
    int at = pastFill(file, from);
    if (at + 1 >= file.length || at(file, at) != MARK) {
      throw new Unusable(Why.DAMAGED);
    }
    return at(file, at + 1);
  }

  private static int segmentEnd(byte[] file, int at) throws Unusable {
    if (at + 4 > file.length) {
      throw new Unusable(Why.DAMAGED);
    }
    int end = at + 2 + (at(file, at + 2) << 8) + at(file, at + 3);
    if (end > file.length || end < at + 4) {
      throw new Unusable(Why.DAMAGED);
    }
    return end;
  }

  /** Where the pixels of a scan end: at the next mark that is neither stuffing nor a restart. */
  private static int scanEnd(byte[] file, int from) {
    int at = from;
    while (at + 1 < file.length
        && (at(file, at) != MARK
            || at(file, at + 1) == 0
            || at(file, at + 1) >= FIRST_RESTART && at(file, at + 1) <= LAST_RESTART)) {
      at++;
    }
    return at;
  }

  private static boolean startsAsExif(byte[] file, int from, int to) {
    return to - from >= EXIF_HEAD.length
        && Arrays.equals(file, from, from + EXIF_HEAD.length, EXIF_HEAD, 0, EXIF_HEAD.length);
  }

  private static int at(byte[] file, int at) {
    return file[at] & 0xff;
  }
}
