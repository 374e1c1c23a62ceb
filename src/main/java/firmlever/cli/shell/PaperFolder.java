package firmlever.cli.shell;

import static java.util.Objects.requireNonNull;

import firmlever.document.Limit;
import firmlever.document.WholeFile;
import firmlever.warranty.Submitted.Papers;
import firmlever.warranty.Submitted.Unreadable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;

/** The papers of a claim, in the folder of its case file and below it. */
public final class PaperFolder {
  private PaperFolder() {}

  public static Papers of(Path caseFile) {
    Path folder = requireNonNull(caseFile.toAbsolutePath().getParent());
    return name -> {
      try {
        Path file = folder.resolve(name);
        if (!Files.isRegularFile(file)) {
          throw new Unreadable("is not there");
        }
        // A link must not lead out of the folder either.
        if (!file.toRealPath().startsWith(folder.toRealPath())) {
          throw new Unreadable("lies outside the folder of the case file");
        }
        if (Files.size(file) > Limit.PAPER_BYTES.most()) {
          throw new Unreadable("is larger than 50 MB");
        }
        return Files.readAllBytes(file);
      } catch (InvalidPathException e) {
        throw new Unreadable("is no name a file can have here");
      } catch (IOException e) {
        throw new Unreadable("cannot be read: " + WholeFile.reason(e));
      }
    };
  }
}
