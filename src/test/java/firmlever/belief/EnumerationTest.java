package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import aima.core.probability.CategoricalDistribution;
import aima.core.probability.RandomVariable;
import aima.core.probability.bayes.BayesInference;
import aima.core.probability.bayes.exact.EliminationAsk;
import aima.core.probability.bayes.impl.BayesNet;
import aima.core.probability.bayes.impl.FullCPTNode;
import aima.core.probability.domain.BooleanDomain;
import aima.core.probability.proposition.AssignmentProposition;
import aima.core.probability.util.RandVar;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The oracle is checked against published numbers before it checks anything else. */
@DisplayName("The oracle")
class EnumerationTest {
  /**
   * Lauritzen and Spiegelhalter, J. R. Statist. Soc. B 50:157–224, 1988; tables as printed in the
   * gRain manual (rdrr.io/cran/gRain/man/example_chest.html).
   */
  private static final Enumeration ASIA =
      new Enumeration()
          .add("asia", "0.01")
          .add("tub", List.of("asia"), by("asia", "0.05", "0.01"))
          .add("smoke", "0.5")
          .add("lung", List.of("smoke"), by("smoke", "0.1", "0.01"))
          .add("bronc", List.of("smoke"), by("smoke", "0.6", "0.3"))
          .add(
              "either",
              List.of("tub", "lung"),
              world -> world.get("tub") || world.get("lung") ? Fraction.ONE : Fraction.ZERO)
          .add("xray", List.of("either"), by("either", "0.98", "0.05"))
          .add(
              "dysp",
              List.of("bronc", "either"),
              world ->
                  Fraction.of(
                      world.get("bronc")
                          ? world.get("either") ? "0.9" : "0.8"
                          : world.get("either") ? "0.7" : "0.1"));

  private static Function<Map<String, Boolean>, Fraction> by(
      String parent, String ifYes, String ifNo) {
    return world -> Fraction.of(world.get(parent) ? ifYes : ifNo);
  }

  private static double asia(String what, String... seen) {
    Map<String, Boolean> known = new java.util.HashMap<>();
    for (String each : seen) {
      known.put(each, true);
    }
    return ASIA.given(known, Map.of(what, true)).toDouble();
  }

  @Test
  @DisplayName("gives the published marginals of the Asia network")
  void givesThePublishedMarginalsOfAsia() {
    // gRain output of the Asia example, printed exactly.
    assertThat(asia("lung")).isEqualTo(0.055);
    assertThat(asia("bronc")).isEqualTo(0.45);
    assertThat(ASIA.joint(Map.of("lung", true, "bronc", true))).isEqualTo(Fraction.of("0.0315"));
    assertThat(ASIA.joint(Map.of("lung", true, "bronc", false))).isEqualTo(Fraction.of("0.0235"));
    assertThat(ASIA.joint(Map.of("lung", false, "bronc", true))).isEqualTo(Fraction.of("0.4185"));
    assertThat(ASIA.joint(Map.of("lung", false, "bronc", false))).isEqualTo(Fraction.of("0.5265"));
    // Recomputed by another enumeration.
    assertThat(asia("tub")).isEqualTo(0.0104);
    assertThat(asia("either")).isEqualTo(0.064828);
    assertThat(asia("xray")).isCloseTo(0.11029004, within(5e-9));
    assertThat(asia("dysp")).isCloseTo(0.4359706, within(5e-8));
  }

  @Test
  @DisplayName("gives the published posteriors of the Asia network")
  void givesThePublishedPosteriorsOfAsia() {
    // gRain output: evidence asia and dyspnoea, then smoker as well.
    assertThat(ASIA.joint(Map.of("asia", true, "dysp", true)).toDouble())
        .isCloseTo(0.004501375, within(5e-10));
    assertThat(asia("lung", "asia", "dysp")).isCloseTo(0.09952515, within(5e-9));
    assertThat(asia("bronc", "asia", "dysp")).isCloseTo(0.8114021, within(5e-8));
    assertThat(asia("lung", "asia", "dysp", "smoke")).isCloseTo(0.1455191, within(5e-8));
    assertThat(asia("bronc", "asia", "dysp", "smoke")).isCloseTo(0.8672582, within(5e-8));
    // Recomputed by another enumeration.
    assertThat(asia("tub", "asia", "dysp")).isCloseTo(0.08775096, within(5e-9));
    assertThat(asia("smoke", "asia", "dysp")).isCloseTo(0.62591986, within(5e-9));
    assertThat(asia("xray", "asia", "dysp")).isCloseTo(0.21953886, within(5e-9));
    assertThat(asia("bronc", "dysp")).isCloseTo(0.83396734, within(5e-9));
    assertThat(asia("lung", "dysp")).isCloseTo(0.10275922, within(5e-9));
    assertThat(asia("tub", "dysp")).isCloseTo(0.01884531, within(5e-9));
    assertThat(asia("lung", "xray")).isCloseTo(0.4887114, within(5e-8));
    assertThat(asia("tub", "xray")).isCloseTo(0.09241088, within(5e-9));
    assertThat(asia("bronc", "xray")).isCloseTo(0.50632616, within(5e-9));
  }

  @Test
  @DisplayName(
      "and Inference agree with the elimination of a textbook library on noisy-OR networks")
  void agreesWithATextbookLibrary() {
    Random random = new Random(20261125);
    for (int round = 0; round < 12; round++) {
      RationalModel model = RationalModel.random(random, 4, 3);
      List<Observation> seen = List.of(Observation.present(0), Observation.absent(2));
      RandVar[] causes = new RandVar[4];
      FullCPTNode[] roots = new FullCPTNode[4];
      for (int i = 0; i < 4; i++) {
        causes[i] = new RandVar("Cause" + i, new BooleanDomain());
        double prior = model.prior()[i].toDouble();
        roots[i] = new FullCPTNode(causes[i], new double[] {prior, 1 - prior});
      }
      RandVar[] symptoms = new RandVar[3];
      for (int j = 0; j < 3; j++) {
        symptoms[j] = new RandVar("Symptom" + j, new BooleanDomain());
        double[] table = new double[32];
        for (int world = 0; world < 16; world++) {
          // The library's tables run from all true to all false, the last variable fastest.
          double absent = model.background()[j].complement().toDouble();
          for (int i = 0; i < 4; i++) {
            if ((world >> (3 - i) & 1) == 0) {
              absent *= model.strength()[i][j].complement().toDouble();
            }
          }
          table[2 * world] = 1 - absent;
          table[2 * world + 1] = absent;
        }
        new FullCPTNode(symptoms[j], table, roots[0], roots[1], roots[2], roots[3]);
      }
      BayesInference library = new EliminationAsk();
      BayesNet net = new BayesNet(roots[0], roots[1], roots[2], roots[3]);
      Inference.Posterior ours = Inference.solve(model.network(), seen);
      for (int i = 0; i < 4; i++) {
        CategoricalDistribution theirs =
            library.ask(
                new RandomVariable[] {causes[i]},
                new AssignmentProposition[] {
                  new AssignmentProposition(symptoms[0], Boolean.TRUE),
                  new AssignmentProposition(symptoms[2], Boolean.FALSE)
                },
                net);
        assertThat(ours.posterior()[i]).isCloseTo(theirs.getValues()[0], within(1e-12));
        assertThat(model.posterior(seen, i).toDouble())
            .isCloseTo(theirs.getValues()[0], within(1e-12));
      }
    }
  }
}
