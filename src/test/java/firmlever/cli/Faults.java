package firmlever.cli;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;

/** What is asked of {@link FailingFiles} below one folder, counted, and the one that fails. */
final class Faults {
  private Faults() {}

  /** What a program asks of files. */
  enum Deed {
    OPEN,
    READ,
    WRITE,
    SYNC,
    CLOSE,
    MOVE,
    DELETE,
    FOLDER,
    LOOK
  }

  /** How it fails. */
  enum Kind {
    /** This once, as a broken disk does; a write leaves half of its bytes. */
    ONCE,
    /** From here on, as a full disk or one that was pulled out does. */
    ONWARD,
    /** A write takes half of its bytes and says so, which is no failure; no move is in one step. */
    SHORT;

    /** Whether {@link #SHORT} is another failure than {@link #ONCE} there. */
    static boolean differs(Deed deed) {
      return deed == Deed.WRITE || deed == Deed.MOVE;
    }
  }

  private static volatile Path watched;
  private static volatile Kind kind = Kind.ONCE;
  private static volatile int at;
  private static volatile Deed failed;
  private static final AtomicInteger COUNTED = new AtomicInteger();

  /**
   * From now on counts, and fails.
   *
   * @param nth which fails, from 1; 0 for none
   */
  static void arm(Path folder, int nth, Kind how) {
    watched = FailingFiles.real(folder);
    kind = how;
    at = nth;
    failed = null;
    COUNTED.set(0);
  }

  /** Ends it; returns how many were counted. */
  static int disarm() {
    watched = null;
    return COUNTED.get();
  }

  /** What failed first; null where nothing did. */
  static Deed failed() {
    return failed;
  }

  private static boolean fails(Deed deed, Path path) {
    Path folder = watched;
    if (folder == null || !path.toAbsolutePath().startsWith(folder)) {
      return false;
    }
    int number = COUNTED.incrementAndGet();
    boolean fails = number == at || kind == Kind.ONWARD && at > 0 && number > at;
    if (fails && failed == null) {
      failed = deed;
    }
    return fails;
  }

  static void before(Deed deed, Path path) throws IOException {
    if (!fails(deed, path)) {
      return;
    }
    if (deed == Deed.MOVE && kind == Kind.SHORT) {
      throw new AtomicMoveNotSupportedException(path.toString(), path.toString(), "not here");
    }
    if (kind == Kind.ONWARD) {
      throw new FileSystemException(path.toString(), null, "No space left on device");
    }
    throw new FileSystemException(path.toString(), null, "Input/output error");
  }

  static boolean mayWriteAll(Path path) {
    return !fails(Deed.WRITE, path);
  }

  static void afterHalf() throws IOException {
    if (kind != Kind.SHORT) {
      throw new IOException(kind == Kind.ONWARD ? "No space left on device" : "Input/output error");
    }
  }
}
