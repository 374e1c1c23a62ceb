package firmlever.cli;

import firmlever.cli.Faults.Deed;
import firmlever.cli.Faults.Kind;
import firmlever.document.BadInput;
import firmlever.records.TallyFile;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Runs each command that writes files on {@link FailingFiles}: with the first thing it asks of them
 * failing, then the second, until nothing fails any more. After each run every file holds what it
 * held before or what an undisturbed run writes, nothing else lies about, and the command has said
 * in words what went wrong where. A process of its own, started by {@link WritersTest}.
 */
final class Writers {
  private final Path work;

  private Writers(Path work) {
    this.work = work;
  }

  /** A command that writes, with what lies in its folder before. */
  enum Writer {
    CURVE("curve case.json --svg old.svg"),
    CARD("jobcard case.json --html old.html"),
    NEW(
        "new new.json --brake B-0417-rear --wheel rear --fluid dot-4 --complaint soft"
            + " --done bled --opened 2026-05-12"),
    ASK("ask case.json", "y\ns\n"),
    DOSSIERS(
        "justify claim.json --policy POLICY --html old.html --pdf old.pdf --letter new.html"
            + " --summary new.txt"),
    SIGNATURE("justify claim.json --policy POLICY --history old.ndjson --sign D1 --on 2026-05-20"),
    BUNDLE("justify claim.json claim-2.json --policy POLICY --out all --as json,html"),
    REVIEW("review records.ndjson --until 2026-06-30 --html old.html --rejects rejects.csv"),
    SORTED("review long.ndjson --json --rejects rejects.csv --threads 1"),
    TALLY("review records.ndjson --until 2026-06-30 --tally-out old.tally --rejects rejects.csv"),
    MERGE("review --merge given.tally --html old.html --rejects rejects.csv"),
    IMPORT("import table.csv --rejects rejects.csv"),
    EXPORT("store export jobs --store shop.db"),
    BACKUP("store backup copy.db --store shop.db");

    private final String words;
    private final String typed;

    Writer(String words) {
      this(words, "");
    }

    Writer(String words, String typed) {
      this.words = words;
      this.typed = typed;
    }
  }

  /**
   * Runs the writers {@code args[1]} and so on, or all, below the folder {@code args[0]}; a line
   * for each, and one for each find.
   */
  public static void main(String[] args) throws IOException {
    PrintStream out = System.out;
    Writers writers = new Writers(Files.createDirectories(Path.of(args[0], "work")));
    Path given = Files.createDirectories(Path.of(args[0], "given"));
    System.setProperty("java.io.tmpdir", writers.work.resolve("tmp").toString());
    writers.lay(given);
    List<Writer> asked =
        args.length == 1
            ? List.of(Writer.values())
            : Arrays.stream(args).skip(1).map(Writer::valueOf).toList();
    for (Writer each : asked) {
      out.println(writers.tried(each, given));
    }
  }

  /** Good files of all sorts. */
  private void lay(Path given) throws IOException {
    Files.createDirectories(work.resolve("tmp"));
    Files.copy(Path.of("cases/demo/soft-with-readings.json"), given.resolve("case.json"));
    layClaim("weep-and-worn-pads.json", given.resolve("claim.json"));
    layClaim("pads-worn-down.json", given.resolve("claim-2.json"));
    Files.copy(Path.of("cases/samples/lakeside-messy-week.csv"), given.resolve("table.csv"));
    for (String name : List.of("old.svg", "old.html", "old.pdf", "old.tally", "rejects.csv")) {
      Files.writeString(given.resolve(name), "what stood there");
    }
    run(
        ("justify cases/claims/weep-and-worn-pads.json --policy rules/policies/lakeside-depot.json"
                + " --sign D1 --on 2026-05-19 --history "
                + given.resolve("old.ndjson"))
            .split(" "));
    Files.writeString(
        given.resolve("records.ndjson"), Run.of("invent", "--jobs", "12", "--seed", "3").out());
    // So much of one brake that it does not stay in memory while records are sorted.
    Files.writeString(
        given.resolve("long.ndjson"),
        Run.of("invent", "--jobs", "90", "--seed", "3")
            .out()
            .replaceAll("(\"brake\": ?\\{\"id\": ?)\"[^\"]*\"", "$1\"B-1-rear\""));
    String tally = given.resolve("given.tally").toString();
    String records = given.resolve("records.ndjson").toString();
    String rejects = work.resolve("tmp/rejects").toString();
    run("review", records, "--until", "2026-06-30", "--tally-out", tally, "--rejects", rejects);
    String store = given.resolve("shop.db").toString();
    run("store", "--store", store, "import", "cases/demo/nothing-wrong.json");
  }

  /** A claim, and the papers it names. */
  private static void layClaim(String name, Path to) throws IOException {
    Path claims = Path.of("cases", "claims");
    String text = Files.readString(claims.resolve(name));
    Files.writeString(to, text);
    Path papers = Files.createDirectories(to.resolveSibling("papers"));
    try (Stream<Path> all = Files.list(claims.resolve("papers"))) {
      for (Path each : all.toList()) {
        if (text.contains(each.getFileName().toString())) {
          Files.copy(each, papers.resolve(each.getFileName().toString()));
        }
      }
    }
  }

  private static Run run(String... words) {
    Run run = Run.of(words);
    if (run.code() > 1) {
      throw new IllegalStateException(run.err());
    }
    return run;
  }

  private Run run(Writer writer) {
    System.setIn(new ByteArrayInputStream(writer.typed.getBytes(StandardCharsets.UTF_8)));
    return Run.of(
        Arrays.stream(writer.words.split(" "))
            .map(word -> word.equals("POLICY") ? "rules/policies/lakeside-depot.json" : word)
            .map(word -> word.matches("(?!policies)\\S+\\.\\w+|all|tables|jobs") ? at(word) : word)
            .toArray(String[]::new));
  }

  private String at(String word) {
    return word.contains("/") ? word : work.resolve(word).toString();
  }

  /** The folder as it is before each run. */
  private void layAnew(Path given) throws IOException {
    empty(work);
    Files.createDirectories(work.resolve("tmp"));
    try (Stream<Path> files = Files.walk(given)) {
      for (Path each : files.skip(1).toList()) {
        Files.copy(each, work.resolve(given.relativize(each).toString()));
      }
    }
  }

  private static void empty(Path folder) throws IOException {
    try (Stream<Path> below = Files.walk(folder)) {
      for (Path each : below.sorted(Comparator.reverseOrder()).toList()) {
        if (!each.equals(folder)) {
          Files.delete(each);
        }
      }
    }
  }

  /** All files, by their path, with what they hold. */
  private Map<String, String> held() throws IOException {
    Map<String, String> held = new TreeMap<>();
    try (Stream<Path> below = Files.walk(work)) {
      for (Path each : below.filter(Files::isRegularFile).toList()) {
        held.put(
            work.relativize(each).toString(),
            new String(Files.readAllBytes(each), StandardCharsets.ISO_8859_1));
      }
    }
    return held;
  }

  private String tried(Writer writer, Path given) throws IOException {
    layAnew(given);
    Map<String, String> before = held();
    Run good = run(writer);
    if (good.code() > 1) {
      throw new IllegalStateException(good.err());
    }
    Map<String, String> after = held();
    List<String> finds = new ArrayList<>();
    List<Deed> once = new ArrayList<>();
    int points = 0;
    int runs = 0;
    int old = 0;
    int fresh = 0;
    int between = 0;
    for (Kind kind : Kind.values()) {
      boolean failed = true;
      for (int nth = 1; failed; nth++) {
        if (kind == Kind.SHORT && nth <= once.size() && !Kind.differs(once.get(nth - 1))) {
          continue;
        }
        layAnew(given);
        Faults.arm(work, nth, kind);
        Run run = run(writer);
        Faults.disarm();
        failed = Faults.failed() != null;
        if (!failed) {
          points = Math.max(points, nth - 1);
          break;
        }
        runs++;
        if (kind == Kind.ONCE) {
          once.add(Faults.failed());
        }
        Map<String, String> now = held();
        Map<String, String> last = new TreeMap<>(now);
        last.keySet().removeIf(Writers::begun);
        boolean asBefore = before.equals(last);
        boolean asAfter = after.equals(last);
        old += asBefore && !asAfter ? 1 : 0;
        fresh += asAfter ? 1 : 0;
        between += asBefore || asAfter ? 0 : 1;
        for (String find : wrong(run, good.code(), before, after, now, kind)) {
          finds.add(writer + ", " + kind + " at " + nth + " (" + Faults.failed() + "): " + find);
        }
      }
    }
    return String.format(
            "%s: %d points, %d runs: %d left all as before, %d wrote all, %d wrote some files, each"
                + " whole; %d finds",
            writer, points, runs, old, fresh, between, finds.size())
        + finds.stream().map(find -> "\n    " + find).reduce("", String::concat);
  }

  /**
   * Whether what tells of a run in which one input could not be read is whole: it says other things
   * than that of an undisturbed run, and ends as that does; a table with a line.
   */
  private static boolean endsAlike(String told, String whole) {
    return whole != null
        && whole.startsWith(told.substring(0, 8))
        && told.endsWith(whole.substring(whole.length() - (whole.startsWith("file") ? 1 : 2)));
  }

  private boolean isTally(String name) {
    try {
      return name.endsWith(".tally") && TallyFile.read(work.resolve(name)).digest() != null;
    } catch (BadInput e) {
      return false;
    }
  }

  /** Whether it is named as what is written beside its place first, or as what is in between. */
  private static boolean begun(String name) {
    return name.matches(".*(\\.firmlever-[^/]*|\\.spill)");
  }

  private List<String> wrong(
      Run run,
      int undisturbed,
      Map<String, String> before,
      Map<String, String> after,
      Map<String, String> now,
      Kind kind) {
    List<String> wrong = new ArrayList<>();
    for (Map.Entry<String, String> each : before.entrySet()) {
      if (!now.containsKey(each.getKey())) {
        wrong.add(each.getKey() + " is gone");
      }
    }
    for (Map.Entry<String, String> each : now.entrySet()) {
      String name = each.getKey();
      boolean whole =
          each.getValue().equals(before.get(name))
              || each.getValue().equals(after.get(name))
              || run.code() > 0 && (endsAlike(each.getValue(), after.get(name)) || isTally(name));
      // Where deleting fails too, what was begun may stay, and is told by its name.
      boolean mayStay = kind == Kind.ONWARD && begun(name);
      if (!whole && !mayStay) {
        wrong.add(name + " holds something else: " + each.getValue().length() + " bytes");
      }
    }
    if (run.code() == 0 && !now.equals(after)) {
      wrong.add("ends with 0, and not all is written; " + run.err());
    }
    if (run.code() > 1 && !run.err().contains(work.toString())) {
      wrong.add("does not say where: " + run.err());
    }
    if (run.err().matches("(?s).*(Exception|fault of its own|\tat |null).*")) {
      wrong.add("speaks of its own innards: " + run.err());
    }
    if (run.code() != undisturbed && run.err().isBlank()) {
      wrong.add("ends with " + run.code() + " without a word");
    }
    return wrong;
  }
}
