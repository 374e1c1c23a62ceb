package firmlever.rulebase;

import firmlever.document.Digest;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The texts of the rule base: which files it is made of, and their digest. The build writes an
 * index of them ({@link #main}), so that a run need not read them all to name its rule base.
 */
public final class RuleFiles {
  private RuleFiles() {}

  private static final String INDEX = "rules/index";

  /** Paths of all rule and vocabulary files of this build, such as {@code rules/causes/x.drl}. */
  public static List<String> builtIn() {
    return lines("/" + INDEX).stream().map(line -> line.substring(65)).toList();
  }

  /** The text of a file of {@link #builtIn()}. */
  public static String text(String path) {
    return String.join("\n", rawLines("/" + path)) + "\n";
  }

  private static List<String> rawLines(String resource) {
    try (var in = RuleFiles.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("the build lacks " + resource);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** {@code sha256:} and the digest of all rule and vocabulary files of this build. */
  public static String builtInDigest() {
    return "sha256:" + sha256(String.join("\n", lines("/" + INDEX)));
  }

  static String sha256(String text) {
    return Digest.sha256(text.getBytes(StandardCharsets.UTF_8));
  }

  /** Writes the index of the rule files below {@code args[0]}: a line each, digest and path. */
  public static void main(String[] args) throws IOException {
    Path classes = Path.of(args[0]);
    TreeMap<String, String> digests = new TreeMap<>();
    try (Stream<Path> files = Files.walk(classes.resolve("rules"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String path = classes.relativize(file).toString().replace('\\', '/');
        if (!path.equals(INDEX)) {
          digests.put(path, Digest.sha256(Files.readAllBytes(file)));
        }
      }
    }
    Files.writeString(
        classes.resolve(INDEX),
        digests.entrySet().stream()
            .map(entry -> entry.getValue() + " " + entry.getKey() + "\n")
            .collect(Collectors.joining()));
  }

  static List<String> lines(String resource) {
    InputStream in = RuleFiles.class.getResourceAsStream(resource);
    if (in == null) {
      throw new IllegalStateException("the build lacks " + resource);
    }
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return reader.lines().map(String::strip).filter(line -> !line.isEmpty()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
