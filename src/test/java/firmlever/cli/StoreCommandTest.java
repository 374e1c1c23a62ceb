package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.cli.shell.Exit;
import firmlever.document.Digest;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Stamp;
import firmlever.store.SqliteStore;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The command store")
class StoreCommandTest {
  @TempDir private Path folder;

  private String store() {
    return folder.resolve("shop.db").toString();
  }

  private static List<String> demo() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("cases", "demo"))) {
      return files.map(Path::toString).sorted().toList();
    }
  }

  private Run take(List<String> files) {
    List<String> args = new ArrayList<>(List.of("store", "--store", store(), "import"));
    args.addAll(files);
    return Run.of(args.toArray(String[]::new));
  }

  @Test
  @DisplayName("takes case files in and gives them back letter for letter; a copy does too")
  void losesNothing() throws IOException {
    assertThat(take(demo()).code()).isZero();
    Path copy = folder.resolve("copy.db");
    assertThat(Run.of("store", "--store", store(), "backup", copy.toString()).code()).isZero();
    for (String file : List.of(store(), copy.toString())) {
      Path out = folder.resolve("out-" + Path.of(file).getFileName());
      assertThat(Run.of("store", "--store", file, "export", out.toString()).code()).isZero();
      List<String> before = new ArrayList<>();
      for (String each : demo()) {
        before.add(Files.readString(Path.of(each)));
      }
      List<String> after = new ArrayList<>();
      try (Stream<Path> files = Files.list(out)) {
        for (Path each : files.toList()) {
          after.add(Files.readString(each));
        }
      }
      assertThat(after).containsExactlyInAnyOrderElementsOf(before);
    }
  }

  @Test
  @DisplayName("gives photos out under their digests with a list, and says that it takes none in")
  void exportsPhotos() throws Exception {
    take(demo().subList(0, 2));
    byte[] one = {1, 2, 3};
    byte[] two = {4};
    String id;
    try (JobStore jobs = SqliteStore.open(Path.of(store()))) {
      List<JobStore.Job> all = new ArrayList<>();
      jobs.each(all::add);
      id = all.get(0).heading().id();
      Stamp stamp = new Stamp(Instant.parse("2026-05-12T08:00:00Z"), "T3", "photo");
      JobStore.Job after = jobs.addPhoto(all.get(0), one, "wet\tunion", stamp);
      after = jobs.addPhoto(after, two, "", stamp);
      jobs.strikePhoto(after, after.version(), "wrong bike", stamp);
    }
    Path out = folder.resolve("out");
    assertThat(Run.of("store", "--store", store(), "export", out.toString()).code()).isZero();
    Path photos = out.resolve(id + ".photos");
    String first = Digest.sha256(one);
    String second = Digest.sha256(two);
    assertThat(photos.resolve(first + ".jpg")).hasBinaryContent(one);
    assertThat(photos.resolve(second + ".jpg")).hasBinaryContent(two);
    assertThat(Files.readAllLines(photos.resolve("list.txt")))
        .containsExactly(
            first + "\t2026-05-12T08:00:00Z\tT3\twet\\u0009union\t",
            second + "\t2026-05-12T08:00:00Z\tT3\t\twrong bike");
    String file = out.resolve(id + ".json").toString();
    Run into = Run.of("store", "--store", folder.resolve("new.db").toString(), "import", file);
    assertThat(into.out()).contains("its photos stay where they are").contains("1 of 1 taken in");
    Files.delete(Path.of(store() + ".photos", first + ".jpg"));
    Run lost = Run.of("store", "--store", store(), "export", folder.resolve("again").toString());
    assertThat(lost.code()).isEqualTo(Exit.BAD_INPUT);
    assertThat(lost.err()).contains(id).contains("missing or damaged");
    assertThat(folder.resolve("again").resolve(id + ".photos").resolve(second + ".jpg")).exists();
  }

  @Test
  @DisplayName("tells what cannot be taken in, and takes the rest; writes over no job and no file")
  void tellsWhatIsWrong() throws IOException {
    Path broken = Files.writeString(folder.resolve("broken.json"), "{ \"id\": ");
    List<String> files = new ArrayList<>(demo());
    files.add(broken.toString());
    Run run = take(files);
    assertThat(run.code()).isEqualTo(Exit.BAD_INPUT);
    assertThat(run.out()).contains(demo().size() + " of " + files.size() + " taken in");
    assertThat(run.err()).contains("broken.json");
    Run again = take(demo().subList(0, 1));
    assertThat(again.err()).contains("in the store already");
    Run over = Run.of("store", "--store", store(), "backup", broken.toString());
    assertThat(over.code()).isEqualTo(Exit.BAD_INPUT);
    assertThat(over.err()).contains("there already");
    assertThat(Run.of("store", "--store", store(), "burn", "x").err()).contains("Maybe backup");
    Path nowhere = folder.resolve("no/copy.db");
    Run lost = Run.of("store", "--store", store(), "backup", nowhere.toString());
    assertThat(lost.code()).isEqualTo(Exit.BAD_INPUT);
    assertThat(lost.err()).contains(nowhere + ": cannot be written to");
  }

  @Test
  @DisplayName("is what review reads with --store: the same review as of the exported files")
  void isReviewed() throws IOException {
    Path year = folder.resolve("year");
    Files.createDirectories(year);
    List<String> files = new ArrayList<>();
    int number = 0;
    for (String line : Run.of("invent", "--jobs", "60", "--seed", "7").out().lines().toList()) {
      Path file = Files.writeString(year.resolve("case-" + number++ + ".json"), line + "\n");
      files.add(file.toString());
    }
    assertThat(take(files).code()).isZero();
    Path out = folder.resolve("out");
    assertThat(Run.of("store", "--store", store(), "export", out.toString()).code()).isZero();
    Path rejects = folder.resolve("rejects.csv");
    Run ofFiles = Run.of("review", out.toString(), "--json", "--rejects", rejects.toString());
    Run ofStore = Run.of("review", "--store", store(), "--json", "--rejects", rejects.toString());
    assertThat(ofStore.out()).hasSizeGreaterThan(1000);
    assertThat(ofStore.out()).isEqualTo(ofFiles.out().replace(out + "/", ""));
    assertThat(ofStore.code()).isEqualTo(ofFiles.code());
    assertThat(Run.of("review").err()).contains("or --store FILE");
  }
}
