package firmlever.records;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Tally;
import firmlever.comeback.report.ReviewTables;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import firmlever.comeback.visits.Definition;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
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
public final class ReviewRun {
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

  public ReviewRun(
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

  public Tally run(int threads) throws IOException {
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
      if (e.getCause() instanceof Spill.Broken broken) {
        throw broken;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
  }

  private void review(int part, Tally tally) {
    Map<String, List<Spill.Raw>> brakes = new TreeMap<>();
    for (Spill.Raw raw : spill.part(part)) {
      brakes.computeIfAbsent(Spill.place(raw.brake()), id -> new ArrayList<>()).add(raw);
    }
    StringBuilder table = new StringBuilder();
    BrakeRecords records =
        new BrakeRecords(
            reader,
            listen,
            review,
            batch.reach().range(),
            definition.end(),
            rejects,
            tally,
            (files, comebacks) -> {
              backtest.ifPresent(trial -> trial.add(files));
              changes.forEach(series -> series.add(files, comebacks));
              if (rows.isPresent()) {
                comebacks.forEach(c -> table.append(ReviewTables.comeback(c)));
              }
            });
    for (List<Spill.Raw> visits : brakes.values()) {
      for (Spill.Raw raw : visits) {
        records.add(
            raw.brake(), new BrakeRecords.Told(batch.file(raw.file()), raw.line(), raw.text()));
      }
    }
    records.end();
    if (rows.isPresent()) {
      synchronized (rows.get()) {
        rows.get()
            .add(part, new Spill.Raw(0, 1, "", table.toString().getBytes(StandardCharsets.UTF_8)));
      }
    }
  }
}
