package firmlever.cluster;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.cli.Main;
import firmlever.cli.review.Elsewhere;
import firmlever.invent.Depot;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.apache.spark.SparkContext;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Against the single-machine program, in a process of its own. */
@DisplayName("The review on many machines")
class ClusterReviewTest {
  @TempDir Path folder;

  private record Run(int code, String out, String err, Map<String, String> files) {}

  @AfterEach
  void stop() {
    for (String each : List.of("spark.firmlever.pieceBytes", "spark.firmlever.partitions")) {
      System.clearProperty(each);
    }
    SparkContext.getOrCreate().stop();
  }

  private Path at(String name) {
    return folder.resolve(name);
  }

  private List<String> args(String results, Path records) {
    return List.of(
        "--json",
        "--csv",
        at(results).resolve("tables").toString(),
        "--html",
        at(results).resolve("page.html").toString(),
        "--rejects",
        at(results).resolve("rejects.csv").toString(),
        records.toString());
  }

  private static Map<String, String> files(Path folder) throws IOException {
    Map<String, String> texts = new TreeMap<>();
    if (Files.isDirectory(folder)) {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path each : all.filter(Files::isRegularFile).toList()) {
          texts.put(folder.relativize(each).toString(), Files.readString(each));
        }
      }
    }
    return texts;
  }

  private Run onOne(String results, Path records) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                "firmlever.cli.Main",
                "review"));
    command.addAll(args(results, records));
    Path out = at(results + ".out");
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(out.toFile())
            .redirectError(at(results + ".err").toFile())
            .start();
    return new Run(process.waitFor(), Files.readString(out), "", files(at(results)));
  }

  private Run onMany(String results, Path records, String... more) throws IOException {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    List<String> all = new ArrayList<>(args(results, records));
    all.addAll(Arrays.asList(more));
    PrintWriter results1 = new PrintWriter(out);
    int code =
        Main.review(
            new ClusterReview(), results1, new PrintWriter(err), all.toArray(String[]::new));
    results1.flush();
    return new Run(code, out.toString(), err.toString(), files(at(results)));
  }

  private static void engine(String pieces, String partitions) {
    System.setProperty("spark.master", "local[2]");
    // Where a test ended before the engine was asked, ending it starts it first.
    System.setProperty("spark.app.name", "test");
    System.setProperty("spark.firmlever.pieceBytes", pieces);
    System.setProperty("spark.firmlever.partitions", partitions);
  }

  private static void assertSame(Run many, Run one) {
    assertThat(many.err()).doesNotContain("fault");
    assertThat(many.out()).isEqualTo(one.out()).contains("\"comebacks\"");
    assertThat(many.code()).isEqualTo(one.code());
    assertThat(many.files()).isEqualTo(one.files()).containsKey("tables/comebacks.csv");
  }

  @Test
  @DisplayName("says the same to the last byte, however the records are cut and packed")
  void saysTheSame() throws Exception {
    List<String> lines = new ArrayList<>();
    new Depot(23).write(400, lines::add);
    Path records = Files.createDirectories(at("records"));
    Files.writeString(
        records.resolve("a.ndjson"),
        String.join("\r\n", lines.subList(0, 150)) + "\n\n  \n{ no record\n" + lines.get(3));
    Files.writeString(records.resolve("b.json"), lines.get(150));
    byte[] rest =
        (String.join("\n", lines.subList(151, 400)) + "\n" + "x".repeat(1_000_001))
            .getBytes(StandardCharsets.UTF_8);
    try (OutputStream out =
        new GZIPOutputStream(Files.newOutputStream(records.resolve("c.ndjson.gz")))) {
      out.write(rest);
    }
    // Cut off on its way: what came before is good.
    byte[] packed = Files.readAllBytes(records.resolve("c.ndjson.gz"));
    Files.write(records.resolve("d.ndjson.gz"), Arrays.copyOf(packed, packed.length / 2));
    Files.writeString(records.resolve("notes.txt"), "no records");
    Files.writeString(records.resolve("book.csv"), "a;b\n");
    // A code that stands for many brakes must sink nobody.
    StringBuilder hot = new StringBuilder();
    for (int i = 0; i < 10_000; i++) {
      hot.append(lines.get(9).replaceFirst("\"id\" *: *\"[^\"]*\"", "\"id\":\"H-" + i + "\""))
          .append('\n');
    }
    Files.writeString(records.resolve("hot.ndjson"), hot);
    Run one = onOne("one", records);
    assertThat(one.files().get("rejects.csv"))
        .contains("cannot be read on")
        .contains("longer than a million")
        .contains("is there twice")
        .contains("stand for many brakes")
        .contains("a.ndjson,153,rejected")
        .contains("file-not-read");

    engine("7k", "3");
    assertSame(onMany("many", records), one);
    stop();
    engine("64k", "11");
    // A second run replaces what the first one wrote.
    assertSame(onMany("many", records), one);
  }

  @Test
  @DisplayName("refuses what only one machine can do, and reads no tables")
  void refusesWhatItCannot() throws IOException {
    Path table = Files.writeString(at("t.csv"), "a;b\n");
    engine("1m", "2");
    Run backtest = onMany("r", Files.writeString(at("a.ndjson"), "{}"), "--backtest");
    assertThat(backtest.code()).isEqualTo(2);
    assertThat(backtest.err()).contains("--backtest").contains("only one machine");
    Run csv = onMany("r", table);
    assertThat(csv.code()).isEqualTo(2);
    assertThat(csv.err()).contains("t.csv").contains("firmlever import");
    assertThat(csv.files()).isEmpty();
  }

  @Test
  @DisplayName("tells in words that records cannot be seen by a machine, and writes nothing")
  void tellsWhatFails() throws IOException {
    Path records = Files.writeString(at("a.ndjson"), "{}\n");
    engine("1m", "2");
    Elsewhere.Machines lost =
        (settings, files) -> {
          Files.delete(records);
          return new ClusterReview().review(settings, files);
        };
    StringWriter err = new StringWriter();
    int code =
        Main.review(
            lost,
            new PrintWriter(new StringWriter()),
            new PrintWriter(err),
            args("r", records).toArray(String[]::new));
    assertThat(code).isEqualTo(4);
    assertThat(err.toString())
        .contains("The engine gave up")
        .contains("all of them must see it under this name")
        .doesNotContain("\tat ");
    assertThat(files(at("r"))).isEmpty();
  }
}
