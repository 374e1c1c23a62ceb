package firmlever.rulebook;

import static firmlever.rulebook.Book.link;

import firmlever.belief.Background;
import firmlever.belief.Word;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Expectation;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Statement;
import firmlever.rulebook.Book.Block;
import firmlever.rulebook.Book.Chapter;
import firmlever.rulebook.Book.Row;
import firmlever.rulebook.Book.Table;
import firmlever.rulebook.Book.Words;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Cause;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The pages of single causes, symptoms and works. One instance makes the pages of one book. */
final class RulePages {
  private static final String UNLIKELY = "unlikely";
  private static final String IMPOSSIBLE = "impossible";
  private static final Set<String> AGAINST = Set.of(UNLIKELY, IMPOSSIBLE);

  private final Vocabulary vocabulary;
  private final List<RuleText> rules;
  private final List<NamedCase> cases;
  private final Spoken spoken;
  private final Set<String> placed = new HashSet<>();

  RulePages(Vocabulary vocabulary, List<RuleText> rules, List<NamedCase> cases) {
    this.vocabulary = vocabulary;
    this.rules = rules;
    this.cases = cases;
    this.spoken = new Spoken(vocabulary, this::symptom);
  }

  /** A statement and the rule that makes it. */
  record Said(RuleText rule, Statement statement) {
    String argument(int at) {
      return statement.arguments().get(at);
    }

    /** The ids from the argument {@code from} on. */
    List<String> ids(int from) {
      List<String> arguments = statement.arguments();
      return arguments.subList(from, arguments.size()).stream()
          .flatMap(argument -> rule.ids(argument).stream())
          .toList();
    }
  }

  Stream<Said> said(String... verbs) {
    return rules.stream().flatMap(rule -> rule.saying(verbs).map(each -> new Said(rule, each)));
  }

  /** The name of a rule where it is told for the first time in this book; then nothing. */
  String mark(RuleText rule) {
    return placed.add(rule.name()) ? rule.name() : "";
  }

  boolean isTold(RuleText rule) {
    return placed.contains(rule.name());
  }

  Spoken spoken() {
    return spoken;
  }

  Chapter cause(Cause cause) {
    List<RuleText> about = rules.stream().filter(rule -> rule.isAbout(cause.id())).toList();
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Words("", cause.definition()));
    blocks.add(new Words("Part", vocabulary.part(cause.part()).name()));
    about.stream()
        .flatMap(rule -> rule.saying("possible").map(each -> new Said(rule, each)))
        .forEach(
            s ->
                blocks.add(
                    new Words(
                        "How common",
                        "in "
                            + s.argument(1)
                            + " of 100 brakes brought in with a complaint"
                            + when(s.rule())
                            + " ("
                            + s.rule().source()
                            + ")",
                        mark(s.rule()))));
    table(
        blocks,
        "What raises or lowers it",
        List.of("Odds", "When", "Because", "Source"),
        saidOf(about, "raise", "lower")
            .sorted(Comparator.comparingDouble(s -> -Double.parseDouble(s.argument(1))))
            .map(
                s ->
                    row(
                        s.rule(),
                        "×" + s.argument(1),
                        spoken.conditions(s.rule()),
                        reason(s.argument(2)))));
    table(
        blocks,
        "What makes it impossible",
        List.of("When", "Because", "Source"),
        saidOf(about, "impossible")
            .map(s -> row(s.rule(), spoken.conditions(s.rule()), reason(s.argument(1)))));
    for (RuleText rule : about) {
      table(
          blocks,
          "What it shows" + when(rule) + ": " + rule.source(),
          List.of("How often", "Symptoms"),
          rule.saying("shows")
              .map(each -> new Said(rule, each))
              .map(s -> new Row(mark(rule), worded(s.argument(1)), symptoms(s.ids(2)))));
    }
    table(
        blocks,
        "What mends it",
        List.of("How often", "Work", "Minutes", "Mind"),
        said("mends")
            .filter(s -> s.ids(2).contains(cause.id()))
            .sorted(Comparator.comparing(s -> Word.valueOf(s.argument(1))))
            .map(s -> mending(s, vocabulary.action(s.argument(0)))));
    table(
        blocks,
        "Cases that expect it",
        List.of("Case", "Expected", "Why"),
        casesOf(cause.id())
            .filter(each -> expects(each, cause.id()))
            .filter(each -> each.file().knownMiss().isEmpty())
            .map(
                each ->
                    new Row(
                        "",
                        link(each.target(), each.name()),
                        String.join(", ", roles(each.file(), cause.id())),
                        each.file().why())));
    table(
        blocks,
        "Known limitations: cases in which it is right, and the rules put something else first",
        List.of("Case", "Why it is missed"),
        casesOf(cause.id())
            .filter(each -> expects(each, cause.id()))
            .flatMap(
                each ->
                    each.file().knownMiss().stream()
                        .map(why -> new Row("", link(each.target(), each.name()), why))));
    String others =
        casesOf(cause.id())
            .filter(each -> !expects(each, cause.id()))
            .map(each -> link(each.target(), each.name()))
            .collect(Collectors.joining(", "));
    if (!others.isEmpty()) {
      blocks.add(new Words("Cases that expect it not to be the fault", others));
    }
    blocks.add(new Words("Sources", sources(about)));
    return new Chapter(
        "cause-" + cause.id(), cause.name() + " (" + cause.id() + ")", List.copyOf(blocks));
  }

  private static Stream<Said> saidOf(List<RuleText> about, String... verbs) {
    return about.stream().flatMap(rule -> rule.saying(verbs).map(each -> new Said(rule, each)));
  }

  private Row mending(Said s, Action work) {
    return new Row(
        "",
        worded(s.argument(1)),
        link("#work-" + work.id(), work.name()) + when(s.rule()),
        String.valueOf(work.minutes()),
        cautionsOf(work).stream()
            .map(id -> link("#caution-" + id, Spoken.plain(id)))
            .collect(Collectors.joining(", ")));
  }

  /** Ids of the cautions that belong to a work, in vocabulary order. */
  private List<String> cautionsOf(Action work) {
    Set<String> own =
        said("cautionFor")
            .filter(
                s ->
                    s.ids(1).stream()
                        .flatMap(id -> vocabulary.actionsOf(id).stream())
                        .anyMatch(work.id()::equals))
            .map(s -> s.argument(0))
            .collect(Collectors.toSet());
    return vocabulary.cautions().keySet().stream().filter(own::contains).toList();
  }

  /** Sentences every work begins with. */
  String cautionsOfAll() {
    return said("caution")
        .filter(s -> s.rule().always())
        .map(s -> vocabulary.caution(s.argument(0)).text())
        .collect(Collectors.joining(" "));
  }

  /** The cases whose expectation names the cause. */
  private Stream<NamedCase> casesOf(String cause) {
    return cases.stream().filter(each -> !roles(each.file(), cause).isEmpty());
  }

  private static boolean expects(NamedCase each, String cause) {
    return roles(each.file(), cause).stream().anyMatch(role -> !AGAINST.contains(role));
  }

  long casesNaming(String cause) {
    return casesOf(cause).count();
  }

  private static List<String> roles(CaseFile file, String cause) {
    Map<String, List<String>> named = new LinkedHashMap<>();
    file.expectation().ifPresent(e -> named.putAll(named(e)));
    return named.entrySet().stream()
        .filter(entry -> entry.getValue().contains(cause))
        .map(Map.Entry::getKey)
        .toList();
  }

  private static Map<String, List<String>> named(Expectation e) {
    Map<String, List<String>> named = new LinkedHashMap<>();
    named.put("first", e.first());
    named.put("among the first three", e.top3());
    named.put("likely", e.likely());
    named.put(UNLIKELY, e.not());
    named.put(IMPOSSIBLE, e.impossible());
    return named;
  }

  Chapter symptom(Symptom symptom) {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Words("", symptom.definition()));
    blocks.add(
        new Words(
            "How to check",
            symptom.check()
                + (symptom.canBeChecked() ? " Takes " + symptom.minutes() + " min." : "")));
    said("background")
        .filter(s -> s.ids(1).contains(symptom.id()))
        .map(s -> Background.valueOf(s.argument(0)))
        .forEach(b -> blocks.add(new Words("Without any known cause", background(b))));
    Map<Word, List<String>> shownBy = new TreeMap<>();
    said("shows")
        .filter(s -> s.ids(2).contains(symptom.id()))
        .forEach(
            s ->
                shownBy
                    .computeIfAbsent(Word.valueOf(s.argument(1)), word -> new ArrayList<>())
                    .add(s.argument(0)));
    table(
        blocks,
        "Causes that show it",
        List.of("How often", "Causes"),
        shownBy.entrySet().stream()
            .map(e -> new Row("", worded(e.getKey().name()), causes(e.getValue()))));
    said("stopRide")
        .filter(s -> s.rule().ids(s.argument(0)).contains(symptom.id()))
        .forEach(s -> blocks.add(new Words("Stop-ride", reason(s.argument(1)))));
    table(
        blocks,
        "What concludes it",
        List.of("When", "Because"),
        said("found", "told", "implied", "above", "below", "estimated")
            .filter(s -> s.argument(0).equals(symptom.id()))
            .map(
                s ->
                    new Row(
                        "",
                        spoken.conditions(s.rule()),
                        reason(s.argument(s.statement().arguments().size() - 1)))));
    return new Chapter(
        "symptom-" + symptom.id(), symptom.name() + " (" + symptom.id() + ")", List.copyOf(blocks));
  }

  /** How often a symptom shows without a cause, and its number. */
  static String background(Background background) {
    return background.name().toLowerCase(Locale.ROOT).replace('_', ' ')
        + " ("
        + background.probability()
        + ")";
  }

  Chapter work(Action work) {
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Words("", work.definition()));
    String parts =
        work.parts().isEmpty()
            ? "none"
            : work.parts().stream()
                .map(id -> vocabulary.part(id).name())
                .collect(Collectors.joining(", "));
    blocks.add(new Words("Takes", work.minutes() + " min; parts: " + parts));
    table(
        blocks,
        "What it mends",
        List.of("How often", "Causes", "When", "Source"),
        said("mends")
            .filter(s -> s.argument(0).equals(work.id()))
            .map(
                s ->
                    row(
                        s.rule(),
                        worded(s.argument(1)),
                        causes(s.ids(2)),
                        spoken.conditions(s.rule()))));
    table(
        blocks,
        "What it waits for",
        List.of("Until", "When", "Because"),
        said("mendFirst", "checkFirst", "doFirst", "forbid")
            .filter(s -> waiting(s).contains(work.id()))
            .map(s -> new Row("", until(s), spoken.conditions(s.rule()), reason(whyWaits(s)))));
    cautionsOf(work).forEach(id -> blocks.add(new Words("Mind", vocabulary.caution(id).text())));
    return new Chapter(
        "work-" + work.id(), work.name() + " (" + work.id() + ")", List.copyOf(blocks));
  }

  /** Ids of the works an order rule holds back. */
  List<String> waiting(Said s) {
    return s.ids(s.statement().verb().equals("forbid") ? 1 : 2).stream()
        .flatMap(id -> vocabulary.actionsOf(id).stream())
        .toList();
  }

  static String whyWaits(Said s) {
    return s.argument(s.statement().verb().equals("forbid") ? 0 : 1);
  }

  /** What an order rule waits for. */
  String until(Said s) {
    return switch (s.statement().verb()) {
      case "mendFirst" -> "mended: " + symptoms(s.rule().ids(s.argument(0)));
      case "checkFirst" -> "looked for: " + symptoms(s.rule().ids(s.argument(0)));
      case "doFirst" -> "done: " + works(List.of(s.argument(0)));
      default -> "not at all";
    };
  }

  /** Adds the table unless it has no rows. */
  static void table(List<Block> blocks, String caption, List<String> columns, Stream<Row> rows) {
    List<Row> all = rows.toList();
    if (!all.isEmpty()) {
      blocks.add(new Table(caption, columns, all));
    }
  }

  /** A row that ends in the source of the rule it tells. */
  Row row(RuleText rule, String... cells) {
    List<String> all = new ArrayList<>(List.of(cells));
    all.add(rule.source());
    return new Row(mark(rule), all);
  }

  private String when(RuleText rule) {
    return rule.always() ? "" : ", when " + spoken.conditions(rule);
  }

  /** A reason, with words where a case would put its own. */
  static String reason(String text) {
    return text.replaceAll("\\$\\w+\\.when\\(\\)", "(then)")
        .replaceAll("\\$\\w+\\.\\w+\\(\\)", "…");
  }

  /** One of the seven words with its number. */
  static String worded(String word) {
    Word known = Word.valueOf(word);
    return known.spoken() + " (" + known.probability() + ")";
  }

  private String symptom(String id) {
    // A rule about symptoms of any kind names a variable.
    return vocabulary.symptoms().containsKey(id)
        ? link("#symptom-" + id, vocabulary.symptom(id).name())
        : "the " + id.substring(id.startsWith("$") ? 1 : 0) + " symptom";
  }

  String symptoms(Collection<String> ids) {
    return ids.stream().map(this::symptom).collect(Collectors.joining(", "));
  }

  String causes(Collection<String> ids) {
    return ids.stream()
        .map(id -> link("#cause-" + id, vocabulary.cause(id).name()))
        .collect(Collectors.joining(", "));
  }

  String works(Collection<String> ids) {
    return ids.stream()
        .map(id -> link("#work-" + id, vocabulary.action(id).name()))
        .collect(Collectors.joining(", "));
  }

  /** How many of these rules rest on which source. */
  static String sources(List<RuleText> about) {
    return about.stream()
        .collect(Collectors.groupingBy(RuleText::source, TreeMap::new, Collectors.counting()))
        .entrySet()
        .stream()
        .map(e -> e.getKey() + " (" + e.getValue() + (e.getValue() == 1 ? " rule)" : " rules)"))
        .collect(Collectors.joining(", "));
  }
}
