package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.Digest;
import firmlever.document.Limit;
import firmlever.invent.Depot;
import firmlever.records.TallyFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Tallies of several shops")
class TallyCommandTest {
  private static final Pattern BRAKE = Pattern.compile("\"brake\":\\{\"id\":\"([^\"]*)\"");

  @TempDir Path folder;

  private Run review(Object... args) {
    return Run.of(
        Stream.concat(Stream.of("review"), Arrays.stream(args))
            .map(Object::toString)
            .toArray(String[]::new));
  }

  private Path at(String name) {
    return folder.resolve(name);
  }

  /** Three shops; all visits of a brake are in one of them. A few records are no good. */
  private List<Path> shops(int jobs) throws IOException {
    List<List<String>> lines = List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    new Depot(17)
        .write(
            jobs,
            line -> {
              Matcher brake = BRAKE.matcher(line.replace(" ", ""));
              assertThat(brake.find()).isTrue();
              lines.get(Math.floorMod(brake.group(1).hashCode(), 3)).add(line);
            });
    lines.get(1).add("{ no record");
    lines.get(2).add(lines.get(2).get(4));
    List<Path> files = new ArrayList<>();
    for (List<String> each : lines) {
      files.add(Files.writeString(at("shop" + files.size() + ".ndjson"), String.join("\n", each)));
    }
    return files;
  }

  private static Map<String, String> texts(Path folder) throws IOException {
    Map<String, String> texts = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        texts.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return texts;
  }

  @Test
  @DisplayName("merged in any tree say to the last byte what all the records say")
  void sayWhatTheRecordsSay() throws IOException {
    List<Path> shops = shops(700);
    String until = "2026-06-30";
    Run all =
        review(
            shops.get(0),
            shops.get(1),
            shops.get(2),
            "--until",
            until,
            "--json",
            "--csv",
            at("all"),
            "--html",
            at("all.html"),
            "--rejects",
            at("all-rejects.csv"));
    for (int i = 0; i < 3; i++) {
      Run counted =
          review(
              shops.get(i),
              "--until",
              until,
              "--tally-out",
              at(i + ".tally"),
              "--with-technicians",
              "--rejects",
              at("r" + i + ".csv"));
      assertThat(counted.out()).contains("the tally of");
    }
    Run flat =
        review(
            "--merge",
            at("2.tally"),
            at("0.tally"),
            at("1.tally"),
            "--json",
            "--csv",
            at("flat"),
            "--html",
            at("flat.html"),
            "--rejects",
            at("flat-rejects.csv"));
    review(
        "--merge",
        at("0.tally"),
        at("2.tally"),
        "--tally-out",
        at("02.tally"),
        "--rejects",
        at("r02.csv"));
    Run tree =
        review("--merge", at("1.tally"), at("02.tally"), "--json", "--rejects", at("tree.csv"));
    assertThat(flat.out()).isEqualTo(all.out()).contains("\"comebacks\"");
    assertThat(tree.out()).isEqualTo(all.out());
    assertThat(flat.code()).isEqualTo(all.code()).isEqualTo(1);
    assertThat(Files.readString(at("flat.html"))).isEqualTo(Files.readString(at("all.html")));
    assertThat(Files.readString(at("flat-rejects.csv")))
        .isEqualTo(Files.readString(at("all-rejects.csv")))
        .contains("is there twice");
    Map<String, String> tables = texts(at("all"));
    assertThat(tables.remove("comebacks.csv")).isNotEmpty();
    assertThat(texts(at("flat"))).isEqualTo(tables);
    assertThat(flat.err()).contains("comebacks.csv is not written");
  }

  @Test
  @DisplayName("hold no codes of technicians unless that was asked for, and say the rest alike")
  void nameNobody() throws IOException {
    List<String> lines = new ArrayList<>();
    new Depot(4).write(300, lines::add);
    String text =
        String.join("\n", lines).replaceAll("\"by\" *: *\"T(\\d+)\"", "\"by\":\"Zora$1\"");
    String bad = "\n{\"format\":\"firmlever-case/1\",\"outcome\":{\"by\":\"Zora!  \\u0001\"}}";
    Path records = Files.writeString(at("a.ndjson"), text + bad);
    Path nobody =
        Files.writeString(at("b.ndjson"), text.replaceAll(",\"by\":\"Zora\\d+\"", "") + bad);
    assertThat(Files.readString(nobody)).doesNotContain("Zora1");
    String until = "2026-06-30";
    review(records, "--until", until, "--tally-out", at("a.tally"), "--rejects", at("r.csv"));
    review(
        records,
        "--until",
        until,
        "--tally-out",
        at("named.tally"),
        "--with-technicians",
        "--rejects",
        at("r.csv"));
    assertThat(unpacked("named.tally")).contains("Zora");
    assertThat(unpacked("a.tally")).doesNotContain("Zora");
    Run merged = review("--merge", at("a.tally"), "--json", "--rejects", at("r2.csv"));
    Run without = review(nobody, "--until", until, "--json", "--rejects", at("r3.csv"));
    assertThat(merged.out()).isEqualTo(without.out());
    assertThat(Files.readString(at("r2.csv"))).contains("its shop's list tells why");
    assertThat(Files.readString(at("r.csv"))).doesNotContain("its shop's list");
    Run mixed = review("--merge", at("a.tally"), at("named.tally"), "--rejects", at("r4.csv"));
    assertThat(mixed.code()).isEqualTo(2);
    assertThat(mixed.err()).contains("named.tally").contains("with codes of technicians");
  }

  private String unpacked(String name) throws IOException {
    byte[] all = Files.readAllBytes(at(name));
    try (var in =
        new java.util.zip.InflaterInputStream(
            new java.io.ByteArrayInputStream(all, 30, all.length - 30))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  @DisplayName("that are foreign, damaged, cut off or counted otherwise are refused with the place")
  void refuseWhatIsNoTally() throws IOException {
    List<String> lines = new ArrayList<>();
    new Depot(4).write(60, lines::add);
    Path records = Files.writeString(at("a.ndjson"), String.join("\n", lines));
    String day = "2026-06-30";
    review(records, "--until", day, "--tally-out", at("a.tally"), "--rejects", at("r.csv"));
    byte[] good = Files.readAllBytes(at("a.tally"));
    assertRefused(records, "is no tally: it does not begin with \"firmlever-tally/2\"");
    Files.write(at("cut.tally"), Arrays.copyOf(good, good.length / 2));
    assertRefused(at("cut.tally"), "is cut off or damaged after byte 30");
    Files.write(at("head.tally"), Arrays.copyOf(good, 22));
    assertRefused(at("head.tally"), "is cut off at byte 22");
    byte[] changed = good.clone();
    changed[27] ^= 1;
    Files.write(at("sum.tally"), changed);
    assertRefused(at("sum.tally"), "its checksum does not hold");
    Files.writeString(at("new.tally"), "firmlever-tally/7\nxyz");
    assertRefused(at("new.tally"), "is a tally of the form firmlever-tally/7");
    Files.copy(at("a.tally"), at("copy.tally"));
    assertRefused(at("copy.tally"), "holds the very same as");
    review(
        records, "--until", "2026-06-29", "--tally-out", at("o.tally"), "--rejects", at("r.csv"));
    assertRefused(at("o.tally"), "until 2026-06-29, not 2026-06-30");
    assertThat(review(records, "--tally-out", at("x.tally")).err()).contains("needs --until DAY");
    assertThat(review(at("a.tally"), "--merge", "--backtest").err())
        .contains("--backtest does not go with --merge".replace(" does", ": does"));
  }

  private void assertRefused(Path file, String message) {
    Run run = review("--merge", at("a.tally"), file, "--rejects", at("none.csv"));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains(file.getFileName().toString()).contains(message);
    assertThat(run.out()).isEmpty();
  }

  @Test
  @DisplayName("have a form whose number goes up when what is written changes")
  void haveANumberedForm() {
    // Where this fails, raise TallyFile.FORM and only then write the new digest here; where nothing
    // but the name of a record changed, what is written is the same, and so is the form.
    assertThat(TallyFile.FORM + " " + Digest.sha256(TallyFile.shape()))
        .isEqualTo("2 2959fec88f99b06d67d727a33a597952d90dae4859c8e8b26d41a5127643716d");
  }

  @Test
  @DisplayName("know a code that stands for many brakes by its many records")
  void knowACodeOfMany() throws IOException {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i <= Limit.BRAKE_RECORDS.most(); i++) {
      text.append(
          "{\"format\":\"firmlever-case/1\",\"id\":\"H-%d\",\"opened\":\"2026-05-12\",\"brake\":{\"id\":\"B-1\",\"fluid\":\"mineral-oil\"},\"complaint\":\"soft\"}\n"
              .formatted(i));
    }
    String one = text.substring(0, text.indexOf("\n")).replace("B-1", "B-2");
    Path records = Files.writeString(at("hot.ndjson"), text + one);
    Run run = review(records, "--json", "--rejects", at("r.csv"));
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.out()).contains("\"visits\" : 1,").contains("\"rejected\" : 501");
    assertThat(Files.readString(at("r.csv"))).contains("it must stand for many brakes");
  }
}
