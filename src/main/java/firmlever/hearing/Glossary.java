package firmlever.hearing;

import firmlever.document.Nearest;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Letters;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Term;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** Finds what the vocabulary calls a thing that people call otherwise. */
public final class Glossary {
  private static final String ON_RECORD = "on record only";
  private static final double ALIKE = 0.3;
  private static final int MOST_ALIKE = 3;

  private final TradeWords trade;
  private final Hearing hearing;
  private final List<Entry> entries;

  /**
   * One name of the vocabulary.
   *
   * @param place where on the brake, or of what sort; empty where there is none
   */
  public record Entry(Kind kind, String id, String name, String place, String definition) {}

  /** How a name was found, the surest first. */
  public enum Way {
    /** The words are heard so in a complaint. */
    HEARD,
    /** The trade says it so. */
    TRADE_WORD,
    /** All words are in its id or name. */
    NAMED,
    /** Its id or name is spelt nearly so. */
    SPELT_NEARLY,
    /** All words are in its definition. */
    DEFINED,
    /** People say it in words that are like these. */
    SAID_LIKE
  }

  /**
   * A name found.
   *
   * @param said whether the words claim it, deny it or leave it open; empty where they only name it
   */
  public record Found(Entry entry, Way way, Optional<Certainty> said) {}

  public Glossary(Vocabulary vocabulary) {
    this.trade = TradeWords.of(vocabulary);
    this.hearing = new Hearing();
    this.entries = entries(vocabulary);
  }

  /** Every symptom, work, event, part, outcome and cause, in the order of the vocabulary. */
  public List<Entry> all() {
    return entries;
  }

  private static List<Entry> entries(Vocabulary vocabulary) {
    List<Entry> all = new ArrayList<>();
    for (Vocabulary.Symptom each : vocabulary.symptoms().values()) {
      String place = spoken(each.group());
      all.add(new Entry(Kind.SYMPTOM, each.id(), each.name(), place, each.definition()));
      each.opposite()
          .ifPresent(
              o ->
                  all.add(
                      new Entry(
                          Kind.SYMPTOM,
                          o.id(),
                          o.name(),
                          place,
                          "The opposite of " + each.id() + ".")));
    }
    for (Vocabulary.Action each : vocabulary.actions().values()) {
      all.add(
          new Entry(Kind.WORK, each.id(), each.name(), spoken(each.group()), each.definition()));
    }
    terms(all, Kind.WORK, vocabulary.works(), ON_RECORD);
    terms(all, Kind.EVENT, vocabulary.events(), "");
    terms(all, Kind.PART, vocabulary.parts(), "");
    terms(all, Kind.OUTCOME, vocabulary.outcomes(), "");
    for (Vocabulary.Cause each : vocabulary.causes().values()) {
      all.add(
          new Entry(Kind.CAUSE, each.id(), each.name(), spoken(each.group()), each.definition()));
    }
    return List.copyOf(all);
  }

  private static String spoken(String group) {
    return group.replace('-', ' ');
  }

  private static void terms(List<Entry> all, Kind kind, Map<String, Term> terms, String place) {
    terms
        .values()
        .forEach(
            each -> all.add(new Entry(kind, each.id(), each.name(), place, each.definition())));
  }

  /**
   * All that a text may mean, the surest way first; each name once, and none where none is near.
   */
  public List<Found> find(String text) {
    Map<Entry, Found> found = new LinkedHashMap<>();
    heard(text, found);
    Map<Kind, List<String>> means = trade.meaning(text);
    add(
        found,
        Way.TRADE_WORD,
        each -> means.getOrDefault(each.kind(), List.of()).contains(each.id()));
    List<String> words = words(text);
    add(found, Way.NAMED, each -> holds(each.id() + " " + each.name(), words));
    if (found.isEmpty()) {
      Set<String> near = near(text);
      add(found, Way.SPELT_NEARLY, each -> near.contains(each.id()));
    }
    if (found.isEmpty()) {
      add(found, Way.DEFINED, each -> holds(each.name() + " " + each.definition(), words));
    }
    if (found.isEmpty()) {
      alike(text, found);
    }
    return List.copyOf(found.values());
  }

  private void heard(String text, Map<Entry, Found> found) {
    // Only times need the day, and none is looked for.
    Heard heard = hearing.hear(text, "unknown", LocalDate.EPOCH);
    for (Heard.Finding each : heard.findings()) {
      entries.stream()
          .filter(e -> e.kind() == Kind.SYMPTOM && e.id().equals(each.symptom()))
          .forEach(e -> found.put(e, new Found(e, Way.HEARD, Optional.of(each.certainty()))));
    }
    for (Heard.Told each : heard.history()) {
      Kind kind = each.kind() == Heard.Kind.EVENT ? Kind.EVENT : Kind.WORK;
      entries.stream()
          .filter(e -> e.kind() == kind && e.id().equals(each.id()))
          .forEach(e -> found.put(e, new Found(e, Way.HEARD, Optional.empty())));
    }
  }

  private void alike(String text, Map<Entry, Found> found) {
    for (String code : Hearing.LANGUAGES) {
      for (Likeness.Like like : Likeness.of(code).nearest(text, id -> true, ALIKE, MOST_ALIKE)) {
        add(found, Way.SAID_LIKE, each -> each.id().equals(like.id()));
      }
    }
  }

  private void add(Map<Entry, Found> found, Way way, Predicate<Entry> fits) {
    entries.stream()
        .filter(fits)
        .forEach(e -> found.putIfAbsent(e, new Found(e, way, Optional.empty())));
  }

  /** Ids whose own letters or whose spoken name are nearest to the text. */
  private Set<String> near(String text) {
    Map<String, String> ids = new LinkedHashMap<>();
    entries.forEach(each -> ids.putIfAbsent(Nearest.plain(each.name()), each.id()));
    entries.forEach(each -> ids.putIfAbsent(each.id(), each.id()));
    return Nearest.to(text, ids.keySet()).map(ids::get).map(Set::of).orElse(Set.of());
  }

  private static List<String> words(String text) {
    return Arrays.stream(Letters.fold(text, false).split("[^\\p{L}\\p{N}.]+"))
        .filter(word -> !word.isEmpty())
        .toList();
  }

  /** Whether each of the words begins a word of the text. */
  private static boolean holds(String text, List<String> wanted) {
    List<String> words = words(text);
    return !wanted.isEmpty()
        && wanted.stream().allMatch(w -> words.stream().anyMatch(each -> each.startsWith(w)));
  }
}
