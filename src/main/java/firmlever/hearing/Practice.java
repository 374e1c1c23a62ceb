package firmlever.hearing;

import firmlever.hearing.Ear.Likely;
import firmlever.hearing.Ear.Sign;
import firmlever.hearing.Heard.Certainty;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.Signs.Window;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What practice makes of what the patterns found: what it does not hear at all becomes unsure, and
 * what it hears clearly is added.
 */
final class Practice {
  /**
   * Logit from which on something is heard. Chosen, like the next, where complaints of authors left
   * out of the learning were heard best.
   */
  private static final double CLEAR = -1.0;

  /** Logit below which a pattern is doubted. */
  private static final double DOUBTED = -3.0;

  private final String text;
  private final List<Word> words;
  private final List<Likely> all;
  private final Set<String> settled;
  private final Predicate<Window> ofOther;

  /**
   * @param all every meaning where it is likeliest
   * @param settled what the patterns met in the text: whether it is claimed, denied, guessed or
   *     wished for is theirs to say
   * @param ofOther whether words speak of the other brake
   */
  Practice(
      String text,
      List<Word> words,
      List<Likely> all,
      Set<String> settled,
      Predicate<Window> ofOther) {
    this.text = text;
    this.words = words;
    this.all = all;
    this.settled = settled;
    this.ofOther = ofOther;
  }

  /** The findings as practice leaves them, and those it adds. */
  List<Finding> findings(List<Finding> found) {
    List<Finding> findings = new ArrayList<>();
    for (Finding each : found) {
      boolean doubted = likely(each).filter(l -> l.logit() < DOUBTED).isPresent();
      findings.add(
          doubted
              ? new Finding(
                  each.symptom(), Certainty.UNSURE, each.words(), each.start(), each.end())
              : each);
    }
    for (Likely each : clear(Sign.THERE)) {
      findings.add(finding(each, Certainty.PRESENT));
    }
    for (Likely each : clear(Sign.NOT_THERE)) {
      // One denial denies one thing.
      if (found.stream().noneMatch(f -> f.certainty() == Certainty.ABSENT && within(f, each))) {
        findings.add(finding(each, Certainty.ABSENT));
      }
    }
    return findings.stream().filter(each -> !finer(each, findings)).toList();
  }

  /** What was done, with what practice adds. */
  List<Told> history(List<Told> told, Past past) {
    List<Told> history = new ArrayList<>(told);
    for (Likely each : clear(Sign.DONE_WORK)) {
      history.add(past.told(Kind.WORK, each.meaning().id(), each.window()));
    }
    for (Likely each : clear(Sign.DONE_EVENT)) {
      history.add(past.told(Kind.EVENT, each.meaning().id(), each.window()));
    }
    return history;
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

  private Finding finding(Likely likely, Certainty certainty) {
    int start = start(likely.window());
    int end = end(likely.window());
    return new Finding(likely.meaning().id(), certainty, text.substring(start, end), start, end);
  }

  private boolean within(Finding finding, Likely likely) {
    return finding.start() >= start(likely.window()) && finding.end() <= end(likely.window());
  }

  private int start(Window window) {
    return words.get(window.first()).start();
  }

  private int end(Window window) {
    return words.get(window.end() - 1).end();
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
