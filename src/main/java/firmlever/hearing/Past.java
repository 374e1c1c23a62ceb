package firmlever.hearing;

import firmlever.casefile.Fluid;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Person;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Language.Topic;
import firmlever.hearing.language.Pattern.Match;
import firmlever.hearing.language.Selection.Chosen;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What was done before: works and events with their time, their doer and what came of them. */
final class Past {
  /** So many sentences after a work, what came of it may still be told. */
  private static final int OUTCOME_REACH = 2;

  /** Work nobody has named, which is what a workshop's service is to its customer. */
  private static final String SERVICE = "unknown-work";

  private final String text;
  private final List<Word> words;
  private final TimeWords times;
  private final Stance stance;

  Past(String text, List<Word> words, TimeWords times, Stance stance) {
    this.text = text;
    this.words = words;
    this.times = times;
    this.stance = stance;
  }

  List<Told> told(List<Chosen> chosen) {
    Map<String, Told> told = new LinkedHashMap<>();
    for (Chosen each : chosen) {
      if ((each.is(Topic.WORK) || each.is(Topic.EVENT)) && stance.done(each.match())) {
        told.merge(each.meaning().id(), told(each, chosen), Past::fuller);
      }
    }
    return List.copyOf(told.values());
  }

  private Told told(Chosen each, List<Chosen> chosen) {
    Match match = each.match();
    Told told =
        told(
            each.is(Topic.WORK) ? Kind.WORK : Kind.EVENT,
            each.meaning().id(),
            new Window(match.first(), match.last() + 1));
    return told.kind() == Kind.EVENT
        ? told
        : new Told(
            told.kind(),
            told.id(),
            told.daysAgo(),
            told.by(),
            outcome(match, chosen),
            fluid(match, chosen),
            told.words(),
            told.start(),
            told.end());
  }

  /** Something done that some words tell of. */
  Told told(Kind kind, String id, Window window) {
    int last = window.end() - 1;
    int start = words.get(window.first()).start();
    int end = words.get(last).end();
    return new Told(
        kind,
        id,
        times.near(window.first(), last),
        by(window.first(), last, id),
        Optional.empty(),
        Optional.empty(),
        text.substring(start, end),
        start,
        end);
  }

  /** What is told twice is told once, with what either telling adds. */
  private static Told fuller(Told a, Told b) {
    return new Told(
        a.kind(),
        a.id(),
        a.daysAgo().isPresent() ? a.daysAgo() : b.daysAgo(),
        a.by() == Person.UNKNOWN ? b.by() : a.by(),
        a.outcome().or(b::outcome),
        a.fluid().or(b::fluid),
        a.words(),
        a.start(),
        a.end());
  }

  /**
   * The person named nearest before it in its clause, else anywhere in the clause, else in its
   * sentence. Where nobody is named the writer tells of himself ("Put new pads in"), unless the
   * sentence hides who it was ("was bled"), or it is a service nobody else gives.
   */
  private Person by(int first, int last, String id) {
    int from = words.get(first).clause();
    int to = words.get(last).clause();
    int sentence = words.get(first).sentence();
    Person inClause = Person.UNKNOWN;
    Person before = Person.UNKNOWN;
    Person after = Person.UNKNOWN;
    boolean hidden = false;
    for (int at = 0; at < words.size(); at++) {
      Word word = words.get(at);
      if (word.sentence() != sentence && (word.clause() < from || word.clause() > to)) {
        continue;
      }
      Person person =
          Grammar.SHOP.in(word)
              ? Person.SHOP
              : Grammar.OWNER.in(word) ? Person.OWNER : Person.UNKNOWN;
      if (word.clause() < from) {
        before = person == Person.UNKNOWN ? before : person;
      } else if (word.clause() > to) {
        after = after == Person.UNKNOWN ? person : after;
      } else {
        hidden |= Grammar.PASSIVE.in(word);
        boolean tooLate = at > last && inClause != Person.UNKNOWN;
        inClause = person == Person.UNKNOWN || tooLate ? inClause : person;
      }
    }
    for (Person each : List.of(inClause, before, after)) {
      if (each != Person.UNKNOWN) {
        return each;
      }
    }
    if (id.equals(SERVICE)) {
      return Person.SHOP;
    }
    return hidden ? Person.UNKNOWN : Person.OWNER;
  }

  private Optional<String> outcome(Match work, List<Chosen> chosen) {
    int sentence = words.get(work.last()).sentence();
    return chosen.stream()
        .filter(c -> c.is(Topic.OUTCOME))
        .filter(c -> words.get(c.match().first()).sentence() >= sentence)
        .filter(c -> words.get(c.match().first()).sentence() <= sentence + OUTCOME_REACH)
        .map(c -> c.meaning().id())
        .findFirst();
  }

  private Optional<Fluid> fluid(Match work, List<Chosen> chosen) {
    int sentence = words.get(work.first()).sentence();
    return chosen.stream()
        .filter(c -> c.is(Topic.FLUID))
        .filter(c -> words.get(c.match().first()).sentence() == sentence)
        .map(c -> c.meaning().id())
        .flatMap(id -> Arrays.stream(Fluid.values()).filter(f -> f.id().equals(id)))
        .findFirst();
  }
}
