package firmlever.comeback.visits;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.Fluid;
import firmlever.diagnosis.Diagnostician;
import firmlever.rulebase.BrakeModel.Factor;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/**
 * Whether a work can have brought in a fault, as the rules say: a work done so many days before,
 * taken by itself, makes the cause at least twice as likely. What the rules answer is kept, for the
 * same question comes again and again and depends on nothing else.
 */
public final class BroughtIn {
  /** By so much a work must raise the odds of a cause to have brought it in. */
  static final double CLEARLY = 2;

  private final Diagnostician diagnostician;
  private final Map<Question, Map<String, Double>> answers = new ConcurrentHashMap<>();
  private final Map<Fluid, Set<String>> anyway = new ConcurrentHashMap<>();

  public BroughtIn(Diagnostician diagnostician) {
    this.diagnostician = diagnostician;
  }

  private record Question(String work, int daysAgo, Fluid fluid) {}

  /** Whether any work of the first visit can have brought in any cause of the second. */
  public boolean by(Visit first, Visit second) {
    return second.causes().stream().anyMatch(cause -> times(first, second, cause) > 1);
  }

  /** How many times the odds of the cause the works of the first visit clearly make; else 1. */
  double times(Visit first, Visit second, String cause) {
    int days = (int) first.daysUntil(second);
    Fluid fluid = first.file().brake().fluid();
    double times = 1;
    for (String work : first.works()) {
      times *= answer(new Question(work, days, fluid), second.file()).getOrDefault(cause, 1.0);
    }
    return times;
  }

  private Map<String, Double> answer(Question question, CaseFile like) {
    Map<String, Double> known = answers.get(question);
    if (known == null) {
      Set<String> without =
          anyway.computeIfAbsent(
              question.fluid,
              fluid ->
                  factors(like, question, List.of()).stream()
                      .map(f -> f.said().rule())
                      .collect(Collectors.toSet()));
      Map<String, Double> raised = new HashMap<>();
      for (Factor factor : factors(like, question, List.of(entry(question)))) {
        if (!without.contains(factor.said().rule())) {
          raised.merge(factor.cause(), factor.times(), (a, b) -> a * b);
        }
      }
      raised.values().removeIf(times -> times < CLEARLY);
      known = Map.copyOf(raised);
      answers.put(question, known);
    }
    return known;
  }

  private List<Factor> factors(CaseFile like, Question question, List<Entry> history) {
    CaseFile.Brake bare =
        new CaseFile.Brake(
            like.brake().id(),
            "unknown",
            question.fluid,
            Optional.empty(),
            "unknown",
            Double.NaN,
            Double.NaN,
            Double.NaN,
            "unknown",
            Double.NaN,
            Double.NaN,
            0,
            List.of(),
            Double.NaN,
            Map.of(),
            "");
    CaseFile file =
        new CaseFile(
            like.id(),
            like.opened(),
            bare,
            CaseFile.Use.UNKNOWN,
            "a work and nothing else",
            Set.of(),
            Map.of(),
            Set.of(),
            Set.of(),
            CaseFile.Readings.NONE,
            history,
            Optional.empty(),
            "",
            "",
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
    return diagnostician.belief(file).model().factors();
  }

  private static Entry entry(Question question) {
    return new Entry(
        OptionalInt.of(question.daysAgo),
        question.work,
        "",
        question.fluid,
        "",
        Double.NaN,
        List.of(),
        "",
        "unknown",
        Set.of(),
        "");
  }
}
