package firmlever.document;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16BE;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DocumentReaderTest {

  private static Node read(String text) throws BadInput {
    return DocumentReader.readText(text, "case.json");
  }

  private static List<Problem> problemsOf(byte[] bytes) {
    BadInput bad =
        catchThrowableOfType(BadInput.class, () -> DocumentReader.read(bytes, "case.json"));
    assertThat(bad).as("must be refused").isNotNull();
    return bad.problems();
  }

  private static Problem onlyProblemOf(String text) {
    List<Problem> problems = problemsOf(text.getBytes(UTF_8));
    assertThat(problems).hasSize(1);
    return problems.get(0);
  }

  private static Problem onlyProblemOf(Path path) {
    BadInput bad =
        catchThrowableOfType(
            BadInput.class, () -> DocumentReader.read(path, path.getFileName().toString()));
    assertThat(bad).as("must be refused").isNotNull();
    assertThat(bad.problems()).hasSize(1);
    return bad.problems().get(0);
  }

  private static Node member(Node object, String name) {
    return ((Node.Object) object).get(name).orElseThrow();
  }

  private static byte[] withStart(int[] start, String text, Charset charset) {
    byte[] body = text.getBytes(charset);
    byte[] all = new byte[start.length + body.length];
    for (int i = 0; i < start.length; i++) {
      all[i] = (byte) start[i];
    }
    System.arraycopy(body, 0, all, start.length, body.length);
    return all;
  }

  @Nested
  class Places {
    /** Counted by hand: a tab is one character, and so is a letter of two or three bytes. */
    @Test
    void everyValueKnowsLineColumnAndPointer() throws BadInput {
      Node top =
          read(
              """
              {
              \t"größe": "2 N·m", "n": 7,
                "list": [ true,
              \t\tnull ],
                "a/b~c": { "": 1.5 }
              }
              """);
      assertThat(top.place()).isEqualTo(new Node.Place(1, 1, ""));
      assertThat(member(top, "größe").place()).isEqualTo(new Node.Place(2, 11, "/größe"));
      assertThat(member(top, "n").place()).isEqualTo(new Node.Place(2, 25, "/n"));
      Node.Array list = (Node.Array) member(top, "list");
      assertThat(list.place()).isEqualTo(new Node.Place(3, 11, "/list"));
      assertThat(list.items().get(0).place()).isEqualTo(new Node.Place(3, 13, "/list/0"));
      assertThat(list.items().get(1).place()).isEqualTo(new Node.Place(4, 3, "/list/1"));
      Node inner = member(top, "a/b~c");
      assertThat(inner.place()).isEqualTo(new Node.Place(5, 12, "/a~1b~0c"));
      assertThat(member(inner, "").place()).isEqualTo(new Node.Place(5, 18, "/a~1b~0c/"));
      assertThat(((Node.Object) top).nameOf("n")).isEqualTo(new Node.Place(2, 20, "/n"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r"})
    void everyLineEndCounts(String lineEnd) throws BadInput {
      Node top = read("{" + lineEnd + lineEnd + "  \"a\": 3" + lineEnd + "}");
      assertThat(member(top, "a").place()).isEqualTo(new Node.Place(3, 8, "/a"));
    }

    @Test
    void syntaxErrorsNameTheirPlace() {
      Problem problem = onlyProblemOf("{\n  \"a\": 1,\n  \"b\" 2\n}");
      assertThat(problem.line()).isEqualTo(3);
      assertThat(problem.column()).isBetween(7, 8);
      assertThat(problem.message()).startsWith("is not JSON: ");
    }
  }

  @Nested
  class Values {
    @Test
    void eachKindIsRead() throws BadInput {
      Node.Array all = (Node.Array) read("[\"x\", 12.50, -3, true, false, null, {}, []]");
      assertThat(all.items())
          .extracting(Node::spoken)
          .containsExactly(
              "\"x\"", "12.50", "-3", "true", "false", "null", "an object", "a list of 0");
    }

    @Test
    void aHugeExponentIsANumberLikeAnyOther() throws BadInput {
      Node.Number number = (Node.Number) read("1e999999");
      assertThat(number.value().precision()).isEqualTo(1);
      assertThat(number.value().scale()).isEqualTo(-999_999);
      assertThat(number.spoken()).isEqualTo("1E+999999");
    }

    @ParameterizedTest
    @ValueSource(strings = {"01", "+1", ".5", "1.", "0x10"})
    void whatIsNoNumberIsRefused(String text) {
      assertThat(onlyProblemOf(text).message()).startsWith("is not JSON: ");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e99999999999", "-1e-99999999999", "1e2147483648"})
    void anExponentBeyondCountingIsRefusedAtItsPlace(String number) {
      assertThat(onlyProblemOf("{\"ratio\":\n  " + number + "}").spoken())
          .isEqualTo("case.json:2:3: /ratio: the exponent of this number is beyond all counting");
    }

    @Test
    void fiveHundredDigitsAreTooMany() {
      assertThat(onlyProblemOf("{ \"ratio\": " + "7".repeat(500) + " }").message())
          .isEqualTo("holds a number of more than 400 digits");
    }

    @Test
    void aTextOfMoreThanAMillionCharactersIsTooLong() {
      assertThat(onlyProblemOf("[\"" + "x".repeat(1_000_001) + "\"]").message())
          .isEqualTo("holds a text of more than a million characters");
    }

    /** RFC 8259 section 8.2: an escaped lone surrogate is grammar, whatever it may mean. */
    @Test
    void anEscapedLoneSurrogateIsReadAndSpokenOf() throws BadInput {
      Node.Text text = (Node.Text) read("\"\\ud800\"");
      assertThat(text.value()).isEqualTo("\ud800");
      assertThat(text.spoken()).hasSize(3);
    }

    @ParameterizedTest
    @ValueSource(
        strings = {
          "\0",
          "{\0}",
          "\"\0\"",
          "{\"a\": \0}",
          "{}\0",
          "\"a\nb\"",
          "[1,]",
          "{\"a\":1,}",
          "{a: 1}",
          "'a'",
          "// no\n{}",
          "NaN",
          "Infinity",
          "tru",
          "[}",
          "{]",
          "]",
          "}",
          ",",
          ":",
          "\"\\q\"",
          "\"\\u12g4\"",
          "\u00a0{}"
        })
    void whatIsNotJsonIsRefusedWithAPlaceAndInWordsWithoutJava(String text) {
      Problem problem = onlyProblemOf(text);
      assertThat(problem.line()).isPositive();
      assertThat(problem.column()).isPositive();
      assertThat(problem.spoken())
          .doesNotContain("Feature", "tools.jackson", "java.", "Source:", "Exception", "`");
    }
  }

  @Nested
  class Names {
    @Test
    void aNameThatStandsTwiceIsNamedWithBothLines() {
      Problem problem = onlyProblemOf("{\n \"lot\": 1,\n \"id\": 2,\n   \"lot\": 3 }");
      assertThat(problem)
          .isEqualTo(
              new Problem(
                  "case.json",
                  4,
                  4,
                  "/lot",
                  "\"lot\" stands here a second time, first in line 2; each name may stand once",
                  Optional.empty()));
    }

    @Test
    void allSuchNamesAreToldAtOnceAlsoBesideASyntaxError() {
      List<Problem> problems =
          problemsOf(
              "{\"a\":1,\n\"a\":2,\n\"b\":{\"c\":1,\n\"c\":2},\n\"a\":3, oops".getBytes(UTF_8));
      assertThat(problems).extracting(Problem::line).containsExactly(2, 4, 5, 5);
      assertThat(problems).extracting(Problem::pointer).containsExactly("/a", "/b/c", "/a", "");
    }
  }

  @Nested
  class HostileText {
    @ParameterizedTest
    @ValueSource(strings = {"", " ", "\n", "\t \r\n  ", "\u2003"})
    void nothingIsToldAsNothing(String text) {
      assertThat(onlyProblemOf(text).spoken())
          .isEqualTo("case.json: is empty; a JSON object must stand here");
    }

    @ParameterizedTest
    @CsvSource({"'{} x',1", "'{} {}',1", "'{}]',1", "'{}\n\n  7',3", "'1 2',1"})
    void nothingMayFollowTheDocument(String text, int line) {
      assertThat(onlyProblemOf(text).line()).isEqualTo(line);
    }

    @ParameterizedTest
    @ValueSource(strings = {"[", "{\"a\":", "[{\"a\":[", " [\n"})
    void tenMegabytesOfOpeningsAreRefused(String opening) {
      Problem problem = onlyProblemOf(opening.repeat(10_000_000 / opening.length()));
      assertThat(problem.message()).isEqualTo("is nested deeper than 60 levels; no case file is");
    }

    @Test
    void nestingIsReadUpToItsLimitAndNoDeeper() {
      assertThatCode(() -> read("[".repeat(60) + "]".repeat(60))).doesNotThrowAnyException();
      assertThat(onlyProblemOf("[".repeat(61) + "]".repeat(61)).message())
          .startsWith("is nested deeper than 60 levels");
    }

    @Test
    void aNameOfAMillionLettersIsRefusedInWords() {
      assertThat(onlyProblemOf("{\"" + "n".repeat(1_000_000) + "\": 1}").spoken())
          .hasSizeLessThan(200)
          .doesNotContain("StreamReadConstraints");
    }

    @Test
    void aFileCutAnywhereIsRefused() throws IOException {
      byte[] whole = realCase();
      int end = new String(whole, ISO_8859_1).lastIndexOf('}');
      for (int length = 0; length <= end; length++) {
        byte[] cut = Arrays.copyOf(whole, length);
        List<Problem> problems = problemsOf(cut);
        assertThat(problems).as("cut to %d bytes", length).hasSize(1);
      }
      assertThatCode(() -> DocumentReader.read(whole, "case.json")).doesNotThrowAnyException();
    }

    @Test
    void aCutInsideAValueIsSpokenOfAsACut() {
      assertThat(onlyProblemOf("{ \"id\": \"B-04").message())
          .isEqualTo("the file ends in the middle of a value; it seems to be cut off");
      assertThat(onlyProblemOf("{ \"id\": [").message())
          .isEqualTo("the file ends in the middle of a value; it seems to be cut off");
    }

    @Test
    void aFlippedBitIsReadOrRefused() throws IOException {
      byte[] bytes = realCase();
      int refused = 0;
      for (int bit = 0; bit < bytes.length * 8; bit++) {
        bytes[bit / 8] ^= (byte) (1 << bit % 8);
        try {
          DocumentReader.read(bytes, "case.json");
        } catch (BadInput e) {
          refused++;
          assertThat(e.problems()).isNotEmpty();
        }
        bytes[bit / 8] ^= (byte) (1 << bit % 8);
      }
      assertThat(refused)
          .as("some flips break the file, some only a letter")
          .isBetween(bytes.length, bytes.length * 7);
    }

    private static byte[] realCase() throws IOException {
      byte[] bytes = Files.readAllBytes(Path.of("cases/demo/soft-after-the-car-roof.json"));
      return new String(bytes, UTF_8)
          .replace("\"complaint\": \"", "\"complaint\": \"2 N·m, zäh – ")
          .getBytes(UTF_8);
    }
  }

  @Nested
  class Encodings {
    private static final String TEXT = "{ \"note\": \"4 N·m – 🚲\",\n \"n\": 5 }";

    private void assertRead(byte[] bytes) throws BadInput {
      Node top = DocumentReader.read(bytes, "case.json");
      assertThat(((Node.Text) member(top, "note")).value()).isEqualTo("4 N·m – 🚲");
      assertThat(top.place()).isEqualTo(new Node.Place(1, 1, ""));
      assertThat(member(top, "n").place()).isEqualTo(new Node.Place(2, 7, "/n"));
    }

    @Test
    void utf8IsReadWithAndWithoutAByteOrderMark() throws BadInput {
      assertRead(TEXT.getBytes(UTF_8));
      assertRead(withStart(new int[] {0xEF, 0xBB, 0xBF}, TEXT, UTF_8));
    }

    @Test
    void utf16IsReadWhereAByteOrderMarkSaysSo() throws BadInput {
      assertRead(withStart(new int[] {0xFE, 0xFF}, TEXT, UTF_16BE));
      assertRead(withStart(new int[] {0xFF, 0xFE}, TEXT, UTF_16LE));
    }

    @Test
    void utf16WithoutAMarkOrWithAnOddByteIsRefused() {
      assertThat(problemsOf(TEXT.getBytes(UTF_16LE))).hasSize(1);
      byte[] odd = withStart(new int[] {0xFF, 0xFE}, TEXT, UTF_16LE);
      assertThat(problemsOf(Arrays.copyOf(odd, odd.length - 1))).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"EFBBBF", "FEFF", "FFFE", "EFBBBF20"})
    void aMarkAloneIsAnEmptyFile(String hex) {
      assertThat(problemsOf(HexFormat.of().parseHex(hex)).get(0).message())
          .isEqualTo("is empty; a JSON object must stand here");
    }

    @Test
    void aLatin1ByteIsNamedByItsPlace() {
      byte[] latin = "{\n  \"note\": \"zäh\",\n  \"more\": \"ö\" }".getBytes(ISO_8859_1);
      assertThat(problemsOf(latin).get(0).spoken())
          .isEqualTo(
              """
              case.json:2:13: a byte here is not UTF-8 text; case files are UTF-8
                  Maybe save the file again as UTF-8.""");
    }

    @ParameterizedTest
    @ValueSource(strings = {"EDA080", "EDB080", "C0AF", "F4908080", "FF", "80", "E282"})
    void bytesThatAreNoUtf8AreRefused(String hex) {
      byte[] bytes = HexFormat.of().parseHex("5B22" + hex + "225D");
      Problem problem = problemsOf(bytes).get(0);
      assertThat(problem.line()).isEqualTo(1);
      assertThat(problem.column()).isEqualTo(3);
    }
  }

  @Nested
  class FilesOfAllSorts {
    @TempDir Path folder;

    @Test
    void aDirectoryIsNoFile() {
      Problem problem = onlyProblemOf(folder);
      assertThat(problem.message()).isEqualTo("is a directory, not a file");
      assertThat(problem.maybe()).contains("Maybe name a file inside it.");
      assertThat(problem.line()).isZero();
    }

    @Test
    void aMissingFileSuggestsItsNearSibling() throws IOException {
      Path near = Files.writeString(folder.resolve("B-0417-rear-3.json"), "{}");
      Files.writeString(folder.resolve("B-0009-front-1.json"), "{}");
      Problem problem = onlyProblemOf(folder.resolve("B-0417-raer-3.json"));
      assertThat(problem.message()).isEqualTo("there is no such file");
      assertThat(problem.maybe()).contains("Maybe " + near + " was meant.");
    }

    @Test
    void aMissingFileWithoutANearSiblingSuggestsNothing() throws IOException {
      Files.writeString(folder.resolve("B-0417-rear-3.json"), "{}");
      assertThat(onlyProblemOf(folder.resolve("quite-another.txt")).maybe()).isEmpty();
      assertThat(onlyProblemOf(folder.resolve("no-folder/x.json")).maybe()).isEmpty();
    }

    @Test
    void aFileBeyondAllSenseIsRefused() throws IOException {
      Path large = folder.resolve("large.json");
      try (var file = new RandomAccessFile(large.toFile(), "rw")) {
        file.setLength(Limit.FILE_BYTES.most() + 1L);
      }
      assertThat(onlyProblemOf(large).message()).isEqualTo("is larger than 64 MB; no case file is");
    }

    /** A device tells a size of nothing and never ends. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void anEndlessDeviceIsRefusedTheSame() {
      assertThat(onlyProblemOf(Path.of("/dev/zero")).message())
          .isEqualTo("is larger than 64 MB; no case file is");
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void anEmptyDeviceIsEmpty() {
      assertThat(onlyProblemOf(Path.of("/dev/null")).message()).startsWith("is empty");
    }
  }
}
