package firmlever.cli;

import firmlever.casefile.CaseFile;
import firmlever.comeback.Backtest;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.ChangeSeries;
import firmlever.comeback.Costs;
import firmlever.comeback.Definition;
import firmlever.comeback.Findings;
import firmlever.comeback.Learning;
import firmlever.comeback.Proposal;
import firmlever.comeback.Tally;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.document.Shape;
import firmlever.report.ReviewInput;
import firmlever.report.ReviewJson;
import firmlever.report.ReviewPage;
import firmlever.report.ReviewTables;
import firmlever.report.ReviewText;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;

/** What the review reads and writes. */
final class ReviewShell {
  private final ReviewCommand asked;
  private final PrintWriter out;
  private final PrintWriter err;

  ReviewShell(ReviewCommand asked) {
    this.asked = asked;
    this.out = asked.spec.commandLine().getOut();
    this.err = asked.spec.commandLine().getErr();
  }

  int run() throws BadInput, IOException {
    checkUsage();
    List<Path> files = Batch.paths(asked.files);
    checkOutputs(files);
    Optional<CsvMapping> mapping =
        asked.mapping.isEmpty()
            ? Optional.empty()
            : Optional.of(CsvMapping.read(CaseFolder.path(asked.mapping), asked.mapping));
    Engine engine = Engine.start(asked.shop);
    Rejects rejects = new Rejects();
    try (Spill spill = Spill.create();
        Spill rows = Spill.create()) {
      Batch batch = new Batch(spill, rejects, engine.reader(), mapping);
      batch.read(files, asked.files);
      batch.tellUnread(asked.files);
      if (!asked.store.isEmpty()) {
        StoreRecords.each(CaseFolder.path(asked.store), batch::read);
      }
      LocalDate end = asked.until.isEmpty() ? batch.end() : Shape.day(asked.until).orElseThrow();
      Definition definition = new Definition(asked.days[0], asked.days[1], end);
      BrakeReview review =
          new BrakeReview(
              engine.diagnostician(),
              engine.vocabulary(),
              definition,
              new Costs(asked.comebackMinutes, asked.hourlyRate, asked.comebackParts));
      Optional<Backtest> backtest =
          asked.backtest ? Optional.of(review.backtest(batch.range().first())) : Optional.empty();
      List<ChangeSeries> changes = new ArrayList<>();
      for (String change : asked.changes) {
        changes.add(
            new ChangeSeries(
                change(change), definition, batch.range().first(), engine.vocabulary()));
      }
      Listener listener = new Listener(engine, asked.listening);
      Tally tally =
          new ReviewRun(
                  spill,
                  batch,
                  rejects,
                  engine.reader(),
                  listener,
                  review,
                  definition,
                  asked.csv.isEmpty() ? Optional.empty() : Optional.of(rows),
                  backtest,
                  changes,
                  new Progress(batch.records()))
              .run(asked.threads == 0 ? Runtime.getRuntime().availableProcessors() : asked.threads);
      if (tally.isEmpty()) {
        writeRejects(rejects);
        err.println("None of " + batch.records() + " records could be used.");
        return Exit.BAD_INPUT;
      }
      Optional<Learning> learning =
          asked.propose.isEmpty()
              ? Optional.empty()
              : Optional.of(Learning.from(tally, engine.diagnostician(), tests(engine)));
      Findings found =
          review.conclude(
              tally,
              new Findings.Asked(
                  learning,
                  backtest.map(Backtest::result),
                  changes.stream().map(ChangeSeries::effect).toList()));
      ReviewInput input =
          new ReviewInput(
              batch.records(),
              rejects.count(),
              rejects.count(Rejects.Kind.SKIPPED),
              rejects.count(Rejects.Kind.REVIEWED_WITH_REMARK),
              rejects.count(Rejects.Kind.FILE_NOT_READ),
              listener.heard(),
              listener.unheard());
      write(found, input, engine);
      writeTables(found, rows);
      if (learning.isPresent()) {
        for (Map.Entry<String, String> file : Proposal.files(learning.get()).entrySet()) {
          writeFile(Path.of(asked.propose, file.getKey()), file.getValue());
        }
      }
      writeRejects(rejects);
    }
    return rejects.count() == 0 ? Exit.DONE : Exit.FAILED;
  }

  private void checkUsage() throws BadInput {
    if (asked.files.isEmpty() && asked.store.isEmpty()) {
      throw usage("review", "needs case files or folders of them, or --store FILE");
    }
    if (asked.bench && asked.store.isEmpty()) {
      throw usage("--bench", "needs the bench's store: --store FILE");
    }
    if (!asked.store.isEmpty() && !Files.isReadable(CaseFolder.path(asked.store))) {
      throw usage("--store", "there is no such file to read");
    }
    if (asked.days.length != 2 || asked.days[0] < 1 || asked.days[1] <= asked.days[0]) {
      throw usage("--days", "needs two numbers of days that ascend, such as 30,90");
    }
    if (!asked.until.isEmpty() && Shape.day(asked.until).isEmpty()) {
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

  /** The day, and what was changed: {@code 2026-03-01=second pair of eyes}. */
  private static ChangeSeries.Change change(String text) throws BadInput {
    int equals = text.indexOf('=');
    Optional<LocalDate> day = Shape.day(text.substring(0, Math.max(0, equals)).strip());
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
        .folder(asked.csv)
        .folder(asked.propose)
        .check();
  }

  private List<Path> testFiles() throws BadInput {
    Path folder = CaseFolder.path(asked.cases);
    return Files.isDirectory(folder) ? CaseFolder.below(folder) : List.of();
  }

  private static BadInput usage(String option, String message) {
    return new BadInput(List.of(Problem.ofFile(option, message, "")));
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

  private void writeTables(Findings found, Spill rows) throws BadInput, IOException {
    if (asked.csv.isEmpty()) {
      return;
    }
    Path folder = Path.of(asked.csv);
    for (Map.Entry<String, String> table : ReviewTables.of(found).entrySet()) {
      writeFile(folder.resolve(table.getKey()), table.getValue());
    }
    // As long as there are comebacks: written as it is read, never held.
    writeFile(
        folder.resolve("comebacks.csv"),
        out -> {
          out.write(ReviewTables.comebackHead().getBytes(StandardCharsets.UTF_8));
          for (int part = 0; part < Spill.PARTS; part++) {
            for (Spill.Raw raw : rows.part(part)) {
              out.write(raw.text());
            }
          }
        });
  }

  private void writeRejects(Rejects rejects) throws BadInput, IOException {
    if (rejects.listed().isEmpty() && !Files.exists(Path.of(asked.rejects))) {
      return;
    }
    // Where nothing was rejected, what an earlier run left there would speak of this one.
    StringBuilder text = new StringBuilder(ReviewTables.row("file", "line", "what", "reason"));
    for (Rejects.Reject each : rejects.listed()) {
      text.append(ReviewTables.row(each.file(), each.line(), each.kind().id(), each.reason()));
    }
    writeFile(Path.of(asked.rejects), text.toString());
    if (rejects.listed().isEmpty()) {
      return;
    }
    long all = Arrays.stream(Rejects.Kind.values()).mapToLong(rejects::count).sum();
    err.println(
        rejects.count()
            + " records were rejected, "
            + rejects.count(Rejects.Kind.SKIPPED)
            + " skipped, "
            + rejects.count(Rejects.Kind.REVIEWED_WITH_REMARK)
            + " reviewed with a remark, "
            + rejects.count(Rejects.Kind.FILE_NOT_READ)
            + " files not read; "
            + (rejects.listed().size() < all ? "the first " + rejects.listed().size() : "they")
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
