package firmlever.cli.review;

import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Listener;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.Terminal;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Costs;
import firmlever.comeback.Findings;
import firmlever.comeback.Learning;
import firmlever.comeback.Proposal;
import firmlever.comeback.Tally;
import firmlever.comeback.report.ReviewInput;
import firmlever.comeback.report.ReviewJson;
import firmlever.comeback.report.ReviewTables;
import firmlever.comeback.report.ReviewText;
import firmlever.comeback.report.page.ReviewPage;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import firmlever.comeback.visits.Definition;
import firmlever.document.BadInput;
import firmlever.document.CalendarDay;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.records.Batch;
import firmlever.records.CaseFolder;
import firmlever.records.Counted;
import firmlever.records.Rejects;
import firmlever.records.ReviewRun;
import firmlever.records.Spill;
import firmlever.records.TallyFile;
import firmlever.records.tables.CaseNames;
import firmlever.records.tables.CsvMapping;
import firmlever.sheet.CsvRow;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import picocli.CommandLine;

/** What the review reads and writes. */
final class ReviewShell {
  private final ReviewOptions asked;
  private final CommandLine line;
  private final PrintWriter out;
  private final PrintWriter err;

  private final Optional<Elsewhere.Machines> machines;
  private boolean keepsPersons;
  private boolean codedOnly;

  /**
   * @param line what was typed, and where results and notes go
   */
  ReviewShell(ReviewOptions asked, CommandLine line, Optional<Elsewhere.Machines> machines) {
    this.asked = asked;
    this.line = line;
    this.machines = machines;
    this.keepsPersons = asked.tallyOut.isEmpty() || asked.withTechnicians;
    this.codedOnly = asked.listening.codedOnly();
    this.out = line.getOut();
    this.err = line.getErr();
  }

  int run() throws BadInput, IOException {
    checkUsage();
    List<Path> files =
        asked.merge ? CaseFolder.files(asked.files, List.of(".tally")) : Batch.paths(asked.files);
    checkOutputs(files);
    if (asked.merge) {
      return merged(files);
    }
    return machines.isPresent() ? elsewhere(files) : here(files);
  }

  /** Reads and reviews on this machine. */
  private int here(List<Path> files) throws BadInput, IOException {
    Engine engine = Engine.start(asked.shop);
    Optional<CsvMapping> mapping =
        asked.mapping.isEmpty()
            ? Optional.empty()
            : Optional.of(
                CsvMapping.read(
                    CaseFolder.path(asked.mapping),
                    asked.mapping,
                    new CaseNames(engine.vocabulary())));
    Rejects rejects = new Rejects();
    try (Spill spill = Spill.create();
        Spill rows = Spill.create()) {
      Batch batch = new Batch(spill, rejects, engine.reader(), mapping);
      batch.read(files, asked.files);
      Batch.tellUnread(asked.files, rejects);
      if (!asked.store.isEmpty()) {
        StoreRecords.each(CaseFolder.path(asked.store), batch::read);
      }
      LocalDate end =
          asked.until.isEmpty() ? batch.reach().end() : CalendarDay.of(asked.until).orElseThrow();
      Definition definition = new Definition(asked.days[0], asked.days[1], end);
      BrakeReview review = review(engine, definition, asked.comebackMinutes);
      LocalDate first = batch.reach().range().first();
      Optional<Backtest> backtest =
          asked.backtest ? Optional.of(review.backtest(first)) : Optional.empty();
      List<ChangeSeries> changes = new ArrayList<>();
      for (String change : asked.changes) {
        changes.add(new ChangeSeries(change(change), definition, first, engine.vocabulary()));
      }
      Listener listener = new Listener(engine, asked.listening);
      Tally tally =
          new ReviewRun(
                  spill,
                  batch,
                  rejects,
                  engine.reader(),
                  file -> listener.apply(keepsPersons ? file : file.withoutPersons()),
                  review,
                  definition,
                  asked.csv.isEmpty() ? Optional.empty() : Optional.of(rows),
                  backtest,
                  changes,
                  new Progress(batch.records()))
              .run(asked.threads == 0 ? Runtime.getRuntime().availableProcessors() : asked.threads);
      return end(
          engine,
          definition,
          asked.comebackMinutes,
          new Counted(tally, rejects, batch.records(), listener.heard(), listener.unheard()),
          () ->
              new Findings.Asked(
                  learning(engine, tally),
                  backtest.map(Backtest::result),
                  changes.stream().map(ChangeSeries::effect).toList()),
          Optional.of(
              table -> {
                for (int part = 0; part < Spill.PARTS; part++) {
                  for (Spill.Raw raw : rows.part(part)) {
                    table.write(raw.text());
                  }
                }
              }));
    }
  }

  /** Has other machines read and review. */
  private int elsewhere(List<Path> paths) throws BadInput, IOException {
    Rejects unread = new Rejects();
    List<String> files = Elsewhere.files(paths, asked.files, unread);
    Batch.tellUnread(asked.files, unread);
    Engine engine = Engine.start(asked.shop);
    Elsewhere.Result result =
        machines
            .orElseThrow()
            .review(
                new Elsewhere.Settings(
                    asked.days[0],
                    asked.days[1],
                    asked.until,
                    asked.comebackMinutes,
                    asked.listening.codedOnly(),
                    asked.shop.folder().map(Path::toString).orElse(""),
                    keepsPersons,
                    !asked.csv.isEmpty()),
                files);
    Counted counted = Elsewhere.counted(result.counted());
    counted.rejects.merge(unread.counts(), unread.listed());
    return end(
        engine,
        new Definition(asked.days[0], asked.days[1], result.end()),
        asked.comebackMinutes,
        counted,
        () -> new Findings.Asked(learning(engine, counted.tally), Optional.empty(), List.of()),
        Optional.of(result.rows()::to));
  }

  /** Reviews what was counted before. */
  private int merged(List<Path> files) throws BadInput, IOException {
    Engine engine = Engine.start(asked.shop);
    Counted counted = new Counted();
    Optional<TallyFile.Conditions> common = Optional.empty();
    Map<String, Path> seen = new HashMap<>();
    for (Path file : files) {
      TallyFile.Content content = TallyFile.read(file);
      TallyFile.Conditions conditions = content.conditions();
      if (!conditions.rules().equals(engine.rules().digest())) {
        throw usage(
            file.toString(),
            "was counted by other rules than those of this program",
            "Maybe use the same version of firmlever and the same --rules everywhere.");
      }
      String difference = common.map(conditions::differenceFrom).orElse("");
      if (!difference.isEmpty()) {
        throw usage(
            file.toString(),
            "was not counted as " + files.get(0) + " was: " + difference,
            "Maybe count it again with the same options.");
      }
      Path same = seen.put(content.digest(), file);
      if (same != null) {
        throw usage(file.toString(), "holds the very same as " + same, "Maybe name it once.");
      }
      common = Optional.of(conditions);
      counted.merge(content.counted());
    }
    TallyFile.Conditions conditions = common.orElseThrow();
    keepsPersons = conditions.persons();
    codedOnly = conditions.codedOnly();
    return end(
        engine,
        new Definition(conditions.shortDays(), conditions.longDays(), conditions.end()),
        conditions.comebackMinutes(),
        counted,
        () -> new Findings.Asked(learning(engine, counted.tally), Optional.empty(), List.of()),
        Optional.empty());
  }

  private BrakeReview review(Engine engine, Definition definition, int comebackMinutes) {
    return new BrakeReview(
        engine.diagnostician(),
        engine.vocabulary(),
        definition,
        new Costs(comebackMinutes, asked.hourlyRate, asked.comebackParts));
  }

  private Optional<Learning> learning(Engine engine, Tally tally) throws BadInput {
    return asked.propose.isEmpty()
        ? Optional.empty()
        : Optional.of(Learning.from(tally, engine.diagnostician(), tests(engine)));
  }

  /** What is asked for beside, drawn only where the tally is good for conclusions. */
  private interface Beside {
    Findings.Asked drawn() throws BadInput;
  }

  /** Draws the conclusions once, or keeps the tally for later. */
  private int end(
      Engine engine,
      Definition definition,
      int comebackMinutes,
      Counted counted,
      Beside beside,
      Optional<WholeFile.Content> rows)
      throws BadInput, IOException {
    if (counted.tally.isEmpty()) {
      writeRejects(counted.rejects);
      err.println("None of " + counted.records() + " records could be used.");
      return Exit.BAD_INPUT;
    }
    if (!asked.tallyOut.isEmpty()) {
      writeFile(
          Path.of(asked.tallyOut),
          file ->
              TallyFile.write(
                  file,
                  new TallyFile.Conditions(
                      engine.rules().digest(),
                      definition.shortDays(),
                      definition.longDays(),
                      definition.end(),
                      comebackMinutes,
                      codedOnly,
                      keepsPersons),
                  counted));
      out.println(
          asked.tallyOut
              + ": the tally of "
              + counted.records()
              + " records, "
              + counted.rejects.count()
              + " of them rejected, until "
              + definition.end());
      out.flush();
    } else {
      Findings.Asked drawn = beside.drawn();
      Findings found = review(engine, definition, comebackMinutes).conclude(counted.tally, drawn);
      ReviewInput input =
          new ReviewInput(
              counted.records(),
              counted.rejects.count(),
              counted.rejects.count(Rejects.Kind.SKIPPED),
              counted.rejects.count(Rejects.Kind.REVIEWED_WITH_REMARK),
              counted.rejects.count(Rejects.Kind.FILE_NOT_READ),
              counted.heard(),
              counted.unheard());
      write(found, input, engine);
      writeTables(found, rows);
      if (drawn.learning().isPresent()) {
        for (Map.Entry<String, String> file : Proposal.files(drawn.learning().get()).entrySet()) {
          writeFile(Path.of(asked.propose, file.getKey()), file.getValue());
        }
      }
    }
    writeRejects(counted.rejects);
    return counted.rejects.count() == 0 ? Exit.DONE : Exit.FAILED;
  }

  private void checkUsage() throws BadInput {
    if (asked.files.isEmpty() && asked.store.isEmpty()) {
      throw usage("review", "needs case files or folders of them, or --store FILE");
    }
    if (asked.bench && asked.store.isEmpty()) {
      throw usage("--bench", "needs the bench's store: --store FILE");
    }
    checkTallies();
    if (!asked.store.isEmpty() && !Files.isReadable(CaseFolder.path(asked.store))) {
      throw usage("--store", "there is no such file to read");
    }
    if (asked.days.length != 2 || asked.days[0] < 1 || asked.days[1] <= asked.days[0]) {
      throw usage("--days", "needs two numbers of days that ascend, such as 30,90");
    }
    if (!asked.until.isEmpty() && CalendarDay.of(asked.until).isEmpty()) {
      throw usage("--until", "needs a day of the calendar such as 2026-05-12");
    }
    for (String change : asked.changes) {
      change(change);
    }
    if (asked.comebackMinutes < 0 || asked.hourlyRate < 0 || asked.comebackParts < 0) {
      throw usage("--comeback-minutes, --hourly-rate, --comeback-parts", "must not be below 0");
    }
    if (asked.threads < 0 || asked.threads > 256) {
      throw usage("--threads", "must lie between 1 and 256");
    }
  }

  /** What goes with a tally: it holds what is counted brake by brake, and no table of all. */
  private void checkTallies() throws BadInput {
    if (asked.merge) {
      refuse(
          "--merge",
          "the tallies say it, or do not hold what it needs",
          "--store",
          "--days",
          "--until",
          "--comeback-minutes",
          "--coded-only",
          "--with-technicians",
          "--mapping",
          "--backtest",
          "--change",
          "--threads");
      if (WholeFile.mayExist(Path.of(asked.csv, "comebacks.csv")) && !asked.csv.isEmpty()) {
        throw usage(
            Path.of(asked.csv, "comebacks.csv").toString(),
            "is there from another run, and tallies do not hold what stands in it",
            "Maybe name another folder.");
      }
    }
    if (!asked.tallyOut.isEmpty()) {
      refuse(
          "--tally-out",
          "it counts only, for a review by --merge later",
          "--html",
          "--json",
          "--csv",
          "--propose",
          "--backtest",
          "--change");
      if (asked.until.isEmpty() && !asked.merge) {
        throw usage("--tally-out", "needs --until DAY, the same day for all that will be merged");
      }
    } else if (asked.withTechnicians) {
      throw usage("--with-technicians", "says what a tally holds, and needs --tally-out FILE");
    }
    if (machines.isPresent()) {
      refuse(
          "many machines",
          "only one machine has all that it needs",
          "--store",
          "--mapping",
          "--backtest",
          "--change",
          "--threads",
          "--merge");
    }
  }

  private void refuse(String with, String why, String... options) throws BadInput {
    for (String option : options) {
      if (line.getParseResult().hasMatchedOption(option)) {
        throw usage(option, "does not go with " + with + ": " + why);
      }
    }
  }

  /** The day, and what was changed: {@code 2026-03-01=second pair of eyes}. */
  private static ChangeSeries.Change change(String text) throws BadInput {
    int equals = text.indexOf('=');
    Optional<LocalDate> day = CalendarDay.of(text.substring(0, Math.max(0, equals)).strip());
    String words = text.substring(equals + 1).strip();
    if (equals < 0 || day.isEmpty() || words.isEmpty()) {
      throw usage("--change", "needs a day and words, such as 2026-03-01=new bleed kit");
    }
    return new ChangeSeries.Change(day.get(), words);
  }

  private void checkOutputs(List<Path> files) throws BadInput {
    List<Path> read = new ArrayList<>(files);
    for (String each : asked.files) {
      read.add(CaseFolder.path(each));
    }
    if (!asked.store.isEmpty()) {
      read.add(CaseFolder.path(asked.store));
    }
    if (!asked.mapping.isEmpty()) {
      read.add(CaseFolder.path(asked.mapping));
    }
    if (!asked.propose.isEmpty()) {
      read.addAll(testFiles());
    }
    new Outputs()
        .reading(read)
        .reading(asked.shop)
        .file(asked.html)
        .file(asked.rejects)
        .file(asked.tallyOut)
        .folder(asked.csv)
        .folder(asked.propose)
        .check();
  }

  private List<Path> testFiles() throws BadInput {
    Path folder = CaseFolder.path(asked.cases);
    return Files.isDirectory(folder) ? CaseFolder.below(folder) : List.of();
  }

  private static BadInput usage(String option, String message) {
    return usage(option, message, "");
  }

  private static BadInput usage(String place, String message, String maybe) {
    return new BadInput(List.of(Problem.ofFile(place, message, maybe)));
  }

  /** Tells on standard error how far the review has come, in place where that is a terminal. */
  private final class Progress implements java.util.function.Consumer<Integer> {
    private final AtomicInteger done = new AtomicInteger();
    private final boolean terminal = Boolean.getBoolean("firmlever.terminal");
    private final long records;

    Progress(long records) {
      this.records = records;
    }

    @Override
    public void accept(Integer part) {
      int parts = done.incrementAndGet();
      if (terminal || parts % 64 == 0) {
        int tenths = 20 * parts / Spill.PARTS;
        err.print(
            (terminal ? "\r" : "")
                + "["
                + "#".repeat(tenths)
                + ".".repeat(20 - tenths)
                + "] about "
                + records * parts / Spill.PARTS
                + " of "
                + records
                + " records"
                + (terminal && parts < Spill.PARTS ? "" : "\n"));
        err.flush();
      }
    }
  }

  private List<CaseFile> tests(Engine engine) throws BadInput {
    List<CaseFile> tests = new ArrayList<>();
    for (Path file : testFiles()) {
      tests.add(engine.reader().read(file, file.toString()));
    }
    return tests;
  }

  private void write(Findings found, ReviewInput input, Engine engine)
      throws BadInput, IOException {
    if (asked.json) {
      out.println(ReviewJson.of(found, input));
    } else {
      out.print(
          new ReviewText(engine.vocabulary(), Terminal.width(), Terminal.bold()).of(found, input));
    }
    out.flush();
    if (!asked.html.isEmpty()) {
      writeFile(Path.of(asked.html), ReviewPage.of(found, input, engine.vocabulary()));
    }
    if (asked.bench) {
      StoreRecords.keepReview(
          CaseFolder.path(asked.store), ReviewPage.of(found, input, engine.vocabulary(), "/jobs/"));
    }
  }

  private void writeTables(Findings found, Optional<WholeFile.Content> rows)
      throws BadInput, IOException {
    if (asked.csv.isEmpty()) {
      return;
    }
    Path folder = Path.of(asked.csv);
    for (Map.Entry<String, String> table : ReviewTables.of(found).entrySet()) {
      writeFile(folder.resolve(table.getKey()), table.getValue());
    }
    if (rows.isEmpty()) {
      err.println("comebacks.csv is not written: tallies do not hold every comeback.");
      return;
    }
    // As long as there are comebacks: written as it is read, never held.
    writeFile(
        folder.resolve("comebacks.csv"),
        table -> {
          table.write(ReviewTables.comebackHead().getBytes(StandardCharsets.UTF_8));
          rows.get().to(table);
        });
  }

  private void writeRejects(Rejects rejects) throws BadInput, IOException {
    if (rejects.listed().isEmpty() && !WholeFile.mayExist(Path.of(asked.rejects))) {
      return;
    }
    // Where nothing was rejected, what an earlier run left there would speak of this one.
    StringBuilder text = new StringBuilder(CsvRow.of("file", "line", "what", "reason"));
    for (Rejects.Reject each : rejects.listed()) {
      text.append(CsvRow.of(each.file(), each.line(), each.kind().id(), each.reason()));
    }
    writeFile(Path.of(asked.rejects), text.toString());
    if (rejects.listed().isEmpty()) {
      return;
    }
    long all = Arrays.stream(Rejects.Kind.values()).mapToLong(rejects::count).sum();
    err.println(
        "Records rejected: "
            + rejects.count()
            + "; skipped: "
            + rejects.count(Rejects.Kind.SKIPPED)
            + "; reviewed, but not wholly as they stand: "
            + rejects.count(Rejects.Kind.REVIEWED_WITH_REMARK)
            + "; files not read: "
            + rejects.count(Rejects.Kind.FILE_NOT_READ)
            + ". "
            + (rejects.listed().size() < all ? "The first " + rejects.listed().size() : "They")
            + " stand with their reasons in "
            + asked.rejects
            + ".");
  }

  private static void writeFile(Path path, String text) throws BadInput, IOException {
    writeFile(path, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
  }

  /** The folder is made where it is missing: a long run is not thrown away for that. */
  private static void writeFile(Path path, WholeFile.Content content) throws BadInput, IOException {
    Path folder = path.toAbsolutePath().getParent();
    if (folder != null && !Files.isDirectory(folder)) {
      try {
        Files.createDirectories(folder);
      } catch (IOException e) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    folder.toString(), "cannot be made a folder: " + WholeFile.reason(e), "")));
      }
    }
    WholeFile.write(path, content);
  }
}
