package firmlever.rulebase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The rule files as plain text, read without the engine. */
public final class RuleTexts {
  private RuleTexts() {}

  static final Path FOLDER = Path.of("rules");
  public static final Path JOB_CARDS = FOLDER.resolve("jobcard");

  private static final Pattern RULE =
      Pattern.compile("(?m)^[ \\t]*rule\\s+\"([^\"]*)\"(.*?)^[ \\t]*end\\b", Pattern.DOTALL);

  /**
   * One rule.
   *
   * @param place file and line, as an editor takes it
   * @param body everything between the name and {@code end}, comments blanked out
   */
  public record RuleText(Path file, int line, String name, String body) {
    public String place() {
      return file + ":" + line;
    }

    String stem() {
      return file.getFileName().toString().replaceFirst("\\.drl$", "");
    }

    /** Place of something within the body. */
    public String place(int offset) {
      return file + ":" + (line + (int) body.substring(0, offset).lines().count() - 1);
    }

    String when() {
      return body.substring(body.indexOf("when"), body.indexOf("\nthen"));
    }

    String then() {
      return body.substring(body.indexOf("\nthen"));
    }
  }

  /** All rule files but those of job cards, which are a rule base of their own. */
  public static List<Path> files() {
    return files(FOLDER).stream().filter(file -> !file.startsWith(JOB_CARDS)).toList();
  }

  public static List<Path> files(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".drl")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The text of a file with its comments blanked out, so that places stay where they are. */
  static String withoutComments(Path file) {
    try {
      StringBuilder text = new StringBuilder();
      for (String line : Files.readString(file).split("\n", -1)) {
        Matcher comment = Pattern.compile("^((?:[^\"/]|\"[^\"]*\"|/(?!/))*)//.*$").matcher(line);
        text.append(comment.matches() ? comment.group(1) : line).append('\n');
      }
      return text.toString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static List<RuleText> rules() {
    return rules(files());
  }

  public static List<RuleText> rules(List<Path> files) {
    List<RuleText> rules = new ArrayList<>();
    for (Path file : files) {
      String text = withoutComments(file);
      Matcher rule = RULE.matcher(text);
      while (rule.find()) {
        int line = (int) text.substring(0, rule.start(1)).lines().count();
        rules.add(new RuleText(file, line, rule.group(1), rule.group(2)));
      }
    }
    return rules;
  }
}
