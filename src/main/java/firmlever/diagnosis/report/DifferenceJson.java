package firmlever.diagnosis.report;

import static firmlever.sheet.JsonForm.each;
import static firmlever.sheet.JsonForm.id;
import static firmlever.sheet.JsonForm.map;
import static firmlever.sheet.JsonForm.rounded;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Change;
import firmlever.diagnosis.Gist.Next;
import firmlever.diagnosis.Gist.Reason;
import firmlever.document.JsonText;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** In what two diagnoses of a brake differ, for programs, format {@code firmlever-difference/1}. */
public final class DifferenceJson {
  private DifferenceJson() {}

  public static final String FORMAT = "firmlever-difference/1";

  /**
   * The difference as an object.
   *
   * @param before of the case as it was
   * @param now of the case as it is
   */
  public static String of(Diagnosis before, Diagnosis now) {
    Difference d = Difference.of(before, now);
    return JsonText.of(
        map(
            "case",
            now.caseId(),
            "format",
            FORMAT,
            "against",
            before.caseId(),
            "rulebase",
            now.rulebase(),
            "gravest",
            id(d.grade()),
            "ride",
            map(
                "before",
                d.ride().before().id(),
                "now",
                d.ride().now().id(),
                "because",
                change(
                    each(d.because().added(), DifferenceJson::reason),
                    each(d.because().gone(), DifferenceJson::reason)),
                "not-looked",
                change(d.notLooked())),
            "next",
            map("before", next(d.next().before()), "now", next(d.next().now())),
            "first",
            map("before", d.first().before().id(), "now", d.first().now().id()),
            "causes",
            each(
                d.causes(),
                each ->
                    map(
                        "id",
                        each.id(),
                        "before",
                        rounded(each.before()),
                        "now",
                        rounded(each.now()),
                        "way",
                        id(each.way()))),
            "findings",
            each(
                d.findings(),
                each ->
                    map(
                        "symptom",
                        each.symptom(),
                        "before",
                        presence(each.before()),
                        "now",
                        presence(each.now()))),
            "cautions",
            change(d.cautions())));
  }

  private static Map<String, Object> reason(Reason reason) {
    return map(reason.isCause() ? "cause" : "symptom", reason.id());
  }

  private static Map<String, Object> change(Change<String> change) {
    return change(change.added(), change.gone());
  }

  private static Map<String, Object> change(List<?> added, List<?> gone) {
    return map("added", added, "gone", gone);
  }

  private static String next(Optional<Next> step) {
    return step.map(Next::id).orElse("");
  }

  private static String presence(Optional<Boolean> there) {
    return there.map(each -> each ? "present" : "absent").orElse("not-known");
  }
}
