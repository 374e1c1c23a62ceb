package firmlever.hearing;

import firmlever.hearing.Ear.Likely;
import firmlever.hearing.Ear.Sign;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What practice makes of what the patterns found: what it does not hear at all becomes unsure, and
 * what it hears clearly is added. It never denies: a symptom that is not there clears a brake, and
 * of the denials it would add to complaints 6 to 8 hardly more than half were meant. A denial that
 * it doubts becomes unsure too, and so hints that the symptom is there: with such denials left out
 * the published cases by their words alone had the cause first in 30 of 88 instead of 34.
 */
final class Practice {
  /**
   * Logit from which on something is heard. Chosen, like the next, where complaints of authors left
   * out of the learning were heard well and published cases lost nothing.
   */
  static final double CLEAR = 0.0;

  /** Logit below which a pattern is doubted. */
  private static final double DOUBTED = -5.0;

  private final String text;
  private final List<Word> words;
  private final List<Likely> all;
  private final Set<String> settled;
  private final Predicate<Window> ofOther;
  private final Predicate<Window> doubted;

  /**
   * @param all every meaning where it is likeliest
   * @param settled what the patterns met in the text: whether it is claimed, denied, guessed or
   *     wished for is theirs to say
   * @param ofOther whether words speak of the other brake
   * @param doubted whether words tell what others say and the speaker does not believe
   */
  Practice(
      String text,
      List<Word> words,
      List<Likely> all,
      Set<String> settled,
      Predicate<Window> ofOther,
      Predicate<Window> doubted) {
    this.text = text;
    this.words = words;
    this.all = all;
    this.settled = settled;
    this.ofOther = ofOther;
    this.doubted = doubted;
  }

  /** The findings as practice leaves them, and those it adds. */
  List<Finding> findings(List<Finding> found) {
    List<Finding> findings = new ArrayList<>();
    for (Finding each : found) {
      boolean doubted =
          likely(each).filter(l -> l.logit() < DOUBTED && !tellsOfLeak(l.meaning())).isPresent();
      findings.add(
          doubted
              ? new Finding(
                  each.symptom(), Certainty.UNSURE, each.words(), each.start(), each.end())
              : each);
    }
    for (Likely each : clear(Sign.THERE)) {
      int start = words.get(each.window().first()).start();
      int end = words.get(each.window().end() - 1).end();
      Certainty certainty = doubted.test(each.window()) ? Certainty.UNSURE : Certainty.PRESENT;
      findings.add(
          new Finding(each.meaning().id(), certainty, text.substring(start, end), start, end));
    }
    return findings.stream().filter(each -> !finer(each, findings)).toList();
  }

  /** Whether a leak is claimed: better one looked for in vain than one not heard. */
  private static boolean tellsOfLeak(Ear.Meaning meaning) {
    return meaning.sign() == Sign.THERE && Leaks.is(meaning.id());
  }

  /** What was done, with what practice adds. */
  List<Told> history(List<Told> told, Past past) {
    List<Told> history = new ArrayList<>(told);
    for (Likely each : done(Sign.DONE_WORK)) {
      history.add(past.told(Kind.WORK, each.meaning().id(), each.window()));
    }
    for (Likely each : done(Sign.DONE_EVENT)) {
      history.add(past.told(Kind.EVENT, each.meaning().id(), each.window()));
    }
    return history;
  }

  private List<Likely> done(Sign sign) {
    return clear(sign).stream().filter(each -> !doubted.test(each.window())).toList();
  }

  /** What practice alone hears of this brake. */
  private List<Likely> clear(Sign sign) {
    return all.stream()
        .filter(each -> each.meaning().sign() == sign && each.logit() > CLEAR)
        .filter(each -> !settled.contains(each.meaning().id()))
        .filter(each -> each.meaning().opposite().filter(settled::contains).isEmpty())
        // What befell the other wheel befell the bike.
        .filter(each -> sign == Sign.DONE_EVENT || !ofOther.test(each.window()))
        .toList();
  }

  /** What practice hears of the symptom, said in the same sense. */
  private Optional<Likely> likely(Finding finding) {
    for (Likely each : all) {
      boolean there = finding.certainty() == Certainty.PRESENT;
      boolean opposite = each.meaning().opposite().filter(finding.symptom()::equals).isPresent();
      if (finding.certainty() != Certainty.UNSURE
          && (opposite || each.meaning().id().equals(finding.symptom()))
          && each.meaning().sign() == (there == opposite ? Sign.NOT_THERE : Sign.THERE)) {
        return Optional.of(each);
      }
    }
    return Optional.empty();
  }

  /** Whether a finer symptom is there, which says it too. */
  private boolean finer(Finding coarse, List<Finding> findings) {
    return coarse.certainty() == Certainty.PRESENT
        && findings.stream()
            .filter(each -> each.certainty() == Certainty.PRESENT)
            .anyMatch(
                each ->
                    all.stream()
                        .anyMatch(
                            l ->
                                l.meaning().id().equals(each.symptom())
                                    && l.meaning().coarser().contains(coarse.symptom())));
  }
}
