package firmlever.interview;

import firmlever.hearing.Heard.Certainty;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Wheel;
import firmlever.hearing.Hearing;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Hears symptoms in a customer's words, for a person to confirm: the text itself decides nothing.
 */
public final class Listener {
  private final Hearing hearing;
  private final Map<String, String> opposites;

  /**
   * A symptom heard.
   *
   * @param present whether it was said to be there, for certain or not; otherwise it was denied
   * @param words the words it was heard in
   */
  public record Heard(String symptom, boolean present, String words) {}

  /**
   * All that was heard.
   *
   * @param elsewhere what was said of the other wheel's brake
   * @param wheel {@code front} or {@code rear} where the words name just one; empty otherwise
   */
  public record Result(List<Heard> heard, List<Heard> elsewhere, String wheel) {}

  /** Listens by the language files built into the program. */
  public Listener(Vocabulary vocabulary) {
    this.hearing = new Hearing();
    this.opposites = vocabulary.opposites();
  }

  /**
   * Listens to a text.
   *
   * @param position wheel of the brake in question: {@code front}, {@code rear} or {@code unknown}
   */
  public Result listen(String text, String position) {
    // Only times need the day, and the interview asks for no history.
    firmlever.hearing.Heard heard = hearing.hear(text, position, LocalDate.EPOCH);
    boolean one = heard.wheel() == Wheel.FRONT || heard.wheel() == Wheel.REAR;
    return new Result(
        heard.findings().stream().map(this::heard).toList(),
        heard.elsewhere().stream().map(this::heard).toList(),
        one ? heard.wheel().name().toLowerCase(Locale.ROOT) : "");
  }

  private Heard heard(Finding finding) {
    boolean said = finding.certainty() != Certainty.ABSENT;
    String symptom = opposites.get(finding.symptom());
    return symptom == null
        ? new Heard(finding.symptom(), said, finding.words())
        : new Heard(symptom, !said, finding.words());
  }
}
