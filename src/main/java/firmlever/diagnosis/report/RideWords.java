package firmlever.diagnosis.report;

import firmlever.belief.Word;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.vocabulary.Vocabulary;
import java.util.stream.Collectors;

/** Whether a brake may be ridden, in words. */
final class RideWords {
  private RideWords() {}

  static String heading(RideVerdict.Word verdict) {
    return switch (verdict) {
      case STOP -> "Not to be ridden";
      case NOT_CLEARED -> "Not cleared for riding";
      case FINE -> "May be ridden";
    };
  }

  static String because(Vocabulary vocabulary, Because each) {
    String name =
        each.isCause()
            ? vocabulary.cause(each.id()).name() + ", " + Word.worded(each.probability())
            : vocabulary.symptom(each.id()).name();
    return name + ": " + each.why();
  }

  static String notLooked(Vocabulary vocabulary, RideVerdict ride) {
    return "Nobody has looked yet for: "
        + ride.notLooked().stream()
            .map(id -> vocabulary.symptom(id).name())
            .collect(Collectors.joining(", "))
        + ".";
  }
}
