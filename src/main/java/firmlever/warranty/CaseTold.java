package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Brake;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFile.Readings;
import firmlever.casefile.CaseFile.Use;
import firmlever.casefile.Fluid;
import firmlever.casefile.WearLimit;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What a case says, in plain words, so that two states of it can be told apart. */
public final class CaseTold {
  private static final int LONGEST_PLACE = 400;
  private static final int LONGEST_VALUE = 4000;
  private static final String FINDING = "finding";
  private static final String READING = "reading";
  private static final String RECORD = "record";
  private static final String PAPER = "paper";

  /** Stands where a place has nothing to add. */
  private static final String TOLD = "told";

  private final Vocabulary vocabulary;

  public CaseTold(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /** All that decides, each by a kind and a name: {@code finding: weak braking} is "there". */
  Map<String, String> facts(Dossier d) {
    CaseFile file = d.file();
    Map<String, String> facts = new TreeMap<>();
    put(facts, "complaint", "words of the customer", file.complaint());
    file.symptoms().forEach((id, presence) -> put(facts, FINDING, called(id), seen(presence)));
    readings(file).forEach(row -> put(facts, READING, lower(row.get(0)), row.get(1)));
    file.history().forEach(entry -> put(facts, RECORD, headed(file, entry), details(entry)));
    brake(facts, file.brake());
    use(facts, file.use());
    file.outcome()
        .ifPresent(
            outcome -> {
              put(facts, "closing", "faults confirmed", names(outcome.causes()));
              put(facts, "closing", "works done", names(outcome.works()));
              put(facts, "closing", "done by", outcome.by());
              put(facts, "closing", "acceptance", outcome.confirmed());
              put(facts, "closing", "given back on", text(outcome.closed()));
            });
    claim(facts, d.claim());
    return facts;
  }

  private void claim(Map<String, String> facts, Claim claim) {
    put(facts, "claim", "part", claim.part().isEmpty() ? "" : name(claim.part()));
    put(facts, "claim", "complaint", claim.complaint().isEmpty() ? "" : called(claim.complaint()));
    put(facts, "claim", "fault", claim.cause().isEmpty() ? "" : name(claim.cause()));
    put(facts, "claim", "held as", claim.holder());
    put(facts, "claim", "bought on", text(claim.purchased()));
    put(facts, "claim", "fault first showed on", text(claim.arose()));
    put(facts, "claim", "claimed on", text(claim.made()));
    if (claim.earlier().isPresent()) {
      put(facts, "claim", "claims before", String.valueOf(claim.earlier().getAsInt()));
    }
    claim
        .attachments()
        .forEach(
            paper -> put(facts, PAPER, spaced(paper.kind()) + ", " + paper.file(), paper.sha256()));
    claim
        .statements()
        .forEach(
            s ->
                put(
                    facts,
                    "statement",
                    spaced(s.kind()) + ", signed by " + s.by() + " on " + s.signed(),
                    joined(name(s.of()), s.says()).isEmpty()
                        ? TOLD
                        : joined(name(s.of()), s.says())));
    claim
        .costs()
        .forEach(
            cost ->
                put(
                    facts,
                    "cost",
                    name(cost.work() + cost.part()),
                    joined(
                        cost.price().spoken(),
                        cost.minutes() > 0 ? cost.minutes() + " min" : "",
                        cost.causes().isEmpty() ? "" : "for " + names(cost.causes()))));
  }

  private static void brake(Map<String, String> facts, Brake b) {
    String of = "brake";
    put(facts, of, "code", b.id());
    put(facts, of, "wheel", b.position());
    put(facts, of, "fluid it is built for", b.fluid() == Fluid.UNKNOWN ? "" : b.fluid().id());
    put(facts, of, "fitted on", text(b.fitted()));
    put(facts, of, "reservoir", b.reservoir());
    put(facts, of, "room above the fluid", figure(b.reservoirFreeMl(), "mL"));
    put(facts, of, "hose length", figure(b.hoseLengthMm(), "mm"));
    put(facts, of, "hose bore", figure(b.hoseBoreMm(), "mm"));
    put(facts, of, "hose routing", b.routing());
    put(facts, of, "lever bore", figure(b.leverBoreMm(), "mm"));
    put(facts, of, "lever ratio", figure(b.leverRatio(), ""));
    put(facts, of, "caliper pistons", b.caliperPistons() > 0 ? "" + b.caliperPistons() : "");
    b.caliperBoresMm().forEach(mm -> put(facts, of, "caliper bore", figure(mm, "mm")));
    put(facts, of, "rotor diameter", figure(b.rotorDiameterMm(), "mm"));
    b.makerFigures()
        .forEach(
            (name, value) ->
                put(
                    facts,
                    of,
                    "maker's " + spaced(name),
                    figure(value, name.endsWith("torque") ? "N·m" : "mm")));
    put(facts, of, "lot", b.lot());
  }

  private static void use(Map<String, String> facts, Use use) {
    put(facts, "use", "terrain", use.terrain());
    put(facts, "use", "air", figure(use.ambientC(), "°C"));
    put(facts, "use", "altitude", figure(use.altitudeM(), "m"));
    put(facts, "use", "longest descent", figure(use.dropM(), "m"));
    put(facts, "use", "slope", figure(use.slopePercent(), "%"));
  }

  /** What may be there twice, such as two pads, stands behind each other. */
  private static void put(Map<String, String> facts, String kind, String what, String is) {
    if (!is.isBlank()) {
      facts.merge(
          cut(kind + ": " + what, LONGEST_PLACE),
          cut(is, LONGEST_VALUE),
          (one, other) -> cut(one + "; " + other, LONGEST_VALUE));
    }
  }

  private static String cut(String text, int longest) {
    return text.codePointCount(0, text.length()) <= longest
        ? text
        : text.substring(0, text.offsetByCodePoints(0, longest - 1)) + "…";
  }

  /** What was measured, by names with a unit. */
  public static List<List<String>> readings(CaseFile file) {
    Readings r = file.readings();
    List<List<String>> rows = new ArrayList<>();
    reading(rows, "Lever throw, light", r.throwLightMm(), "mm");
    r.throwFirm()
        .forEach(
            pull ->
                reading(
                    rows,
                    "Lever throw, firm"
                        + (Double.isNaN(pull.forceN()) ? "" : " at " + figure(pull.forceN(), "N")),
                    pull.throwMm(),
                    "mm"));
    reading(rows, "Lever throw after five strokes", r.throwAfterFiveMm(), "mm");
    reading(rows, "Creep over 60 s", r.creepMm(), "mm");
    reading(rows, "Water in the fluid", r.moisturePercent(), "%");
    reading(rows, "Boiling point of the fluid", r.boilingPointC(), "°C");
    String pads = "mm, limit " + limit(WearLimit.ofPads(file.brake()));
    r.padThicknessesMm().forEach(mm -> reading(rows, "Friction material of a pad", mm, pads));
    reading(
        rows,
        "Thickness of the rotor",
        r.rotorThicknessMm(),
        "mm, limit " + limit(WearLimit.ofRotor(file.brake())));
    reading(rows, "Run-out of the rotor", r.runOutMm(), "mm");
    r.pistonAdvancesMm().forEach(mm -> reading(rows, "A piston moves", mm, "mm"));
    reading(rows, "Fluid below full", r.levelDropMm(), "mm");
    reading(rows, "Rider and load", file.use().riderAndLoadKg(), "kg");
    return rows;
  }

  private static void reading(List<List<String>> rows, String what, double value, String unit) {
    if (!Double.isNaN(value)) {
      rows.add(List.of(what, figure(value, unit)));
    }
  }

  /** A limit, and whose it is. */
  public static String limit(WearLimit limit) {
    return figure(limit.mm(), "mm")
        + " ("
        + (limit.makers() ? "the maker's" : "common practice")
        + ")";
  }

  /** A figure as people write it; empty where nobody recorded it. */
  private static String figure(double value, String unit) {
    return Double.isNaN(value) ? "" : (figure(value) + " " + unit).strip();
  }

  /** A figure as people write it. */
  public static String figure(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%s", value);
  }

  private String headed(CaseFile file, Entry entry) {
    return name(entry.work() + entry.event()) + ", " + day(file, entry);
  }

  private static String day(CaseFile file, Entry entry) {
    return entry.daysAgo().isPresent()
        ? file.opened().minusDays(entry.daysAgo().getAsInt()).toString()
        : "no day told";
  }

  private String details(Entry e) {
    String told =
        joined(
            e.by().isEmpty()
                ? e.work().isEmpty() ? "" : "nobody signed"
                : "by " + (e.by().equals(Entry.OWNER) ? "the owner" : e.by()),
            e.fluid() == Fluid.UNKNOWN ? "" : "with " + e.fluid().id(),
            Double.isNaN(e.torqueNm()) ? "" : "torque " + figure(e.torqueNm(), "N·m"),
            names(e.parts()),
            e.lot().isEmpty() ? "" : "lot " + e.lot(),
            e.outcome().equals("unknown") ? "" : vocabulary.outcome(e.outcome()).name(),
            names(e.circumstances().stream().sorted().toList()),
            e.note());
    return told.isEmpty() ? TOLD : told;
  }

  private static String seen(Presence presence) {
    return switch (presence) {
      case PRESENT -> "there";
      case ABSENT -> "not there";
      case NOT_CHECKED -> "not looked for";
    };
  }

  /** What is new, gone or other between two states, in sentences. */
  static List<String> changes(Map<String, String> before, Map<String, String> now) {
    List<String> changes = new ArrayList<>();
    TreeSet<String> places = new TreeSet<>(before.keySet());
    places.addAll(now.keySet());
    for (String at : places) {
      String was = before.getOrDefault(at, "");
      String is = now.getOrDefault(at, "");
      if (!was.equals(is)) {
        int colon = at.indexOf(": ");
        changes.add(changed(at.substring(0, Math.max(0, colon)), at.substring(colon + 2), was, is));
      }
    }
    return changes;
  }

  private static String changed(String kind, String what, String was, String is) {
    boolean dull = kind.equals(PAPER) || was.equals(TOLD) || is.equals(TOLD);
    if (was.isEmpty()) {
      return (kind.equals(RECORD) ? "new in the record: " : "new " + kind + ": ")
          + what
          + (dull ? "" : (kind.equals(READING) ? " " : ", ") + is);
    }
    if (is.isEmpty()) {
      return (kind.equals(RECORD) ? "no longer in the record: " : "no longer told, " + kind + ": ")
          + what
          + (dull ? "" : " (was: " + was + ")");
    }
    if (kind.equals(RECORD)) {
      return what + ": then " + was + "; now " + is;
    }
    return kind.equals(PAPER)
        ? what + ": the file is another one now"
        : what + ": was " + was + ", now " + is;
  }

  /**
   * The same against an entry of the first format, which kept what the records of the program
   * looked like: those are told apart as they stand, and described as the case tells them now.
   */
  List<String> changesOfOldForm(Map<String, String> before, Dossier d) {
    CaseFile file = d.file();
    List<String> changes = new ArrayList<>();
    Map<String, String> was = new TreeMap<>();
    before.forEach(
        (at, is) -> {
          if (at.startsWith("symptoms/")) {
            put(was, FINDING, called(at.substring(9)), seen(Presence.valueOf(is)));
          } else if (at.equals("claim/purchased")) {
            put(was, "claim", "bought on", is);
          } else if (at.equals("claim/arose")) {
            put(was, "claim", "fault first showed on", is);
          } else if (at.startsWith("claim/attachments/")) {
            put(was, PAPER, at.substring(18), is);
          } else if (at.startsWith("claim/costs/")) {
            put(was, "cost", name(is.substring(0, Math.max(0, is.indexOf(' ')))), after(is));
          }
        });
    Map<String, String> now = new TreeMap<>();
    file.symptoms().forEach((id, presence) -> put(now, FINDING, called(id), seen(presence)));
    put(now, "claim", "bought on", text(d.claim().purchased()));
    put(now, "claim", "fault first showed on", text(d.claim().arose()));
    d.claim().attachments().forEach(paper -> put(now, PAPER, paper.file(), paper.sha256()));
    d.claim().costs().forEach(c -> put(now, "cost", name(c.work() + c.part()), c.price().spoken()));
    changes.addAll(changes(was, now));
    if (!file.readings().toString().equals(before.get("readings"))) {
      List<List<String>> rows = readings(file);
      changes.add(
          "the readings were changed; now "
              + (rows.isEmpty()
                  ? "there are none"
                  : rows.stream()
                      .map(row -> lower(row.get(0)) + " " + row.get(1))
                      .collect(Collectors.joining(", "))));
    }
    List<String> entries = values(before, "history/");
    List<String> stay = new ArrayList<>();
    for (Entry entry : file.history()) {
      if (entries.contains(entry.toString())) {
        stay.add(entry.toString());
      } else {
        changes.add(changed(RECORD, headed(file, entry), "", details(entry)));
      }
    }
    gone(changes, entries, stay, "of the record");
    List<String> statements = values(before, "claim/statements/");
    List<String> kept = new ArrayList<>();
    for (var each : d.claim().statements()) {
      if (statements.contains(each.toString())) {
        kept.add(each.toString());
      } else {
        changes.add(
            "new statement: "
                + joined(
                    spaced(each.kind()) + ", signed by " + each.by() + " on " + each.signed(),
                    each.says()));
      }
    }
    gone(changes, statements, kept, "signed as a statement");
    if (!file.outcome()
        .map(Object::toString)
        .orElse("")
        .equals(before.getOrDefault("outcome", ""))) {
      changes.add("how the case was closed is told otherwise now");
    }
    return changes;
  }

  private static List<String> values(Map<String, String> before, String under) {
    return before.entrySet().stream()
        .filter(e -> e.getKey().startsWith(under))
        .map(Map.Entry::getValue)
        .toList();
  }

  private static void gone(
      List<String> changes, List<String> before, List<String> stay, String what) {
    long gone = before.stream().filter(each -> !stay.contains(each)).count();
    if (gone > 0) {
      changes.add(
          gone == 1
              ? "one entry " + what + " was changed or taken out"
              : gone + " entries " + what + " were changed or taken out");
    }
  }

  private static String after(String text) {
    return text.substring(text.indexOf(' ') + 1);
  }

  private static String text(Optional<LocalDate> day) {
    return day.map(LocalDate::toString).orElse("");
  }

  private String names(List<String> ids) {
    return ids.stream().map(this::name).collect(Collectors.joining(", "));
  }

  /** The name of anything a case names by an id. */
  private String name(String id) {
    return vocabulary.parts().containsKey(id)
        ? vocabulary.part(id).name()
        : vocabulary.circumstances().containsKey(id)
            ? vocabulary.circumstance(id).name()
            : called(id);
  }

  /** The name of a work or an event, or whatever else that may stand there. */
  public String called(String id) {
    return vocabulary.named(id).orElse(id);
  }

  /** Ids of works, events and faults within a sentence, as people call them. */
  public String readable(String sentence) {
    String said = sentence;
    for (String word : sentence.split("[ ,:;()]+")) {
      if (word.contains("-")) {
        said = said.replace(word, called(word));
      }
    }
    return said;
  }

  private static String spaced(String id) {
    return id.replace('-', ' ');
  }

  private static String joined(String... parts) {
    return Stream.of(parts).filter(part -> !part.isBlank()).collect(Collectors.joining(", "));
  }

  private static String lower(String text) {
    return text.substring(0, 1).toLowerCase(Locale.ROOT) + text.substring(1);
  }
}
