package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The files of a folder")
class FolderTest {
  @TempDir Path folder;

  @Test
  @DisplayName("are found through links, once each, in order, and past links that lead in a circle")
  void areFoundThroughLinks() throws IOException {
    Path real = Files.createDirectories(folder.resolve("elsewhere/inner")).getParent();
    Files.writeString(real.resolve("b.json"), "");
    Files.writeString(real.resolve("inner/a.json"), "");
    Files.writeString(real.resolve("c.txt"), "");
    Files.createSymbolicLink(real.resolve("inner/round"), real);
    Files.createSymbolicLink(real.resolve("z.json"), real.resolve("b.json"));
    Path dangling = Files.createSymbolicLink(real.resolve("gone.json"), real.resolve("nothing"));
    Path link = Files.createSymbolicLink(folder.resolve("cases"), real);
    assertThat(Folder.files(link, name -> name.endsWith(".json")))
        .containsExactly(
            link.resolve("b.json"),
            link.resolve(dangling.getFileName()),
            link.resolve("inner/a.json"));
  }
}
