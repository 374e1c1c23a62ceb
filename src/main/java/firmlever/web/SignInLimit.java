package firmlever.web;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;

/** Makes whoever signs in wrongly wait, longer each time, by the address they come from. */
public final class SignInLimit {
  /** Slips of the finger that cost nothing. */
  private static final int FREE = 3;

  private static final int LONGEST_SECONDS = 300;
  private static final int MOST_ADDRESSES = 10_000;

  private final InstantSource clock;
  private final Map<String, Wrong> wrong = new LinkedHashMap<>(16, 0.75f, true);

  private record Wrong(int times, Instant last) {}

  public SignInLimit(InstantSource clock) {
    this.clock = clock;
  }

  /** How many seconds that address has to wait; 0 for none. */
  public synchronized long waits(String address) {
    Wrong before = wrong.get(address);
    if (before == null || before.times() <= FREE) {
      return 0;
    }
    long penalty = Math.min(LONGEST_SECONDS, 1L << Math.min(before.times() - FREE, 9));
    long since = Duration.between(before.last(), clock.instant()).toSeconds();
    // A clock set back must lock nobody out for longer than the penalty.
    return Math.max(0, penalty - Math.max(0, since));
  }

  /** Takes down that it was wrong. */
  public synchronized void wasWrong(String address) {
    int times = wrong.containsKey(address) ? wrong.get(address).times() + 1 : 1;
    wrong.put(address, new Wrong(times, clock.instant()));
    if (wrong.size() > MOST_ADDRESSES) {
      wrong.remove(wrong.keySet().iterator().next());
    }
  }

  /** Takes down that it was right. */
  public synchronized void wasRight(String address) {
    wrong.remove(address);
  }
}
