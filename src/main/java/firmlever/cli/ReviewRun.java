package firmlever.cli;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.Backtest;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.ChangeSeries;
import firmlever.comeback.Comeback;
import firmlever.comeback.Definition;
import firmlever.comeback.Tally;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.report.ReviewTables;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;

/**
 * Reviews the parts of a spill with several threads; the result does not depend on how many. Where
 * a second spill is given, it takes each part's comebacks as rows of a table.
 */
final class ReviewRun {
  private final Spill spill;
  private final Batch batch;
  private final Rejects rejects;
  private final CaseReader reader;
  private final UnaryOperator<CaseFile> listen;
  private final BrakeReview review;
  private final Optional<Spill> rows;
  private final Consumer<Integer> progress;
  private final Definition definition;
  private final Optional<Backtest> backtest;
  private final List<ChangeSeries> changes;

  ReviewRun(
      Spill spill,
      Batch batch,
      Rejects rejects,
      CaseReader reader,
      UnaryOperator<CaseFile> listen,
      BrakeReview review,
      Definition definition,
      Optional<Spill> rows,
      Optional<Backtest> backtest,
      List<ChangeSeries> changes,
      Consumer<Integer> progress) {
    this.spill = spill;
    this.batch = batch;
    this.rejects = rejects;
    this.reader = reader;
    this.listen = listen;
    this.review = review;
    this.definition = definition;
    this.rows = rows;
    this.backtest = backtest;
    this.changes = changes;
    this.progress = progress;
  }

  Tally run(int threads) throws IOException {
    AtomicInteger next = new AtomicInteger();
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      List<Future<Tally>> futures = new ArrayList<>();
      for (int i = 0; i < threads; i++) {
        futures.add(
            pool.submit(
                () -> {
                  Tally tally = new Tally();
                  for (int part; (part = next.getAndIncrement()) < Spill.PARTS; ) {
                    review(part, tally);
                    progress.accept(part + 1);
                  }
                  return tally;
                }));
      }
      Tally whole = new Tally();
      for (Future<Tally> future : futures) {
        whole.merge(future.get());
      }
      return whole;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("the review was interrupted", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException broken) {
        throw broken;
      }
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }

  private record Read(Spill.Raw raw, CaseFile file) {}

  private void review(int part, Tally tally) {
    Map<String, List<Spill.Raw>> brakes = new TreeMap<>();
    for (Spill.Raw raw : spill.part(part)) {
      brakes.computeIfAbsent(raw.brake(), id -> new ArrayList<>()).add(raw);
    }
    StringBuilder table = new StringBuilder();
    for (List<Spill.Raw> records : brakes.values()) {
      // One brake at a time: all the others of the part are held as bytes only.
      for (Comeback comeback : reviewed(remarked(once(dated(read(records)))), tally)) {
        rows.ifPresent(r -> table.append(ReviewTables.comeback(comeback)));
      }
    }
    if (rows.isPresent()) {
      synchronized (rows.get()) {
        rows.get()
            .add(part, new Spill.Raw(0, 1, "", table.toString().getBytes(StandardCharsets.UTF_8)));
      }
    }
  }

  /** The comebacks of one brake; a record that cannot be reviewed is rejected alone. */
  private List<Comeback> reviewed(List<Read> visits, Tally tally) {
    if (visits.isEmpty()) {
      return List.of();
    }
    try {
      List<CaseFile> files = visits.stream().map(Read::file).toList();
      List<Comeback> comebacks = review.review(files, tally);
      backtest.ifPresent(trial -> trial.add(files));
      changes.forEach(series -> series.add(files, comebacks));
      return comebacks;
    } catch (RuntimeException | StackOverflowError e) {
      List<Read> good = visits.stream().filter(this::canBeReviewed).toList();
      if (good.size() < visits.size()) {
        return reviewed(good, tally);
      }
      visits.forEach(visit -> reject(visit, "cannot be reviewed with the others of its brake"));
      return List.of();
    }
  }

  private boolean canBeReviewed(Read visit) {
    List<Problem> problems =
        Failures.of(
            batch.file(visit.raw.file()), () -> review.review(List.of(visit.file), new Tally()));
    if (problems.isEmpty()) {
      return true;
    }
    rejects.add(batch.file(visit.raw.file()), visit.raw.line(), new BadInput(problems));
    return false;
  }

  private void reject(Read record, String reason) {
    rejects.add(batch.file(record.raw.file()), record.raw.line(), reason);
  }

  private List<Read> read(List<Spill.Raw> records) {
    List<Read> read = new ArrayList<>();
    for (Spill.Raw raw : records) {
      String name = batch.file(raw.file());
      try {
        read.add(
            new Read(raw, listen.apply(reader.read(DocumentReader.read(raw.text(), name), name))));
      } catch (BadInput e) {
        rejects.add(name, raw.line(), e);
      }
    }
    return read;
  }

  /** The cases whose days can be believed and lie within the data. */
  private List<Read> dated(List<Read> records) {
    List<Read> good = new ArrayList<>();
    for (Read record : records) {
      LocalDate opened = record.file.opened();
      LocalDate closed = closed(record.file);
      if (!batch.range().contains(opened)) {
        reject(record, "opened on " + opened + ", more than a year away from nearly all others");
      } else if (closed.isAfter(opened.plusDays(Batch.LONGEST_STAY))) {
        reject(record, "opened on " + opened + " and closed on " + closed + ", over a year later");
      } else if (opened.isAfter(definition.end())) {
        remark(record, Rejects.Kind.SKIPPED, "opened after " + definition.end());
      } else {
        good.add(record);
      }
    }
    return good;
  }

  private static LocalDate closed(CaseFile file) {
    return file.outcome().flatMap(CaseFile.Outcome::closed).orElse(file.opened());
  }

  /** The same cases; tells of those that overlap or were not finished. */
  private List<Read> remarked(List<Read> records) {
    List<Read> byTime = new ArrayList<>(records);
    byTime.sort(Comparator.comparing((Read r) -> r.file.opened()).thenComparing(r -> r.file.id()));
    LocalDate back = LocalDate.MIN;
    for (Read record : byTime) {
      LocalDate closed = closed(record.file);
      if (record.file.opened().isBefore(back)) {
        remark(
            record,
            Rejects.Kind.REVIEWED_WITH_REMARK,
            "opened before this brake had gone back on " + back + ": no return from that visit");
      }
      if (closed.isAfter(definition.end())) {
        remark(
            record,
            Rejects.Kind.REVIEWED_WITH_REMARK,
            "went back on " + closed + ", after " + definition.end() + ": taken as still here");
      }
      back = closed.isAfter(back) ? closed : back;
    }
    return records;
  }

  private void remark(Read record, Rejects.Kind kind, String reason) {
    rejects.add(batch.file(record.raw.file()), record.raw.line(), kind, reason);
  }

  /** The cases without those told twice; which of two stays depends on what they say. */
  private List<Read> once(List<Read> records) {
    records.sort(
        Comparator.comparing((Read r) -> r.file.id())
            .thenComparing(r -> r.raw.text(), Arrays::compare)
            .thenComparing(r -> batch.file(r.raw.file()))
            .thenComparing(r -> r.raw.line()));
    List<Read> cases = new ArrayList<>();
    String last = "";
    for (Read record : records) {
      if (record.file.id().equals(last)) {
        reject(record, "case " + last + " of this brake is there twice");
      } else {
        cases.add(record);
        last = record.file.id();
      }
    }
    return cases;
  }
}
