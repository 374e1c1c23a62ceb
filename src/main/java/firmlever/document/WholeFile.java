package firmlever.document;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Writes files whole or not at all: beside their place first, on the disk, then moved into it. The
 * only way any command or store writes a file of its own.
 */
public final class WholeFile {
  private WholeFile() {}

  /** What writes the content of a file. */
  public interface Content {
    void to(OutputStream out) throws IOException;
  }

  public static void write(Path path, String text) throws BadInput {
    write(path, text.getBytes(StandardCharsets.UTF_8));
  }

  public static void write(Path path, byte[] content) throws BadInput {
    write(path, out -> out.write(content));
  }

  /**
   * Writes the file. A new one gets the rights the user's umask leaves, one that stood there keeps
   * its own.
   *
   * @throws BadInput where it cannot be written; what stood there before still stands
   */
  public static void write(Path path, Content content) throws BadInput {
    Optional<String> refused = refusal(path);
    if (refused.isPresent()) {
      throw new BadInput(List.of(Problem.ofFile(path.toString(), refused.get(), "")));
    }
    Path beside = null;
    try {
      // A link keeps pointing to its file, which is the one that gets the new text.
      Path target = mayExist(path) ? path.toRealPath() : path.toAbsolutePath();
      beside = target.resolveSibling(".firmlever-" + UUID.randomUUID());
      try (FileChannel channel =
              FileChannel.open(beside, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
          OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel))) {
        if (mayExist(target) && hasRights(target)) {
          Files.setPosixFilePermissions(beside, Files.getPosixFilePermissions(target));
        }
        content.to(out);
        out.flush();
        channel.force(true);
      }
      // In one step or not at all: any other way takes away what stands there first.
      Files.move(beside, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      remove(beside);
      throw new BadInput(
          List.of(Problem.ofFile(path.toString(), "cannot be written: " + reason(e), "")));
    } catch (RuntimeException | Error e) {
      remove(beside);
      throw e;
    }
  }

  /** Why no file may be written there, whatever its content; empty where one may. */
  public static Optional<String> refusal(Path path) {
    if (Files.isDirectory(path)) {
      return Optional.of("cannot be written: it is a folder, and a file must be named");
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      return Optional.of("cannot be written: it is a device or a pipe, and a file must be named");
    }
    if (Files.exists(path) && !mayBeChanged(path)) {
      return Optional.of("cannot be written: it is there already and may only be read");
    }
    return Optional.empty();
  }

  /**
   * Whether something is there or, where the file system fails to say, could be: what cannot be
   * looked at is never taken for missing, and so never written over as if it were.
   */
  public static boolean mayExist(Path path) {
    return !Files.notExists(path);
  }

  /** A file nobody may write to was locked on purpose, even where the user is let through. */
  private static boolean mayBeChanged(Path path) {
    try {
      Set<PosixFilePermission> writers =
          EnumSet.copyOf(PosixFilePermissions.fromString("-w--w--w-"));
      return Files.isWritable(path)
          && (!hasRights(path) || writers.removeAll(Files.getPosixFilePermissions(path)));
    } catch (IOException e) {
      return true; // the writing itself will tell what is wrong
    }
  }

  private static boolean hasRights(Path path) throws IOException {
    return Files.getFileStore(path).supportsFileAttributeView("posix");
  }

  /** What a failure of the file system means, in words for its user. */
  public static String reason(IOException e) {
    String message = String.valueOf(e.getMessage());
    if (e instanceof NoSuchFileException) {
      return "there is no such folder";
    }
    if (e instanceof AccessDeniedException) {
      return "the folder may not be written to by this user";
    }
    if (e instanceof FileAlreadyExistsException) {
      return "there is a file of that name already";
    }
    if (message.contains("No space left") || message.contains("not enough space")) {
      return "the disk is full";
    }
    // Without the file, which may be one of ours that nobody has named.
    return e instanceof FileSystemException failed && failed.getReason() != null
        ? failed.getReason()
        : message;
  }

  private static void remove(@Nullable Path beside) {
    try {
      if (beside != null) {
        Files.deleteIfExists(beside);
      }
    } catch (IOException e) {
      // The half-written file stays beside; the failure that matters is already on its way.
    }
  }
}
