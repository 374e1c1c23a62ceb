package firmlever.store;

import static java.util.Objects.requireNonNull;

import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.WholeFile;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * The pictures of a store, each a file named by the SHA-256 of its content, in a folder beside the
 * store's file. A file once written is never changed.
 */
final class PhotoFolder {
  private final Path folder;

  private PhotoFolder(Path folder) {
    this.folder = folder;
  }

  /** The folder of the store in that file; made when the first photo comes. */
  static PhotoFolder of(Path store) {
    return new PhotoFolder(Path.of(store + ".photos"));
  }

  boolean exists() {
    return !Files.notExists(folder);
  }

  private Path file(String digest) {
    return folder.resolve(digest + ".jpg");
  }

  /**
   * Keeps a picture; it is on the disk, and its name too, when this returns.
   *
   * @return its digest
   */
  String keep(byte[] picture) {
    String digest = Digest.sha256(picture);
    if (content(digest).isPresent()) {
      return digest;
    }
    try {
      Files.createDirectories(folder);
      WholeFile.write(file(digest), picture);
      sync(folder);
      sync(requireNonNull(folder.toAbsolutePath().getParent()));
      return digest;
    } catch (BadInput e) {
      throw new StoreFault(e.getMessage() + "; the photo was not kept", e);
    } catch (FileAlreadyExistsException e) {
      throw new StoreFault(folder + ": is no folder, and must be; the photo was not kept", e);
    } catch (IOException e) {
      throw new StoreFault(
          folder + ": cannot be made: " + WholeFile.reason(e) + "; the photo was not kept", e);
    }
  }

  /** Has the names within a folder on the disk too, where the machine can be asked for that. */
  private static void sync(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Windows opens no folder; it keeps names by itself.
    }
  }

  /** The picture of that digest, where it is there and is what it was. */
  private Optional<byte[]> content(String digest) {
    if (!Files.isRegularFile(file(digest))) {
      return Optional.empty();
    }
    try {
      byte[] content = Files.readAllBytes(file(digest));
      return Digest.sha256(content).equals(digest) ? Optional.of(content) : Optional.empty();
    } catch (IOException e) {
      throw new StoreFault(file(digest) + ": cannot be read: " + WholeFile.reason(e), e);
    }
  }

  /**
   * The picture of that digest.
   *
   * @throws StoreFault where it is not there any more, or is not what was kept
   */
  byte[] read(String digest) {
    return content(digest)
        .orElseThrow(
            () ->
                new StoreFault(
                    file(digest)
                        + ": is missing or damaged\n    Maybe take it from the last backup."));
  }
}
