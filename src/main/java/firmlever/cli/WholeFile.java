package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;

/** Writes files whole or not at all: beside their place first, then moved into it. */
final class WholeFile {
  private WholeFile() {}

  /** What writes the content of a file. */
  interface Content {
    void to(OutputStream out) throws IOException;
  }

  static void write(Path path, String text) throws BadInput {
    write(path, text.getBytes(StandardCharsets.UTF_8));
  }

  static void write(Path path, byte[] content) throws BadInput {
    write(path, out -> out.write(content));
  }

  /**
   * Writes the file.
   *
   * @throws BadInput where it cannot be written; what stood there before still stands
   */
  static void write(Path path, Content content) throws BadInput {
    Path beside = null;
    try {
      // A link keeps pointing to its file, which is the one that gets the new text.
      Path target = Files.exists(path) ? path.toRealPath() : path.toAbsolutePath();
      beside = Files.createTempFile(target.getParent(), "." + target.getFileName(), ".part");
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(beside))) {
        content.to(out);
      }
      if (Files.getFileStore(beside).supportsFileAttributeView("posix")) {
        Files.setPosixFilePermissions(
            beside,
            Files.exists(target)
                ? Files.getPosixFilePermissions(target)
                : PosixFilePermissions.fromString("rw-r--r--"));
      }
      try {
        Files.move(beside, target, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
      }
    } catch (IOException e) {
      remove(beside);
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  path.toString(),
                  "cannot be written: " + e.getMessage(),
                  "Maybe the folder does not exist or may not be written to.")));
    }
  }

  private static void remove(Path beside) {
    try {
      if (beside != null) {
        Files.deleteIfExists(beside);
      }
    } catch (IOException e) {
      // The half-written file stays beside; the failure that matters is already on its way.
    }
  }
}
