package firmlever.warranty;

import firmlever.diagnosis.Gist;
import firmlever.diagnosis.Gist.Reason;
import firmlever.diagnosis.RideVerdict;
import firmlever.document.Fields;
import firmlever.document.Shape;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What was believed of a brake when its claim was decided, as the history keeps it: what is to be
 * done was nobody's question then.
 */
final class KeptBelief {
  private KeptBelief() {}

  static final Shape SHAPE =
      Shape.object()
          .needs(
              "ride",
              Shape.oneOf(
                  "a verdict",
                  Arrays.stream(RideVerdict.Answer.values()).map(RideVerdict.Answer::id).toList()),
              "whether it could be ridden")
          .needs(
              "because",
              Shape.list(
                  0,
                  Shape.object()
                      .needs("id", Shape.code(), "a symptom or a cause")
                      .needs("cause", Shape.flag(), "whether it is a cause")),
              "the reasons of that verdict")
          .needs("not-looked", Shape.list(0, Shape.code()), "what had to be looked for first")
          .needs("first", Shape.code(), "the first cause")
          .needs(
              "chances",
              Shape.list(
                  0,
                  Shape.object()
                      .needs("cause", Shape.code(), "a cause")
                      .needs("chance", Shape.number(0, 1), "its probability")),
              "how likely the causes were")
          .needs(
              "findings",
              Shape.list(
                  0,
                  Shape.object()
                      .needs("symptom", Shape.code(), "a symptom")
                      .needs("present", Shape.flag(), "whether it was there")),
              "what was known");

  static Map<String, Object> json(Gist gist) {
    List<Object> because = new ArrayList<>();
    gist.because().forEach(each -> because.add(map("id", each.id(), "cause", each.isCause())));
    List<Object> chances = new ArrayList<>();
    gist.chances().forEach((id, p) -> chances.add(map("cause", id, "chance", rounded(p))));
    List<Object> findings = new ArrayList<>();
    gist.findings().forEach((id, there) -> findings.add(map("symptom", id, "present", there)));
    Map<String, Object> json = map("ride", gist.ride().id(), "because", because);
    json.put("not-looked", List.copyOf(gist.notLooked()));
    json.put("first", gist.first());
    json.put("chances", chances);
    json.put("findings", findings);
    return json;
  }

  /** Six decimals: more than the numbers mean, and fewer than a machine may differ in. */
  private static double rounded(double chance) {
    return Math.round(1e6 * chance) / 1e6;
  }

  private static Map<String, Object> map(String one, Object is, String other, Object too) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put(one, is);
    map.put(other, too);
    return map;
  }

  static Gist read(Fields f) {
    Map<String, Double> chances = new LinkedHashMap<>();
    f.objects("chances").forEach(each -> chances.put(each.text("cause"), each.number("chance")));
    Map<String, Boolean> findings = new LinkedHashMap<>();
    f.objects("findings")
        .forEach(each -> findings.put(each.text("symptom"), each.flag("present").orElse(false)));
    return new Gist(
        Arrays.stream(RideVerdict.Answer.values())
            .filter(word -> word.id().equals(f.text("ride")))
            .findFirst()
            .orElseThrow(),
        f.objects("because").stream()
            .map(each -> new Reason(each.text("id"), each.flag("cause").orElse(false)))
            .collect(Collectors.toCollection(LinkedHashSet::new)),
        new LinkedHashSet<>(f.texts("not-looked")),
        Optional.empty(),
        f.text("first"),
        chances,
        findings,
        Set.of());
  }
}
