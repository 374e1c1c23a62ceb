package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.store.JobStore;
import firmlever.store.SqliteStore;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The command serve, as a process of its own")
class KilledTest {
  @TempDir private Path folder;

  private Process start(String... more) throws IOException {
    List<String> command =
        new java.util.ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "firmlever.cli.Main",
                "serve",
                "--port",
                "0",
                "--store",
                folder.resolve("shop.db").toString()));
    command.addAll(List.of(more));
    return new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
  }

  /** What it prints up to its address. */
  private static String told(Process process, StringBuilder before) throws IOException {
    BufferedReader out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    for (String line = out.readLine(); line != null; line = out.readLine()) {
      if (line.startsWith("The bench is open: ")) {
        return line.substring("The bench is open: ".length()).replaceAll("/$", "");
      }
      before.append(line).append('\n');
    }
    throw new AssertionError("it never opened: " + before);
  }

  @Test
  @DisplayName("has every tap it answered after it was killed in the middle of tapping")
  void survivesAKill() throws Exception {
    Process process = start();
    String job;
    int acknowledged;
    try {
      String address = told(process, new StringBuilder());
      Visitor mechanic = new Visitor(address);
      mechanic.go("/sign-in").send("/sign-in", "code", "T3");
      mechanic.go("/new");
      mechanic.send("/new", "brake", "B-1", "wheel", "rear", "fluid", "dot-4", "complaint", "soft");
      job = mechanic.path();
      mechanic.go(job + "/places/lever");
      for (int i = 0; i < 12; i++) {
        mechanic.send(
            job + "/places/lever", "answer", "gritty-lever=" + (i % 2 == 0 ? "present" : "absent"));
      }
      acknowledged = Integer.parseInt(mechanic.hidden("version"));
      assertThat(acknowledged).isEqualTo(13);
      // One more is on its way while the process dies.
      Thread last =
          new Thread(
              () -> {
                try {
                  mechanic.send(job + "/places/lever", "answer", "lever-play=present");
                } catch (IllegalStateException e) {
                  // Nobody answers any more.
                }
              });
      last.start();
      process.destroyForcibly().waitFor();
      last.join();
    } finally {
      process.destroyForcibly();
    }
    try (JobStore store = SqliteStore.open(folder.resolve("shop.db"))) {
      JobStore.Job kept = store.job(job.substring("/jobs/".length())).orElseThrow();
      assertThat(kept.version()).isBetween(acknowledged, acknowledged + 1);
      assertThat(store.changes(kept.heading().id())).hasSize(kept.version());
      assertThat(kept.content().caseText()).contains("\"gritty-lever\": \"absent\"");
    }
  }

  @Test
  @DisplayName("ends cleanly when it is asked to, and prints the key of a shop once only")
  void endsCleanly() throws Exception {
    StringBuilder first = new StringBuilder();
    Process process = start("--lan");
    told(process, first);
    process.destroy();
    process.waitFor();
    assertThat(folder.resolve("shop.db-wal")).doesNotExist();
    assertThat(first.toString()).containsPattern("printed this once: (\\w{5}-){3}\\w{5}");
    StringBuilder second = new StringBuilder();
    process = start("--lan");
    told(process, second);
    process.destroy();
    process.waitFor();
    assertThat(second.toString()).doesNotContain("key");
    String key = first.toString().replaceAll("(?s).*once: (\\S+).*", "$1");
    try (JobStore store = SqliteStore.open(folder.resolve("shop.db"))) {
      assertThat(store.setting("shop-key"))
          .hasValueSatisfying(kept -> assertThat(kept).doesNotContain(key));
    }
  }
}
