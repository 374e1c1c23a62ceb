package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.cli.shell.Failures;
import firmlever.document.Problem;
import firmlever.invent.Depot;
import firmlever.records.OneCase;
import firmlever.warranty.report.ClaimSummary;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Among many cases")
class BatchTest {
  private static final String GOOD = "cases/demo/soft-after-the-car-roof.json";
  private static final String POLICY = "rules/policies/lakeside-depot.json";

  @TempDir Path folder;

  private Path file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private static String withHistory(int entries) {
    return "{\"format\":\"firmlever-case/1\",\"id\":\"long\",\"opened\":\"2026-05-12\","
        + "\"brake\":{\"id\":\"B-1\",\"fluid\":\"mineral-oil\"},\"complaint\":\"soft\",\"history\":["
        + IntStream.range(0, entries)
            .mapToObj(i -> "{\"date\":\"2026-04-02\",\"work\":\"full-bleed\"}")
            .collect(Collectors.joining(","))
        + "]}";
  }

  private Run review(Object... args) {
    List<String> all = new ArrayList<>(List.of("review"));
    for (Object arg : args) {
      all.add(arg.toString());
    }
    all.addAll(List.of("--json", "--rejects", folder.resolve("rejects.csv").toString()));
    return Run.of(all.toArray(String[]::new));
  }

  private String rejects() throws IOException {
    return Files.readString(folder.resolve("rejects.csv"));
  }

  private static int number(String json, String name) {
    var matcher = Pattern.compile("\"" + name + "\" : (\\d+)").matcher(json);
    assertThat(matcher.find()).isTrue();
    return Integer.parseInt(matcher.group(1));
  }

  private static List<String> records(int jobs) {
    List<String> lines = new ArrayList<>();
    new Depot(5).write(jobs, lines::add);
    return lines;
  }

  @Test
  @DisplayName("a history as long as a case may have can be diagnosed, a longer one is refused")
  void historiesHaveAnEnd() throws IOException {
    Run longest = Run.of("triage", file("a.json", withHistory(1000)).toString(), "--draws", "0");
    assertThat(longest.err()).isEmpty();
    assertThat(longest.code()).isZero();
    Run longer = Run.of("triage", GOOD, file("b.json", withHistory(10_000)).toString());
    assertThat(longer.code()).isEqualTo(2);
    assertThat(longer.out()).contains("B-0417-rear-3");
    assertThat(longer.err()).contains("b.json:1:", "/history", "at most 1000").hasLineCount(1);
  }

  @Test
  @DisplayName("a rule that goes round in a circle is told of each case by name")
  void aRuleThatRunsInACircle() throws IOException {
    Path rules = Files.createDirectory(folder.resolve("rules"));
    Files.writeString(
        rules.resolve("round.drl"),
        """
        package firmlever.rules.causes

        import firmlever.rulebase.Facts.*
        import firmlever.rulebase.Model
        global Model model

        rule "round: in a circle"
            @source("common practice")
        when
            Finding( $symptom : symptom == "spongy-lever", present )
        then
            insert( new Finding( $symptom, true ) );
        end
        """);
    String other = "cases/demo/howls-after-the-chain-was-oiled.json";
    Run run = Run.of("triage", GOOD, other, "--rules", rules.toString(), "--draws", "0");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains(GOOD + ": the rules keep firing without end");
    assertThat(run.out()).contains("B-").doesNotContain("B-0417-rear-3");
  }

  @Test
  @DisplayName("a claim whose paper is not there is that claim's own problem")
  void aClaimWithoutItsPaper() throws IOException {
    Path in = Files.createDirectory(folder.resolve("in"));
    String claim = Files.readString(Path.of("cases/claims/weep-within-period.json"));
    Files.writeString(in.resolve("good.json"), claim);
    Files.writeString(
        in.resolve("bad.json"),
        claim.replace("W-26-101", "W-26-999").replace("-photos.txt", "-lost.txt"));
    Path papers = Files.createDirectory(in.resolve("papers"));
    for (String kind : List.of("photos", "purchase-date", "wipe-pump-hold")) {
      String name = "B-0417-front-5-" + kind + ".txt";
      Files.copy(Path.of("cases/claims/papers", name), papers.resolve(name));
    }
    Path out = folder.resolve("out");
    Run run = Run.of("justify", in.toString(), "--policy", POLICY, "--out", out.toString());
    assertThat(run.out()).startsWith("2 claims: 1 covered");
    assertThat(out.resolve("good.json")).exists();
    assertThat(out.resolve("summary.csv")).content().contains("bad.json");
    assertThat(run.err().lines().filter(line -> !line.startsWith(" ")))
        .allMatch(line -> line.contains("bad.json:"));
  }

  @Test
  @DisplayName("what nobody foresaw in one case is told with its name")
  void whatNobodyForesaw() {
    OneCase.Work work =
        () -> {
          throw new IllegalStateException("no rule spoke of clause 3.1");
        };
    assertThat(OneCase.problems("bad.json", work).get(0).spoken())
        .startsWith("bad.json: firmlever has a fault of its own with it: no rule spoke of clause");
    OneCase.Work deep =
        () -> {
          throw new StackOverflowError();
        };
    assertThat(OneCase.problems("deep.json", deep)).hasSize(1);
  }

  @Test
  @DisplayName("a record that is rejected does not move the end of the data")
  void rejectedRecordsMoveNothing() throws IOException {
    List<String> lines = records(60);
    String until = review(file("good.ndjson", String.join("\n", lines))).out();
    String late = lines.get(0).replaceFirst("\"opened\":\"[0-9-]+\"", "\"opened\":\"2199-01-01\"");
    lines.add(30, late.replace("\"symptoms\"", "\"simptoms\""));
    Run run = review(file("mixed.ndjson", String.join("\n", lines)));
    assertThat(run.code()).isEqualTo(1);
    assertThat(rejects()).contains("mixed.ndjson,31,", "simptoms");
    assertThat(run.out().replaceFirst("\"records\" : 61", "\"records\" : 60"))
        .isEqualTo(until.replace("\"rejected\" : 0", "\"rejected\" : 1"));
  }

  @Test
  @DisplayName("a record with a hundred thousand faults takes no more room than one with ten")
  void faultsAreBounded() throws IOException {
    String doubled =
        "{"
            + IntStream.range(0, 120_000).mapToObj(i -> "\"a\":1").collect(Collectors.joining(","))
            + "}";
    Path packed = folder.resolve("doubled.ndjson.gz");
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(packed))) {
      out.write((doubled + "\n" + String.join("\n", records(20))).getBytes(StandardCharsets.UTF_8));
    }
    Run run = review(packed);
    assertThat(run.code()).isEqualTo(1);
    assertThat(number(run.out(), "visits")).isEqualTo(20);
    assertThat(rejects()).hasSizeLessThan(3000).contains("second time", "more");
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "justify", "review"})
  @DisplayName("none at all is told with the folder's name")
  void noneIsTold(String command) throws IOException {
    Path empty = Files.createDirectory(folder.resolve("empty"));
    List<String> words = new ArrayList<>(List.of(command, empty.toString()));
    if (command.equals("justify")) {
      words.addAll(List.of("--policy", POLICY, "--out", folder.resolve("out").toString()));
    }
    Run run = Run.of(words.toArray(String[]::new));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains(empty + ": no file that ends in .json");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  @DisplayName("those behind a link to a folder are found, and an empty folder of rules is told")
  void linksAreFollowed() throws IOException {
    Path link =
        Files.createSymbolicLink(folder.resolve("demo"), Path.of("cases/demo").toAbsolutePath());
    Run run = Run.of("check", link.toString(), "--quiet");
    assertThat(run.out()).doesNotStartWith("0 cases").contains("cases checked");
    Path rules = Files.createDirectory(folder.resolve("rules"));
    Run none = Run.of("check", link.toString(), "--rules", rules.toString());
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).contains(rules + ": no rule file");
  }

  private Path mapping(String separator) throws IOException {
    return file(
        "mapping.json",
        """
        { "format": "firmlever-mapping/1", "separator": "%s",
          "columns": { "Job": "id", "In": "opened", "Bike": "brake.id", "Words": "complaint" } }
        """
            .formatted(separator));
  }

  @Test
  @DisplayName("tables are read as spreadsheets save them: with a byte-order mark, with tabs")
  void spreadsheetTables() throws IOException {
    String table = "\uFEFFJob\tIn\tBike\tWords\nJ1\t2026-01-05\tB-1\tsoft\n";
    Run run = review(file("t.csv", table), "--mapping", mapping("\\t"));
    assertThat(run.err()).doesNotContain("rejected");
    assertThat(run.code()).isZero();
    assertThat(number(run.out(), "visits")).isEqualTo(1);
  }

  @Test
  @DisplayName("a table in an old encoding, and one whose cell never ends, are told in words")
  void brokenTables() throws IOException {
    String table = "Job,In,Bike,Words\nJ1,2026-01-05,B-1,wei\u00dfe Bremse\n";
    Path old = folder.resolve("old.csv");
    Files.write(old, table.getBytes(Charset.forName("windows-1252")));
    Path endless = folder.resolve("endless.csv.gz");
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(endless))) {
      out.write(
          "Job,In,Bike,Words\nJ2,2026-01-05,B-1,soft\nJ3,2026-01-06,B-1,\""
              .getBytes(StandardCharsets.UTF_8));
      for (int i = 0; i < 50; i++) {
        out.write(new byte[1 << 20]);
      }
    }
    Run run = review(old, endless, "--mapping", mapping(","));
    assertThat(run.code()).isEqualTo(1);
    assertThat(number(run.out(), "visits")).isEqualTo(1);
    assertThat(rejects())
        .contains(
            "old.csv,", "not UTF-8", "CSV UTF-8", "endless.csv.gz,3,", "longer than a million");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\\\"", "x", ";;", "\\n"})
  @DisplayName("a separator that cannot part columns is refused at its place")
  void separatorsThatCannotBe(String separator) throws IOException {
    Run run = review(file("t.csv", "Job\n"), "--mapping", mapping(separator));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains("mapping.json:1:", "/separator", "one character");
  }

  @Test
  @DisplayName("a column that fills no field is refused at its place")
  void fieldsThatCannotBe() throws IOException {
    Path mapping =
        file("m.json", "{\"format\":\"firmlever-mapping/1\",\"columns\":{\"Job\":\".\"}}");
    Run run = review(file("t.csv", "Job\n"), "--mapping", mapping);
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains("m.json:1:", "/columns/Job", "a field of the case file");
  }

  @Test
  @DisplayName("a clean run leaves no rejects of an earlier one standing")
  void rejectsOfEarlierRunsGo() throws IOException {
    Path records = file("a.ndjson", String.join("\n", records(20)));
    file("rejects.csv", "file,line,reason\nold.ndjson,3,bad\n");
    assertThat(review(records).code()).isZero();
    assertThat(rejects()).isEqualTo("file,line,what,reason\n");
  }

  @Test
  @DisplayName("file names cannot be formulas in the summary of claims")
  void fileNamesAreNoFormulas() {
    ClaimSummary summary =
        new ClaimSummary(
            null,
            "",
            List.of(),
            new LinkedHashMap<>(
                Map.of("=cmd|x", List.of(Problem.ofFile("=cmd|x", "is broken", "")))));
    assertThat(summary.csv().lines().skip(1))
        .containsExactly("'=cmd|x,,,,,failed,,,,,,,,,,,,,,'=cmd|x: is broken,,");
  }

  @Test
  @DisplayName("a machine without fonts is told in a sentence, with the same exit code")
  void missingFontsAreToldOf() {
    Error none = new InternalError("Fontconfig head is null, check your fonts");
    none.setStackTrace(
        new StackTraceElement[] {
          new StackTraceElement("sun.awt.FontConfiguration", "getVersion", "", 1)
        });
    StringWriter err = new StringWriter();
    int code = Failures.told(new ExceptionInInitializerError(none), new PrintWriter(err, true));
    assertThat(code).isEqualTo(4);
    assertThat(err.toString()).contains("cannot draw here", "Maybe fontconfig");
  }

  @Test
  @DisplayName("no memory is told in a sentence, with an exit code of its own")
  void memoryIsToldOf() {
    StringWriter err = new StringWriter();
    int code = Failures.told(new OutOfMemoryError("Java heap space"), new PrintWriter(err, true));
    assertThat(code).isEqualTo(4);
    assertThat(err.toString()).contains("memory does not suffice").doesNotContain("java.lang");
    assertThat(Run.of("--help").out()).contains("4   the program or the machine failed");
  }
}
