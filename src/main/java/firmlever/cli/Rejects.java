package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Records that could not be used. May be filled by any number of threads. */
final class Rejects {
  /** More are counted and not listed: nobody reads on, and memory must not grow with them. */
  private static final int LISTED = 100_000;

  /** So many reasons are told of one record, for the same cause. */
  private static final int REASONS = 10;

  private final TreeSet<Reject> listed =
      new TreeSet<>(
          Comparator.comparing(Reject::file)
              .thenComparingLong(Reject::line)
              .thenComparing(Reject::reason));

  private long count;

  /**
   * One record.
   *
   * @param line from 1; of a file that could not be read on, the line where it broke off
   */
  record Reject(String file, long line, String reason) {}

  synchronized void add(String file, long line, String reason) {
    count++;
    listed.add(new Reject(file, line, reason));
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

  synchronized long count() {
    return count;
  }

  synchronized List<Reject> listed() {
    return List.copyOf(listed);
  }
}
