package firmlever.hearing;

import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Language;
import firmlever.hearing.language.Pattern.Match;
import firmlever.hearing.language.Selection.Chosen;
import firmlever.hearing.language.Word;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/** Whether what a pattern says is claimed, denied, guessed, wished for, over or left open. */
final class Stance {
  /** A denial this near the beginning of a clause answers the clause before. */
  private static final int SHORT = 2;

  private final String text;
  private final List<Word> words;
  private final Language language;

  private final List<Chosen> chosen;
  private final int apart;

  Stance(String text, List<Word> words, Language language, List<Chosen> chosen) {
    this.text = text;
    this.words = words;
    this.language = language;
    // Where an apostrophe parts words, two words make one denial: "n'y a pas".
    this.apart = language.elides() ? language.denialBefore() : 1;
    this.chosen = chosen;
  }

  /**
   * Denials that are part of another pattern and deny nothing else; a pattern over the same words
   * spends none of them.
   */
  private BitSet spent(Match match) {
    BitSet spent = new BitSet();
    for (Chosen each : chosen) {
      boolean apart = Collections.disjoint(each.match().words(), match.words());
      if (apart || each.match() == match) {
        spend(each.match(), spent);
      }
    }
    return spent;
  }

  /** Marks the denials of a match, and those beside them that make one denial with them. */
  private void spend(Match match, BitSet into) {
    for (int denial : match.denials()) {
      int to = Math.min(words.size() - 1, denial + apart);
      for (int at = Math.max(0, denial - apart); at <= to; at++) {
        if (words.get(at).clause() == words.get(denial).clause() && Grammar.NOT.in(words.get(at))) {
          into.set(at);
        }
      }
    }
  }

  /** How certain a symptom is; empty where nothing is said of how the brake is. */
  Optional<Certainty> certainty(Certainty meant, Match match) {
    if (near(match, Grammar.GUESS) || aside(match)) {
      return Optional.empty();
    }
    if (doubted(match.first(), match.last())) {
      return Optional.of(Certainty.UNSURE);
    }
    if (near(match, Grammar.ENDED)) {
      return over(match) ? Optional.of(Certainty.ABSENT) : Optional.empty();
    }
    boolean denied = denied(match);
    if (asked(match) && !near(match, Grammar.PRESUPPOSED)) {
      int after = afterClause(match);
      if (after < words.size() && Grammar.NOT.in(words.get(after))) {
        denied = !denied;
      } else if (after >= words.size() || !Grammar.YES.in(words.get(after))) {
        return Optional.of(Certainty.UNSURE);
      }
    }
    if (near(match, Grammar.HEDGE)) {
      return Optional.of(Certainty.UNSURE);
    }
    if (!denied) {
      return Optional.of(meant);
    }
    return Optional.of(meant == Certainty.ABSENT ? Certainty.UNSURE : Certainty.ABSENT);
  }

  /**
   * Whether the clause speaks of another part of the bicycle before it comes to the match, and of
   * none of the brake: "my saddle is soft". What only tells when, as in "after the tyre was
   * changed", is no such part.
   */
  private boolean aside(Match match) {
    int clause = words.get(match.first()).clause();
    boolean aside = false;
    for (int at = match.first(); at >= 0 && words.get(at).clause() == clause; at--) {
      Word word = words.get(at);
      aside |= Grammar.ASIDE.in(word) && !match.words().contains(at);
      if (Grammar.PART.in(word) || aside && Grammar.WHEN.in(word)) {
        return false;
      }
    }
    for (int at = match.first(); aside && at < afterClause(match); at++) {
      aside = !Grammar.PART.in(words.get(at));
    }
    return aside;
  }

  /** Whether a short denial follows: "used to squeal, doesn't any more". */
  private boolean over(Match match) {
    int from = afterClause(match);
    for (int at = from; at < words.size() && at < from + SHORT; at++) {
      if (words.get(at).clause() == words.get(from).clause() && Grammar.NOT.in(words.get(at))) {
        return true;
      }
    }
    return false;
  }

  /** Whether something is told as done. */
  boolean done(Match match) {
    BitSet own = new BitSet();
    spend(match, own);
    return !near(match, Grammar.GUESS)
        && !near(match, Grammar.WISH)
        && !denied(match, own)
        && !doubted(match.first(), match.last())
        && !asked(match);
  }

  /**
   * Whether somebody else says it and the speaker does not believe it: both in the clauses of these
   * words or in the clauses beside them, of the same sentence or the next.
   */
  boolean doubted(int first, int last) {
    int from = words.get(first).clause() - 1;
    int to = words.get(last).clause() + 1;
    boolean reported = false;
    boolean disbelieved = false;
    for (Word word : words) {
      if (word.clause() >= from && word.clause() <= to) {
        reported |= Grammar.REPORTED.in(word) && word.clause() < to;
        disbelieved |= Grammar.DISBELIEVED.in(word);
      }
    }
    return reported && disbelieved;
  }

  /** Whether a word of the class stands in the clause of the match, and is no part of it. */
  private boolean near(Match match, Grammar part) {
    int from = words.get(match.first()).clause();
    int to = words.get(match.last()).clause();
    for (int at = 0; at < words.size(); at++) {
      Word word = words.get(at);
      if (word.clause() >= from
          && word.clause() <= to
          && part.in(word)
          && !match.words().contains(at)) {
        return true;
      }
    }
    return false;
  }

  private boolean denied(Match match) {
    return denied(match, spent(match));
  }

  /** Whether a denial reaches it, but for those that serve elsewhere. */
  private boolean denied(Match match, BitSet serving) {
    for (int word : match.words()) {
      if (word > match.first() && reaches(match, word, -1, language.denialBefore(), serving)) {
        return true;
      }
    }
    return reaches(match, match.first(), -1, language.denialBefore(), serving)
        || reaches(match, match.last(), 1, language.denialAfter(), serving);
  }

  private boolean reaches(Match match, int from, int step, int reach, BitSet serving) {
    for (int at = from + step; at >= 0 && at < words.size(); at += step) {
      Word word = words.get(at);
      if (word.clause() != words.get(from).clause()
          || Math.abs(word.place() - words.get(from).place()) > reach
          || Grammar.JOIN.in(word)) {
        return false;
      }
      if (Grammar.NOT.in(word) && !serving.get(at) && !match.words().contains(at)) {
        return true;
      }
    }
    return false;
  }

  /** Whether the sentence ends with one question mark; two are a sign of doubt in a note. */
  private boolean asked(Match match) {
    int at = afterClause(match) - 1;
    int end = words.get(at).end();
    int next = at + 1 < words.size() ? words.get(at + 1).start() : text.length();
    String between = text.substring(end, next);
    return between.contains("?") && !between.contains("??");
  }

  private int afterClause(Match match) {
    int at = match.last() + 1;
    while (at < words.size() && words.get(at).clause() == words.get(match.last()).clause()) {
      at++;
    }
    return at;
  }
}
