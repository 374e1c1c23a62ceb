package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseReader;
import firmlever.cli.shell.PaperFolder;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Limit;
import firmlever.hearing.Hearing;
import firmlever.records.tables.Table;
import firmlever.vocabulary.VocabularyReader;
import firmlever.warranty.Submitted;
import firmlever.web.Role;
import firmlever.web.Sessions;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Each limit at its edge: as much is taken, one more is not. Those of the bench: GuardTest. */
@DisplayName("At the edge of what may be")
class LimitTest {
  private static final CaseReader READER = new CaseReader(VocabularyReader.builtIn());

  @TempDir Path folder;

  private static String problemOf(byte[] text) {
    try {
      READER.read(DocumentReader.read(text, "case"), "case");
      return "";
    } catch (BadInput e) {
      return e.getMessage();
    }
  }

  private static String problemOf(String text) {
    return problemOf(text.getBytes(StandardCharsets.UTF_8));
  }

  /** A case without fault, with something of its own in it. */
  private static String caseWith(String more) {
    return "{\"format\":\"firmlever-case/1\",\"id\":\"edge\",\"opened\":\"2026-05-12\","
        + "\"brake\":{\"id\":\"B-1\",\"fluid\":\"mineral-oil\"}"
        + (more.contains("complaint") ? "" : ",\"complaint\":\"soft\"")
        + more
        + "}";
  }

  private static String text(String name, int letters) {
    return caseWith(",\"" + name + "\":\"" + "x".repeat(letters) + "\"");
  }

  private Path sparse(String name, long bytes) throws IOException {
    Path file = folder.resolve(name);
    try (RandomAccessFile writing = new RandomAccessFile(file.toFile(), "rw")) {
      writing.setLength(bytes);
    }
    return file;
  }

  private static String problemOfFile(Path file) {
    try {
      DocumentReader.read(file, "file");
      return "";
    } catch (BadInput e) {
      return e.getMessage();
    }
  }

  @Test
  @DisplayName("a file and a table may be as large, and not larger")
  void files() throws IOException {
    int most = Limit.FILE_BYTES.most();
    assertThat(problemOfFile(sparse("a.json", most))).doesNotContain("larger");
    assertThat(problemOfFile(sparse("b.json", most + 1L))).contains("larger than 64 MB");
    Run table = Run.of("import", sparse("b.csv", most + 1L).toString());
    assertThat(table.code()).isEqualTo(2);
    assertThat(table.err()).contains("larger than 64 MB");
  }

  @Test
  @DisplayName("JSON may be nested as deep, its texts and numbers as long")
  void json() {
    int deep = Limit.NESTING.most();
    assertThat(problemOf("[".repeat(deep) + "]".repeat(deep))).doesNotContain("nested deeper");
    assertThat(problemOf("[".repeat(deep + 1) + "]".repeat(deep + 1))).contains("nested deeper");
    int letters = Limit.TEXT_LETTERS.most();
    assertThat(problemOf("[\"" + "x".repeat(letters) + "\"]")).doesNotContain("a million");
    assertThat(problemOf("[\"" + "x".repeat(letters + 1) + "\"]")).contains("a million");
    int digits = Limit.NUMBER_DIGITS.most();
    assertThat(problemOf("[" + "7".repeat(digits) + "]")).doesNotContain("digits");
    assertThat(problemOf("[" + "7".repeat(digits + 1) + "]")).contains("digits");
  }

  @Test
  @DisplayName("a case may have as long a history, complaint and source")
  void cases() {
    String entry = "{\"date\":\"2026-04-02\",\"work\":\"full-bleed\"}";
    int entries = Limit.HISTORY.most();
    assertThat(
            problemOf(caseWith(",\"history\":[" + (entry + ",").repeat(entries - 1) + entry + "]")))
        .isEmpty();
    assertThat(problemOf(caseWith(",\"history\":[" + (entry + ",").repeat(entries) + entry + "]")))
        .contains("history");
    assertThat(problemOf(text("complaint", Limit.COMPLAINT_LETTERS.most()))).isEmpty();
    assertThat(problemOf(text("complaint", Limit.COMPLAINT_LETTERS.most() + 1)))
        .contains("complaint");
    assertThat(problemOf(text("source", Limit.NOTE_LETTERS.most()))).isEmpty();
    assertThat(problemOf(text("source", Limit.NOTE_LETTERS.most() + 1))).contains("source");
  }

  @Test
  @DisplayName("of a longer text the beginning is listened to, and that is told")
  void hearing() {
    int most = Limit.HEARD_LETTERS.most();
    String words = "the lever is spongy ".repeat(most / 20);
    assertThat(words).hasSize(most);
    assertThat(new Hearing().hear(words, "rear", LocalDate.EPOCH).cut()).isFalse();
    assertThat(new Hearing().hear(words + "x", "rear", LocalDate.EPOCH).cut()).isTrue();
  }

  @Test
  @DisplayName("one record may be as long, packed or not; a longer one is rejected alone")
  void records() throws IOException {
    String record = caseWith("");
    String longest = record + " ".repeat(Limit.RECORD_BYTES.most() - record.length());
    Path file = folder.resolve("records.ndjson");
    Files.writeString(file, longest + "\n" + longest + " \n" + record + "\n");
    Run run =
        Run.of(
            "review",
            file.toString(),
            "--json",
            "--rejects",
            folder.resolve("rejects.csv").toString());
    assertThat(run.code()).isEqualTo(1);
    assertThat(Files.readString(folder.resolve("rejects.csv")))
        .containsOnlyOnce("longer than a million bytes")
        .contains("records.ndjson,2");
  }

  /** The page of so many brakes that each came back once. */
  private String pageOf(int comebacks) throws IOException {
    StringBuilder records = new StringBuilder();
    for (int i = 0; i < comebacks; i++) {
      for (int visit = 0; visit < 2; visit++) {
        // In three months, as the cases behind one number are limited too.
        String day = LocalDate.of(2026, 1 + 2 * (i % 3), 1 + 20 * visit).toString();
        records.append(
            caseWith("")
                .replace("\"edge\"", "\"J" + i + "-" + visit + "\"")
                .replace("2026-05-12", day)
                .replace("B-1", "B-" + i));
        records.append('\n');
      }
    }
    records.append(caseWith("").replace("2026-05-12", "2026-11-12").replace("B-1", "B-END"));
    Path file = Files.writeString(folder.resolve("back.ndjson"), records);
    Path page = folder.resolve("back.html");
    Run run =
        Run.of(
            "review",
            file.toString(),
            "--html",
            page.toString(),
            "--coded-only",
            "--rejects",
            folder.resolve("rejects.csv").toString());
    assertThat(run.code()).isZero();
    return Files.readString(page);
  }

  @Test
  @DisplayName("a table on the page of a review has as many rows, and says how many are left out")
  void pageRows() throws IOException {
    int most = Limit.PAGE_ROWS.most();
    String edge = pageOf(most);
    assertThat(edge.split("<tr id=\"c-", -1)).hasSize(most + 1);
    assertThat(edge).doesNotContain("in the tables that --csv writes.");
    String beyond = pageOf(most + 1);
    assertThat(beyond.split("<tr id=\"c-", -1)).hasSize(most + 1);
    assertThat(beyond).contains("1 more row stands in the tables that --csv writes.");
    // No number leads to a row that is not there.
    java.util.regex.Matcher links =
        java.util.regex.Pattern.compile("href=\"#(c-[^\"]*)\"").matcher(beyond);
    while (links.find()) {
      assertThat(beyond).contains("id=\"" + links.group(1) + "\"");
    }
  }

  @Test
  @DisplayName("a table may have as many rows")
  void rows() throws Exception {
    int most = Limit.TABLE_ROWS.most();
    Path file = folder.resolve("rows.csv");
    Files.writeString(file, "day;bike\n" + "a;b\n".repeat(most - 1));
    assertThat(Table.read(file, "rows.csv").rows()).hasSize(most - 1);
    Files.writeString(file, "day;bike\n" + "a;b\n".repeat(most));
    assertThat(Run.of("import", file.toString()).err()).contains("more than 500000 rows");
  }

  private Run ofWorkbookUnpackingTo(int bytes) throws IOException {
    Path file = folder.resolve("book.xlsx");
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.setLevel(Deflater.BEST_SPEED);
      zip.putNextEntry(new ZipEntry("xl/filler"));
      byte[] zeros = new byte[1 << 20];
      for (int left = bytes; left > 0; left -= zeros.length) {
        zip.write(zeros, 0, Math.min(left, zeros.length));
      }
    }
    return Run.of("import", file.toString());
  }

  @Test
  @DisplayName("a workbook may unpack to as much")
  void unpacked() throws IOException {
    int most = Limit.TABLE_UNPACKED_BYTES.most();
    assertThat(ofWorkbookUnpackingTo(most).err()).isNotBlank().doesNotContain("unpacks to more");
    assertThat(ofWorkbookUnpackingTo(most + 1).err()).contains("unpacks to more than 256 MB");
  }

  @Test
  @DisplayName("a paper may be as large")
  void papers() throws Exception {
    Submitted.Papers papers = PaperFolder.of(folder.resolve("case.json"));
    sparse("a.pdf", Limit.PAPER_BYTES.most());
    sparse("b.pdf", Limit.PAPER_BYTES.most() + 1L);
    assertThat(papers.content("a.pdf")).hasSize(Limit.PAPER_BYTES.most());
    assertThatThrownBy(() -> papers.content("b.pdf")).hasMessageContaining("larger than 50 MB");
  }

  @Test
  @DisplayName("as many draws may be asked for, and the work for one answer ends")
  void draws() {
    // A case that is not there ends the run before the draws begin.
    int most = Limit.DRAWS.most();
    Run edge = Run.of("triage", "no-such-case.json", "--draws", "" + most);
    assertThat(edge.err()).contains("no-such-case.json").doesNotContain("--draws");
    Run beyond = Run.of("triage", "no-such-case.json", "--draws", "" + (most + 1));
    assertThat(beyond.code()).isEqualTo(2);
    assertThat(beyond.err()).contains("between 0 and 100000");
    WorkBudget budget = WorkBudget.ofOneAnswer();
    assertThat(budget.take(Limit.ANSWER_WORK.most())).isTrue();
    assertThat(budget.usedUp()).isFalse();
    assertThat(budget.take(1)).isFalse();
    assertThat(budget.usedUp()).isTrue();
  }

  @Test
  @DisplayName("as many people may be signed in at the bench")
  void sessions() {
    Sessions sessions = new Sessions(Instant::now);
    List<String> tokens =
        IntStream.range(0, Limit.SESSIONS.most())
            .mapToObj(i -> sessions.start("T" + i, Role.MECHANIC).token())
            .toList();
    assertThat(tokens).allMatch(token -> sessions.of(token).isPresent());
    String last = sessions.start("T3", Role.MECHANIC).token();
    assertThat(sessions.of(tokens.get(0))).as("the longest idle").isEmpty();
    assertThat(tokens.subList(1, tokens.size())).allMatch(t -> sessions.of(t).isPresent());
    assertThat(sessions.of(last)).isPresent();
  }

  @ParameterizedTest
  @EnumSource
  @DisplayName("stands a number that help prints")
  void areTold(Limit limit) {
    Run run = Run.of("--help", "limits");
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out().lines())
        .hasSize(Limit.values().length)
        .anySatisfy(
            line -> assertThat(line.strip()).startsWith(String.format("%,d ", limit.most())));
  }

  @Test
  @DisplayName("help says where the limits are told")
  void helpNamesThem() {
    assertThat(Run.of("--help").out()).contains("--help limits");
  }
}
