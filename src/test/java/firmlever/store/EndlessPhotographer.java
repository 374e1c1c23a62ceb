package firmlever.store;

import firmlever.store.JobStore.Job;
import java.nio.file.Path;
import java.util.Random;

/**
 * Attaches photos to a job without end and says after each that it is kept; to be killed, or to run
 * out of room. What it attaches need not be a picture: the store does not look into it.
 */
final class EndlessPhotographer {
  private EndlessPhotographer() {}

  /** The store's file, and the length of each photo in bytes. */
  public static void main(String[] args) throws JobStore.Changed {
    JobStore store = SqliteStore.open(Path.of(args[0]));
    Random random = new Random();
    Job job = store.job("J-1").orElseThrow();
    while (true) {
      byte[] content = new byte[Integer.parseInt(args[1])];
      random.nextBytes(content);
      try {
        job = store.addPhoto(job, content, "", Contents.by("T1", "photo attached"));
      } catch (StoreFault e) {
        System.out.println(e.getMessage());
        return;
      }
      System.out.println(job.version());
    }
  }
}
