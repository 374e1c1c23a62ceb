package firmlever.rulebase.jobcard;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.Cases;
import firmlever.rulebase.RuleInfo;
import firmlever.rulebase.RuleTexts;
import firmlever.rulebase.RuleTexts.RuleText;
import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.CardFacts.Filling;
import firmlever.rulebase.jobcard.CardFacts.Limits;
import firmlever.rulebase.jobcard.CardFacts.Torques;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.rulebase.jobcard.JobCardRules.Said;
import firmlever.vocabulary.Vocabulary.Action;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The job card rules")
class JobCardRulesTest {
  private static final JobCardRules RULES = JobCardRules.builtIn(Cases.VOCABULARY);
  private static final List<RuleText> TEXTS = RuleTexts.rules(RuleTexts.files(RuleTexts.JOB_CARDS));
  private static final Filling FILLING =
      new Filling("mineral oil", 13, 14, 12, 38, 5, 39, 35, 45, "reckoned");
  private static final Torques TORQUES = new Torques("4 N·m", "5 N·m", "3 N·m", "6 N·m");
  private static final Limits LIMITS = new Limits("1 mm", "1.5 mm", "0.3 mm", "10 mm");

  /** Brakes that differ in all that the rules look at. */
  private static final List<CaseFile> BRAKES =
      List.of(
          brake("'position':'rear','fluid':'mineral-oil','reservoir':'diaphragm'", 2, "external"),
          brake("'position':'front','fluid':'dot-4','reservoir':'sealed'", 4, "unknown"),
          brake("'position':'rear','fluid':'unknown','reservoir':'unknown'", 2, "internal"));

  private static CaseFile brake(String members, int pistons, String routing) {
    return Cases.of(
        "'complaint':'soft','brake':{'id':'B-0417-rear',%s,'caliper':{'pistons':%d},'hose':{'routing':'%s'}}"
            .formatted(members, pistons, routing));
  }

  private static Said write(CaseFile file, Action action) {
    return write(file, action, Set.of());
  }

  private static Said write(CaseFile file, Action action, Set<String> earlier) {
    return RULES.write(file, Cases.RULES.consult(file), action, earlier, FILLING, TORQUES, LIMITS);
  }

  /** A brake on which all of these are found. */
  private static CaseFile found(String... symptoms) {
    return Cases.of(
        "'complaint':'soft','brake':{'id':'B-0417-rear','fluid':'dot-4'},'symptoms':{%s}"
            .formatted(
                Stream.of(symptoms)
                    .map(each -> "'" + each + "':'present'")
                    .collect(Collectors.joining(","))));
  }

  private static final List<CaseFile> OPEN =
      List.of(
          found("loose-or-open-screw"),
          found("hose-end-out"),
          found("loose-or-open-screw", "weep-at-lever-port", "leak-found"),
          found("loose-or-open-screw", "weep-at-caliper-port", "no-resistance"),
          found("loose-or-open-screw", "weep-at-lever-port", "no-resistance"));

  /** Words that make somebody move or hold the lever. */
  private static final Pattern PULLS =
      Pattern.compile(
          "(?i)\\bpump\\b|\\bhold 60 s|\\bslow (full )?pulls|\\bpull (gently|firmly|and hold|and let go|hard ten|ten"
              + "|the lever|five)|\\bten (firm|harder) pulls|lever builds pressure|Ten slow pulls|\\bfirm pull");

  private static final Pattern BLOCK = Pattern.compile("(?i)\\b(block|rotor|spacer)\\b");

  private static int first(List<Line> lines, Predicate<String> text) {
    for (int i = 0; i < lines.size(); i++) {
      if (lines.get(i).kind() == Kind.STEP && text.test(lines.get(i).text())) {
        return i;
      }
    }
    return Integer.MAX_VALUE;
  }

  private static boolean pulls(String text) {
    return PULLS.matcher(text).find();
  }

  @Test
  @DisplayName(
      "put rotor or block, and its caution, before the first pull, and a block in place of pads or wheel")
  void blockBeforePressure() {
    for (CaseFile brake : Stream.concat(BRAKES.stream(), OPEN.stream()).toList()) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        List<Line> lines = write(brake, action).lines();
        if (action.group().equals("advice")) {
          continue;
        }
        int pull = first(lines, JobCardRulesTest::pulls);
        int block =
            first(
                lines,
                text ->
                    BLOCK.matcher(text).find()
                        && text.contains("before anybody touches the lever"));
        assertThat(block).as(action.id()).isLessThan(lines.size()).isLessThan(pull);
        assertThat(lines.subList(0, block + 2))
            .as(action.id())
            .extracting(Line::want)
            .contains("no-lever-without-block");
        int out = first(lines, text -> text.startsWith("Wheel out"));
        if (out < lines.size()) {
          List<Line> after = lines.subList(out, lines.size());
          int in = first(after, text -> text.matches("(?i)(bleed )?(block|spacer).*(in,|pads).*"));
          assertThat(in).as(action.id() + ": block in").isLessThan(after.size());
          assertThat(in).as(action.id()).isLessThan(first(after, JobCardRulesTest::pulls));
          assertThat(first(after, text -> text.startsWith("Wheel in,")))
              .as(action.id() + ": block out and wheel in again")
              .isGreaterThan(first(after, text -> text.matches("(Block|Spacer) out;.*")))
              .isLessThan(after.size());
        }
      }
    }
  }

  @Test
  @DisplayName(
      "put the caution of the block on the triage screen of every work on which somebody may pull")
  void blockOnTheScreen() {
    for (Action action : Cases.VOCABULARY.actions().values()) {
      if (!action.group().equals("advice")) {
        assertThat(
                Cases.RULES
                    .consult(BRAKES.get(0))
                    .cautionsByStep()
                    .getOrDefault(action.id(), List.of()))
            .as(action.id())
            .contains("no-lever-without-block");
      }
    }
  }

  @Test
  @DisplayName("put nothing under pressure while a port or a hose end is open")
  void noPressureWhileOpen() {
    for (CaseFile open : OPEN) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        if (action.group().equals("advice")) {
          continue;
        }
        List<Line> lines = write(open, action).lines();
        // The one that closes it forbids the pull; every other first sends there.
        int warned =
            first(lines, text -> text.toLowerCase(Locale.ROOT).contains("hands off the lever"));
        assertThat(warned).as(action.id()).isLessThan(first(lines, JobCardRulesTest::pulls));
        assertThat(warned).as(action.id()).isLessThan(lines.size());
        if (action.group().equals("leak-mending")) {
          assertThat(
                  lines.stream()
                      .filter(l -> l.kind() == Kind.STEP && l.stage() != Stage.CLOSE)
                      .map(Line::text))
              .as(action.id())
              .noneMatch(JobCardRulesTest::pulls);
        }
      }
    }
    for (String work : List.of("close-port", "refit-hose-end")) {
      List<Line> lines = write(BRAKES.get(0), Cases.VOCABULARY.actions().get(work)).lines();
      int closed = first(lines, text -> text.contains("to its torque"));
      int seated = first(lines, text -> text.startsWith("See it seated"));
      int held = first(lines, JobCardRulesTest::pulls);
      assertThat(closed).as(work).isLessThan(seated);
      assertThat(seated).as(work).isLessThan(held);
      assertThat(lines.get(held).stage()).isEqualTo(Stage.CLOSE);
      assertThat(lines.get(held).text()).startsWith("All bled and closed");
    }
  }

  @Test
  @DisplayName(
      "ask for a full bleed after an open port, and for less only where it was at the lever alone")
  void bleedsAfterAnOpenPort() {
    Action close = Cases.VOCABULARY.actions().get("close-port");
    assertThat(write(OPEN.get(0), close).then()).containsOnlyKeys("full-bleed");
    assertThat(write(OPEN.get(2), close).then()).containsOnlyKeys("lever-end-bleed");
    assertThat(write(OPEN.get(3), close).then()).containsOnlyKeys("full-bleed");
    assertThat(write(OPEN.get(4), close).then()).containsOnlyKeys("full-bleed");
  }

  @Test
  @DisplayName(
      "let nobody ride before the checks on the stand: all riding stands in the part for the road")
  void standBeforeRoad() {
    Pattern rides = Pattern.compile("(?i)bed in on|short ride|ride over|walking pace|level road");
    for (Action action : Cases.VOCABULARY.actions().values()) {
      if (action.group().equals("advice") && !action.needs().contains("ride")) {
        continue;
      }
      List<Line> lines = write(BRAKES.get(0), action).lines();
      assertThat(
              lines.stream().filter(l -> l.kind() == Kind.STEP && rides.matcher(l.text()).find()))
          .as(action.id())
          .allMatch(l -> l.stage() == Stage.ROAD);
      assertThat(lines.stream().anyMatch(l -> l.stage() == Stage.ROAD))
          .as(action.id())
          .isEqualTo(
              action.needs().contains("ride")
                  || Set.of("replace-pads", "replace-rotor", "mend-wheel-play")
                      .contains(action.id()));
    }
  }

  @Test
  @DisplayName("give a torque at the step that needs it, each under its own name")
  void torqueAtItsStep() {
    for (CaseFile brake : BRAKES) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        List<Line> lines = write(brake, action).lines();
        boolean wanted = false;
        boolean given = false;
        for (Line line : lines) {
          switch (line.kind()) {
            case STEP -> {
              assertThat(wanted && !given).as(action.id() + " before: " + line.text()).isFalse();
              assertThat(line.text()).as(action.id()).doesNotContain("the figure");
              wanted = line.text().matches(".*\\b(to|at) (its|their) torque\\b.*");
              given = false;
              if (line.text().contains("its torque and see it seated")) {
                wanted = false;
              }
            }
            case TORQUE -> {
              assertThat(wanted).as(action.id() + ": " + line.text()).isTrue();
              given = true;
            }
            default -> {}
          }
        }
        assertThat(wanted && !given).as(action.id()).isFalse();
        assertThat(lines.stream().filter(l -> l.kind() == Kind.TORQUE).map(Line::text))
            .as(action.id())
            .doesNotHaveDuplicates();
      }
    }
  }

  @Test
  @DisplayName("look at the pads before anything is filled or put together")
  void padsLookedAtFirst() {
    Pattern looks = Pattern.compile("(?i)look at the pads");
    Pattern fills = Pattern.compile("(?i)fill up|fluid up to|\\bto its torque|drop of fluid");
    for (String work :
        List.of(
            "lever-end-bleed",
            "reseal-lever-port",
            "reseal-caliper-port",
            "remake-caliper-fitting",
            "refit-hose-end",
            "replace-reservoir-lid",
            "replace-diaphragm")) {
      List<Line> lines = write(BRAKES.get(0), Cases.VOCABULARY.actions().get(work)).lines();
      assertThat(first(lines, text -> looks.matcher(text).find()))
          .as(work)
          .isLessThan(first(lines, text -> fills.matcher(text).find()))
          .isLessThan(lines.size());
    }
  }

  @Test
  @DisplayName("never order what is a fault when it is found: a reservoir filled to the brim")
  void noBrim() {
    for (CaseFile brake : BRAKES) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        assertThat(write(brake, action).lines())
            .extracting(Line::text)
            .noneMatch(t -> t.contains("brim"));
      }
    }
  }

  @Test
  @DisplayName("say why a bleed opens again what was just sealed, and only then")
  void reopensWithAReason() {
    for (String bleed : List.of("lever-end-bleed", "full-bleed", "fluid-flush")) {
      Action action = Cases.VOCABULARY.actions().get(bleed);
      for (String sealed : List.of("reseal-lever-port", "close-port", "replace-diaphragm")) {
        List<Line> lines = write(BRAKES.get(0), action, Set.of(sealed)).lines();
        assertThat(first(lines, text -> text.contains("opened once more")))
            .isLessThan(
                first(
                    lines, text -> text.contains("open the port") || text.startsWith("Open the")));
      }
      assertThat(write(BRAKES.get(0), action).lines())
          .extracting(Line::text)
          .noneMatch(text -> text.contains("opened once more"));
    }
  }

  @Test
  @DisplayName("got into the build, all of them, and into no diagnosis")
  void areBuilt() {
    assertThat(RULES.names())
        .hasSizeGreaterThan(60)
        .containsExactlyInAnyOrderElementsOf(TEXTS.stream().map(RuleText::name).toList());
    assertThat(Cases.RULES.rules())
        .extracting(RuleInfo::packageName)
        .doesNotContain("firmlever.rules.jobcard");
  }

  @Test
  @DisplayName("say for every action of the vocabulary how it is done, in three steps or more")
  void coverEveryAction() {
    for (CaseFile brake : BRAKES) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        List<Line> lines = write(brake, action).lines();
        assertThat(lines.stream().filter(l -> l.stage() == Stage.DO && l.kind() == Kind.STEP))
            .as(action.id())
            .hasSizeGreaterThanOrEqualTo(3);
        assertThat(lines).allSatisfy(line -> assertThat(line.source()).isNotEmpty());
        if (action.needs().contains("pads-out")) {
          assertThat(lines).extracting(Line::want).contains("no-lever-without-block");
        }
        if (action.group().equals("bleed")) {
          assertThat(lines)
              .extracting(Line::want)
              .contains("finish-on-push", "fluids-never-meet", "waste-fluid", "eyes-and-hands");
        }
      }
    }
  }

  /** Works share a card, and the last of them closes up: none puts back what the next takes out. */
  @Test
  @DisplayName("fit pads and wheel when all works are done, and nowhere else")
  void fitOnce() {
    for (Action action : Cases.VOCABULARY.actions().values()) {
      List<Line> lines = write(BRAKES.get(0), action).lines();
      assertThat(lines.stream().filter(l -> l.stage() == Stage.DO).map(Line::text))
          .as(action.id())
          .noneMatch(
              text ->
                  text.matches(
                      "(?i).*(wheel in\\b|pads in\\b|pin in\\b|pin through|wheel to its stop).*"));
      assertThat(lines.stream().anyMatch(l -> l.text().startsWith("Wheel out")))
          .as(action.id())
          .isEqualTo(lines.stream().anyMatch(l -> l.text().startsWith("Wheel in,")));
      assertThat(lines.stream().filter(l -> l.text().startsWith("Wheel in,")))
          .as(action.id())
          .hasSize(action.needs().contains("wheel-out") ? 1 : 0);
      assertThat(lines.stream().filter(l -> l.text().startsWith("Pads, spring and pin in,")))
          .as(action.id())
          .hasSize(action.needs().contains("pads-out") ? 1 : 0);
    }
  }

  @Test
  @DisplayName("have a line for the torque of the rotor bolts wherever the rotor is worked on")
  void askForTheTorqueOfTheRotor() {
    for (String work : List.of("true-rotor", "replace-rotor", "mend-wheel-play")) {
      assertThat(write(BRAKES.get(0), Cases.VOCABULARY.actions().get(work)).lines())
          .as(work)
          .anyMatch(l -> l.kind() == Kind.TORQUE && l.text().contains("Rotor bolts"));
    }
  }

  @Test
  @DisplayName("all fire for some brake and work")
  void allFire() {
    Set<String> silent = new TreeSet<>(RULES.names());
    for (CaseFile brake : Stream.concat(BRAKES.stream(), OPEN.stream()).toList()) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        Said said = write(brake, action, Set.of("reseal-lever-port"));
        said.lines().forEach(line -> silent.remove(line.rule()));
        said.then().keySet().forEach(then -> assertThat(then).isNotEqualTo(action.id()));
      }
    }
    assertThat(silent).isEmpty();
  }

  @Test
  @DisplayName("name only actions, groups, set-ups and symptoms that there are")
  void nameWhatThereIs() {
    Set<String> known = new TreeSet<>(Cases.VOCABULARY.actions().keySet());
    Cases.VOCABULARY
        .actions()
        .values()
        .forEach(
            action -> {
              known.add(action.group());
              known.addAll(action.needs());
            });
    known.addAll(Cases.VOCABULARY.symptoms().keySet());
    known.addAll(Cases.VOCABULARY.cautions().keySet());
    List<String> unknown = new ArrayList<>();
    for (RuleText rule : TEXTS) {
      for (MatchResult quoted :
          Pattern.compile("\"([a-z]+(?:-[a-z]+)+)\"").matcher(rule.body()).results().toList()) {
        if (!known.contains(quoted.group(1))) {
          unknown.add(rule.place(quoted.start()) + " " + quoted.group(1));
        }
      }
      assertThat(rule.body())
          .as(rule.place())
          .containsPattern("@source\\(\"(common practice|from memory)");
    }
    assertThat(unknown).isEmpty();
  }

  @Test
  @DisplayName("match no fact whose name crashes the rule compiler")
  void matchNoFactThatCrashes() {
    for (Class<?> fact : CardFacts.class.getDeclaredClasses()) {
      for (RecordComponent component : fact.getRecordComponents()) {
        assertThat("alphaIndexedBy betaIndexedBy").doesNotContain(component.getName());
      }
    }
  }
}
