package firmlever.casefile;

import firmlever.casefile.CaseFile.Attachment;
import firmlever.casefile.CaseFile.Brake;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Cost;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Expectation;
import firmlever.casefile.CaseFile.Outcome;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFile.Pull;
import firmlever.casefile.CaseFile.Readings;
import firmlever.casefile.CaseFile.Statement;
import firmlever.casefile.CaseFile.Use;
import firmlever.document.BadInput;
import firmlever.document.CalendarDay;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Measures.Kind;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.document.Shape;
import firmlever.vocabulary.Vocabulary;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Reads case files. Tells everything that is wrong with a file at once. */
public final class CaseReader {
  private final Shape shape;
  private final Map<String, String> opposites;

  public CaseReader(Vocabulary vocabulary) {
    this.shape = CaseFormat.shape(vocabulary);
    this.opposites = vocabulary.opposites();
  }

  /**
   * Reads one case.
   *
   * @param name how messages call the file
   * @throws BadInput with every problem of the file
   */
  public CaseFile read(Path path, String name) throws BadInput {
    return read(DocumentReader.read(path, name), name);
  }

  /** Reads one case out of a parsed document. */
  public CaseFile read(Node document, String name) throws BadInput {
    Problems problems = new Problems(name);
    shape.check(document, problems);
    checkTogether(document, problems);
    member(document, "symptoms").ifPresent(symptoms -> checkOpposites(symptoms, problems));
    problems.throwIfAny();
    return caseFile(Fields.of(document));
  }

  /**
   * What no single field shows: dates out of order, and an expectation without its reason. Looks
   * only at what is there and of the right kind, since the rest is told already.
   */
  private static void checkTogether(Node document, Problems problems) {
    Optional<LocalDate> opened = member(document, "opened").flatMap(CaseReader::day);
    opened.ifPresent(day -> checkDays(document, day, problems));
    member(document, "expect")
        .filter(expect -> member(document, "why").isEmpty())
        .ifPresent(
            expect ->
                problems.add(
                    expect.place(),
                    "an expectation stands here without a \"why\"; each must say why it holds"));
  }

  private static void checkDays(Node document, LocalDate opened, Problems problems) {
    if (member(document, "history").orElse(document) instanceof Node.Array history) {
      for (Node entry : history.items()) {
        member(entry, "date")
            .filter(date -> day(date).filter(day -> day.isAfter(opened)).isPresent())
            .ifPresent(
                date -> problems.add(date.place(), after(date, opened, "history comes before")));
      }
    }
    member(document, "brake")
        .flatMap(brake -> member(brake, "fitted"))
        .filter(date -> day(date).filter(day -> day.isAfter(opened)).isPresent())
        .ifPresent(
            date ->
                problems.add(
                    date.place(), after(date, opened, "a brake is fitted before it comes in")));
    member(document, "claim").ifPresent(claim -> checkClaim(document, claim, opened, problems));
    member(document, "outcome")
        .flatMap(outcome -> member(outcome, "closed"))
        .filter(date -> day(date).filter(day -> day.isBefore(opened)).isPresent())
        .ifPresent(
            date ->
                problems.add(
                    date.place(),
                    date.spoken() + " lies before the case was opened (" + opened + ")"));
  }

  private static void checkClaim(Node document, Node claim, LocalDate opened, Problems problems) {
    Optional<Node> fitted = member(document, "brake").flatMap(brake -> member(brake, "fitted"));
    Optional<Node> bought = member(claim, "purchased");
    Optional<Node> arose = member(claim, "arose");
    LocalDate made = member(claim, "made").flatMap(CaseReader::day).orElse(opened);
    if (made.isBefore(opened)) {
      checkOrder(fitted, made, "the claim was made", problems);
    }
    checkOrder(bought, made, "the claim was made", problems);
    arose
        .flatMap(CaseReader::day)
        .ifPresent(
            day -> {
              checkOrder(fitted, day, "the fault showed", problems);
              checkOrder(bought, day, "the fault showed", problems);
              checkOrder(
                  arose,
                  made.isBefore(opened) ? made : opened,
                  "it was claimed or brought in",
                  problems);
            });
    member(claim, "decided")
        .filter(date -> day(date).filter(day -> day.isBefore(made)).isPresent())
        .ifPresent(
            date ->
                problems.add(
                    date.place(),
                    date.spoken()
                        + " lies before the claim was made ("
                        + made
                        + "); a claim is decided after it is made"));
    checkCosts(claim, problems);
    checkStatements(claim, made, problems);
    boolean sealed =
        member(document, "brake")
            .flatMap(brake -> member(brake, "reservoir"))
            .filter(kind -> kind instanceof Node.Text text && text.value().equals("sealed"))
            .isPresent();
    // A sealed reservoir has neither a lid to open nor a diaphragm under it.
    member(claim, "part")
        .filter(part -> sealed && part instanceof Node.Text)
        .filter(part -> Set.of("diaphragm", "reservoir-lid").contains(((Node.Text) part).value()))
        .ifPresent(
            part ->
                problems.add(
                    part.place(),
                    part.spoken()
                        + " is claimed for, and this brake has none: its reservoir is sealed"));
  }

  private static void checkOrder(
      Optional<Node> date, LocalDate bound, String what, Problems problems) {
    date.filter(node -> day(node).filter(day -> day.isAfter(bound)).isPresent())
        .ifPresent(
            node ->
                problems.add(
                    node.place(), node.spoken() + " lies after " + what + " (" + bound + ")"));
  }

  /** All prices in one currency: nothing else can be added up. */
  private static void checkCosts(Node claim, Problems problems) {
    String first = "";
    for (Node cost : items(claim, "costs")) {
      Node price = member(cost, "price").orElse(null);
      if (price instanceof Node.Text text && text.value().matches(".* [A-Z]{3}")) {
        String currency = text.value().substring(text.value().length() - 3);
        first = first.isEmpty() ? currency : first;
        if (!first.equals(currency)) {
          problems.add(
              price.place(), price.spoken() + " is not in " + first + ", as the first price is");
        }
      }
    }
  }

  private static void checkStatements(Node claim, LocalDate made, Problems problems) {
    for (Node statement : items(claim, "statements")) {
      boolean origin =
          member(statement, "kind")
              .filter(
                  kind -> kind instanceof Node.Text text && text.value().equals(Statement.ORIGIN))
              .isPresent();
      if (origin != member(statement, "of").isPresent()) {
        problems.add(
            statement.place(), "\"of\" must stand in a statement of an origin, and in no other");
      }
      member(statement, "signed")
          .filter(date -> day(date).filter(made.plusYears(1)::isBefore).isPresent())
          .ifPresent(
              date ->
                  problems.add(
                      date.place(),
                      date.spoken() + " lies over a year after the claim was made (" + made + ")"));
    }
  }

  private static List<Node> items(Node node, String name) {
    return member(node, name).orElse(null) instanceof Node.Array array ? array.items() : List.of();
  }

  private static String after(Node date, LocalDate opened, String rule) {
    return date.spoken() + " lies after the case was opened (" + opened + "); " + rule;
  }

  private static Optional<Node> member(Node node, String name) {
    return node instanceof Node.Object object ? object.get(name) : Optional.empty();
  }

  private static Optional<LocalDate> day(Node node) {
    return node instanceof Node.Text text ? CalendarDay.of(text.value()) : Optional.empty();
  }

  private CaseFile caseFile(Fields f) {
    LocalDate opened = f.date("opened").orElseThrow();
    return new CaseFile(
        f.text("id"),
        opened,
        brake(f.inner("brake")),
        use(f.inner("use")),
        f.text("complaint"),
        Set.copyOf(f.texts("misheard")),
        presences(f.inner("symptoms")),
        onlyTold(f),
        Set.of(),
        readings(f.inner("readings")),
        f.objects("history").stream().map(entry -> entry(entry, opened)).toList(),
        f.object().get("outcome").map(node -> outcome(Fields.of(node))),
        f.text("source"),
        f.text("why"),
        f.object().get("known-miss").map(node -> f.text("known-miss")),
        f.object().get("expect").map(node -> expectation(Fields.of(node))),
        f.object().get("claim").map(node -> claim(Fields.of(node))));
  }

  private static Claim claim(Fields f) {
    return new Claim(
        f.text("number"),
        f.text("claimant"),
        f.text("shop"),
        f.text("holder"),
        f.date("purchased"),
        f.date("arose"),
        f.date("made"),
        f.date("decided"),
        f.text("part"),
        f.text("complaint"),
        f.text("cause"),
        f.has("earlier-claims")
            ? OptionalInt.of(f.whole("earlier-claims", 0))
            : OptionalInt.empty(),
        f.objects("costs").stream().map(CaseReader::cost).toList(),
        f.objects("attachments").stream()
            .map(a -> new Attachment(a.text("file"), a.text("sha256"), a.text("kind")))
            .toList(),
        f.objects("statements").stream()
            .map(
                s ->
                    new Statement(
                        s.text("kind"),
                        s.text("of"),
                        s.text("by"),
                        s.date("signed").orElseThrow(),
                        s.text("says")))
            .toList());
  }

  private static Cost cost(Fields f) {
    return new Cost(
        f.text("work"),
        f.text("part"),
        f.whole("minutes", 0),
        f.money("price").orElseThrow(),
        f.texts("for"));
  }

  private static Brake brake(Fields f) {
    Map<String, Double> figures = new LinkedHashMap<>();
    Fields given = f.inner("maker-figures");
    for (String figure : CaseFormat.MAKER_FIGURES) {
      if (given.has(figure)) {
        figures.put(
            figure, given.measure(figure, figure.endsWith("torque") ? Kind.TORQUE : Kind.LENGTH));
      }
    }
    return new Brake(
        f.text("id"),
        f.text("position", "unknown"),
        fluid(f),
        f.date("fitted"),
        f.text("reservoir", "unknown"),
        f.measure("reservoir-free", Kind.VOLUME),
        f.inner("hose").measure("length", Kind.LENGTH),
        f.inner("hose").measure("bore", Kind.LENGTH),
        f.inner("hose").text("routing", "unknown"),
        f.inner("lever").measure("bore", Kind.LENGTH),
        f.inner("lever").number("ratio"),
        f.inner("caliper").whole("pistons", 0),
        f.inner("caliper").measures("bore", Kind.LENGTH),
        f.inner("rotor").measure("diameter", Kind.LENGTH),
        Collections.unmodifiableMap(figures),
        f.text("lot"));
  }

  private static Fluid fluid(Fields f) {
    String id = f.text("fluid", Fluid.UNKNOWN.id());
    for (Fluid fluid : Fluid.values()) {
      if (fluid.id().equals(id)) {
        return fluid;
      }
    }
    throw new IllegalStateException("the shape lets only fluids through");
  }

  private static Use use(Fields f) {
    return new Use(
        f.text("terrain"),
        f.measure("rider-and-load", Kind.MASS),
        f.measure("ambient", Kind.TEMPERATURE),
        f.measure("altitude", Kind.LENGTH) / 1000,
        f.measure("drop", Kind.LENGTH) / 1000,
        f.measure("slope", Kind.SHARE));
  }

  /** What is said of the symptoms; what is said of the absence of one is turned round. */
  private Map<String, Presence> presences(Fields f) {
    Map<String, Presence> presences = new LinkedHashMap<>();
    for (String said : f.object().members().keySet()) {
      Presence presence = Presence.valueOf(f.text(said).toUpperCase(Locale.ROOT).replace('-', '_'));
      String symptom = opposites.get(said);
      presences.merge(
          symptom == null ? said : symptom,
          symptom == null ? presence : presence.opposite(),
          (a, b) -> a == Presence.NOT_CHECKED ? b : a);
    }
    return Collections.unmodifiableMap(presences);
  }

  private Set<String> onlyTold(Fields f) {
    Set<String> told = new LinkedHashSet<>();
    f.texts("only-told").forEach(id -> told.add(opposites.getOrDefault(id, id)));
    return Collections.unmodifiableSet(told);
  }

  /** A symptom and its opposite, both there or both absent. */
  private void checkOpposites(Node symptoms, Problems problems) {
    opposites.forEach(
        (opposite, symptom) ->
            member(symptoms, opposite)
                .filter(said -> presence(said).isPresent())
                .filter(
                    said ->
                        presence(said)
                            .equals(member(symptoms, symptom).flatMap(CaseReader::presence)))
                .ifPresent(
                    said ->
                        problems.add(
                            said.place(),
                            "\""
                                + opposite
                                + "\" is the opposite of \""
                                + symptom
                                + "\", and both are "
                                + said.spoken(),
                            "Maybe leave one of them out.")));
  }

  private static Optional<String> presence(Node said) {
    return said instanceof Node.Text text && !text.value().equals("not-checked")
        ? Optional.of(text.value())
        : Optional.empty();
  }

  /** Ids of steps; a check for the absence of a symptom is the check for the symptom. */
  private List<String> steps(List<String> ids) {
    return ids.stream().map(id -> opposites.getOrDefault(id, id)).toList();
  }

  private static Readings readings(Fields f) {
    return new Readings(
        f.measure("throw-light", Kind.LENGTH),
        f.plainOrObjects("throw-firm", "value").stream().map(CaseReader::pull).toList(),
        f.measure("throw-after-five", Kind.LENGTH),
        f.measure("creep", Kind.LENGTH),
        f.measure("moisture", Kind.SHARE),
        f.measure("boiling-point", Kind.TEMPERATURE),
        f.measures("pad-thickness", Kind.LENGTH),
        f.measure("rotor-thickness", Kind.LENGTH),
        f.measure("run-out", Kind.LENGTH),
        f.measures("piston-advance", Kind.LENGTH),
        f.measure("level-drop", Kind.LENGTH));
  }

  private static Pull pull(Fields f) {
    return new Pull(f.measure("value", Kind.LENGTH), f.measure("force", Kind.FORCE));
  }

  private static Entry entry(Fields f, LocalDate opened) {
    OptionalInt daysAgo =
        f.has("days-ago")
            ? OptionalInt.of(f.whole("days-ago", 0))
            : f.date("date")
                .map(day -> OptionalInt.of((int) ChronoUnit.DAYS.between(day, opened)))
                .orElse(OptionalInt.empty());
    return new Entry(
        daysAgo,
        f.text("work"),
        f.text("event"),
        fluid(f),
        f.text("by"),
        f.measure("torque", Kind.TORQUE),
        f.texts("parts"),
        f.text("lot"),
        f.text("outcome", "unknown"),
        Collections.unmodifiableSet(new LinkedHashSet<>(f.texts("circumstances"))),
        f.text("note"));
  }

  private static Outcome outcome(Fields f) {
    return new Outcome(
        f.texts("causes"),
        f.texts("works"),
        f.text("by"),
        f.text("site"),
        f.text("confirmed"),
        f.date("closed"));
  }

  private Expectation expectation(Fields f) {
    return new Expectation(
        f.texts("first"),
        f.texts("top3"),
        f.texts("likely"),
        f.texts("not"),
        f.texts("impossible"),
        steps(f.texts("next")),
        f.texts("not-next"),
        f.texts("blocked"),
        f.flag("stop-ride"),
        f.text("ride"),
        f.texts("forbids"),
        f.texts("not-looked"),
        presences(f.inner("symptoms")),
        f.flag("contradictory"),
        f.texts("cautions"));
  }
}
