package firmlever.store;

import java.nio.file.Path;

/** Changes a job without end and says after each change that it is written; to be killed. */
final class EndlessWriter {
  private EndlessWriter() {}

  public static void main(String[] args) throws JobStore.Changed {
    JobStore store = SqliteStore.open(Path.of(args[0]));
    int version =
        store.add(Contents.open("J-1", "B-1", "text 1"), Contents.by("T1", "came in")).version();
    while (true) {
      System.out.println(version);
      version =
          store
              .change(
                  Contents.open("J-1", "B-1", "text " + (version + 1)),
                  version,
                  Contents.by("T1", "tapped"))
              .version();
    }
  }
}
