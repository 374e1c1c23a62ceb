package firmlever.casefile;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.date;
import static firmlever.document.Shape.flag;
import static firmlever.document.Shape.list;
import static firmlever.document.Shape.measure;
import static firmlever.document.Shape.money;
import static firmlever.document.Shape.number;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.oneOrList;
import static firmlever.document.Shape.plainOrObject;
import static firmlever.document.Shape.sha256;
import static firmlever.document.Shape.table;
import static firmlever.document.Shape.text;
import static firmlever.document.Shape.whole;

import firmlever.document.Limit;
import firmlever.document.Measures;
import firmlever.document.Shape;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.CheckKind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;

/**
 * The form of a case file, {@code firmlever-case/1}. Bounds are those of absurdity, not of good
 * service: what no brake, lever or workshop can show (common practice, from memory), except where a
 * source stands beside them.
 */
public final class CaseFormat {
  private CaseFormat() {}

  public static final String FORMAT = "firmlever-case/1";

  private static final List<String> RIDE = List.of("stop", "not-cleared", "fine");
  static final List<String> PRESENCES = List.of("present", "absent", "not-checked");
  static final List<String> MAKER_FIGURES =
      List.of(
          "throw",
          "clamp-torque",
          "port-torque",
          "fitting-torque",
          "mount-torque",
          "pad-new",
          "pad-limit",
          "rotor-limit",
          "run-out-limit");

  private static final Shape THROW = measure(Measures.Kind.LENGTH, 0, 200);
  private static final Shape TORQUE = measure(Measures.Kind.TORQUE, 0, 100);

  /** The shape of a case file, with the ids of the vocabulary in it. */
  static Shape.Fields shape(Vocabulary vocabulary) {
    Shape cause = word(vocabulary, Kind.CAUSE, vocabulary.causes().keySet());
    List<String> deeds = new ArrayList<>(vocabulary.recordedWorks());
    deeds.addAll(vocabulary.events().keySet());
    List<String> tellable = new ArrayList<>(deeds);
    vocabulary.symptoms().values().stream()
        .filter(symptom -> symptom.kind() == CheckKind.ASK)
        .forEach(symptom -> tellable.add(symptom.id()));
    Shape symptomTable =
        table(
            "a symptom",
            vocabulary.symptomWords(),
            oneOf("one of the answers", PRESENCES),
            guess(vocabulary, Kind.SYMPTOM, vocabulary.symptomWords()));
    return Shape.object()
        .needs("format", oneOf("a format", List.of(FORMAT)), "the format of the file")
        .needs("id", code(), "the code of the case")
        .needs("opened", date(), "the day the brake came in")
        .needs("brake", brake(vocabulary), "the brake")
        .may("use", use(), "what the brake is used for")
        .may(
            "complaint",
            text(Limit.COMPLAINT_LETTERS.most()),
            "the complaint in the customer's words")
        .may(
            "misheard",
            list(1, oneOf("a work, an event, or what only a rider can tell", tellable)),
            "what it does not tell of")
        .may("symptoms", symptomTable, "what was found, by symptom")
        .may(
            "only-told",
            list(1, word(vocabulary, Kind.SYMPTOM, vocabulary.symptomWords())),
            "of the symptoms those that a rider told and nobody looked for")
        .may("readings", readings(), "what was measured")
        .may(
            "history",
            list(0, Limit.HISTORY.most(), entry(vocabulary)),
            "works and events, in any order")
        .may("outcome", outcome(vocabulary, cause), "how the case ended")
        .may("claim", claim(cause, vocabulary), "what is claimed under a warranty")
        .may("source", text(Limit.NOTE_LETTERS.most()), "where the case comes from")
        .may("why", text(Limit.NOTE_LETTERS.most()), "why the expectation must hold")
        .may(
            "known-miss",
            text(Limit.NOTE_LETTERS.most()),
            "why the engine is known to miss the expectation")
        .may("expect", expectation(vocabulary, cause), "what the engine must conclude")
        .atLeastOneOf("complaint", "symptoms", "readings");
  }

  /** The JSON Schema of a case file. */
  public static Map<String, Object> schema(Vocabulary vocabulary) {
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", FORMAT);
    schema.putAll(shape(vocabulary).schema());
    return schema;
  }

  static List<String> fluids() {
    return Arrays.stream(Fluid.values()).map(Fluid::id).toList();
  }

  /** One of the names of a kind; for others, words of the trade are guessed at. */
  private static Shape word(Vocabulary vocabulary, Kind kind, Collection<String> known) {
    return oneOf(kind.spoken(), known, guess(vocabulary, kind, known));
  }

  private static UnaryOperator<String> guess(
      Vocabulary vocabulary, Kind kind, Collection<String> known) {
    return given -> TradeWords.of(vocabulary).maybe(given, kind, known);
  }

  private static Shape brake(Vocabulary vocabulary) {
    Shape.Fields figures = Shape.object();
    for (String figure : MAKER_FIGURES) {
      figures.may(
          figure,
          figure.endsWith("torque") ? TORQUE : measure(Measures.Kind.LENGTH, 0, 100),
          "the maker's figure for this brake");
    }
    return Shape.object()
        .needs("id", code(), "the code of the brake")
        .may("position", oneOf("a position", List.of("front", "rear", "unknown")), "which wheel")
        .may("fluid", word(vocabulary, Kind.FLUID, fluids()), "the fluid it is built for")
        .may("fitted", date(), "the day it was fitted")
        .may(
            "reservoir",
            oneOf("a reservoir", List.of("diaphragm", "sealed", "unknown")),
            "kind of reservoir")
        .may(
            "reservoir-free",
            measure(Measures.Kind.VOLUME, 0, 100),
            "room above the fluid in the reservoir")
        .may(
            "hose",
            Shape.object()
                .may("length", measure(Measures.Kind.LENGTH, 50, 5000), "length of the hose")
                .may("bore", measure(Measures.Kind.LENGTH, 0.5, 10), "inner diameter of the hose")
                .may(
                    "routing",
                    oneOf("a routing", List.of("internal", "external", "unknown")),
                    "how it runs"),
            "the hose")
        .may(
            "lever",
            Shape.object()
                .may("bore", measure(Measures.Kind.LENGTH, 3, 30), "bore of the lever piston")
                .may("ratio", number(1, 20), "travel at the lever tip over travel of the piston"),
            "the lever")
        .may(
            "caliper",
            Shape.object()
                .may("pistons", whole(1, 6), "number of pistons")
                .may(
                    "bore",
                    oneOrList(measure(Measures.Kind.LENGTH, 5, 60)),
                    "bore of the pistons, one for all or each"),
            "the caliper")
        .may(
            "rotor",
            Shape.object().may("diameter", measure(Measures.Kind.LENGTH, 100, 400), "diameter"),
            "the rotor")
        .may("maker-figures", figures, "the maker's figures for this brake")
        .may("lot", code(), "lot of the brake");
  }

  private static Shape use() {
    return Shape.object()
        .may("terrain", text(200), "where it is ridden")
        .may("rider-and-load", measure(Measures.Kind.MASS, 10, 500), "rider, bike and load")
        .may("ambient", measure(Measures.Kind.TEMPERATURE, -60, 60), "temperature around it")
        .may("altitude", measure(Measures.Kind.LENGTH, -500_000, 9_000_000), "height above the sea")
        .may("drop", measure(Measures.Kind.LENGTH, 1_000, 5_000_000), "height lost on a descent")
        .may("slope", measure(Measures.Kind.SHARE, 1, 60), "how steep the descent is");
  }

  private static Shape readings() {
    // 450 N: lever strength test, ISO 4210-4:2014 4.4; nobody pulls harder by hand.
    Shape firm =
        Shape.object()
            .needs("value", THROW, "travel at the lever tip")
            .may("force", measure(Measures.Kind.FORCE, 1, 450), "force at the lever tip");
    Shape advances = list(1, measure(Measures.Kind.LENGTH, 0, 20));
    return Shape.object()
        .may("throw-light", THROW, "lever travel at light contact")
        .may(
            "throw-firm",
            oneOrList(plainOrObject(THROW, firm)),
            "lever travel at a firm pull; after it, in a list, at pulls of other forces")
        .may("throw-after-five", THROW, "lever travel at the same pull after five quick strokes")
        .may("creep", measure(Measures.Kind.LENGTH, 0, 100), "further travel over a 60 s hold")
        .may("moisture", measure(Measures.Kind.SHARE, 0, 100), "water in the fluid")
        .may(
            "boiling-point",
            measure(Measures.Kind.TEMPERATURE, 60, 400),
            "boiling point of the fluid")
        .may(
            "pad-thickness",
            oneOrList(measure(Measures.Kind.LENGTH, 0, 20)),
            "friction material, each pad")
        .may("rotor-thickness", measure(Measures.Kind.LENGTH, 0, 10), "thickness of the rotor")
        .may("run-out", measure(Measures.Kind.LENGTH, 0, 20), "run-out of the rotor")
        .may("piston-advance", advances, "how far each piston moves")
        .may("level-drop", measure(Measures.Kind.LENGTH, 0, 50), "fluid level below full");
  }

  private static Shape entry(Vocabulary vocabulary) {
    return Shape.object()
        .may("date", date(), "the day")
        .may("days-ago", whole(0, 20_000), "days before the case was opened")
        .may("work", word(vocabulary, Kind.WORK, vocabulary.recordedWorks()), "what was done")
        .may("event", word(vocabulary, Kind.EVENT, vocabulary.events().keySet()), "what happened")
        .may("fluid", word(vocabulary, Kind.FLUID, fluids()), "the fluid put in")
        .may("by", code(), "code of who did it")
        .may("torque", TORQUE, "the torque written down")
        .may("parts", list(1, text(80)), "parts fitted, by the vocabulary or in words")
        .may("lot", code(), "lot of the parts")
        .may(
            "outcome",
            word(vocabulary, Kind.OUTCOME, vocabulary.outcomes().keySet()),
            "what came of it")
        .may(
            "circumstances",
            list(1, oneOf("a circumstance", vocabulary.circumstances().keySet())),
            "how it was done")
        .may("note", text(Limit.NOTE_LETTERS.most()), "anything else")
        .exactlyOneOf("work", "event")
        .atMostOneOf("date", "days-ago");
  }

  private static Shape outcome(Vocabulary vocabulary, Shape cause) {
    return Shape.object()
        .may("causes", list(0, cause), "the causes found")
        .may(
            "works",
            list(0, oneOf("an action", vocabulary.actions().keySet())),
            "the works that mended it")
        .may("by", code(), "code of who did the works")
        .may("site", code(), "code of the place where they were done")
        .may("confirmed", text(Limit.NOTE_LETTERS.most()), "how it was confirmed")
        .may("closed", date(), "the day it went back");
  }

  /** Kinds of evidence that can be handed in, as a paper or a signed statement. */
  public static final List<String> EVIDENCE =
      List.of(
          "purchase-date",
          "wipe-pump-hold",
          "readings",
          "photos",
          "fluid-test",
          "service-record",
          "prior-approval");

  private static Shape claim(Shape cause, Vocabulary vocabulary) {
    Shape part = word(vocabulary, Kind.PART, vocabulary.parts().keySet());
    return Shape.object()
        .may("number", code(), "the number of the claim")
        .may("claimant", code(), "code of who claims; no name")
        .may("shop", code(), "code of the shop that hands it in")
        .may("holder", oneOf("a holder", List.of("owner", "hire")), "owned, or a hire bike")
        .may("purchased", date(), "the day of purchase")
        .may("arose", date(), "the day on which the fault first showed")
        .may("made", date(), "the day of the claim, where it is not the day the case was opened")
        .may("decided", date(), "the day it was decided")
        .may("part", part, "the part claimed for")
        .may(
            "complaint",
            word(vocabulary, Kind.SYMPTOM, vocabulary.symptoms().keySet()),
            "the symptom claimed for, where no part is")
        .may("cause", cause, "the cause claimed")
        .may("earlier-claims", whole(0, 100), "claims made on this brake before")
        .may("costs", list(1, cost(cause, part, vocabulary)), "the works and parts claimed for")
        .may("attachments", list(1, attachment()), "the papers handed in")
        .may("statements", list(1, statement(vocabulary)), "what was signed")
        .atMostOneOf("part", "complaint");
  }

  private static Shape cost(Shape cause, Shape part, Vocabulary vocabulary) {
    return Shape.object()
        .may("work", oneOf("an action", vocabulary.actions().keySet()), "a work done or to do")
        .may("part", part, "a part fitted or to fit")
        .may("minutes", whole(0, 2000), "minutes of labour")
        .needs("price", money(), "what it costs")
        .may("for", list(1, cause), "the causes it was for")
        .exactlyOneOf("work", "part");
  }

  private static Shape attachment() {
    return Shape.object()
        .needs("file", text(200), "the file, from the folder of the case file")
        .needs("sha256", sha256(), "the SHA-256 of the file")
        .needs("kind", oneOf("a kind of evidence", EVIDENCE), "what it is");
  }

  private static Shape statement(Vocabulary vocabulary) {
    // A photo is a paper; no signature stands for one.
    List<String> kinds = new ArrayList<>(EVIDENCE);
    kinds.remove("photos");
    kinds.add(CaseFile.Statement.ORIGIN);
    List<String> origins = new ArrayList<>(List.of(CaseFile.Statement.MADE_SO));
    origins.addAll(vocabulary.recordedWorks());
    origins.addAll(vocabulary.events().keySet());
    return Shape.object()
        .needs("kind", oneOf("a kind of statement", kinds), "what it stands for")
        .may("of", oneOf("an origin", origins), "for an origin: made-so, or the work or event")
        .needs("by", code(), "code of who signed")
        .needs("signed", date(), "the day it was signed")
        .needs("says", text(Limit.NOTE_LETTERS.most()), "what it says");
  }

  private static Shape expectation(Vocabulary vocabulary, Shape cause) {
    List<String> outcomes = new ArrayList<>(vocabulary.causes().keySet());
    outcomes.add(Vocabulary.NO_FAULT_FOUND);
    List<String> steps = new ArrayList<>(vocabulary.actions().keySet());
    steps.addAll(vocabulary.symptomWords());
    Shape actions = list(1, oneOf("an action", vocabulary.actions().keySet()));
    return Shape.object()
        .may("first", oneOrList(oneOf("a cause", outcomes)), "one of these is first")
        .may("top3", list(1, cause), "each is among the first three")
        .may("likely", list(1, cause), "each has probability 0.5 or more")
        .may("not", list(1, cause), "each is not first and below 0.25")
        .may("impossible", list(1, cause), "each has probability zero")
        .may("next", oneOrList(oneOf("an action or check", steps)), "the first action now")
        .may("not-next", actions, "none of these may be done now")
        .may("blocked", actions, "each is listed and waits for something")
        .may("stop-ride", flag(), "whether the brake may not be ridden")
        .may("ride", oneOf("a verdict", RIDE), "whether the brake may be ridden")
        .may(
            "forbids",
            list(1, oneOf("a symptom", vocabulary.symptoms().keySet())),
            "each of these findings forbids riding")
        .may(
            "not-looked",
            list(1, oneOf("a symptom", vocabulary.symptoms().keySet())),
            "each must be looked for before it is cleared for riding")
        .may(
            "symptoms",
            table(
                "a symptom",
                vocabulary.symptomWords(),
                oneOf("one of the answers", List.of("present", "absent"))),
            "what readings and record show")
        .may("contradictory", flag(), "whether findings contradict each other")
        .may(
            "cautions",
            list(1, oneOf("a caution", vocabulary.cautions().keySet())),
            "cautions that must stand in the output")
        .atLeastOneOf(
            "first",
            "top3",
            "likely",
            "not",
            "impossible",
            "next",
            "not-next",
            "blocked",
            "stop-ride",
            "ride",
            "forbids",
            "not-looked",
            "symptoms",
            "contradictory",
            "cautions");
  }
}
