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
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** What was done before: works and events with their time, their doer and what came of them. */
final class Past {
  /** So many sentences after a work, what came of it may still be told. */
  private static final int OUTCOME_REACH = 2;

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

  /** The words that tell of it, and of what came of it. */
  List<Match> matches(List<Chosen> chosen) {
    List<Match> matches = new ArrayList<>();
    for (Chosen each : chosen) {
      if ((each.is(Topic.WORK) || each.is(Topic.EVENT)) && stance.done(each.match())) {
        matches.add(each.match());
        if (each.is(Topic.WORK)) {
          outcome(each.match(), chosen).ifPresent(outcome -> matches.add(outcome.match()));
        }
      }
    }
    return matches;
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
            outcome(match, chosen).map(c -> c.meaning().id()),
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
        by(kind, window.first(), last),
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
   * The person named nearest before it in its clauses, else anywhere in them, else a workshop in
   * another clause of its sentence, else who speaks where its clause begins with the deed ("bled it
   * on Sunday"); nobody where nobody is named. Who speaks in another clause ("I noticed it squeals,
   * pads are new") only tells of it, and where a clause hides who it was ("was bled"), whoever is
   * named in another did something else.
   */
  private Person by(Kind kind, int first, int last) {
    int from = words.get(first).clause();
    int to = words.get(last).clause();
    OptionalInt hides =
        words.stream()
            .filter(word -> word.clause() >= from && word.clause() <= to)
            .filter(Grammar.PASSIVE::in)
            .mapToInt(Word::clause)
            .findFirst();
    Person named = Person.UNKNOWN;
    Person elsewhere = Person.UNKNOWN;
    for (int at = 0; at < words.size(); at++) {
      Word word = words.get(at);
      Person person =
          Grammar.SHOP.in(word)
              ? Person.SHOP
              : Grammar.OWNER.in(word) ? Person.OWNER : Person.UNKNOWN;
      boolean within =
          hides.isPresent()
              ? word.clause() == hides.getAsInt()
              : word.clause() >= from && word.clause() <= to;
      if (within && person != Person.UNKNOWN && (at <= last || named == Person.UNKNOWN)) {
        named = person;
      } else if (person == Person.SHOP && word.sentence() == words.get(first).sentence()) {
        elsewhere = person;
      }
    }
    if (named != Person.UNKNOWN || hides.isPresent()) {
      return named;
    }
    // What befell the bike befell it with its rider; a work may have been anybody's.
    boolean own = kind == Kind.EVENT || leavesHimselfOut(from);
    return elsewhere == Person.UNKNOWN && own ? Person.OWNER : elsewhere;
  }

  /** Whether the clause begins with what was done, as in "bled it on Sunday". */
  private boolean leavesHimselfOut(int clause) {
    return words.stream()
        .filter(word -> word.clause() == clause)
        .filter(
            word ->
                !Grammar.FILLER.in(word)
                    && !Grammar.JOIN.in(word)
                    && !Grammar.TURN.in(word)
                    && !Grammar.WHEN.in(word))
        .findFirst()
        .filter(Grammar.DOING::in)
        .isPresent();
  }

  /** What came of a work, where it was told. */
  private Optional<Chosen> outcome(Match work, List<Chosen> chosen) {
    int sentence = words.get(work.last()).sentence();
    return chosen.stream()
        .filter(c -> c.is(Topic.OUTCOME))
        .filter(c -> words.get(c.match().first()).sentence() >= sentence)
        .filter(c -> words.get(c.match().first()).sentence() <= sentence + OUTCOME_REACH)
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
