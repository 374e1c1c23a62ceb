package firmlever.diagnosis.report;

import firmlever.belief.Chance;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.vocabulary.Vocabulary;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Whether a brake may be ridden, in words. */
final class RideWords {
  private RideWords() {}

  static String heading(RideVerdict.Answer verdict) {
    return switch (verdict) {
      case STOP -> "Not to be ridden";
      case NOT_CLEARED -> "Not cleared for riding";
      case FINE -> "May be ridden";
    };
  }

  /** A sentence a reason; causes for which the same can be said share one. */
  static List<String> because(Vocabulary vocabulary, List<Because> reasons) {
    Map<String, String> byWhy = new LinkedHashMap<>();
    for (Because each : reasons) {
      String name =
          each.isCause()
              ? vocabulary.cause(each.id()).name() + ", " + Chance.withNumber(each.probability())
              : vocabulary.symptom(each.id()).name();
      byWhy.merge(each.why(), name, (some, one) -> some + "; " + one);
    }
    return byWhy.entrySet().stream().map(each -> each.getValue() + ": " + each.getKey()).toList();
  }

  static String notLooked(Vocabulary vocabulary, RideVerdict ride) {
    return "Nobody has looked yet for: "
        + ride.notLooked().stream()
            .map(id -> vocabulary.symptom(id).name())
            .collect(Collectors.joining(", "))
        + ".";
  }
}
