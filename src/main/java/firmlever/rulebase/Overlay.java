package firmlever.rulebase;

import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.vocabulary.Vocabulary;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.drools.kiesession.rulebase.InternalKnowledgeBase;
import org.drools.model.codegen.ExecutableModelProject;
import org.kie.api.KieBase;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.builder.Message;
import org.kie.api.definition.KiePackage;
import org.kie.api.definition.rule.Rule;

/**
 * A shop's own rules, laid over the built-in ones. A rule of the folder with the name of a built-in
 * rule replaces it, any other is added, and the names listed in {@code switched-off.txt}, one a line,
 * are taken out. Rules are code: they come from a folder the operator names, and from nowhere else.
 *
 * @param folder as the operator named it
 * @param digest digest of its files
 */
public record Overlay(
    String folder, String digest, Set<String> added, Set<String> replaced, Set<String> switchedOff) {

  static final String SWITCHED_OFF = "switched-off.txt";

  private static final Pattern QUOTED = Pattern.compile("\"([a-z0-9]+(?:-[a-z0-9]+)+)\"");
  private static final Pattern RULE = Pattern.compile("(?m)^\\s*rule\\s+\"([^\"]*)\"");

  /** What it does, in words. */
  public String spoken() {
    return "shop rules of "
        + folder
        + ": "
        + added.size()
        + " added, "
        + replaced.size()
        + " replaced, "
        + switchedOff.size()
        + " switched off ("
        + digest
        + ")";
  }

  /** A rule file of the folder. */
  private record Source(Path path, String text) {}

  /**
   * Lays the folder over the built-in rules, in place.
   *
   * @throws BadInput where a file cannot be read, names what is not known, or does not compile
   */
  static Overlay over(KieBase base, Vocabulary vocabulary, Path folder) throws BadInput {
    List<Source> sources = sources(folder);
    List<Problem> problems = new ArrayList<>();
    Set<String> known = names(base.getKiePackages());
    Set<String> off = switchedOff(folder, known, problems);
    sources.forEach(source -> checkNames(source, vocabulary, problems));
    Collection<KiePackage> packages =
        problems.isEmpty() ? compiled(sources, problems) : List.of();
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
    Set<String> own = names(packages);
    Set<String> replaced = new TreeSet<>(own);
    replaced.retainAll(known);
    Set<String> added = new TreeSet<>(own);
    added.removeAll(known);
    Set<String> gone = new TreeSet<>(off);
    gone.addAll(replaced);
    for (KiePackage each : List.copyOf(base.getKiePackages())) {
      for (Rule rule : List.copyOf(each.getRules())) {
        if (gone.contains(rule.getName())) {
          base.removeRule(each.getName(), rule.getName());
        }
      }
    }
    ((InternalKnowledgeBase) base).addPackages(packages);
    return new Overlay(folder.toString(), digest(folder, sources, off), added, replaced, off);
  }

  private static Set<String> names(Collection<KiePackage> packages) {
    return packages.stream()
        .flatMap(each -> each.getRules().stream())
        .map(Rule::getName)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static List<Source> sources(Path folder) throws BadInput {
    if (!Files.isDirectory(folder)) {
      throw new BadInput(
          List.of(Problem.ofFile(folder.toString(), "there is no such folder of rules", "")));
    }
    try (Stream<Path> files = Files.walk(folder)) {
      List<Source> sources = new ArrayList<>();
      for (Path file : files.filter(f -> f.toString().endsWith(".drl")).sorted().toList()) {
        sources.add(new Source(file, Files.readString(file)));
      }
      return sources;
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(folder.toString(), "cannot be read: " + e.getMessage(), "")));
    }
  }

  private static Set<String> switchedOff(Path folder, Set<String> known, List<Problem> problems)
      throws BadInput {
    Path list = folder.resolve(SWITCHED_OFF);
    Set<String> names = new LinkedHashSet<>();
    if (!Files.exists(list)) {
      return names;
    }
    try {
      int line = 0;
      for (String text : Files.readAllLines(list)) {
        line++;
        String name = text.strip();
        if (name.isEmpty() || name.startsWith("#")) {
          continue;
        }
        if (!known.contains(name)) {
          problems.add(
              new Problem(
                  list.toString(),
                  line,
                  text.indexOf(name) + 1,
                  "",
                  "no built-in rule is named \"" + name + "\"",
                  Nearest.to(name, known).map(near -> "Maybe \"" + near + "\" was meant.")));
        }
        names.add(name);
      }
      return names;
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(list.toString(), "cannot be read: " + e.getMessage(), "")));
    }
  }

  /** Names in quotes that look like ids must be ids; a rule on a misspelt one would never fire. */
  private static void checkNames(Source source, Vocabulary vocabulary, List<Problem> problems) {
    Set<String> known = vocabulary.allIds();
    String[] lines = source.text().split("\n", -1);
    for (int i = 0; i < lines.length; i++) {
      Matcher quoted = QUOTED.matcher(lines[i].replaceFirst("//.*", ""));
      while (quoted.find()) {
        String name = quoted.group(1);
        if (!known.contains(name) && !WORDS_OF_FACTS.contains(name)) {
          problems.add(
              new Problem(
                  source.path().toString(),
                  i + 1,
                  quoted.start(1) + 1,
                  "",
                  "\"" + name + "\" is no name of the vocabulary",
                  Nearest.to(name, known).map(near -> "Maybe \"" + near + "\" was meant.")));
        }
      }
    }
  }

  /** Names that facts use beside the vocabulary: readings, maker's figures, comparisons. */
  private static final Set<String> WORDS_OF_FACTS =
      Set.of(
          "throw-light",
          "throw-firm",
          "throw-after-five",
          "gained-by-pumping",
          "boiling-point",
          "pad-thickness",
          "pad-difference",
          "piston-advance",
          "piston-advance-share",
          "rotor-thickness",
          "run-out",
          "level-drop",
          "pad-limit",
          "rotor-limit",
          "run-out-limit",
          "clamp-torque",
          "port-torque",
          "fitting-torque",
          "mount-torque",
          "helped-for-a-while");

  private static Collection<KiePackage> compiled(List<Source> sources, List<Problem> problems) {
    if (sources.isEmpty()) {
      return List.of();
    }
    KieServices services = KieServices.get();
    KieFileSystem files = services.newKieFileSystem();
    for (int i = 0; i < sources.size(); i++) {
      files.write("src/main/resources/shop/" + i + ".drl", sources.get(i).text());
    }
    KieBuilder builder = services.newKieBuilder(files).buildAll(ExecutableModelProject.class);
    for (Message message : builder.getResults().getMessages(Message.Level.ERROR)) {
      problems.add(problem(message, sources));
    }
    return problems.isEmpty()
        ? services
            .newKieContainer(services.getRepository().getDefaultReleaseId())
            .getKieBase()
            .getKiePackages()
        : List.of();
  }

  private static Problem problem(Message message, List<Source> sources) {
    Matcher number = Pattern.compile("shop/([0-9]+)\\.drl").matcher(String.valueOf(message.getPath()));
    Source source = sources.get(number.find() ? Integer.parseInt(number.group(1)) : 0);
    String text = message.getText().strip();
    Matcher named = Pattern.compile("[Rr]ule (?:Compilation error )?[\"']?([^\"'\\n]+)").matcher(text);
    int line = Math.max(0, message.getLine());
    if (line == 0 && named.find()) {
      line = lineOf(source.text(), named.group(1));
    }
    String first = text.lines().findFirst().orElse("does not compile");
    return new Problem(
        source.path().toString(),
        line,
        Math.max(line == 0 ? 0 : 1, message.getColumn()),
        "",
        "does not compile: " + first,
        Optional.empty());
  }

  private static int lineOf(String text, String ruleName) {
    Matcher rule = RULE.matcher(text);
    while (rule.find()) {
      if (ruleName.contains(rule.group(1))) {
        return (int) text.substring(0, rule.start(1)).chars().filter(c -> c == '\n').count() + 1;
      }
    }
    return 0;
  }

  private static String digest(Path folder, List<Source> sources, Set<String> off) {
    StringBuilder all = new StringBuilder();
    for (Source source : sources) {
      String path = folder.relativize(source.path()).toString().replace('\\', '/');
      all.append(RuleFiles.sha256(source.text())).append(' ').append(path).append('\n');
    }
    return "sha256:" + RuleFiles.sha256(all.append(String.join("\n", off)).toString());
  }
}
