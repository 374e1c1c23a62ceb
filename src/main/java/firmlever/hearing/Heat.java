package firmlever.hearing;

import firmlever.hearing.Heard.Finding;
import firmlever.hearing.language.Certainty;
import java.util.List;

/** What heat explains: that a brake soft when hot is right again once it has cooled. */
final class Heat {
  private static final String SOFT_WHEN_HOT = "soft-when-hot";
  private static final String FIRMS_UP = "firms-up-standing";

  private Heat() {}

  /**
   * The findings without a firming up that is told as the cooling down. That takes a night as well
   * as an hour, and says nothing of a brake that goes soft again cold.
   */
  static List<Finding> settled(List<Finding> findings) {
    boolean hot = findings.stream().anyMatch(each -> claims(each, SOFT_WHEN_HOT));
    return findings.stream().filter(each -> !hot || !claims(each, FIRMS_UP)).toList();
  }

  private static boolean claims(Finding each, String symptom) {
    return each.symptom().equals(symptom) && each.certainty() == Certainty.PRESENT;
  }
}
