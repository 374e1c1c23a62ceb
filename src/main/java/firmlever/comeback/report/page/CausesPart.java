package firmlever.comeback.report.page;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.MatrixCell;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Reason;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;

/** What was found when the brake was back, and how it goes with what had been treated. */
final class CausesPart {
  private static final int MATRIX = 9;

  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;

  CausesPart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void causes() {
    page.section(
        "causes",
        "True causes and reasons",
        "What was found when the brake was back, of all comebacks within "
            + found.definition().longDays()
            + " days.");
    if (found.causes().stream().anyMatch(cause -> !cause.id().equals(Comeback.NONE))) {
      page.chart(
          "True causes of the comebacks, commonest first.", ReviewCharts.pareto(found, words));
    }
    page.table("True causes", "cause", "comebacks", "of 100", "together, of 100");
    long all = Math.max(1, found.all().count());
    long sum = 0;
    for (Named cause : found.causes()) {
      sum += cause.cases().count();
      page.row(
          words.cause(cause.id()),
          page.link(
              ReviewAnswers.number(cause.cases().count()),
              "Came back with " + words.cause(cause.id()),
              cause.cases()),
          Numbers.tenth(100.0 * cause.cases().count() / all),
          Numbers.tenth(100.0 * sum / all));
    }
    page.endTable();
    page.table("Reasons", "reason", "comebacks", "of 100", "told by");
    for (Reason reason : Reason.OF_COMEBACKS) {
      Cases cases = requireNonNull(found.reasons().get(reason));
      page.row(
          reason.words(),
          page.link(ReviewAnswers.number(cases.count()), "Reason: " + reason.words(), cases),
          Numbers.tenth(100.0 * cases.count() / all),
          PageWriter.escaped(reason.test()));
    }
    page.endTable();
    page.endSection();
  }

  void matrix() {
    List<String> treated = largest(MatrixCell::treated);
    List<String> truth = largest(MatrixCell::found);
    if (treated.isEmpty() || truth.isEmpty()) {
      return;
    }
    page.section(
        "matrix",
        "Treated and found",
        "Rows: what was treated at the first visit. Columns: what was found at the second. On the"
            + " falling line the same cause was found again; everything beside it was something"
            + " else. The commonest are shown.");
    page.chart(
        "Treated against found: the darker, the more comebacks.",
        ReviewCharts.matrix(treated, truth, found.matrix(), words));
    List<String> heads = new ArrayList<>(List.of("treated \\ found"));
    truth.forEach(f -> heads.add(words.cause(f)));
    page.table("Treated against found", heads.toArray(String[]::new));
    for (String t : treated) {
      page.row(words.cause(t), truth.stream().map(f -> cell(t, f)).toArray(String[]::new));
    }
    page.endTable();
    page.endSection();
  }

  private String cell(String treated, String truth) {
    return found.matrix().stream()
        .filter(c -> c.treated().equals(treated) && c.found().equals(truth))
        .findFirst()
        .map(
            c ->
                page.link(
                    ReviewAnswers.number(c.cases().count()),
                    "Treated " + words.cause(treated) + ", found " + words.cause(truth),
                    c.cases()))
        .orElse(Numbers.NONE);
  }

  private List<String> largest(Function<MatrixCell, String> side) {
    Map<String, Long> sums =
        found.matrix().stream()
            .filter(c -> !side.apply(c).equals(Comeback.NONE))
            .collect(Collectors.groupingBy(side, Collectors.summingLong(c -> c.cases().count())));
    ToLongFunction<String> sum = sums::get;
    return sums.keySet().stream()
        .sorted(Comparator.comparingLong(sum).reversed().thenComparing(Comparator.naturalOrder()))
        .limit(MATRIX)
        .toList();
  }
}
