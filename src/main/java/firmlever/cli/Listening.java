package firmlever.cli;

import firmlever.casefile.CaseFile;
import firmlever.hearing.Heeding.Heeded;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Whether a command listens to the complaint: the same for all that speak of the same brake. */
final class Listening {
  @Option(
      names = "--coded-only",
      description = "do not listen to the complaint; go by findings, readings and record alone")
  private boolean codedOnly;

  Heeded heed(Engine engine, CaseFile file) {
    return codedOnly ? new Heeded(file, Optional.empty(), List.of()) : engine.heeding().heed(file);
  }
}
