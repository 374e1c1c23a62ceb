package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.Fluid;
import firmlever.rulebase.RuleTexts.RuleText;
import firmlever.rulebase.warranty.WarrantyFacts;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.lang.reflect.RecordComponent;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.drools.modelcompiler.KieBaseBuilder;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** What must hold of the text of every rule, whether or not any case reaches it. */
@DisplayName("In the rule files")
class RuleTextTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final List<RuleText> RULES = RuleTexts.rules();
  private static final Pattern QUOTED = Pattern.compile("\"([^\"]*)\"");

  /** How many rules there are at the least; a scan that finds fewer has stopped seeing them. */
  private static final int AT_LEAST = 300;

  @Test
  @DisplayName("every rule got into the build, and nothing else did")
  void everyRuleIsBuilt() {
    List<String> built =
        Stream.concat(RuleBase.builtIn(VOCABULARY).rules().stream(), warrantyRules().stream())
            .map(RuleInfo::name)
            .toList();
    long written = 0;
    for (Path file : RuleTexts.files()) {
      Matcher rule = Pattern.compile("\\brule \"").matcher(RuleTexts.withoutComments(file));
      written += rule.results().count();
    }
    // A folder that is not staged for the rule compiler gives no rules and a build that succeeds.
    assertThat(built).hasSize((int) written).hasSizeGreaterThan(AT_LEAST);
    assertThat(built)
        .containsExactlyInAnyOrderElementsOf(RULES.stream().map(RuleText::name).toList());
  }

  private static List<RuleInfo> warrantyRules() {
    return EngineRules.rulesOf(
        KieBaseBuilder.createKieBaseFromModel(EngineRules.builtInModels(EngineRules.WARRANTY)));
  }

  @Test
  @DisplayName("every rule says where its knowledge comes from")
  void everyRuleHasASource() {
    Pattern source =
        Pattern.compile(
            "common practice|from memory|common practice, from memory"
                + "|(?:49 CFR|16 CFR|ISO|EN|SAE|ASTM|NIST) \\S.*");
    List<String> without =
        RULES.stream()
            .filter(
                rule -> {
                  Matcher given = Pattern.compile("@source\\(\"([^\"]*)\"\\)").matcher(rule.body());
                  return !given.find() || !source.matcher(given.group(1)).matches() || given.find();
                })
            .map(rule -> rule.place() + " " + rule.name())
            .toList();
    assertThat(without).isEmpty();
    List<RuleInfo> built = new ArrayList<>(RuleBase.builtIn(VOCABULARY).rules());
    built.addAll(warrantyRules());
    assertThat(built).allSatisfy(rule -> assertThat(rule.source()).as(rule.name()).matches(source));
  }

  @Test
  @DisplayName("every rule has a name of its own that begins with what it is about")
  void everyRuleIsNamedAfterItsMatter() {
    List<String> wrong = new ArrayList<>();
    Map<String, String> places = new TreeMap<>();
    for (RuleText rule : RULES) {
      String about = rule.name().replaceFirst(": .*$", "");
      boolean causes = rule.file().startsWith(RuleTexts.FOLDER.resolve("causes"));
      // Outside causes/ a file holds several ids (a reading's symptom, an action) or one matter.
      boolean named =
          causes
              ? about.equals(rule.stem())
              : rule.stem().startsWith(about) || rule.then().contains("\"" + about + "\"");
      if (!rule.name().matches("[a-z-]+: \\S.*") || !named) {
        wrong.add(rule.place() + " " + rule.name());
      }
      String before = places.put(rule.name(), rule.place());
      if (before != null) {
        wrong.add(rule.place() + " has the name of " + before);
      }
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  @DisplayName("every id is in the vocabulary, in the section where it belongs")
  void everyIdIsKnown() {
    Map<String, Collection<String>> fields = fields();
    Map<String, List<Collection<String>>> verbs = verbs();
    List<String> unknown = new ArrayList<>();
    int checked = 0;
    for (RuleText rule : RULES) {
      for (Map.Entry<String, Collection<String>> field : fields.entrySet()) {
        Pattern test =
            Pattern.compile(
                "\\b"
                    + field.getKey()
                    + "\\s*(?:==|!=|(?:not )?contains|(?:not )?in)\\s*(\\([^)]*\\)|\"[^\"]*\")");
        for (MatchResult found : test.matcher(rule.body()).results().toList()) {
          for (MatchResult id : QUOTED.matcher(found.group(1)).results().toList()) {
            checked++;
            if (!field.getValue().contains(id.group(1))) {
              unknown.add(
                  rule.place(found.start(1) + id.start())
                      + " \""
                      + id.group(1)
                      + "\" is no "
                      + field.getKey());
            }
          }
        }
      }
      for (Call call : calls(rule)) {
        assertThat(verbs).as(rule.place() + " " + call.verb()).containsKey(call.verb());
        List<Collection<String>> kinds = verbs.get(call.verb());
        for (int at = 0; at < call.arguments().size(); at++) {
          String argument = call.arguments().get(at);
          Collection<String> known = kinds.get(Math.min(at, kinds.size() - 1));
          if (argument.matches("\"[^\"]*\"") && !known.isEmpty()) {
            checked++;
            String id = argument.substring(1, argument.length() - 1);
            if (!known.contains(id)) {
              unknown.add(
                  rule.place(call.offset()) + " \"" + id + "\" is unknown to " + call.verb());
            }
          }
        }
      }
      // Whatever else looks like an id must be one of some kind.
      Set<String> any = new HashSet<>();
      fields.values().forEach(any::addAll);
      verbs.values().forEach(kinds -> kinds.forEach(any::addAll));
      for (MatchResult quoted : QUOTED.matcher(rule.body()).results().toList()) {
        String text = quoted.group(1);
        if (text.matches("[a-z]+(?:-[a-z]+)+") && !any.contains(text)) {
          unknown.add(rule.place(quoted.start()) + " \"" + text + "\" is no id at all");
        }
      }
    }
    assertThat(unknown).isEmpty();
    assertThat(checked).as("ids looked at").isGreaterThan(1500);
  }

  /** Fields of facts, and the ids they may be compared with. */
  private static Map<String, Collection<String>> fields() {
    Map<String, Collection<String>> fields = new LinkedHashMap<>();
    fields.put("symptom", VOCABULARY.symptoms().keySet());
    fields.put("work", VOCABULARY.recordedWorks());
    fields.put("event", VOCABULARY.events().keySet());
    fields.put("circumstances", VOCABULARY.circumstances().keySet());
    fields.put("parts", VOCABULARY.parts().keySet());
    fields.put("outcome", VOCABULARY.outcomes().keySet());
    fields.put("reservoir", List.of("diaphragm", "sealed", "unknown"));
    fields.put("position", List.of("front", "rear", "unknown"));
    fields.put(
        "reading",
        List.of(
            "throw-light",
            "throw-firm",
            "throw-after-five",
            "gained-by-pumping",
            "creep",
            "moisture",
            "boiling-point",
            "rotor-thickness",
            "run-out",
            "level-drop",
            "pad-thickness",
            "pad-difference",
            "piston-advance",
            "piston-advance-share"));
    fields.put(
        "figure",
        List.of(
            "throw",
            "clamp-torque",
            "port-torque",
            "fitting-torque",
            "mount-torque",
            "pad-limit",
            "rotor-limit",
            "run-out-limit"));
    return fields;
  }

  /** What each argument of a statement may be; the last also stands for those after it. */
  private static Map<String, List<Collection<String>>> verbs() {
    Collection<String> causes = VOCABULARY.causes().keySet();
    Collection<String> symptoms = VOCABULARY.symptoms().keySet();
    Collection<String> actions = VOCABULARY.actions().keySet();
    Collection<String> words = Set.of();
    Set<String> actionsOrGroups = new HashSet<>(actions);
    VOCABULARY.actions().values().forEach(action -> actionsOrGroups.add(action.group()));
    Set<String> steps = new HashSet<>(actionsOrGroups);
    VOCABULARY.symptoms().values().forEach(symptom -> steps.addAll(symptom.needs()));
    steps.addAll(VOCABULARY.looks().keySet());
    Map<String, List<Collection<String>>> verbs = new LinkedHashMap<>();
    verbs.put("possible", List.of(causes, words));
    verbs.put("impossible", List.of(causes, words));
    verbs.put("raise", List.of(causes, words));
    verbs.put("lower", List.of(causes, words));
    verbs.put("shows", List.of(causes, words, symptoms));
    verbs.put("background", List.of(words, symptoms));
    verbs.put("found", List.of(symptoms, words));
    verbs.put("implied", List.of(symptoms, words));
    verbs.put("told", List.of(symptoms, words));
    verbs.put("above", List.of(symptoms, words));
    verbs.put("below", List.of(symptoms, words));
    verbs.put("estimated", List.of(symptoms, words));
    verbs.put("contradiction", List.of(words, symptoms));
    verbs.put("stopRide", List.of(symptoms, words));
    verbs.put("clearFirst", List.of(symptoms, words));
    verbs.put("caution", List.of(VOCABULARY.cautions().keySet()));
    verbs.put("cautionFor", List.of(VOCABULARY.cautions().keySet(), steps));
    verbs.put("mends", List.of(actions, words, causes));
    verbs.put("triedInVain", List.of(VOCABULARY.recordedWorks(), words));
    verbs.put("mendFirst", List.of(symptoms, words, actionsOrGroups));
    verbs.put("checkFirst", List.of(symptoms, words, actionsOrGroups));
    verbs.put("doFirst", List.of(actions, words, actionsOrGroups));
    verbs.put("forbid", List.of(words, actionsOrGroups));
    return verbs;
  }

  private record Call(String verb, List<String> arguments, int offset) {}

  /** The statements of a rule, their arguments split at the commas of the first level. */
  private static List<Call> calls(RuleText rule) {
    List<Call> calls = new ArrayList<>();
    String body = rule.body();
    for (MatchResult start :
        Pattern.compile("model\\.(\\w+)\\(").matcher(body).results().toList()) {
      List<String> arguments = new ArrayList<>();
      StringBuilder argument = new StringBuilder();
      int depth = 0;
      boolean quoted = false;
      int at = start.end();
      for (; depth >= 0; at++) {
        char c = body.charAt(at);
        quoted ^= c == '"';
        depth += quoted ? 0 : c == '(' ? 1 : c == ')' ? -1 : 0;
        if (depth < 0 || depth == 0 && !quoted && c == ',') {
          arguments.add(argument.toString().strip());
          argument.setLength(0);
        } else {
          argument.append(c);
        }
      }
      calls.add(new Call(start.group(1), arguments, start.start()));
    }
    return calls;
  }

  @Test
  @DisplayName("every cause has a file of its own, and only that file says how common it is")
  void everyCauseHasItsFile() {
    Set<String> stems = new HashSet<>();
    for (RuleText rule : RULES) {
      if (rule.file().startsWith(RuleTexts.FOLDER.resolve("causes"))) {
        stems.add(rule.stem());
      }
      for (Call call : calls(rule)) {
        if (Set.of("possible", "impossible", "raise", "lower", "shows").contains(call.verb())) {
          assertThat(call.arguments().get(0)).as(rule.place()).isEqualTo("\"" + rule.stem() + "\"");
        }
      }
    }
    assertThat(stems).containsExactlyInAnyOrderElementsOf(VOCABULARY.causes().keySet());
  }

  @Test
  @DisplayName("no cause is said twice to show a symptom, and every symptom has one background")
  void everyLinkAndBackgroundIsSaidOnce() {
    List<String> twice = new ArrayList<>();
    Set<String> links = new HashSet<>();
    Map<String, Integer> backgrounds = new TreeMap<>();
    for (RuleText rule : RULES) {
      for (Call call : calls(rule)) {
        if (call.verb().equals("shows")) {
          for (String symptom : call.arguments().subList(2, call.arguments().size())) {
            if (!links.add(call.arguments().get(0) + " shows " + symptom)) {
              twice.add(rule.place(call.offset()) + " " + symptom);
            }
          }
        } else if (call.verb().equals("background")) {
          for (String symptom : call.arguments().subList(1, call.arguments().size())) {
            backgrounds.merge(symptom.replace("\"", ""), 1, Integer::sum);
          }
        }
      }
    }
    assertThat(twice).isEmpty();
    assertThat(links).hasSizeGreaterThan(500);
    assertThat(backgrounds.keySet())
        .containsExactlyInAnyOrderElementsOf(VOCABULARY.symptoms().keySet());
    assertThat(backgrounds).allSatisfy((symptom, times) -> assertThat(times).isEqualTo(1));
  }

  @Test
  @DisplayName("every reason is a spoken sentence, not an id and not empty")
  void everyReasonIsSpoken() {
    List<String> dumb = new ArrayList<>();
    Map<String, Integer> reasonAt =
        Map.ofEntries(
            Map.entry("impossible", 1),
            Map.entry("raise", 2),
            Map.entry("lower", 2),
            Map.entry("found", 2),
            Map.entry("implied", 2),
            Map.entry("told", 2),
            Map.entry("above", 3),
            Map.entry("below", 3),
            Map.entry("estimated", 2),
            Map.entry("contradiction", 0),
            Map.entry("stopRide", 1),
            Map.entry("clearFirst", 1),
            Map.entry("triedInVain", 1),
            Map.entry("mendFirst", 1),
            Map.entry("checkFirst", 1),
            Map.entry("doFirst", 1),
            Map.entry("forbid", 0));
    for (RuleText rule : RULES) {
      for (Call call : calls(rule)) {
        Integer at = reasonAt.get(call.verb());
        if (at != null && !call.arguments().get(at).matches("(?s).*\"[^\"]*\\S+ \\S+ \\S+.*")) {
          dumb.add(rule.place(call.offset()) + " " + call.arguments().get(at));
        }
      }
    }
    assertThat(dumb).isEmpty();
  }

  /**
   * An open issue of the engine reports that on 10.x {@code exists( A() and not B() )} silently
   * stops firing once another package has a sibling {@code exists}. No rule groups at all after
   * {@code exists}: a single pattern is all that is allowed.
   */
  @Test
  @DisplayName("no rule says exists( A() and not B() )")
  void noRuleUsesTheBrokenExists() {
    Pattern grouped = Pattern.compile("\\bexists\\s*\\(");
    assertThat(grouped.matcher("exists( Job() and not Event() )").find()).isTrue();
    assertThat(grouped.matcher("exists Job( bleed )").find()).isFalse();
    assertThat(
            RULES.stream().filter(rule -> grouped.matcher(rule.when()).find()).map(RuleText::place))
        .isEmpty();
  }

  /** Such names crash the rule compiler's code generation without naming a rule. */
  @Test
  @DisplayName("no fact has a component whose name is part of alphaIndexedBy or betaIndexedBy")
  void noFactHasANameThatCrashesTheCompiler() {
    List<String> names = new ArrayList<>();
    for (Class<?> fact :
        Stream.of(Facts.class, WarrantyFacts.class)
            .flatMap(facts -> Stream.of(facts.getDeclaredClasses()))
            .toList()) {
      if (fact.isRecord()) {
        Stream.of(fact.getRecordComponents()).map(RecordComponent::getName).forEach(names::add);
      }
    }
    assertThat(names)
        .contains("symptom", "fluidAgeYears")
        .allSatisfy(
            name -> {
              assertThat("alphaIndexedBy").doesNotContain(name);
              assertThat("betaIndexedBy").doesNotContain(name);
            });
  }

  @Test
  @DisplayName("every fluid named is one a case can name")
  void everyFluidIsKnown() {
    Set<String> fluids = new HashSet<>();
    Stream.of(Fluid.values()).forEach(fluid -> fluids.add(fluid.name()));
    for (RuleText rule : RULES) {
      for (MatchResult fluid :
          Pattern.compile("Fluid\\.(\\w+)").matcher(rule.body()).results().toList()) {
        assertThat(fluids).as(rule.place(fluid.start())).contains(fluid.group(1));
      }
    }
  }
}
