package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;

/** Writes result files whole: beside their place first, and then moved into it. */
final class OutputFile {
  private OutputFile() {}

  /**
   * Writes the file.
   *
   * @throws BadInput where it cannot be written; then nothing is left at or beside its place
   */
  static void write(Path path, byte[] content) throws BadInput {
    Path folder = path.toAbsolutePath().getParent();
    Path beside = null;
    try {
      beside = Files.createTempFile(folder, ".firmlever-", ".part");
      Files.write(beside, content);
      Files.move(beside, path, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      remove(beside);
      throw new BadInput(
          List.of(Problem.ofFile(path.toString(), "cannot be written: " + e.getMessage(), "")));
    }
  }

  private static void remove(Path beside) {
    try {
      if (beside != null) {
        Files.deleteIfExists(beside);
      }
    } catch (IOException e) {
      // The first failure is told; a leftover of it is not worth a second one.
      return;
    }
  }
}
