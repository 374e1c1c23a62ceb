package firmlever.rulebase;

import firmlever.casefile.CaseFile;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.CaseBrake.ThrowQuestion;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What the throws of the last few brakes came to. A case is asked about many times over, with one
 * finding more or an entry less, and its throws are the same each time.
 */
final class ThrowsRead {
  private static final int KEPT = 16;

  private final Map<ThrowQuestion, ThrowEstimate> last =
      new LinkedHashMap<>(2 * KEPT, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<ThrowQuestion, ThrowEstimate> eldest) {
          return size() > KEPT;
        }
      };

  Optional<ThrowEstimate> of(CaseFile file) {
    Optional<ThrowQuestion> question = CaseBrake.throwQuestion(file);
    Optional<ThrowEstimate> known = question.flatMap(this::known);
    if (question.isEmpty() || known.isPresent()) {
      return known;
    }
    ThrowEstimate estimate = question.get().answer();
    synchronized (last) {
      last.put(question.get(), estimate);
    }
    return Optional.of(estimate);
  }

  private Optional<ThrowEstimate> known(ThrowQuestion question) {
    synchronized (last) {
      return Optional.ofNullable(last.get(question));
    }
  }
}
