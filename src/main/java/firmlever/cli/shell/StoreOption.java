package firmlever.cli.shell;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The option that names the file in which jobs are kept. */
public final class StoreOption {
  @Option(
      names = "--store",
      paramLabel = "FILE",
      defaultValue = "firmlever.db",
      description = "file in which the jobs are kept (default: ${DEFAULT-VALUE})")
  private Path file;

  public Path file() {
    return file;
  }
}
