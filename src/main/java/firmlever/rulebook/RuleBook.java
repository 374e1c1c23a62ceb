package firmlever.rulebook;

import static firmlever.rulebook.Book.link;

import firmlever.belief.Background;
import firmlever.belief.Word;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebook.Book.Block;
import firmlever.rulebook.Book.Chapter;
import firmlever.rulebook.Book.Row;
import firmlever.rulebook.Book.Words;
import firmlever.rulebook.RulePages.Said;
import firmlever.vocabulary.HazardKind;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Cause;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The rule base as people read it: made from rules, vocabulary and cases, and from nothing else.
 */
public final class RuleBook {
  private final Vocabulary vocabulary;
  private final String digest;
  private final List<RuleText> rules;
  private final List<NamedCase> cases;

  /**
   * The book of a rule base.
   *
   * @param digest of the rule base
   */
  public RuleBook(
      Vocabulary vocabulary, String digest, List<RuleText> rules, List<NamedCase> cases) {
    this.vocabulary = vocabulary;
    this.digest = digest;
    this.rules = List.copyOf(rules);
    this.cases = List.copyOf(cases);
  }

  /** The ids that have a page. */
  public Set<String> ids() {
    Set<String> ids = new TreeSet<>(vocabulary.causes().keySet());
    ids.addAll(vocabulary.symptoms().keySet());
    ids.addAll(vocabulary.actions().keySet());
    return ids;
  }

  /** The page of a cause, symptom or work as text; empty where there is none of that id. */
  public Optional<String> page(String id, int width, boolean bold) {
    RulePages pages = pages();
    return Stream.of(
            Optional.ofNullable(vocabulary.causes().get(id)).map(pages::cause),
            Optional.ofNullable(vocabulary.symptoms().get(id)).map(pages::symptom),
            Optional.ofNullable(vocabulary.actions().get(id)).map(pages::work))
        .flatMap(Optional::stream)
        .findFirst()
        .map(chapter -> new BookText(width, bold).of(minding(chapter, pages)));
  }

  private static Chapter minding(Chapter chapter, RulePages pages) {
    List<Block> blocks = new ArrayList<>(chapter.blocks());
    blocks.add(new Words("Mind", pages.cautionsOfAll()));
    return new Chapter(chapter.id(), chapter.title(), blocks, chapter.sections());
  }

  /** All causes in a list, as text. */
  public String overview(int width, boolean bold) {
    RulePages pages = pages();
    List<Block> blocks = new ArrayList<>();
    causesByGroup()
        .forEach(
            (group, causes) ->
                RulePages.table(
                    blocks,
                    Spoken.plain(group),
                    List.of("cause", "name", "of 100 brakes", "rules", "cases"),
                    causes.stream().map(cause -> overviewRow(pages, cause))));
    blocks.add(new Words("", counted() + " firmlever rules ID tells one cause, symptom or work."));
    return new BookText(width, bold).of(new Chapter("causes", "The rule base", blocks));
  }

  private Row overviewRow(RulePages pages, Cause cause) {
    String per100 =
        pages
            .said("possible")
            .filter(s -> s.argument(0).equals(cause.id()))
            .map(s -> s.argument(1))
            .collect(Collectors.joining(", "));
    long about = rules.stream().filter(rule -> rule.isAbout(cause.id())).count();
    return new Row(
        "",
        cause.id(),
        cause.name(),
        per100 + " of 100",
        about + " rules",
        pages.casesNaming(cause.id()) + " cases");
  }

  private String counted() {
    return String.format(
        Locale.ROOT,
        "%d rules about %d causes, %d symptoms and %d works; %d cases hold them in place."
            + " Rule base %s.",
        rules.size(),
        vocabulary.causes().size(),
        vocabulary.symptoms().size(),
        vocabulary.actions().size(),
        cases.size(),
        digest);
  }

  private RulePages pages() {
    return new RulePages(vocabulary, rules, cases);
  }

  private Map<String, List<Cause>> causesByGroup() {
    Map<String, List<Cause>> groups = new LinkedHashMap<>();
    vocabulary
        .causes()
        .values()
        .forEach(cause -> groups.computeIfAbsent(cause.group(), g -> new ArrayList<>()).add(cause));
    return groups;
  }

  /** The whole book as one HTML page. */
  public String html() {
    RulePages pages = pages();
    List<Chapter> chapters = new ArrayList<>();
    chapters.add(howToRead(pages));
    causesByGroup()
        .forEach(
            (group, causes) ->
                chapters.add(
                    new Chapter(
                        "causes-" + group,
                        "Causes: " + Spoken.plain(group),
                        List.of(),
                        causes.stream().map(pages::cause).toList())));
    chapters.add(readings(pages));
    chapters.add(
        new Chapter(
            "works",
            "Works",
            List.of(),
            vocabulary.actions().values().stream().map(pages::work).toList()));
    chapters.add(order(pages));
    chapters.add(stopRide(pages));
    chapters.add(contradictions(pages));
    chapters.add(cautions(pages));
    chapters.add(symptoms(pages));
    chapters.add(sources());
    others(pages).ifPresent(chapters::add);
    return BookHtml.of(new Book("The rule book", List.copyOf(chapters)));
  }

  private Chapter howToRead(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Words("", counted()));
    blocks.add(new Words("Mind", pages.cautionsOfAll()));
    blocks.add(
        new Words(
            "Odds",
            "A cause starts with how common it is. Each rule that applies multiplies its odds:"
                + " ×2 makes even odds two to one, ×0.5 one to two."));
    RulePages.table(
        blocks,
        "The seven words, for how often a cause shows a symptom or a work mends a cause",
        List.of("Word", "Number"),
        Arrays.stream(Word.values())
            .map(word -> new Row("", word.spoken(), String.valueOf(word.probability()))));
    blocks.add(new Words("Source of the seven words", Word.SOURCE));
    return new Chapter("reading", "How to read this book", blocks);
  }

  private Chapter readings(RulePages pages) {
    List<Block> limits = new ArrayList<>();
    RulePages.table(
        limits,
        "Readings against their limits",
        List.of("Symptom", "Is there when", "Only when", "Because", "Source"),
        pages
            .said("above", "below")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.symptoms(List.of(s.argument(0))),
                        limit(s),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(3)))));
    RulePages.table(
        limits,
        "Worked out from the throws together",
        List.of("Symptom", "When", "Because", "Source"),
        pages
            .said("estimated")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.symptoms(List.of(s.argument(0))),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(2)))));
    concluded(pages, limits, "What the record shows", this::readsRecord);
    concluded(pages, limits, "What follows from other findings", rule -> !readsRecord(rule));
    return new Chapter("readings", "From readings to symptoms", limits);
  }

  private static void concluded(
      RulePages pages, List<Block> blocks, String caption, Predicate<RuleText> which) {
    RulePages.table(
        blocks,
        caption,
        List.of("Symptom", "Is", "When", "Because", "Source"),
        pages
            .said("found", "told", "implied")
            .filter(s -> which.test(s.rule()))
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.symptoms(List.of(s.argument(0))),
                        (s.argument(1).equals("true") ? "there" : "absent")
                            + (s.statement().verb().equals("implied") ? ", but no evidence" : ""),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(2)))));
  }

  private boolean readsRecord(RuleText rule) {
    return rule.conditions().stream()
        .anyMatch(each -> Set.of("Job", "Event", "History").contains(each.fact()));
  }

  /** The limit of a reading with its unit; a name stands for a figure of the maker's. */
  private static String limit(Said s) {
    String reading =
        s.rule().conditions().stream()
            .filter(each -> each.variable().equals(s.argument(1)))
            .flatMap(each -> each.named("reading").stream())
            .collect(Collectors.joining(", "));
    boolean bySoundBrakes =
        s.rule().conditions().stream().anyMatch(each -> each.fact().equals("SoundBrake"));
    String limit =
        bySoundBrakes
            ? "that of sound brakes of its kind"
            : s.argument(2).startsWith("$")
                ? "the maker's figure for "
                    + s.rule().conditions().stream()
                        .map(each -> each.named("figure"))
                        .flatMap(List::stream)
                        .map(Spoken::plain)
                        .collect(Collectors.joining(", "))
                : s.argument(2) + unit(reading);
    return Spoken.plain(reading)
        + (s.statement().verb().equals("above") ? " is over " : " is under ")
        + limit;
  }

  private static String unit(String reading) {
    return switch (reading) {
      case "moisture" -> " %";
      case "boiling-point" -> " °C";
      case "piston-advance-share" -> "";
      default -> " mm";
    };
  }

  private Chapter order(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "These come before any reckoning of cost",
        List.of("Until", "Waits", "When", "Because", "Source"),
        pages
            .said("mendFirst", "checkFirst", "doFirst", "forbid")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.until(s),
                        pages.works(pages.waiting(s)),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(RulePages.whyWaits(s)))));
    RulePages.table(
        blocks,
        "What was tried in vain speaks against what it should have mended",
        List.of("When", "Because", "Source"),
        pages
            .said("triedInVain")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(1)))));
    return new Chapter("order", "Order of works", blocks);
  }

  private Chapter stopRide(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "A brake with one of these signs is not ridden",
        List.of("Sign", "When", "Because", "Source"),
        pages
            .said("stopRide")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.symptoms(s.rule().ids(s.argument(0))),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(1)))));
    blocks.add(
        new Words(
            "",
            "Likely causes forbid it too. Not to ride costs a walk to the shop, to ride with such a"
                + " cause present the harm below, in walks; so the limit is one through the harm."
                + " It is held against the chance that the findings add. A mechanic may add a stop,"
                + " never take one away."));
    RulePages.table(
        blocks,
        "How a cause endangers the rider, and from what chance on it counts",
        List.of("It", "Meaning", "Harm", "Limit", "Then", "Causes", "Source"),
        HazardKind.builtIn().values().stream()
            .map(
                kind ->
                    new Row(
                        "",
                        kind.name(),
                        kind.definition(),
                        Integer.toString(kind.harm()),
                        kind.harm() == 0
                            ? "none"
                            : String.format(Locale.ROOT, "%.2f", kind.limit()),
                        Spoken.plain(kind.above())
                            + (kind.atRear().equals(kind.above())
                                ? ""
                                : "; at the rear " + Spoken.plain(kind.atRear())),
                        vocabulary.causes().values().stream()
                            .filter(cause -> cause.hazards().contains(kind.id()))
                            .map(Vocabulary.Cause::name)
                            .collect(Collectors.joining(", ")),
                        kind.source())));
    RulePages.table(
        blocks,
        "Not cleared for riding before this was looked for",
        List.of("Sign", "When", "Because", "Source"),
        pages
            .said("clearFirst")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.symptoms(s.rule().ids(s.argument(0))),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(1)))));
    return new Chapter("stop-ride", "May it be ridden", blocks);
  }

  private Chapter contradictions(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "Findings that cannot all be true",
        List.of("When", "Because", "Source"),
        pages
            .said("contradiction")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        pages.spoken().conditions(s.rule()),
                        RulePages.reason(s.argument(0)))));
    return new Chapter("contradictions", "Contradictions", blocks);
  }

  private Chapter cautions(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "When each is given",
        List.of("Warning", "When", "Works", "Source"),
        pages
            .said("caution", "cautionFor")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        link("#caution-" + s.argument(0), Spoken.plain(s.argument(0))),
                        pages.spoken().conditions(s.rule()),
                        pages.works(
                            s.ids(1).stream()
                                .flatMap(id -> vocabulary.actionsOf(id).stream())
                                .toList()))));
    List<Chapter> each =
        vocabulary.cautions().values().stream()
            .map(
                caution ->
                    new Chapter(
                        "caution-" + caution.id(),
                        Spoken.plain(caution.id()),
                        List.of(new Words("", caution.text()))))
            .toList();
    return new Chapter("cautions", "Warnings", blocks, each);
  }

  private Chapter symptoms(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "How often a symptom shows without any known cause",
        List.of("How often", "Symptoms", "Source"),
        pages
            .said("background")
            .map(
                s ->
                    pages.row(
                        s.rule(),
                        RulePages.background(Background.valueOf(s.argument(0))),
                        pages.symptoms(s.ids(1)))));
    return new Chapter(
        "symptoms",
        "Symptoms",
        blocks,
        vocabulary.symptoms().values().stream().map(pages::symptom).toList());
  }

  private Chapter sources() {
    Map<String, Long> counted =
        rules.stream()
            .collect(Collectors.groupingBy(RuleText::source, TreeMap::new, Collectors.counting()));
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "Where the rules have their knowledge from",
        List.of("Source", "Kind", "Rules"),
        counted.entrySet().stream()
            .map(e -> new Row("", e.getKey(), kind(e.getKey()), String.valueOf(e.getValue()))));
    RulePages.table(
        blocks,
        "Kinds of source",
        List.of("Kind", "Rules"),
        rules.stream()
            .collect(
                Collectors.groupingBy(
                    rule -> kind(rule.source()), TreeMap::new, Collectors.counting()))
            .entrySet()
            .stream()
            .map(e -> new Row("", e.getKey(), String.valueOf(e.getValue()))));
    return new Chapter("sources", "Sources", blocks);
  }

  private static String kind(String source) {
    return source.startsWith("common practice") || source.equals("from memory")
        ? source
        : "published";
  }

  /** Rules that found no place in any chapter, as they are written. */
  private Optional<Chapter> others(RulePages pages) {
    List<Block> blocks = new ArrayList<>();
    RulePages.table(
        blocks,
        "As they are written",
        List.of("When", "Says", "Source"),
        rules.stream()
            .filter(rule -> !pages.isTold(rule))
            .map(
                rule ->
                    pages.row(
                        rule,
                        pages.spoken().conditions(rule),
                        rule.statements().stream()
                            .map(s -> s.verb() + " " + String.join(", ", s.arguments()))
                            .collect(Collectors.joining("; ")))));
    return blocks.isEmpty()
        ? Optional.empty()
        : Optional.of(new Chapter("other-rules", "Other rules", blocks));
  }
}
