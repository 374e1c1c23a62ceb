package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Finds case files: files as named, and all {@code .json} files below folders, in path order. */
final class CaseFolder {
  private CaseFolder() {}

  static List<Path> files(List<String> filesAndFolders) throws BadInput {
    List<Path> found = new ArrayList<>();
    for (String name : filesAndFolders) {
      Path path = path(name);
      if (!Files.isDirectory(path)) {
        found.add(path);
        continue;
      }
      try (Stream<Path> below = Files.walk(path)) {
        below
            .filter(file -> file.getFileName().toString().endsWith(".json"))
            .filter(Files::isRegularFile)
            .sorted()
            .forEach(found::add);
      } catch (IOException | UncheckedIOException e) {
        throw new BadInput(List.of(Problem.ofFile(name, "cannot be read: " + e.getMessage(), "")));
      }
    }
    return found;
  }

  static Path path(String name) throws BadInput {
    try {
      return Path.of(name);
    } catch (InvalidPathException e) {
      throw new BadInput(List.of(Problem.ofFile(name, "is no name a file can have here", "")));
    }
  }
}
