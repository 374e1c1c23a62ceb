package firmlever.cli.shell;

import java.time.InstantSource;
import java.time.ZoneId;

/** The clock on the wall: the one place where this program looks at it. */
public final class WallClock {
  private WallClock() {}

  public static InstantSource source() {
    return InstantSource.system();
  }

  /** The zone whose day it is here. */
  public static ZoneId zone() {
    return ZoneId.systemDefault();
  }
}
