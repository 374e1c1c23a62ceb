package firmlever.cli.shell;

import firmlever.document.WholeFile;
import firmlever.records.RunBroken;
import java.io.IOException;
import java.io.OutputStream;

/**
 * Standard output, where a byte that cannot be written ends the run: the writers of Java would let
 * it go in silence.
 */
public final class Results extends OutputStream {
  private final OutputStream stream;

  /** Told once; what buffers still hold after that is lost with the rest. */
  private boolean lost;

  public Results(OutputStream stream) {
    this.stream = stream;
  }

  /** Standard output could not be written, so that the rest of the run is for nobody. */
  public static final class Lost extends RunBroken {
    private static final long serialVersionUID = 1L;

    private final boolean readerWent;

    private Lost(IOException e) {
      super(
          "standard output cannot be written: " + WholeFile.reason(e) + "; the results are lost",
          e);
      String message = String.valueOf(e.getMessage());
      this.readerWent = message.contains("Broken pipe") || message.contains("pipe is being closed");
    }

    /** Whether the other side of a pipe went away, as {@code head} does when it has enough. */
    boolean readerWent() {
      return readerWent;
    }
  }

  @Override
  public void write(int each) {
    write(new byte[] {(byte) each}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int from, int count) {
    if (lost) {
      return;
    }
    try {
      stream.write(bytes, from, count);
    } catch (IOException e) {
      lost = true;
      throw new Lost(e);
    }
  }

  @Override
  public void flush() {
    if (lost) {
      return;
    }
    try {
      stream.flush();
    } catch (IOException e) {
      lost = true;
      throw new Lost(e);
    }
  }
}
