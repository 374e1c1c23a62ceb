package firmlever.cli.shell;

import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The option that lays a shop's own rules over the built-in ones. */
public final class ShopRules {
  @Option(
      names = "--rules",
      paramLabel = "DIR",
      description =
          "lay the rules of this folder over the built-in ones; they run as code with all your"
              + " rights, so name only a folder you trust")
  private @Nullable Path folder;

  /** The folder; empty where none is named. */
  public Optional<Path> folder() {
    return Optional.ofNullable(folder);
  }
}
