package firmlever.records;

import firmlever.document.BadInput;
import firmlever.document.Folder;
import firmlever.document.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Finds case files: files as named, and those below folders, in path order. */
public final class CaseFolder {
  private CaseFolder() {}

  /** Files as named, and all {@code .json} files below folders; a folder without any is told. */
  public static List<Path> files(List<String> filesAndFolders) throws BadInput {
    return files(filesAndFolders, List.of(".json"));
  }

  /**
   * The same for files of other endings.
   *
   * @param endings in small letters, such as {@code .json}
   */
  public static List<Path> files(List<String> filesAndFolders, List<String> endings)
      throws BadInput {
    List<Path> found = new ArrayList<>();
    for (String name : filesAndFolders) {
      Path path = path(name);
      List<Path> files = Files.isDirectory(path) ? below(path, endings) : List.of(path);
      if (files.isEmpty()) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    name,
                    "no file that ends in "
                        + String.join(", ", endings)
                        + " is in this folder or below it",
                    "")));
      }
      found.addAll(files);
    }
    return found;
  }

  /** All {@code .json} files below a folder; none where there are none. */
  public static List<Path> below(Path folder) throws BadInput {
    return below(folder, List.of(".json"));
  }

  public static List<Path> below(Path folder, List<String> endings) throws BadInput {
    try {
      return Folder.files(
          folder, name -> endings.stream().anyMatch(name.toLowerCase(Locale.ROOT)::endsWith));
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(folder.toString(), "cannot be read: " + e.getMessage(), "")));
    }
  }

  public static Path path(String name) throws BadInput {
    try {
      return Path.of(name);
    } catch (InvalidPathException e) {
      throw new BadInput(List.of(Problem.ofFile(name, "is no name a file can have here", "")));
    }
  }
}
