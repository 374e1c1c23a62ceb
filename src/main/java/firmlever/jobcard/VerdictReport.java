package firmlever.jobcard;

import firmlever.belief.Chance;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.document.JsonText;
import firmlever.jobcard.Verdict.Checked;
import firmlever.jobcard.Verdict.Result;
import firmlever.jobcard.Verdict.Shift;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** Whether a brake goes back, for the terminal and for programs. */
public final class VerdictReport {
  public static final String FORMAT = "firmlever-verdict/1";

  private final Vocabulary vocabulary;

  public VerdictReport(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /** The verdict as text. */
  public String text(Verdict verdict, int width, boolean bold) {
    Page page = new Page(width, bold);
    page.heading(
        verdict.caseId()
            + ": "
            + verdict.brake()
            + ": "
            + (verdict.handBack() ? "hand back" : "hold"));
    page.hanging(
        "  ",
        verdict.works().isEmpty()
            ? "No work of this visit is on record."
            : "After: "
                + verdict.works().stream().map(vocabulary::name).collect(Collectors.joining(", ")));
    for (Checked check : verdict.checks()) {
      page.hanging(
          switch (check.result()) {
            case PASSED -> "  passed    ";
            case FAILED -> "  FAILED    ";
            case NOT_MADE -> "  not made  ";
          },
          check.name()
              + ": "
              + (check.result() == Result.NOT_MADE
                  ? check.how() + " (" + check.why() + ")"
                  : check.why()));
    }
    verdict.holds().forEach(hold -> page.hanging("  HELD      ", hold));
    if (!verdict.works().isEmpty() && !verdict.with(Result.FAILED).isEmpty()) {
      page.hanging(
          "  ",
          "What stands in the case counts as found after the work: what was not looked at again"
              + " since, look at now and write down what is there.");
    }
    if (!verdict.failed().isEmpty()) {
      page.heading(
          "What the failure says: "
              + verdict.failed().stream().map(vocabulary::name).collect(Collectors.joining(", "))
              + " did not help");
      for (Shift shift : verdict.shifts()) {
        page.hanging(
            "  ",
            vocabulary.cause(shift.cause()).name()
                + String.format(Locale.ROOT, ": was %.2f, is ", shift.before())
                + Chance.withNumber(shift.now()));
      }
    }
    if (!verdict.next().isEmpty()) {
      page.heading("What to do next");
      for (Step step : verdict.next()) {
        page.hanging(
            "  ",
            (step.kind() == StepKind.CHECK ? "check: " : "do: ")
                + vocabulary.name(step.id())
                + String.format(Locale.ROOT, " (%.0f min): ", step.minutes())
                + step.why());
      }
    }
    page.heading(
        String.format(
            Locale.ROOT,
            "%d passed, %d failed, %d not made: %s",
            verdict.with(Result.PASSED).size(),
            verdict.with(Result.FAILED).size(),
            verdict.with(Result.NOT_MADE).size(),
            verdict.handBack()
                ? "the brake may go back. Where you are not sure, ask a trained mechanic or the maker."
                : (!verdict.with(Result.FAILED).isEmpty()
                        ? "the brake stays. "
                        : verdict.with(Result.NOT_MADE).isEmpty()
                            ? "the brake stays for what holds it. "
                            : "the brake stays until all are made and passed. ")
                    + vocabulary.caution("acceptance-first").text()));
    return page.toString();
  }

  /** The verdict for programs, format {@code firmlever-verdict/1}. */
  public String json(Verdict verdict) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("case", verdict.caseId());
    json.put("format", FORMAT);
    json.put("hand-back", verdict.handBack());
    json.put("works", verdict.works());
    json.put(
        "checks",
        verdict.checks().stream()
            .map(
                c -> {
                  Map<String, Object> each = new LinkedHashMap<>();
                  each.put("id", c.id());
                  each.put("result", c.result().name().toLowerCase(Locale.ROOT).replace('_', '-'));
                  each.put("why", c.why());
                  return each;
                })
            .toList());
    json.put("holds", verdict.holds());
    json.put("failed-works", verdict.failed());
    json.put(
        "causes",
        verdict.shifts().stream()
            .map(
                s -> {
                  Map<String, Object> each = new LinkedHashMap<>();
                  each.put("id", s.cause());
                  each.put("before", rounded(s.before()));
                  each.put("now", rounded(s.now()));
                  return each;
                })
            .toList());
    json.put("next", verdict.next().stream().map(Step::id).toList());
    return JsonText.of(json);
  }

  private static double rounded(double value) {
    return BigDecimal.valueOf(value).setScale(6, RoundingMode.HALF_EVEN).doubleValue();
  }
}
