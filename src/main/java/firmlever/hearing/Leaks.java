package firmlever.hearing;

import firmlever.hearing.Heard.Finding;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Language.Topic;
import firmlever.hearing.language.Pattern.Match;
import firmlever.hearing.language.Selection.Chosen;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Leaks claimed and denied in one breath: "nothing drips, but the floor is oily". The claim stands:
 * better a leak looked for in vain than one that a word has cleared.
 */
final class Leaks {
  /** Denials of any leak, wherever it may be. */
  private static final Set<String> ANYWHERE = Set.of("fluid-lost", "leak-found");

  private static final String NOWHERE = "leak-found-nowhere";
  private static final String WET_AT = "wet-at-";
  private static final String WEEP = "weep-";

  private final List<Word> words;
  private final Set<Chosen> denials = new HashSet<>();

  /** Words by which a leak is denied, but for the names of parts. */
  private final BitSet denied = new BitSet();

  private final BitSet deniedClauses = new BitSet();

  /** A pattern that was met, and what it says of the brake. */
  record Said(Chosen chosen, Finding finding) {}

  /**
   * @param said all that patterns say of symptoms
   */
  Leaks(List<Word> words, List<Said> said) {
    this.words = words;
    for (Said each : said) {
      if (denied(each.finding())) {
        denials.add(each.chosen());
        for (int at : each.chosen().match().words()) {
          deniedClauses.set(words.get(at).clause());
          denied.set(at, !Grammar.PART.in(words.get(at)));
        }
      }
    }
  }

  /** Whether the symptom tells of fluid outside the brake. */
  static boolean is(String symptom) {
    return ANYWHERE.contains(symptom) || symptom.startsWith(WET_AT) || symptom.startsWith(WEEP);
  }

  /**
   * Whether a leak would be put together from a clause that denies something and another that does
   * not: "nothing leaks, but there is oil on the caliper" tells of no leaking caliper in one piece.
   */
  static boolean torn(Chosen found, List<Word> words) {
    if (!found.is(Topic.SYMPTOM) || !is(found.meaning().id())) {
      return false;
    }
    Match match = found.match();
    boolean[] sides = new boolean[2];
    for (int at : match.words()) {
      sides[denies(words, words.get(at).clause(), match) ? 1 : 0] = true;
    }
    return sides[0] && sides[1];
  }

  private static boolean denies(List<Word> words, int clause, Match match) {
    return IntStream.range(0, words.size())
        .filter(at -> words.get(at).clause() == clause && !match.words().contains(at))
        .anyMatch(at -> Grammar.NOT.in(words.get(at)));
  }

  private static boolean denied(Finding each) {
    return each.symptom().equals(NOWHERE)
        ? each.certainty() == Certainty.PRESENT
        : is(each.symptom()) && each.certainty() == Certainty.ABSENT;
  }

  boolean isDenial(Chosen each) {
    return denials.contains(each);
  }

  /** Whether a leak is denied in a clause of these words. */
  boolean denies(Window window) {
    return words.subList(window.first(), window.end()).stream()
        .anyMatch(word -> deniedClauses.get(word.clause()));
  }

  /** Whether a leak is claimed over words that deny one: "wiped everything, not a wet spot". */
  boolean misheard(Said each) {
    Match match = each.chosen().match();
    int next = denied.nextSetBit(match.first());
    return is(each.finding().symptom())
        && each.finding().certainty() == Certainty.PRESENT
        && next >= 0
        && next <= match.last();
  }

  /** The findings, with each denial that a claim of a leak belies left open. */
  static List<Finding> settled(List<Finding> findings) {
    return findings.stream().map(each -> belied(each, findings) ? open(each) : each).toList();
  }

  /** Whether of two things said of one leak in different words the first is what counts. */
  static boolean surer(Finding a, Finding b) {
    boolean apart = a.end() <= b.start() || b.end() <= a.start();
    return is(a.symptom())
        && apart
        && a.certainty() != Certainty.ABSENT
        && b.certainty() != Certainty.PRESENT;
  }

  private static boolean belied(Finding denial, List<Finding> findings) {
    return denied(denial)
        && findings.stream()
            .filter(each -> is(each.symptom()) && each.certainty() == Certainty.PRESENT)
            .anyMatch(claim -> covers(denial.symptom(), claim.symptom()));
  }

  /** Whether to deny the one is to deny the other: a dry caliper says nothing of the lever. */
  static boolean covers(String denied, String claimed) {
    if (denied.equals(claimed) || denied.equals(NOWHERE) || ANYWHERE.contains(denied)) {
      return true;
    }
    return switch (denied) {
      case "wet-at-lever" ->
          claimed.startsWith("weep-at-lever") || claimed.equals("weep-at-reservoir-seam");
      case "wet-at-caliper" -> claimed.startsWith("weep-at-caliper");
      case "wet-at-hose-end" -> claimed.endsWith("-fitting");
      default -> false;
    };
  }

  private static Finding open(Finding each) {
    return new Finding(each.symptom(), Certainty.UNSURE, each.words(), each.start(), each.end());
  }
}
