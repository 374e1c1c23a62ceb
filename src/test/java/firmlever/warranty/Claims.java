package firmlever.warranty;

import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The demo claims, the demo policy and the desk, for tests. */
final class Claims {
  private Claims() {}

  static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  static final RuleBase RULES = RuleBase.builtIn(VOCABULARY);
  static final Desk DESK = new Desk(RULES, WarrantyRules.builtIn());
  static final CaseReader READER = new CaseReader(VOCABULARY);
  static final Path FOLDER = Path.of("cases", "claims");
  static final Path POLICY_FILE = Path.of("rules", "policies", "lakeside-depot.json");
  static final Policy POLICY = policy(text(POLICY_FILE));

  static List<Path> files() {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(file -> file.toString().endsWith(".json")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static List<Submitted> all() {
    return files().stream().map(Claims::demo).toList();
  }

  static Submitted demo(Path file) {
    return submitted(text(file), file.toString());
  }

  static Path file(String name) {
    return FOLDER.resolve(name + ".json");
  }

  static Submitted submitted(String text, String name) {
    try {
      return Submitted.read(
          READER,
          text.getBytes(StandardCharsets.UTF_8),
          name,
          paper -> bytes(FOLDER.resolve(paper)));
    } catch (BadInput e) {
      throw new IllegalArgumentException(e);
    }
  }

  static Policy policy(String text) {
    try {
      return new PolicyReader(VOCABULARY).read(text.getBytes(StandardCharsets.UTF_8), "policy");
    } catch (BadInput e) {
      throw new IllegalArgumentException(e);
    }
  }

  static Dossier judged(Submitted submitted) {
    try {
      return DESK.judge(submitted, POLICY);
    } catch (BadInput e) {
      throw new IllegalArgumentException(e);
    }
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
