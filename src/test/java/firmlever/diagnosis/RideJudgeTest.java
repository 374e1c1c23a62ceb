package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.diagnosis.RideVerdict.Answer;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.rulebase.BrakeModel;
import firmlever.vocabulary.HazardKind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Whether a brake may be ridden, against what the trade says of findings and causes. */
class RideJudgeTest {
  private static final RideJudge JUDGE = new RideJudge(Bench.VOCABULARY);

  /** What forbids riding by itself, whatever the cause (common practice). */
  private static final Set<String> FORBIDS =
      Set.of(
          "leak-found",
          "wet-at-lever",
          "wet-at-caliper",
          "wet-at-hose-end",
          "weep-at-lever-port",
          "weep-at-reservoir-seam",
          "weep-at-lever-piston",
          "weep-at-lever-fitting",
          "weep-along-hose",
          "weep-at-caliper-fitting",
          "weep-at-caliper-port",
          "weep-at-caliper-piston",
          "weep-at-caliper-joint",
          "fluid-lost",
          "lever-to-bar",
          "lever-sinks",
          "fluid-on-pads",
          "fluid-mismatch",
          "swollen-seals",
          "body-crack",
          "piston-damage",
          "hose-damage",
          "hose-swells",
          "thin-pads",
          "thin-rotor-seen",
          "grinding",
          "loose-caliper-bolts",
          "wheel-play",
          "pad-fit-wrong",
          "pad-layer-off",
          "over-extended-piston-seen",
          "soft-when-hot",
          "soft-in-frost",
          "no-resistance",
          "no-braking",
          "sudden-loss",
          "broken-linkage",
          "hose-end-out",
          "loose-or-open-screw",
          "no-release",
          "tightens-when-hot",
          "stuck-piston");

  /** A nuisance by itself: a light rub, a tick, a squeal (common practice). */
  private static final Set<String> NUISANCES =
      Set.of("rub-in-rhythm", "squeal", "slow-when-cold", "bent-rotor-seen");

  private static CaseFile brake(String symptoms, String history) {
    return Bench.of(
        "'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'symptoms':{%s},'history':[%s]"
            .formatted(symptoms, history));
  }

  private static String present(String symptom) {
    return "'%s':'present'".formatted(symptom);
  }

  private static RideVerdict judged(CaseFile file) {
    Belief belief = Bench.DIAGNOSTICIAN.belief(file);
    return JUDGE.judge(belief.model(), belief.posterior());
  }

  @Test
  @DisplayName("one finding that forbids riding is a stop, a nuisance alone is none")
  void everySymptomAlone() {
    Set<String> stopping = new TreeSet<>();
    for (String symptom : Bench.VOCABULARY.symptoms().keySet()) {
      RideVerdict ride = judged(brake(present(symptom), ""));
      assertThat(ride.verdict()).as(symptom).isNotEqualTo(Answer.FINE);
      boolean named =
          ride.because().stream().anyMatch(b -> !b.isCause() && ride.stop() && !b.id().isEmpty());
      if (named) {
        stopping.add(symptom);
      }
      if (NUISANCES.contains(symptom)) {
        assertThat(ride.verdict()).as(symptom).isEqualTo(Answer.NOT_CLEARED);
      }
    }
    // A weak front brake forbids riding only as long as nobody has felt the lever or seen the pads.
    Set<String> alone = new TreeSet<>(FORBIDS);
    alone.add("weak-braking");
    assertThat(stopping).containsExactlyInAnyOrderElementsOf(alone);
  }

  /** How each cause fails (common practice); those not named are nuisances or felt in time. */
  @Test
  @DisplayName("a cause that is all but certain gives the verdict of its kind")
  void everyCauseNearCertain() {
    Map<String, HazardKind> kinds = HazardKind.builtIn();
    BrakeModel model = lookedAt(Bench.RULES.consult(brake("", "")));
    int checked = 0;
    for (int i = 0; i < model.network().causes().size(); i++) {
      String cause = model.network().causes().get(i);
      List<String> hazards = Bench.VOCABULARY.causes().get(cause).hazards();
      String worst =
          hazards.stream().anyMatch(h -> kinds.get(h).above().equals("stop"))
              ? "stop"
              : kinds.get(hazards.get(0)).above();
      RideVerdict ride = JUDGE.judge(model, certain(model.network(), i));
      assertThat(ride.verdict().id()).as(cause).isEqualTo(worst);
      if (!worst.equals("fine")) {
        assertThat(ride.because()).extracting(Because::id).containsExactly(cause);
      }
      checked++;
    }
    assertThat(checked).isGreaterThan(40);
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    "air-at-lever, stop",
    "air-drawn-in, stop",
    "caliper-fitting-weep, stop",
    "parted-hose, stop",
    "broken-lever-linkage, stop",
    "loose-caliper, stop",
    "wheel-out-of-place, stop",
    "parted-pad, stop",
    "pad-misfit, stop",
    "cracked-piston, stop",
    "cracked-lever-body, stop",
    "contaminated-pads, stop",
    "worn-pads, stop",
    "overheated-fluid, stop",
    "overfilled-reservoir, stop",
    "blocked-return-port, stop",
    "iced-caliper, stop",
    "seized-piston, stop",
    "sticky-lever-piston, not-cleared",
    "unbedded-or-glazed-pads, not-cleared",
    "bent-rotor, fine",
    "caliper-misaligned, fine",
    "reach-misadjusted, fine"
  })
  void theTradeSaysHowACauseFails(String cause, String verdict) {
    BrakeModel model = lookedAt(Bench.RULES.consult(brake("", "")));
    RideVerdict ride =
        JUDGE.judge(model, certain(model.network(), model.network().causes().indexOf(cause)));
    assertThat(ride.verdict().id()).isEqualTo(verdict);
  }

  @Test
  @DisplayName("a complaint nobody looked at is never fine, and it is said what to look at")
  void onlyAComplaint() {
    RideVerdict ride = judged(brake("", ""));
    assertThat(ride.verdict()).isEqualTo(Answer.NOT_CLEARED);
    assertThat(ride.notLooked()).contains("leak-found", "thin-pads", "lever-sinks");
  }

  private static final String LOOKED_OVER =
      "'spongy-lever':'absent','no-hard-stop':'absent','long-throw':'absent','lever-sinks':'absent',"
          + "'leak-found':'absent','thin-pads':'absent','fluid-on-pads':'absent','drag':'absent',"
          + "'squeal':'absent','weak-braking':'absent'";

  @Test
  @DisplayName("looked over and found in order is fine")
  void lookedOver() {
    assertThat(judged(brake(LOOKED_OVER, "")))
        .isEqualTo(new RideVerdict(Answer.FINE, List.of(), List.of()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"crashed", "fell-over"})
  @DisplayName("after a crash or fall it is held until its own inspection is done")
  void afterACrash(String event) {
    String history = "{'days-ago':2,'event':'%s'}".formatted(event);
    CaseFile open = brake(LOOKED_OVER, history);
    RideVerdict held = judged(open);
    assertThat(held.verdict()).isEqualTo(Answer.NOT_CLEARED);
    assertThat(held.notLooked())
        .containsExactlyInAnyOrder(
            "body-crack",
            "hose-damage",
            "hose-end-out",
            "loose-caliper-bolts",
            "bent-rotor-seen",
            "wheel-play");
    assertThat(Bench.DIAGNOSTICIAN.diagnose(open, Diagnostician.Options.BARE).next())
        .filteredOn(step -> step.id().equals(Diagnosis.HAND_BACK))
        .allMatch(step -> !step.open());
    String inspected =
        LOOKED_OVER
            + ",'body-crack':'absent','hose-damage':'absent','hose-end-out':'absent',"
            + "'loose-caliper-bolts':'absent','bent-rotor-seen':'absent','wheel-play':'absent'";
    CaseFile done = brake(inspected, history);
    assertThat(judged(done).verdict()).isEqualTo(Answer.FINE);
    assertThat(Bench.DIAGNOSTICIAN.diagnose(done, Diagnostician.Options.BARE).firstStep())
        .hasValueSatisfying(step -> assertThat(step.id()).isEqualTo(Diagnosis.HAND_BACK));
  }

  @Test
  @DisplayName("own work on the hydraulics and a fluid nobody knows are looked at first")
  void ownWorkAndUnknownFluid() {
    assertThat(judged(brake(LOOKED_OVER, "{'days-ago':5,'event':'home-serviced'}")).notLooked())
        .containsExactlyInAnyOrder("loose-or-open-screw", "fluid-mismatch");
    CaseFile unknown =
        Bench.of(
            "'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'unknown'},'symptoms':{%s}"
                .formatted(LOOKED_OVER));
    assertThat(judged(unknown).notLooked()).containsExactly("fluid-mismatch");
  }

  @Test
  @DisplayName("adding a finding that forbids riding always gives a stop, and takes no stop away")
  void aStopIsNeverRemoved() {
    Random random = new Random(7);
    List<String> all = List.copyOf(Bench.VOCABULARY.symptoms().keySet());
    List<String> forbids = new ArrayList<>(new TreeSet<>(FORBIDS));
    for (int brake = 0; brake < 150; brake++) {
      String forbidding = forbids.get(random.nextInt(forbids.size()));
      Set<String> taken = new TreeSet<>(Set.of(forbidding));
      StringBuilder symptoms = new StringBuilder(present(forbidding));
      for (int more = random.nextInt(7); more > 0; more--) {
        String other = all.get(random.nextInt(all.size()));
        if (taken.add(other)) {
          symptoms.append(
              ",'%s':'%s'".formatted(other, random.nextBoolean() ? "present" : "absent"));
        }
      }
      RideVerdict ride = judged(brake(symptoms.toString(), ""));
      assertThat(ride.stop()).as(symptoms.toString()).isTrue();
    }
  }

  @Test
  @DisplayName("the chance of a kind is that of any of its causes, exactly")
  void theChanceOfAKindIsExact() {
    // Either of two leaks explains the finding; beside it neither is likely.
    BrakeModel plain = Bench.RULES.consult(brake("", ""));
    int a = plain.network().causes().indexOf("parted-hose");
    int b = plain.network().causes().indexOf("broken-lever-linkage");
    int seen = plain.network().symptoms().indexOf("growing-worse");
    int n = plain.network().causes().size();
    double[] prior = new double[n];
    double[][] strength = new double[n][plain.network().symptoms().size()];
    for (int i = 0; i < n; i++) {
      prior[i] = -20;
    }
    prior[a] = Math.log(0.02 / 0.98);
    prior[b] = Math.log(0.03 / 0.97);
    strength[a][seen] = 0.5;
    strength[b][seen] = 0.25;
    double[] background = new double[plain.network().symptoms().size()];
    java.util.Arrays.fill(background, 0.1);
    Network network =
        new Network(
            plain.network().causes(), prior, plain.network().symptoms(), background, strength);
    List<Observation> observed = List.of(new Observation(seen, 1, 0));
    // By hand: P(seen) over the four states of the two causes.
    double neither = 0.98 * 0.97 * 0.1;
    double all =
        neither
            + 0.02 * 0.97 * (1 - 0.9 * 0.5)
            + 0.98 * 0.03 * (1 - 0.9 * 0.75)
            + 0.02 * 0.03 * (1 - 0.9 * 0.5 * 0.75);
    double added = 1 - neither / all / (0.98 * 0.97);
    BrakeModel model = lookedAt(plain).with(network);
    BrakeModel withSeen = observing(model, observed);
    RideVerdict ride = JUDGE.judge(withSeen, Inference.solve(network, observed));
    assertThat(added).isGreaterThan(0.1);
    assertThat(ride.stop()).isTrue();
    String why = ride.because().get(0).why();
    double said = Double.parseDouble(why.replaceFirst("(?s).*findings add ([0-9.]+) to.*", "$1"));
    assertThat(said).isCloseTo(added, within(0.005));
  }

  @Test
  @DisplayName("limits fall as the harm grows")
  void limitsFallAsTheHarmGrows() {
    List<HazardKind> kinds = List.copyOf(HazardKind.builtIn().values());
    assertThat(kinds).extracting(HazardKind::limit).isSorted();
    assertThat(kinds.get(0).limit()).isEqualTo(0.1);
    Set<String> ids = kinds.stream().map(HazardKind::id).collect(Collectors.toSet());
    assertThat(Bench.VOCABULARY.causes().values())
        .allSatisfy(cause -> assertThat(ids).containsAll(cause.hazards()));
  }

  /** The model with nothing left to look at, no finding and no contradiction. */
  private static BrakeModel lookedAt(BrakeModel model) {
    return copy(model, List.of());
  }

  private static BrakeModel observing(BrakeModel model, List<Observation> observations) {
    return copy(model, observations);
  }

  private static BrakeModel copy(BrakeModel m, List<Observation> observations) {
    return new BrakeModel(
        m.network(),
        observations,
        m.findings(),
        m.bases(),
        m.factors(),
        m.links(),
        m.impossible(),
        m.hazards(),
        List.of(),
        m.cautions(),
        m.cautionsByStep(),
        m.contradictions(),
        m.mends(),
        m.holds(),
        m.fired(),
        m.throwEstimate(),
        m.backed());
  }

  /** A belief in which one cause is all but certain and the others are as likely as before. */
  private static Inference.Posterior certain(Network network, int cause) {
    double[] posterior = new double[network.causes().size()];
    double[] logOdds = network.priorLogOdds().clone();
    logOdds[cause] = 9;
    for (int i = 0; i < posterior.length; i++) {
      posterior[i] = 1 / (1 + Math.exp(-logOdds[i]));
    }
    return new Inference.Posterior(posterior, logOdds, 0, 0);
  }
}
