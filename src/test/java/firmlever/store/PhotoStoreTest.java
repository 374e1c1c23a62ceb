package firmlever.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.document.Digest;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Photo;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The photos of the store")
class PhotoStoreTest {
  private static final byte[] ONE = "one".getBytes(StandardCharsets.UTF_8);
  private static final byte[] TWO = "two".getBytes(StandardCharsets.UTF_8);

  @TempDir private Path folder;

  @BeforeEach
  void begin() throws Changed {
    try (JobStore store = open()) {
      store.add(Contents.open("J-1", "B-1", "text"), Contents.by("T1", "came in"));
    }
  }

  private Path file() {
    return folder.resolve("shop.db");
  }

  private JobStore open() {
    return SqliteStore.open(file());
  }

  private static Job job(JobStore store) {
    return store.job("J-1").orElseThrow();
  }

  private static Job add(JobStore store, byte[] content, String shows) throws Changed {
    return store.addPhoto(job(store), content, shows, Contents.by("T1", "photo attached"));
  }

  private static List<Path> files(Path store) throws IOException {
    try (Stream<Path> files = Files.list(Path.of(store + ".photos"))) {
      return files.sorted().toList();
    }
  }

  @Test
  @DisplayName("are files named by their digest, each a change of its job that tells who and when")
  void areFiles() throws Exception {
    try (JobStore store = open()) {
      assertThat(add(store, ONE, "a leak").version()).isEqualTo(2);
      assertThat(job(store).content().caseText()).isEqualTo("text");
      Photo photo = store.photos("J-1").get(0);
      assertThat(photo.stamp()).isEqualTo(store.changes("J-1").get(1).stamp());
      assertThat(photo.number()).isEqualTo(2);
      assertThat(photo.shows()).isEqualTo("a leak");
      assertThat(photo.bytes()).isEqualTo(3);
      // By `printf one | sha256sum`.
      String digest = "7692c3ad3540bb803c020b3aee66cd8887123234ea0c6e7143c0add73ff431ed";
      assertThat(photo.digest()).isEqualTo(digest);
      assertThat(store.picture(photo)).isEqualTo(ONE);
      assertThat(files(file())).containsExactly(Path.of(file() + ".photos", digest + ".jpg"));
    }
  }

  @Test
  @DisplayName("are attached on the version that was seen, each once")
  void tellTheLater() throws Exception {
    try (JobStore store = open()) {
      Job seen = job(store);
      add(store, ONE, "");
      assertThatThrownBy(() -> store.addPhoto(seen, TWO, "", Contents.by("T2", "b")))
          .isInstanceOf(Changed.class);
      assertThatThrownBy(() -> add(store, ONE, "again")).isInstanceOf(Changed.class);
      assertThat(store.photos("J-1")).hasSize(1);
      assertThat(store.changes("J-1")).hasSize(2);
      assertThat(store.photosOfBrake("B-1")).containsExactly(java.util.Map.entry("J-1", 1));
      Job struck = store.strikePhoto(job(store), 2, "wrong bike", Contents.by("T2", "struck"));
      assertThat(struck.version()).isEqualTo(3);
      assertThat(store.photos("J-1"))
          .extracting(Photo::struck)
          .containsExactly(Optional.of("wrong bike"));
      assertThat(store.photosOfBrake("B-1")).isEmpty();
    }
  }

  @Test
  @DisplayName("are rewritten and removed by nobody, not even by another program")
  void areAppendOnly() throws Exception {
    try (JobStore store = open()) {
      add(store, ONE, "");
      store.strikePhoto(job(store), 2, "wrong bike", Contents.by("T2", "struck"));
    }
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
        var statement = other.createStatement()) {
      for (String table : List.of("photo", "photo_struck")) {
        assertThatThrownBy(() -> statement.executeUpdate("update " + table + " set job = 'x'"))
            .hasMessageContaining("never rewritten");
        assertThatThrownBy(() -> statement.executeUpdate("delete from " + table))
            .hasMessageContaining("never removed");
      }
    }
  }

  @Test
  @DisplayName("are backed up with it, into a store that has them; those that are lost are told")
  void areBackedUp() throws Exception {
    Path copy = folder.resolve("copy.db");
    try (JobStore store = open()) {
      add(store, ONE, "a leak");
      add(store, TWO, "");
      store.backup(copy);
      try (JobStore copied = SqliteStore.open(copy)) {
        assertThat(copied.photos("J-1")).isEqualTo(store.photos("J-1")).hasSize(2);
        for (Photo photo : copied.photos("J-1")) {
          assertThat(Digest.sha256(copied.picture(photo))).isEqualTo(photo.digest());
        }
      }
      Files.delete(files(file()).get(0));
      Path other = folder.resolve("other.db");
      assertThatThrownBy(() -> store.backup(other))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("all is copied but 1 of its photos")
          .hasMessageContaining("missing or damaged");
      assertThat(files(other)).hasSize(1);
      Files.delete(copy);
      assertThatThrownBy(() -> store.backup(copy)).hasMessageContaining("writes over nothing");
      assertThat(copy).doesNotExist();
    }
  }

  @Test
  @DisplayName("leave no line where the store has no room for it, and may be attached again then")
  void surviveAFullStore() throws Exception {
    SqliteStore store = (SqliteStore) open();
    try (store) {
      store.growNoFurther(true);
      assertThatThrownBy(() -> add(store, ONE, "x".repeat(1_000_000)))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("no room left");
      assertThat(store.photos("J-1")).isEmpty();
      assertThat(store.changes("J-1")).hasSize(1);
      store.growNoFurther(false);
      add(store, ONE, "");
      assertThat(store.photos("J-1")).hasSize(1);
      assertThat(files(file())).hasSize(1);
    }
  }

  private List<String> java(String... more) {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                EndlessPhotographer.class.getName(),
                file().toString()));
    command.addAll(List.of(more));
    return command;
  }

  @Test
  @DisplayName("leave neither half a file nor a line where a file cannot be written to its end")
  void surviveAnEndInTheMiddle() throws Exception {
    // No file of that process may have more than 2 MB: the write fails in the middle of it.
    List<String> command =
        new ArrayList<>(List.of("bash", "-c", "ulimit -f 2048; exec \"$@\"", "-"));
    command.addAll(java("4000000"));
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    String told = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(told).contains("cannot be written").contains("the photo was not kept");
    try (JobStore store = open()) {
      assertThat(store.photos("J-1")).isEmpty();
      assertThat(store.changes("J-1")).hasSize(1);
    }
    assertThat(files(file())).isEmpty();
  }

  @Test
  @DisplayName("are whole, each line with its file, after a kill in the middle of attaching them")
  void surviveAKill() throws Exception {
    Process process =
        new ProcessBuilder(java("300000")).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    int acknowledged = 0;
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      while (acknowledged < 20) {
        acknowledged = Integer.parseInt(out.readLine());
      }
      process.toHandle().destroyForcibly();
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        acknowledged = Integer.parseInt(line);
      }
    }
    try (JobStore store = open()) {
      List<Photo> photos = store.photos("J-1");
      assertThat(job(store).version()).isBetween(acknowledged, acknowledged + 1);
      assertThat(photos).hasSize(job(store).version() - 1);
      for (Photo photo : photos) {
        assertThat(store.picture(photo)).hasSize(300_000);
      }
    }
    for (Path each : files(file())) {
      String name = each.getFileName().toString();
      if (name.endsWith(".jpg")) {
        assertThat(Digest.sha256(Files.readAllBytes(each)) + ".jpg").isEqualTo(name);
      } else {
        assertThat(name).as("what was being written").startsWith(".firmlever-");
      }
    }
  }
}
