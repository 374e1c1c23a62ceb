package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Records that could not be used, and what else must be told of records. May be filled by any
 * number of threads.
 */
final class Rejects {
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
  enum Kind {
    /** It could not be used. */
    REJECTED,
    /** It was left out as asked. */
    SKIPPED,
    /** It was reviewed, and something about it was not taken as it stands. */
    REVIEWED_WITH_REMARK,
    /** A whole file that was not read. */
    FILE_NOT_READ;

    String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * One record.
   *
   * @param line from 1; of a file that could not be read on, the line where it broke off
   */
  record Reject(String file, long line, Kind kind, String reason) {}

  void add(String file, long line, String reason) {
    add(file, line, Kind.REJECTED, reason);
  }

  synchronized void add(String file, long line, Kind kind, String reason) {
    counts.merge(kind, 1L, Long::sum);
    listed.add(new Reject(file, line, kind, reason));
    if (listed.size() > LISTED) {
      listed.pollLast();
    }
  }

  void add(String file, long line, BadInput bad) {
    add(
        file,
        line,
        bad.problems().stream()
                .limit(REASONS)
                .map(p -> p.pointer().isEmpty() ? p.message() : p.pointer() + ": " + told(p))
                .collect(Collectors.joining("; "))
            + (bad.problems().size() > REASONS
                ? "; and " + (bad.problems().size() - REASONS) + " more"
                : ""));
  }

  private static String told(Problem problem) {
    return problem.message() + problem.maybe().map(maybe -> ". " + maybe).orElse("");
  }

  /** Records that could not be used. */
  long count() {
    return count(Kind.REJECTED);
  }

  synchronized long count(Kind kind) {
    return counts.getOrDefault(kind, 0L);
  }

  synchronized List<Reject> listed() {
    return List.copyOf(listed);
  }
}
