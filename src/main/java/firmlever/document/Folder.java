package firmlever.document;

import java.io.IOException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/** Finds files below a folder. Links are followed, and none leads to the same file twice. */
public final class Folder {
  private Folder() {}

  /**
   * The files below a folder, in the order of their paths. A link that leads nowhere is among them:
   * whoever reads it says so.
   *
   * @param named which names are wanted
   * @throws IOException where a folder below cannot be read
   */
  public static List<Path> files(Path folder, Predicate<String> named) throws IOException {
    Set<Path> found = new TreeSet<>();
    Files.walkFileTree(
        folder,
        EnumSet.of(FileVisitOption.FOLLOW_LINKS),
        Integer.MAX_VALUE,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if ((attributes.isRegularFile() || attributes.isSymbolicLink())
                && named.test(file.getFileName().toString())) {
              found.add(file);
            }
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFileFailed(Path file, IOException e) throws IOException {
            if (e instanceof FileSystemLoopException) {
              return FileVisitResult.CONTINUE; // what it leads back to is being walked already
            }
            throw e;
          }
        });
    Set<Path> seen = new HashSet<>();
    return found.stream().filter(file -> seen.add(real(file))).toList();
  }

  /** Where a file really lies, links followed; of one that is not there, where it would lie. */
  public static Path real(Path file) {
    try {
      return file.toRealPath();
    } catch (IOException e) {
      Path whole = file.toAbsolutePath().normalize();
      try {
        return whole.getParent() == null
            ? whole
            : whole.getParent().toRealPath().resolve(whole.getFileName());
      } catch (IOException parentToo) {
        return whole;
      }
    }
  }
}
