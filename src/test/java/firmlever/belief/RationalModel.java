package firmlever.belief;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** A noisy-OR network with exact fractions for numbers, and the oracle's view of it. */
record RationalModel(Fraction[] prior, Fraction[] background, Fraction[][] strength) {

  /** A network in which about half of the links are there, with numbers of three digits. */
  static RationalModel random(Random random, int causes, int symptoms) {
    Fraction[] prior = new Fraction[causes];
    Fraction[] background = new Fraction[symptoms];
    Fraction[][] strength = new Fraction[causes][symptoms];
    for (int j = 0; j < symptoms; j++) {
      background[j] = Fraction.of(1 + random.nextInt(200), 1000);
    }
    for (int i = 0; i < causes; i++) {
      prior[i] = Fraction.of(1 + random.nextInt(400), 1000);
      for (int j = 0; j < symptoms; j++) {
        strength[i][j] =
            random.nextBoolean() ? Fraction.of(1 + random.nextInt(998), 1000) : Fraction.ZERO;
      }
    }
    return new RationalModel(prior, background, strength);
  }

  /** Present, absent or anything between, of a random choice of the symptoms, each once. */
  List<Observation> observations(Random random) {
    List<Observation> seen = new ArrayList<>();
    for (int j = 0; j < background.length; j++) {
      switch (random.nextInt(4)) {
        case 0 -> seen.add(Observation.present(j));
        case 1 -> seen.add(Observation.absent(j));
        case 2 ->
            seen.add(
                new Observation(j, random.nextInt(1, 64) / 64.0, random.nextInt(1, 64) / 64.0));
        default -> {}
      }
    }
    return seen;
  }

  Network network() {
    int n = prior.length;
    int m = background.length;
    double[] logOdds = new double[n];
    double[][] strengths = new double[n][m];
    double[] backgrounds = new double[m];
    List<String> causes = new ArrayList<>();
    List<String> symptoms = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      causes.add("cause-" + i);
      logOdds[i] = Math.log(prior[i].dividedBy(prior[i].complement()).toDouble());
      for (int j = 0; j < m; j++) {
        strengths[i][j] = strength[i][j].toDouble();
      }
    }
    for (int j = 0; j < m; j++) {
      symptoms.add("symptom-" + j);
      backgrounds[j] = background[j].toDouble();
    }
    return new Network(causes, logOdds, symptoms, backgrounds, strengths);
  }

  /** The same for the oracle: what was seen of a symptom is a variable of its own below it. */
  private Enumeration oracle(List<Observation> seen) {
    Enumeration oracle = new Enumeration();
    List<String> causes = new ArrayList<>();
    for (int i = 0; i < prior.length; i++) {
      Fraction chance = prior[i];
      causes.add("cause-" + i);
      oracle.add("cause-" + i, List.of(), world -> chance);
    }
    for (Observation each : seen) {
      int j = each.symptom();
      oracle.add(
          "symptom-" + j,
          causes,
          world -> {
            Fraction absent = background[j].complement();
            for (int i = 0; i < prior.length; i++) {
              if (world.get("cause-" + i)) {
                absent = absent.times(strength[i][j].complement());
              }
            }
            return absent.complement();
          });
      oracle.add(
          "seen-" + j,
          List.of("symptom-" + j),
          world -> {
            double likelihood = world.get("symptom-" + j) ? each.ifPresent() : each.ifAbsent();
            // All likelihoods used are whole 64ths, and exact as doubles.
            return Fraction.of(Math.round(likelihood * 64), 64);
          });
    }
    return oracle;
  }

  private static Map<String, Boolean> evidence(List<Observation> seen) {
    Map<String, Boolean> evidence = new HashMap<>();
    seen.forEach(each -> evidence.put("seen-" + each.symptom(), true));
    return evidence;
  }

  Fraction evidenceOf(List<Observation> seen) {
    return oracle(seen).joint(evidence(seen));
  }

  Fraction posterior(List<Observation> seen, int cause) {
    return oracle(seen).given(evidence(seen), Map.of("cause-" + cause, true));
  }

  /** Probability that just these causes are present. */
  Fraction story(List<Observation> seen, List<Integer> present) {
    boolean[] all = new boolean[prior.length];
    Arrays.fill(all, true);
    return story(seen, present, all);
  }

  /** Probability that of the causes in question just these are present. */
  Fraction story(List<Observation> seen, List<Integer> present, boolean[] inQuestion) {
    Map<String, Boolean> story = new HashMap<>();
    for (int i = 0; i < prior.length; i++) {
      if (inQuestion[i]) {
        story.put("cause-" + i, present.contains(i));
      }
    }
    return oracle(seen).given(evidence(seen), story);
  }
}
