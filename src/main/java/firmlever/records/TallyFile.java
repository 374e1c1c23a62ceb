package firmlever.records;

import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.Packed;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;
import java.util.zip.InflaterInputStream;

/**
 * A tally in a file of its own: a line that names the form, the length of what follows and its
 * checksum (8 and 4 bytes), then what was counted under which conditions, packed by deflate.
 */
public final class TallyFile {
  private TallyFile() {}

  /** Goes up with every change of what is written; a test holds it to {@link #shape}. */
  public static final int FORM = 2;

  private static final String NAME = "firmlever-tally/";
  private static final int HEAD = (NAME + FORM + "\n").length();

  /** A tally unpacks to no more; the largest of the invented depot takes a hundredth. */
  private static final long LARGEST = 1L << 30;

  /**
   * Under which conditions was counted: only what was counted alike can be added up.
   *
   * @param rules digest of the rules
   * @param end the last day of the data
   * @param comebackMinutes minutes a comeback costs beside the work
   * @param codedOnly whether complaints were not listened to
   * @param persons whether it holds codes of persons
   */
  public record Conditions(
      String rules,
      int shortDays,
      int longDays,
      LocalDate end,
      int comebackMinutes,
      boolean codedOnly,
      boolean persons) {

    /** What differs, as the end of a sentence with the other's name; empty where nothing does. */
    public String differenceFrom(Conditions other) {
      List<String> said = new ArrayList<>();
      if (!rules.equals(other.rules)) {
        said.add("by other rules");
      }
      if (shortDays != other.shortDays || longDays != other.longDays) {
        said.add(
            "for "
                + shortDays
                + ","
                + longDays
                + " days, not "
                + other.shortDays
                + ","
                + other.longDays);
      }
      if (!end.equals(other.end)) {
        said.add("until " + end + ", not " + other.end);
      }
      if (comebackMinutes != other.comebackMinutes) {
        said.add("with " + comebackMinutes + " minutes a comeback, not " + other.comebackMinutes);
      }
      if (codedOnly != other.codedOnly) {
        said.add(codedOnly ? "without listening to complaints" : "listening to complaints");
      }
      if (persons != other.persons) {
        said.add(persons ? "with codes of technicians" : "without codes of technicians");
      }
      return String.join("; ", said);
    }
  }

  /**
   * A tally with its conditions.
   *
   * @param digest of all that the file holds
   */
  public record Content(Conditions conditions, Counted counted, String digest) {}

  public static String shape() {
    return Packed.shape(Conditions.class) + Counted.shape();
  }

  public static void write(OutputStream out, Conditions conditions, Counted counted)
      throws IOException {
    Packed.Writer packed = new Packed.Writer();
    packed.record(conditions);
    counted.write(packed, conditions.persons);
    byte[] bytes = packed.bytes();
    out.write((NAME + FORM + "\n").getBytes(StandardCharsets.US_ASCII));
    out.write(ByteBuffer.allocate(12).putLong(bytes.length).putInt(checksum(bytes)).array());
    DeflaterOutputStream deflated = new DeflaterOutputStream(out);
    deflated.write(bytes);
    deflated.finish();
  }

  private static int checksum(byte[] bytes) {
    CRC32 crc = new CRC32();
    crc.update(bytes);
    return (int) crc.getValue();
  }

  /**
   * Reads a tally.
   *
   * @throws BadInput where it is none, is of another form, or is damaged
   */
  public static Content read(Path path) throws BadInput {
    byte[] all;
    try {
      all = Files.readAllBytes(path);
    } catch (IOException e) {
      throw bad(path, "cannot be read: " + WholeFile.reason(e), "");
    }
    checkForm(path, all);
    ByteBuffer head = ByteBuffer.wrap(all, HEAD, all.length - HEAD);
    if (head.remaining() < 12) {
      throw bad(path, "is cut off at byte " + all.length, "Maybe it was not sent whole.");
    }
    long length = head.getLong();
    int checksum = head.getInt();
    if (length < 0 || length > LARGEST) {
      throw bad(path, "is damaged at byte " + HEAD + ": it cannot be so long", "");
    }
    byte[] bytes;
    try (InputStream in =
        new InflaterInputStream(
            new ByteArrayInputStream(all, head.position(), all.length - head.position()))) {
      bytes = in.readNBytes((int) length + 1);
    } catch (IOException e) {
      throw bad(
          path,
          "is cut off or damaged after byte " + head.position() + ": " + e.getMessage(),
          "Maybe it was not sent whole.");
    }
    if (bytes.length != length || checksum(bytes) != checksum) {
      throw bad(
          path,
          "is damaged after byte " + head.position() + ": its checksum does not hold",
          "Maybe let its shop send it again.");
    }
    try {
      Packed.Reader reader = new Packed.Reader(bytes);
      Content content =
          new Content(reader.record(Conditions.class), Counted.read(reader), Digest.sha256(bytes));
      reader.end();
      return content;
    } catch (Packed.Broken e) {
      throw bad(path, "is no tally this program wrote: unpacked, " + e.getMessage(), "");
    }
  }

  private static void checkForm(Path path, byte[] all) throws BadInput {
    int end = 0;
    while (end < Math.min(all.length, 40) && all[end] != '\n') {
      end++;
    }
    String line = new String(Arrays.copyOf(all, end), StandardCharsets.ISO_8859_1);
    if (!line.startsWith(NAME)) {
      throw bad(
          path,
          "is no tally: it does not begin with \"" + NAME + FORM + "\"",
          "Maybe it holds records: review them without --merge.");
    }
    if (end == all.length || !line.equals(NAME + FORM)) {
      throw bad(
          path,
          "is a tally of the form "
              + line.replaceAll("[^ -~]", "?")
              + ", and this program reads "
              + NAME
              + FORM,
          "Maybe use the same version of firmlever everywhere.");
    }
  }

  private static BadInput bad(Path path, String message, String maybe) {
    return new BadInput(List.of(Problem.ofFile(path.toString(), message, maybe)));
  }
}
