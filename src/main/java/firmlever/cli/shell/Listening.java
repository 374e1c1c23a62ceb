package firmlever.cli.shell;

import firmlever.casefile.CaseFile;
import firmlever.document.BadInput;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding.Heeded;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Whether a command listens to the complaint: the same for all that speak of the same brake. */
public final class Listening {
  @Option(
      names = "--coded-only",
      description = "do not listen to the complaint; go by findings, readings and record alone")
  private boolean codedOnly;

  public static Listening codedOnly(boolean codedOnly) {
    Listening listening = new Listening();
    listening.codedOnly = codedOnly;
    return listening;
  }

  public boolean codedOnly() {
    return codedOnly;
  }

  /** The engine, with the words read while the rules are. */
  public Engine start(ShopRules shop) throws BadInput {
    return Engine.start(shop, codedOnly ? new Hearing() : new Hearing().ahead());
  }

  public Heeded heed(Engine engine, CaseFile file) {
    return codedOnly ? new Heeded(file, Optional.empty(), List.of()) : engine.heeding().heed(file);
  }
}
