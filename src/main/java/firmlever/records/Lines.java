package firmlever.records;

import firmlever.document.Limit;
import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.zip.GZIPInputStream;

/** Reads a file line by line, or a piece of it: pieces that lie end to end give each line once. */
public final class Lines implements Closeable {
  static final String TOO_LONG = "is longer than a million bytes; no case is";

  /** What is done with a line. */
  public interface Sink {
    /**
     * One line that is not blank.
     *
     * @param line from 1, in the piece
     */
    void text(byte[] text, long line);

    /** A line that cannot be taken, or where the file could not be read on. */
    void bad(String reason, long line);
  }

  private final Sink sink;
  private final long to;
  private final InputStream in;
  private final byte[] chunk = new byte[1 << 16];
  private final ByteArrayOutputStream text = new ByteArrayOutputStream(2048);
  private long at;
  private boolean inside;
  private boolean ended;
  private long line;

  /** All lines of the file; unpacked where its name ends in {@code .gz}. */
  public static void read(Path path, Sink sink) {
    read(path, 0, Long.MAX_VALUE, sink);
  }

  /**
   * The lines that begin in a piece of the file; of a packed file the piece is the whole.
   *
   * @param from first byte of the piece
   * @param to the byte after its last
   * @return how many lines begin there, blank ones included
   */
  public static long read(Path path, long from, long to, Sink sink) {
    try (Lines lines = new Lines(path, from, to, sink)) {
      while (lines.more()) {
        // Each call hands over what it read.
      }
      return lines.line;
    }
  }

  /** The same, to be read a little at a time. */
  public Lines(Path path, long from, long to, Sink sink) {
    this.sink = sink;
    this.to = to;
    // One byte before: where it ends a line, the piece begins with a whole one.
    this.at = Math.max(0, from - 1);
    this.inside = from == 0;
    InputStream opened = InputStream.nullInputStream();
    try {
      opened = open(path);
      opened.skipNBytes(at);
    } catch (IOException e) {
      broken(e);
    }
    this.in = opened;
  }

  /** Reads on a little; returns whether there may be more. */
  public boolean more() {
    try {
      int filled = ended ? -1 : in.read(chunk);
      if (filled >= 0) {
        take(filled);
      } else if (!ended) {
        ended = true;
        if (inside) {
          take();
        }
      }
    } catch (IOException e) {
      broken(e);
    }
    return !ended;
  }

  private void take(int filled) {
    int start = 0;
    for (int i = 0; i < filled; i++) {
      if (chunk[i] != '\n') {
        continue;
      }
      if (inside) {
        keep(start, i);
        take();
      }
      inside = true;
      start = i + 1;
      if (at + start >= to) {
        ended = true;
        return;
      }
    }
    if (inside) {
      keep(start, filled);
    }
    at += filled;
  }

  /** A packed file that was cut off, or a disk that fails: what came before is good. */
  private void broken(IOException e) {
    ended = true;
    sink.bad("cannot be read on: " + e.getMessage(), line + 1);
  }

  /** Keeps no more of a line than shows that it is too long. */
  private void keep(int from, int end) {
    text.write(chunk, from, Math.min(end - from, Limit.RECORD_BYTES.most() + 1 - text.size()));
  }

  private void take() {
    line++;
    if (text.size() > Limit.RECORD_BYTES.most()) {
      sink.bad(TOO_LONG, line);
    } else if (text.size() > 0) {
      byte[] bytes = text.toByteArray();
      if (!blank(bytes)) {
        sink.text(bytes, line);
      }
    }
    text.reset();
  }

  private static boolean blank(byte[] bytes) {
    for (byte each : bytes) {
      if (each > ' ' || each < 0) {
        return false;
      }
    }
    return true;
  }

  @Override
  public void close() {
    try {
      in.close();
    } catch (IOException e) {
      // All that was wanted has been read.
    }
  }

  private static InputStream open(Path path) throws IOException {
    InputStream in = Files.newInputStream(path);
    return path.toString().toLowerCase(Locale.ROOT).endsWith(".gz")
        ? new BufferedInputStream(
            new GZIPInputStream(new BufferedInputStream(in, 1 << 16)), 1 << 16)
        : in;
  }
}
