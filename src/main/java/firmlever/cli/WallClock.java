package firmlever.cli;

import java.time.InstantSource;
import java.time.ZoneId;

/** The clock on the wall: the one place where this program looks at it. */
final class WallClock {
  private WallClock() {}

  static InstantSource source() {
    return InstantSource.system();
  }

  /** The zone whose day it is here. */
  static ZoneId zone() {
    return ZoneId.systemDefault();
  }
}
