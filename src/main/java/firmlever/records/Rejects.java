package firmlever.records;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Records that could not be used, and what else must be told of records. May be filled by any
 * number of threads.
 */
public final class Rejects {
  /** More are counted and not listed: nobody reads on, and memory must not grow with them. */
  private static final int LISTED = 100_000;

  /** So many reasons are told of one record, for the same cause. */
  private static final int REASONS = 10;

  private final TreeSet<Reject> listed =
      new TreeSet<>(
          Comparator.comparing(Reject::file)
              .thenComparingLong(Reject::line)
              .thenComparing(Reject::kind)
              .thenComparing(Reject::reason));

  private final EnumMap<Kind, Long> counts = new EnumMap<>(Kind.class);

  /** What became of a record. */
  public enum Kind {
    /** It could not be used. */
    REJECTED,
    /** It was left out as asked. */
    SKIPPED,
    /** It was reviewed, and something about it was not taken as it stands. */
    REVIEWED_WITH_REMARK,
    /** A whole file that was not read. */
    FILE_NOT_READ;

    public String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * One record.
   *
   * @param line from 1; of a file that could not be read on, the line where it broke off
   * @param places in the record that the reason speaks of; empty where it quotes nothing of it
   */
  public record Reject(String file, long line, Kind kind, String reason, String places) {
    /** The same without a word of the record: only what is wrong in which place. */
    Reject withoutQuotes() {
      return places.isEmpty()
          ? this
          : new Reject(
              file, line, kind, "is no good case: " + places + "; its shop's list tells why", "");
    }
  }

  public void add(String file, long line, String reason) {
    add(file, line, Kind.REJECTED, reason);
  }

  public void add(String file, long line, Kind kind, String reason) {
    add(new Reject(file, line, kind, reason, ""));
  }

  private synchronized void add(Reject reject) {
    counts.merge(reject.kind, 1L, Long::sum);
    list(reject);
  }

  private void list(Reject reject) {
    listed.add(reject);
    if (listed.size() > LISTED) {
      listed.pollLast();
    }
  }

  /** Takes in these counts, and what was listed for them. */
  public synchronized void merge(Map<Kind, Long> more, List<Reject> rejects) {
    more.forEach((kind, n) -> counts.merge(kind, n, Long::sum));
    rejects.forEach(this::list);
  }

  public synchronized Map<Kind, Long> counts() {
    return new EnumMap<>(counts);
  }

  public void add(String file, long line, BadInput bad) {
    add(
        new Reject(
            file,
            line,
            Kind.REJECTED,
            bad.problems().stream()
                    .limit(REASONS)
                    .map(p -> p.pointer().isEmpty() ? p.message() : p.pointer() + ": " + told(p))
                    .collect(Collectors.joining("; "))
                + (bad.problems().size() > REASONS
                    ? "; and " + (bad.problems().size() - REASONS) + " more"
                    : ""),
            bad.problems().stream()
                .limit(REASONS)
                .map(p -> p.pointer().isEmpty() ? "the whole" : p.pointer())
                .collect(Collectors.joining(", "))));
  }

  private static String told(Problem problem) {
    return problem.message() + problem.maybe().map(maybe -> ". " + maybe).orElse("");
  }

  /** Records that could not be used. */
  public long count() {
    return count(Kind.REJECTED);
  }

  public synchronized long count(Kind kind) {
    return counts.getOrDefault(kind, 0L);
  }

  public synchronized List<Reject> listed() {
    return List.copyOf(listed);
  }
}
