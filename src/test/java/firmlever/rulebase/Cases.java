package firmlever.rulebase;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Case files for tests: written on the spot, or all that lie in {@code cases/}. */
public final class Cases {
  private Cases() {}

  public static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  public static final RuleBase RULES = RuleBase.builtIn(VOCABULARY);
  private static final CaseReader READER = new CaseReader(VOCABULARY);

  /** A case with these members besides format, code and day; single quotes for double ones. */
  public static CaseFile of(String members) {
    String text =
        "{'format':'firmlever-case/1','id':'B-0417-rear-3','opened':'2026-05-12'," + members + "}";
    try {
      return READER.read(
          DocumentReader.read(
              text.replace('\'', '"').getBytes(StandardCharsets.UTF_8), "written on the spot"),
          "written on the spot");
    } catch (BadInput e) {
      throw new IllegalArgumentException(e);
    }
  }

  /** A brake built for that fluid, with nothing found but a complaint. */
  static CaseFile plain(String fluid, String reservoir) {
    return of(
        "'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'%s','reservoir':'%s'}"
            .formatted(fluid, reservoir));
  }

  static List<CaseFile> all() {
    List<CaseFile> cases = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("cases"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        cases.add(READER.read(file, file.toString()));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (BadInput e) {
      throw new IllegalStateException(e);
    }
    return cases;
  }
}
