package firmlever.cli.shell;

import firmlever.document.BadInput;
import firmlever.document.Folder;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a run reads and where it will write: told before it begins, so that nothing it reads is
 * written over, and no long run ends at a place that cannot be written.
 */
public final class Outputs {
  private final Set<Path> read = new HashSet<>();
  private final Set<Path> written = new HashSet<>();
  private final List<Problem> problems = new ArrayList<>();

  /** Files and folders the run reads; of a folder, what is written lies outside it. */
  public Outputs reading(Collection<Path> paths) {
    paths.forEach(path -> read.add(Folder.real(path)));
    return this;
  }

  /** The files of a shop's own rules are read too. */
  public Outputs reading(ShopRules shop) throws BadInput {
    Optional<Path> folder = shop.folder().filter(Files::isDirectory);
    if (folder.isPresent()) {
      try {
        reading(Folder.files(folder.get(), name -> true));
      } catch (IOException e) {
        throw new BadInput(
            List.of(
                Problem.ofFile(folder.get().toString(), "cannot be read: " + e.getMessage(), "")));
      }
    }
    return this;
  }

  /** A file the run will write; none where it is null or empty. */
  public Outputs file(@Nullable String name) throws BadInput {
    if (name == null || name.isEmpty()) {
      return this;
    }
    Path path = CaseFolder.path(name);
    WholeFile.refusal(path).ifPresent(why -> add(name, why));
    if (read.contains(Folder.real(path))) {
      add(name, "cannot be written: this run reads it");
    } else if (!written.add(Folder.real(path))) {
      add(name, "is named for two outputs");
    }
    return this;
  }

  /** A folder the run will write files into; none where it is null or empty. */
  public Outputs folder(@Nullable String name) throws BadInput {
    if (name == null || name.isEmpty()) {
      return this;
    }
    Path path = CaseFolder.path(name);
    Path real = Folder.real(path);
    if (Files.exists(path) && !Files.isDirectory(path)) {
      add(name, "is no folder; one must be named to write into");
    } else if (read.stream().anyMatch(each -> real.equals(each.getParent()))
        || read.stream().anyMatch(each -> Files.isDirectory(each) && real.startsWith(each))) {
      add(name, "cannot be written into: this run reads files there");
    }
    return this;
  }

  private void add(String name, String message) {
    problems.add(Problem.ofFile(name, message, "Maybe name another place."));
  }

  /**
   * Ends the run where it would do harm.
   *
   * @throws BadInput with every place that cannot be written to
   */
  public void check() throws BadInput {
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
  }
}
