package firmlever.cli.shell;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The option that lays a shop's own rules over the built-in ones. */
public final class ShopRules {
  @Option(
      names = "--rules",
      paramLabel = "DIR",
      description =
          "lay the rules of this folder over the built-in ones; they run as code with all your"
              + " rights, so name only a folder you trust")
  private Path folder;

  /** The folder; null where none is named. */
  public Path folder() {
    return folder;
  }
}
