package firmlever.rulebase;

import firmlever.document.BadInput;
import firmlever.document.Folder;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.rulebase.text.RuleReader;
import firmlever.rulebase.text.RuleText;
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
 * rule replaces it, any other is added, and the names listed in {@code switched-off.txt}, one a
 * line, are taken out. Rules are code: they come from a folder the operator names, and from nowhere
 * else.
 *
 * @param folder as the operator named it
 * @param digest digest of its files
 */
public record Overlay(
    String folder,
    String digest,
    Set<String> added,
    Set<String> replaced,
    Set<String> switchedOff) {

  static final String SWITCHED_OFF = "switched-off.txt";

  private static final Pattern QUOTED = Pattern.compile("\"([a-z0-9]+(?:-[a-z0-9]+)*)\"");
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

  /**
   * The rules of the folder as they are written.
   *
   * @throws BadInput where a file can no longer be read
   */
  List<RuleText> texts() throws BadInput {
    return sources(Path.of(folder)).stream()
        .flatMap(source -> RuleReader.read(source.path().toString(), source.text()).stream())
        .toList();
  }

  /** A rule file of the folder. */
  private record Source(Path path, String text) {}

  /**
   * Lays the folder over the built-in rules, in place.
   *
   * @param outside names of built-in rules that are not in the base
   * @throws BadInput where a file cannot be read, names what is not known, or does not compile
   */
  static Overlay over(KieBase base, Set<String> outside, Vocabulary vocabulary, Path folder)
      throws BadInput {
    List<Source> sources = sources(folder);
    List<Problem> problems = new ArrayList<>();
    Set<String> known = names(base.getKiePackages());
    known.addAll(outside);
    Set<String> off = switchedOff(folder, known, problems);
    if (sources.isEmpty() && off.isEmpty()) {
      problems.add(
          Problem.ofFile(
              folder.toString(),
              "no rule file (.drl) is in this folder or below it, and no rule is switched off in "
                  + SWITCHED_OFF,
              ""));
    }
    sources.forEach(source -> checkNames(source, vocabulary, problems));
    Collection<KiePackage> packages = problems.isEmpty() ? compiled(sources, problems) : List.of();
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
    try {
      List<Source> sources = new ArrayList<>();
      for (Path file : Folder.files(folder, name -> name.endsWith(".drl"))) {
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
    if (Files.notExists(list)) {
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

  /** Single words in quotes must be known names; a rule on a misspelt one would never fire. */
  private static void checkNames(Source source, Vocabulary vocabulary, List<Problem> problems) {
    Set<String> known = vocabulary.allIds();
    String[] lines = source.text().split("\n", -1);
    for (int i = 0; i < lines.length; i++) {
      String code = lines[i].replaceFirst("//.*", "").strip();
      if (code.startsWith("rule") || code.startsWith("@") || code.startsWith("agenda-group")) {
        continue;
      }
      Matcher quoted = QUOTED.matcher(lines[i]);
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
          "unknown",
          "front",
          "rear",
          "diaphragm",
          "sealed",
          "mended",
          "unchanged",
          "worse",
          "throw",
          "creep",
          "moisture",
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
    KieBuilder builder = built(sources.stream().map(Source::text).toList());
    if (builder.getResults().hasMessages(Message.Level.ERROR)) {
      sources.forEach(source -> findErrors(source, problems));
      return List.of();
    }
    return KieServices.get()
        .newKieContainer(KieServices.get().getRepository().getDefaultReleaseId())
        .getKieBase()
        .getKiePackages();
  }

  private static KieBuilder built(List<String> texts) {
    KieFileSystem files = KieServices.get().newKieFileSystem();
    for (int i = 0; i < texts.size(); i++) {
      files.write("src/main/resources/shop/" + i + ".drl", texts.get(i));
    }
    return KieServices.get().newKieBuilder(files).buildAll(ExecutableModelProject.class);
  }

  /**
   * The compiler speaks of the Java it made of a rule. To find the rule, each is compiled alone
   * behind the file's own head; what it stumbles over is looked for in the rule's text.
   */
  private static void findErrors(Source source, List<Problem> problems) {
    int before = problems.size();
    List<Integer> starts = new ArrayList<>();
    Matcher rule = RULE.matcher(source.text());
    while (rule.find()) {
      starts.add(rule.start(1) - "rule \"".length());
    }
    for (int i = 0; i < starts.size(); i++) {
      int start = starts.get(i);
      int end = i + 1 < starts.size() ? starts.get(i + 1) : source.text().length();
      String alone =
          source.text().substring(0, starts.get(0)) + source.text().substring(start, end);
      built(List.of(alone)).getResults().getMessages(Message.Level.ERROR).stream()
          .map(message -> message.getText().strip().lines().findFirst().orElse(""))
          .filter(text -> !text.startsWith("Java source of"))
          .findFirst()
          .ifPresent(text -> problems.add(problem(source, start, end, text)));
    }
    if (problems.size() == before) {
      problems.add(
          new Problem(
              source.path().toString(),
              1,
              1,
              "",
              "does not compile; the fault lies before the first rule",
              Optional.of("Maybe compare its first lines with those of a built-in rule file.")));
    }
  }

  private static Problem problem(Source source, int start, int end, String text) {
    String body = source.text().substring(start, end);
    int at = start;
    Matcher word = Pattern.compile("[A-Za-z][A-Za-z0-9_]+").matcher(text);
    Optional<String> maybe = Optional.empty();
    while (word.find()) {
      Matcher used = Pattern.compile("\\b" + word.group() + "\\b").matcher(body);
      if (!COMPILER_WORDS.contains(word.group()) && used.find()) {
        at = start + used.start();
        maybe =
            VERBS.contains(word.group())
                ? Optional.empty()
                : Nearest.to(word.group(), VERBS).map(near -> "Maybe \"" + near + "\" was meant.");
        break;
      }
    }
    String head = source.text().substring(0, at);
    int line = (int) head.chars().filter(c -> c == '\n').count() + 1;
    return new Problem(
        source.path().toString(),
        line,
        at - head.lastIndexOf('\n'),
        "",
        "does not compile: " + text,
        maybe);
  }

  /** Words of a compiler's message that say nothing about where it stumbled. */
  private static final Set<String> COMPILER_WORDS =
      Set.of("The", "method", "in", "the", "type", "is", "not", "for", "rule", "when", "then", "a");

  /** What a consequence may say, and what facts can be asked. */
  private static final Set<String> VERBS =
      Stream.of(
              firmlever.rulebase.Model.class,
              Facts.Job.class,
              Facts.Event.class,
              Facts.Brake.class,
              Facts.Use.class,
              Facts.History.class,
              Facts.Finding.class,
              Facts.Reading.class,
              Facts.Estimate.class,
              Facts.SoundBrake.class,
              Facts.GasOrGive.class,
              Facts.MakerFigure.class)
          .flatMap(type -> Stream.of(type.getDeclaredMethods()))
          .map(java.lang.reflect.Method::getName)
          .collect(Collectors.toCollection(TreeSet::new));

  private static String digest(Path folder, List<Source> sources, Set<String> off) {
    StringBuilder all = new StringBuilder();
    for (Source source : sources) {
      String path = folder.relativize(source.path()).toString().replace('\\', '/');
      all.append(RuleFiles.sha256(source.text())).append(' ').append(path).append('\n');
    }
    return "sha256:" + RuleFiles.sha256(all.append(String.join("\n", off)).toString());
  }
}
