package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
