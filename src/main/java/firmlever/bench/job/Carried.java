package firmlever.bench.job;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import java.time.InstantSource;
import java.util.List;

/** Takes case files into the store as jobs: those with an outcome as handed back. */
public final class Carried {
  private final JobStore store;
  private final CaseReader reader;
  private final InstantSource clock;

  public Carried(JobStore store, CaseReader reader, InstantSource clock) {
    this.store = store;
    this.reader = reader;
    this.clock = clock;
  }

  /**
   * Takes one case in, letter for letter.
   *
   * @param name how messages call it
   * @throws BadInput where it is no case, or a job of its code is there already
   */
  public void take(String text, String name) throws BadInput {
    CaseFile file = reader.read(DocumentReader.readText(text, name), name);
    State state = file.outcome().isPresent() ? State.HANDED_BACK : State.OPEN;
    try {
      store.add(
          new Content(Jobs.heading(file, state), text, Sheet.EMPTY.json()),
          new Stamp(clock.instant(), "import", "taken in from " + name));
    } catch (Changed e) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  name,
                  "there is a job " + file.id() + " in the store already, and none is written over",
                  "")));
    }
  }
}
