package firmlever.cli.review;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.cli.shell.Engine;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.hearing.Glossary;
import firmlever.hearing.Glossary.Way;
import firmlever.hearing.Heard;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding.Heeded;
import firmlever.hearing.language.Certainty;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * Turns what a shop writes about a job into names of the vocabulary, by the hearing that triage
 * uses, the words of the trade and the glossary. What is not sure is left unread and told.
 */
final class JobText {
  private static final Pattern PARTS =
      Pattern.compile("(?i)[;,+/&|\\n]|\\.(?=\\s|$)|\\s(?:and|then|und|dann|et|puis)\\s");

  /** No text says more for the day it was written on. */
  private static final LocalDate ANY_DAY = LocalDate.of(2025, 1, 1);

  /** A finding that leaves a cause less likely than this does not name it. */
  private static final double NAMES_IT = 0.8;

  private final Engine engine;
  private final TradeWords trade;
  private final Glossary glossary;
  private final Hearing hearing = new Hearing();
  private final Map<String, String> choices = new TreeMap<>();
  private final Map<Asked, Named> works = new HashMap<>();
  private final Map<Asked, Named> causes = new HashMap<>();

  private record Asked(String text, Map<String, String> known) {}

  JobText(Engine engine) {
    this.engine = engine;
    this.trade = TradeWords.of(engine.vocabulary());
    this.glossary = new Glossary(engine.vocabulary());
  }

  /**
   * What a text names.
   *
   * @param unread the parts that name nothing, word for word
   */
  record Named(List<String> ids, List<String> unread) {}

  /**
   * The works a text names.
   *
   * @param known what words of the shop mean
   */
  Named works(String text, Map<String, String> known) {
    return works.computeIfAbsent(new Asked(text, known), a -> named(text, known, this::work));
  }

  /** The causes a text names, or makes as good as sure by what it says was seen. */
  Named causes(String text, Map<String, String> known) {
    return causes.computeIfAbsent(new Asked(text, known), a -> named(text, known, this::cause));
  }

  private static Named named(
      String text, Map<String, String> known, Function<String, Collection<String>> reading) {
    Set<String> ids = new LinkedHashSet<>();
    List<String> unread = new ArrayList<>();
    for (String part : PARTS.split(text)) {
      if (!part.isBlank()) {
        String plain = part.strip();
        Collection<String> read = reading.apply(known.getOrDefault(plain, plain));
        ids.addAll(read);
        if (read.isEmpty()) {
          unread.add(part.strip());
        }
      }
    }
    return new Named(List.copyOf(ids), List.copyOf(unread));
  }

  /** Whether something is heard in it that is wrong with a brake. */
  boolean complains(String text) {
    return !hearing.hear(text, "unknown", ANY_DAY).findings().isEmpty();
  }

  private Collection<String> work(String part) {
    Set<String> known = engine.vocabulary().actions().keySet();
    Optional<String> one = trade.one(part, Kind.WORK, known);
    if (one.isPresent()) {
      return List.of(one.get());
    }
    List<String> heard =
        hearing.hear(part, "unknown", ANY_DAY).history().stream()
            .filter(told -> told.kind() == Heard.Kind.WORK && known.contains(told.id()))
            .map(Heard.Told::id)
            .distinct()
            .toList();
    return heard.isEmpty() ? glossed(part, Kind.WORK, known) : heard;
  }

  /** Whether it tells something found, and not only names a part, which is no fault of it. */
  boolean tellsFound(String part) {
    return !isPart(part) && complains(part);
  }

  private boolean isPart(String text) {
    return trade.one(text, Kind.PART, engine.vocabulary().parts().keySet()).isPresent();
  }

  private Collection<String> cause(String part) {
    Set<String> known = engine.vocabulary().causes().keySet();
    if (isPart(part)) {
      return List.of();
    }
    Optional<String> one = trade.one(part, Kind.CAUSE, known);
    if (one.isPresent()) {
      return List.of(one.get());
    }
    List<String> several = trade.meaning(part).getOrDefault(Kind.CAUSE, List.of());
    if (!several.isEmpty()) {
      String commonest =
          several.stream().max(Comparator.comparingDouble(this::howCommon)).orElseThrow();
      choices.put(part, commonest);
      return List.of(commonest);
    }
    Collection<String> glossed = glossed(part, Kind.CAUSE, known);
    return glossed.isEmpty() ? shown(part) : glossed;
  }

  /** The one name of that kind that the glossary finds by name or by nearly its spelling. */
  private Collection<String> glossed(String part, Kind kind, Set<String> known) {
    List<String> found =
        glossary.find(part).stream()
            .filter(each -> each.entry().kind() == kind && known.contains(each.entry().id()))
            .filter(each -> each.way().compareTo(Way.DEFINED) < 0)
            .map(each -> each.entry().id())
            .toList();
    return found.size() == 1 ? found : List.of();
  }

  /** The cause that what was seen makes as good as sure, nothing else being known. */
  private Collection<String> shown(String part) {
    Map<String, Object> symptoms = new LinkedHashMap<>();
    for (Heard.Finding each : hearing.hear(part, "unknown", ANY_DAY).findings()) {
      if (each.certainty() == Certainty.PRESENT) {
        symptoms.put(each.symptom(), "present");
      }
    }
    if (symptoms.isEmpty()) {
      return List.of();
    }
    Belief belief = engine.diagnostician().belief(read(document(symptoms)));
    double[] chances = belief.posterior().posterior();
    List<String> sure = new ArrayList<>();
    for (int i = 0; i < chances.length; i++) {
      if (chances[i] >= NAMES_IT) {
        sure.add(belief.model().network().causes().get(i));
      }
    }
    return sure;
  }

  private static Map<String, Object> document(Map<String, ?> symptoms) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("format", "firmlever-case/1");
    document.put("id", "text");
    document.put("opened", ANY_DAY.toString());
    document.put("brake", Map.of("id", "text"));
    document.put("symptoms", symptoms);
    return document;
  }

  private double howCommon(String cause) {
    Belief belief = engine.diagnostician().belief(read(document(Map.of())));
    return belief.model().network().prior(belief.model().network().causes().indexOf(cause));
  }

  /** Words that can mean several causes, with the commonest of them, which they were taken for. */
  Map<String, String> choices() {
    return choices;
  }

  private CaseFile read(Map<String, Object> document) {
    try {
      return engine.reader().read(DocumentReader.readText(JsonText.of(document), "text"), "text");
    } catch (BadInput e) {
      throw new IllegalStateException(e);
    }
  }

  /** The wheel a text speaks of. */
  Heard.Wheel wheel(String words) {
    return hearing.hear(words, "unknown", ANY_DAY).wheel();
  }

  /**
   * Adds to a document what its complaint says.
   *
   * @param file the same case, read
   * @return what was heard; empty where there is no complaint
   */
  Optional<Heard> heed(CaseFile file, Map<String, Object> document) {
    Heeded heeded = engine.heeding().heed(file);
    Map<String, Object> symptoms = new LinkedHashMap<>();
    heeded
        .file()
        .symptoms()
        .forEach(
            (symptom, presence) -> {
              if (presence != Presence.NOT_CHECKED) {
                symptoms.put(symptom, presence == Presence.PRESENT ? "present" : "absent");
              }
            });
    document.put("symptoms", symptoms);
    if (!heeded.file().onlyTold().isEmpty()) {
      document.put("only-told", List.copyOf(heeded.file().onlyTold()));
    }
    // A shop writes for the customer, so one who names nobody does not tell of himself.
    boolean named = hearing.namesOwner(file.complaint());
    List<Map<String, Object>> history = new ArrayList<>();
    for (Entry entry : heeded.file().history()) {
      Map<String, Object> told = new LinkedHashMap<>();
      entry.daysAgo().ifPresent(days -> told.put("days-ago", days));
      told.put(entry.work().isEmpty() ? "event" : "work", entry.work() + entry.event());
      if (!entry.by().isEmpty() && (named || !entry.by().equals("owner"))) {
        told.put("by", entry.by());
      }
      if (!entry.note().isEmpty()) {
        told.put("note", entry.note());
      }
      history.add(told);
    }
    if (!history.isEmpty()) {
      document.put("history", history);
    }
    return heeded.heard();
  }
}
