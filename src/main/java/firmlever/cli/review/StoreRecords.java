package firmlever.cli.review;

import firmlever.bench.BenchApp;
import firmlever.store.JobStore;
import firmlever.store.SqliteStore;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.function.BiConsumer;

/** The jobs of a store as records, for commands that otherwise read files. */
final class StoreRecords {
  private StoreRecords() {}

  /** Hands over the name and the text of each case, named as an export would name its file. */
  static void each(Path store, BiConsumer<String, byte[]> reader) {
    try (JobStore jobs = SqliteStore.open(store)) {
      jobs.each(
          job ->
              reader.accept(
                  job.heading().id() + ".json",
                  job.content().caseText().getBytes(StandardCharsets.UTF_8)));
    }
  }

  /** Keeps the page of a review where the bench finds it. */
  static void keepReview(Path store, String html) {
    try (JobStore jobs = SqliteStore.open(store)) {
      jobs.set(BenchApp.REVIEW_SETTING, html);
    }
  }
}
