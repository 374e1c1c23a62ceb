package firmlever.cli;

import firmlever.document.BadInput;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** The door of the fuzzing engine of {@code src/test/fuzz}; the target is named by a property. */
public final class Fuzz {
  private static final FuzzTarget TARGET =
      FuzzTarget.valueOf(System.getProperty("firmlever.fuzz", "case").toUpperCase(Locale.ROOT));

  private Fuzz() {}

  /** Loads and warms what the target uses, which is no matter of an input. */
  public static void fuzzerInitialize() {
    TARGET.seeds().forEach(Fuzz::fuzzerTestOneInput);
  }

  /** One input. */
  public static void fuzzerTestOneInput(byte[] bytes) {
    try {
      TARGET.take(bytes);
    } catch (BadInput e) {
      // Refused with place and reason.
    }
  }

  /** Writes the seeds of the target into the folder {@code args[0]}. */
  public static void main(String[] args) throws IOException {
    List<byte[]> seeds = TARGET.seeds();
    Path folder = Files.createDirectories(Path.of(args[0]));
    for (int i = 0; i < seeds.size(); i++) {
      Files.write(folder.resolve("seed-" + i), seeds.get(i));
    }
  }
}
