package firmlever.records;

import firmlever.document.WholeFile;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.UUID;

/**
 * Sorts records into parts by brake without holding them all: what a part's buffer cannot hold goes
 * to one temporary file, and is read back part by part. One thread writes; then any number read.
 */
public final class Spill implements Closeable {
  public static final int PARTS = 256;
  private static final int BUFFER = 48 * 1024;

  private final Path path;
  private final FileChannel file;
  private final List<ByteArrayOutputStream> buffers = new ArrayList<>();
  private final List<List<long[]>> chunks = new ArrayList<>();
  private long written;

  /** The temporary file cannot be made, written or read. */
  static final class Broken extends RunBroken {
    private static final long serialVersionUID = 1L;

    private Broken(Path path, IOException e) {
      super(
          path
              + ": this temporary file, where records are sorted, cannot be used: "
              + WholeFile.reason(e)
              + "\n    Maybe set TMPDIR to a folder with more room.",
          e);
    }
  }

  /** A spill in the folder for temporary files. */
  public static Spill create() {
    Path path =
        Path.of(
            System.getProperty("java.io.tmpdir"),
            "firmlever-review" + UUID.randomUUID() + ".spill");
    try {
      // Made and opened in one step, so that it goes away whatever happens.
      return new Spill(
          path,
          FileChannel.open(
              path,
              Set.of(
                  StandardOpenOption.CREATE_NEW,
                  StandardOpenOption.READ,
                  StandardOpenOption.WRITE,
                  StandardOpenOption.DELETE_ON_CLOSE),
              path.getFileSystem().supportedFileAttributeViews().contains("posix")
                  ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(
                        PosixFilePermissions.fromString("rw-------"))
                  }
                  : new FileAttribute<?>[0]));
    } catch (IOException e) {
      throw new Broken(path, e);
    }
  }

  Spill(Path path, FileChannel file) {
    this.path = path;
    this.file = file;
    for (int i = 0; i < PARTS; i++) {
      buffers.add(new ByteArrayOutputStream());
      chunks.add(new ArrayList<>());
    }
  }

  /**
   * A record as it was read.
   *
   * @param file position of its file among the inputs
   * @param line from 1
   * @param brake id of its brake; empty where it names none
   */
  public record Raw(int file, long line, String brake, byte[] text) {}

  /**
   * Where a brake stands among all: by a number that looks drawn by chance, then by its code. Eight
   * hexadecimal digits and the code.
   */
  public static String place(String brake) {
    return HexFormat.of().toHexDigits(mixed(brake)) + brake;
  }

  /** The part of a brake; parts are in the order of {@link #place}. */
  static int partOf(String brake) {
    return mixed(brake) >>> 24;
  }

  private static int mixed(String brake) {
    return brake.hashCode() * 0x9e3779b9;
  }

  void add(int part, Raw raw) {
    try {
      append(part, raw);
    } catch (IOException e) {
      throw new Broken(path, e);
    }
  }

  private void append(int part, Raw raw) throws IOException {
    ByteArrayOutputStream buffer = buffers.get(part);
    DataOutputStream out = new DataOutputStream(buffer);
    out.writeInt(raw.file);
    out.writeLong(raw.line);
    out.writeUTF(raw.brake);
    out.writeInt(raw.text.length);
    out.write(raw.text);
    if (buffer.size() > BUFFER) {
      ByteBuffer bytes = ByteBuffer.wrap(buffer.toByteArray());
      chunks.get(part).add(new long[] {written, bytes.remaining()});
      while (bytes.hasRemaining()) {
        written += file.write(bytes, written);
      }
      buffer.reset();
    }
  }

  /** All records of a part, in the order in which they were added. */
  public List<Raw> part(int part) {
    try {
      return read(part);
    } catch (IOException e) {
      throw new Broken(path, e);
    }
  }

  private List<Raw> read(int part) throws IOException {
    List<Raw> records = new ArrayList<>();
    for (long[] chunk : chunks.get(part)) {
      ByteBuffer bytes = ByteBuffer.allocate((int) chunk[1]);
      while (bytes.hasRemaining()) {
        if (file.read(bytes, chunk[0] + bytes.position()) < 0) {
          throw new IOException("it has become shorter");
        }
      }
      parse(bytes.array(), records);
    }
    parse(buffers.get(part).toByteArray(), records);
    return records;
  }

  private static void parse(byte[] bytes, List<Raw> into) throws IOException {
    DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes));
    while (in.available() > 0) {
      int file = in.readInt();
      long line = in.readLong();
      String brake = in.readUTF();
      into.add(new Raw(file, line, brake, in.readNBytes(in.readInt())));
    }
  }

  @Override
  public void close() {
    try {
      file.close();
    } catch (IOException e) {
      // All that was wanted of it has been read.
    }
  }
}
