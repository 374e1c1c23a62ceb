package firmlever.hearing;

import firmlever.document.Fields;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.Optional;

/** Words the hearing does not understand though a person would. */
public final class NotUnderstood {
  private NotUnderstood() {}

  /** An English saying for a symptom with so many slips of the pen that nothing is heard in it. */
  public static String saying(String symptom) {
    Fields file = VocabularyReader.document(Likeness.file("en"));
    for (Fields each : file.objects("sayings")) {
      if (each.text("id").equals(symptom)) {
        for (String said : each.texts("says")) {
          String slips = "the " + said.replace("e", "eu").replace("in", "yn");
          Heard heard = new Hearing().hear(slips, "rear", LocalDate.of(2026, 5, 12));
          boolean nothing = heard.findings().isEmpty() && heard.history().isEmpty();
          if (nothing
              && heard.language().equals(Optional.of("en"))
              && heard.unheard().size() == 1) {
            return slips;
          }
        }
      }
    }
    throw new AssertionError("every saying was understood");
  }
}
