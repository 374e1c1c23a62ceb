package firmlever.hearing;

import firmlever.casefile.Fluid;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Person;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.Language.Topic;
import firmlever.hearing.Pattern.Match;
import firmlever.hearing.Selection.Chosen;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

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

  private Told told(Chosen each, List<Chosen> chosen) {
    boolean work = each.is(Topic.WORK);
    Match match = each.match();
    int start = words.get(match.first()).start();
    int end = words.get(match.last()).end();
    return new Told(
        work ? Kind.WORK : Kind.EVENT,
        each.meaning().id(),
        times.near(match.first(), match.last()),
        by(match),
        work ? outcome(match, chosen) : Optional.empty(),
        work ? fluid(match, chosen) : Optional.empty(),
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

  /** The person named nearest before it in its clause, else anywhere in the clause. */
  private Person by(Match match) {
    Person found = Person.UNKNOWN;
    for (int at = 0; at < words.size(); at++) {
      Word word = words.get(at);
      if (word.clause() < words.get(match.first()).clause()
          || word.clause() > words.get(match.last()).clause()) {
        continue;
      }
      if (at > match.last() && found != Person.UNKNOWN) {
        break;
      }
      if (Grammar.SHOP.in(word)) {
        found = Person.SHOP;
      } else if (Grammar.OWNER.in(word)) {
        found = Person.OWNER;
      }
    }
    return found;
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
