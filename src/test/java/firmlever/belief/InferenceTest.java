package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Inference")
class InferenceTest {
  private static final double TIGHT = 1e-9;

  /** Cold, flu, malaria and fever: Russell and Norvig, chapter 14; the priors are ours. */
  private static final RationalModel FEVER =
      new RationalModel(
          new Fraction[] {Fraction.of("0.1"), Fraction.of("0.05"), Fraction.of("0.01")},
          new Fraction[] {Fraction.ZERO},
          new Fraction[][] {
            {Fraction.of("0.4")}, {Fraction.of("0.8")}, {Fraction.of("0.9")},
          });

  @Test
  @DisplayName("gives the posteriors of the fever network")
  void givesTheFeverPosteriors() {
    List<Observation> fever = List.of(Observation.present(0));
    Inference.Posterior after = Inference.solve(FEVER.network(), fever);
    // 0.0866944 = 1 - 0.96 x 0.96 x 0.991, by hand; posteriors recomputed by enumeration.
    assertThat(Math.exp(after.logEvidence())).isCloseTo(0.0866944, within(1e-12));
    assertThat(after.posterior()[0]).isCloseTo(0.49505, within(5e-6));
    assertThat(after.posterior()[1]).isCloseTo(0.46700, within(5e-6));
    assertThat(after.posterior()[2]).isCloseTo(0.10472, within(5e-6));
    assertThat(after.noFault()).as("no fever without a cause").isZero();
    for (int i = 0; i < 3; i++) {
      assertThat(after.posterior()[i])
          .isCloseTo(FEVER.posterior(fever, i).toDouble(), within(1e-12));
    }
  }

  @Test
  @DisplayName("equals brute force in exact fractions on random networks")
  void equalsBruteForce() {
    Random random = new Random(41);
    int softOnes = 0;
    for (int round = 0; round < 60; round++) {
      RationalModel model = RationalModel.random(random, 1 + round % 6, 1 + round % 7);
      List<Observation> seen = model.observations(random);
      softOnes += (int) seen.stream().filter(o -> o.ifPresent() * o.ifAbsent() > 0).count();
      Inference.Posterior fast = Inference.solve(model.network(), seen);
      String replay = "round " + round + " of seed 41, " + seen;
      assertThat(fast.logEvidence())
          .as(replay)
          .isCloseTo(Math.log(model.evidenceOf(seen).toDouble()), within(TIGHT));
      assertThat(fast.noFault())
          .as(replay)
          .isCloseTo(model.story(seen, List.of()).toDouble(), within(TIGHT));
      for (int i = 0; i < model.prior().length; i++) {
        double exact = model.posterior(seen, i).toDouble();
        assertThat(fast.posterior()[i]).as(replay).isCloseTo(exact, within(TIGHT));
        assertThat(fast.logOdds(i)).as(replay).isCloseTo(Odds.log(exact), within(1e-8));
      }
    }
    assertThat(softOnes).as("soft observations tried").isGreaterThan(20);
  }

  @Test
  @DisplayName("does not depend on the order of the observations")
  void doesNotDependOnTheOrder() {
    Random random = new Random(42);
    for (int round = 0; round < 50; round++) {
      RationalModel model = RationalModel.random(random, 12, 14);
      List<Observation> seen = new ArrayList<>(model.observations(random));
      Inference.Posterior before = Inference.solve(model.network(), seen);
      Collections.shuffle(seen, random);
      same(before, Inference.solve(model.network(), seen), 1e-12);
    }
  }

  @Test
  @DisplayName("is not moved by a symptom that no cause shows")
  void isNotMovedByAnUnrelatedSymptom() {
    Random random = new Random(43);
    for (int round = 0; round < 50; round++) {
      RationalModel model = RationalModel.random(random, 9, 10);
      for (Fraction[] ofCause : model.strength()) {
        ofCause[7] = Fraction.ZERO;
      }
      List<Observation> others = new ArrayList<>(model.observations(random));
      others.removeIf(seen -> seen.symptom() == 7);
      Inference.Posterior before = Inference.solve(model.network(), others);
      for (Observation one :
          List.of(Observation.present(7), Observation.absent(7), new Observation(7, 0.7, 0.2))) {
        List<Observation> all = new ArrayList<>(others);
        all.add(round % (others.size() + 1), one);
        Inference.Posterior after = Inference.solve(model.network(), all);
        assertThat(after.posterior()).containsExactly(before.posterior(), within(1e-12));
        assertThat(after.noFault()).isCloseTo(before.noFault(), within(1e-12));
      }
    }
  }

  @Test
  @DisplayName("keeps every posterior within 0 and 1, and its log odds finite")
  void keepsPosteriorsInBounds() {
    Random random = new Random(44);
    for (int round = 0; round < 300; round++) {
      RationalModel model = RationalModel.random(random, 1 + random.nextInt(20), 15);
      Inference.Posterior after = Inference.solve(model.network(), model.observations(random));
      for (int i = 0; i < after.posterior().length; i++) {
        assertThat(after.posterior()[i]).isBetween(0.0, 1.0);
        assertThat(after.logOdds(i)).isFinite();
      }
      assertThat(after.noFault()).isBetween(0.0, 1.0 + 1e-12);
      assertThat(after.logEvidence()).isFinite().isLessThanOrEqualTo(1e-12);
    }
  }

  @Test
  @DisplayName("keeps log odds finite where a cause is all but certain")
  void keepsLogOddsFiniteWhereCertain() {
    int symptoms = 12;
    double[] background = new double[symptoms];
    double[] strength = new double[symptoms];
    Arrays.fill(background, Background.HARDLY_EVER.probability());
    Arrays.fill(strength, Word.CERTAIN.probability());
    Network network =
        new Network(
            List.of("only-one"),
            new double[] {Odds.log(0.02)},
            Collections.nCopies(symptoms, "sign"),
            background,
            new double[][] {strength});
    List<Observation> all = IntStream.range(0, symptoms).mapToObj(Observation::present).toList();
    double each = Math.log((1 - 0.995 * 0.02) / 0.005);
    assertThat(Inference.solve(network, all).logOdds(0))
        .isCloseTo(Odds.log(0.02) + symptoms * each, within(1e-9));
    double balance = Odds.log(0.02);
    for (Balance.Weighed weighed : Balance.weigh(network, all, Inference.solve(network, all))) {
      assertThat(weighed.weight()[0]).isCloseTo(each, within(1e-9));
      balance += weighed.weight()[0];
    }
    assertThat(balance).isCloseTo(Odds.log(0.02) + symptoms * each, within(1e-9));
  }

  @Test
  @DisplayName("solves parts that share no cause as if each stood alone")
  void solvesComponentsApart() {
    Random random = new Random(45);
    for (int round = 0; round < 40; round++) {
      // Two networks laid side by side; a bridge of strength next to nothing joins them again.
      RationalModel left = RationalModel.random(random, 5, 6);
      RationalModel right = RationalModel.random(random, 4, 5);
      List<Observation> seenLeft = left.observations(random);
      List<Observation> seenRight = right.observations(random);
      List<Observation> seen = new ArrayList<>(seenLeft);
      for (Observation each : seenRight) {
        seen.add(new Observation(6 + each.symptom(), each.ifPresent(), each.ifAbsent()));
      }
      Collections.shuffle(seen, random);
      Network both = sideBySide(left.network(), right.network());
      Inference.Posterior together = Inference.solve(both, seen);
      Inference.Posterior alone = Inference.solve(left.network(), seenLeft);
      Inference.Posterior other = Inference.solve(right.network(), seenRight);
      double[] apart =
          IntStream.range(0, 9)
              .mapToDouble(i -> i < 5 ? alone.posterior()[i] : other.posterior()[i - 5])
              .toArray();
      assertThat(together.posterior()).containsExactly(apart, within(1e-12));
      assertThat(together.noFault()).isCloseTo(alone.noFault() * other.noFault(), within(1e-12));
      assertThat(together.logEvidence())
          .isCloseTo(alone.logEvidence() + other.logEvidence(), within(1e-9));
      for (int j = 0; j < 11; j++) {
        both.strength()[0][j] = Math.max(both.strength()[0][j], 1e-15);
      }
      same(together, Inference.solve(both, seen), 1e-9);
    }
  }

  private static Network sideBySide(Network a, Network b) {
    int n = a.causes().size() + b.causes().size();
    int m = a.symptoms().size() + b.symptoms().size();
    List<String> causes = new ArrayList<>(a.causes());
    causes.addAll(b.causes());
    List<String> symptoms = new ArrayList<>(a.symptoms());
    symptoms.addAll(b.symptoms());
    double[] prior = new double[n];
    double[] background = new double[m];
    double[][] strength = new double[n][m];
    for (int i = 0; i < n; i++) {
      boolean first = i < a.causes().size();
      Network from = first ? a : b;
      int at = first ? i : i - a.causes().size();
      prior[i] = from.priorLogOdds()[at];
      System.arraycopy(
          from.strength()[at],
          0,
          strength[i],
          first ? 0 : a.symptoms().size(),
          from.symptoms().size());
    }
    System.arraycopy(a.background(), 0, background, 0, a.symptoms().size());
    System.arraycopy(b.background(), 0, background, a.symptoms().size(), b.symptoms().size());
    return new Network(causes, prior, symptoms, background, strength);
  }

  /**
   * At 40 causes, 60 symptoms and 12 present, the inclusion-exclusion sum of Quickscore (Heckerman,
   * UAI 1989) loses digits to cancellation: an error of up to 5e-3 was measured.
   */
  @Test
  @DisplayName("does not cancel at 12 present symptoms, where inclusion-exclusion does")
  void doesNotCancel() {
    Random random = new Random(46);
    double worstOfTheSum = 0;
    for (int round = 0; round < 1; round++) {
      RationalModel model = cancelling(random);
      List<Observation> seen = new ArrayList<>();
      for (int j = 0; j < 60; j++) {
        seen.add(j < 12 ? Observation.present(j) : Observation.absent(j));
      }
      double[] exact = inclusionExclusion(model, 12, new MathContext(60));
      double[] inDoubles = inclusionExclusion(model, 12, MathContext.DECIMAL64);
      Inference.Posterior ours = Inference.solve(model.network(), seen);
      for (int i = 0; i < 40; i++) {
        assertThat(ours.posterior()[i])
            .as("cause %d, round %d", i, round)
            .isCloseTo(exact[i], within(1e-11));
        worstOfTheSum = Math.max(worstOfTheSum, Math.abs(inDoubles[i] - exact[i]));
      }
    }
    assertThat(worstOfTheSum).as("error of the sum with 16 digits").isGreaterThan(1e-6);
  }

  /** Rare causes with weak links, and backgrounds so small that the present symptoms surprise. */
  private static RationalModel cancelling(Random random) {
    RationalModel model = RationalModel.random(random, 40, 60);
    for (int i = 0; i < 40; i++) {
      model.prior()[i] = Fraction.of(1 + random.nextInt(20), 10_000);
      for (int j = 0; j < 60; j++) {
        model.strength()[i][j] =
            random.nextInt(4) == 0 ? Fraction.of(1 + random.nextInt(900), 1000) : Fraction.ZERO;
      }
    }
    for (int j = 0; j < 60; j++) {
      model.background()[j] = Fraction.of(1 + random.nextInt(9), 10_000);
    }
    return model;
  }

  /** Posteriors by the signed sum over all subsets of the present symptoms, so many digits each. */
  private static double[] inclusionExclusion(RationalModel model, int present, MathContext digits) {
    int n = model.prior().length;
    BigDecimal[] with = new BigDecimal[n];
    Arrays.fill(with, BigDecimal.ZERO);
    BigDecimal all = BigDecimal.ZERO;
    BigDecimal[][] missed = new BigDecimal[n][60];
    BigDecimal[] prior = new BigDecimal[n];
    BigDecimal[] absent = new BigDecimal[n];
    for (int i = 0; i < n; i++) {
      prior[i] = decimal(model.prior()[i], digits);
      absent[i] = BigDecimal.ONE;
      for (int j = 0; j < 60; j++) {
        missed[i][j] = decimal(model.strength()[i][j].complement(), digits);
        if (j >= present) {
          absent[i] = absent[i].multiply(missed[i][j], digits);
        }
      }
    }
    for (int subset = 0; subset < 1 << present; subset++) {
      BigDecimal term = BigDecimal.ONE;
      for (int j = 0; j < present; j++) {
        if ((subset >> j & 1) == 1) {
          term = term.multiply(decimal(model.background()[j].complement(), digits), digits);
        }
      }
      BigDecimal[] share = new BigDecimal[n];
      for (int i = 0; i < n; i++) {
        BigDecimal ifHere = prior[i].multiply(absent[i], digits);
        for (int j = 0; j < present; j++) {
          if ((subset >> j & 1) == 1 && missed[i][j].compareTo(BigDecimal.ONE) != 0) {
            ifHere = ifHere.multiply(missed[i][j], digits);
          }
        }
        BigDecimal either = ifHere.add(BigDecimal.ONE.subtract(prior[i]), digits);
        term = term.multiply(either, digits);
        share[i] = ifHere.divide(either, digits);
      }
      BigDecimal signed = Integer.bitCount(subset) % 2 == 0 ? term : term.negate();
      all = all.add(signed, digits);
      for (int i = 0; i < n; i++) {
        with[i] = with[i].add(signed.multiply(share[i], digits), digits);
      }
    }
    BigDecimal evidence = all;
    return Arrays.stream(with).mapToDouble(w -> w.divide(evidence, digits).doubleValue()).toArray();
  }

  private static BigDecimal decimal(Fraction fraction, MathContext digits) {
    return new BigDecimal(fraction.over()).divide(new BigDecimal(fraction.under()), digits);
  }

  @Test
  @DisplayName("goes over from a soft to a clear observation without a step")
  void softGoesOverIntoHard() {
    Random random = new Random(47);
    for (int round = 0; round < 30; round++) {
      RationalModel model = RationalModel.random(random, 8, 6);
      Network network = model.network();
      List<Observation> others = List.of(Observation.present(4), Observation.absent(5));
      same(
          Inference.solve(network, with(others, Observation.present(2))),
          Inference.solve(network, with(others, new Observation(2, 1, 1e-13))),
          1e-9);
      same(
          Inference.solve(network, with(others, Observation.absent(2))),
          Inference.solve(network, with(others, new Observation(2, 1e-13, 1))),
          1e-9);
      Inference.Posterior nothing = Inference.solve(network, others);
      Inference.Posterior evenly =
          Inference.solve(network, with(others, new Observation(2, 0.3, 0.3)));
      assertThat(evenly.posterior())
          .as("a reading that fits both sides alike says nothing")
          .containsExactly(nothing.posterior(), within(1e-12));
    }
  }

  private static List<Observation> with(List<Observation> others, Observation one) {
    List<Observation> all = new ArrayList<>(others);
    all.add(one);
    return all;
  }

  @Test
  @DisplayName("refuses more than one answer may cost, and names what weighs least")
  void refusesMoreThanCanBeSolved() {
    Network network = allTogether(23);
    network.strength()[0][7] = 0.2;
    List<Observation> all = IntStream.range(0, 23).mapToObj(Observation::present).toList();
    List<Observation> fewer = all.stream().filter(seen -> seen.symptom() != 7).toList();
    assertThat(Inference.solve(network, fewer).posterior()[0]).isGreaterThan(0.99);
    assertThatThrownBy(() -> Inference.solve(network, all))
        .isInstanceOf(TooManySymptoms.class)
        .hasMessage(
            "23 findings hang together, too many to be weighed exactly within the work for one"
                + " answer. Maybe leave out, or note as not-checked, those of them that weigh"
                + " least: symptom-7.");
  }

  @Test
  @DisplayName("solves a long chain of symptoms, from either end alike")
  void solvesALongChain() {
    int links = 50;
    double[][] there = new double[links][links + 1];
    double[][] back = new double[links][links + 1];
    double[] odds = new double[links];
    double[] background = new double[links + 1];
    Arrays.fill(background, 0.1);
    Random random = new Random(54);
    for (int i = 0; i < links; i++) {
      odds[i] = -random.nextDouble();
      there[i][i] = 0.1 + 0.8 * random.nextDouble();
      there[i][i + 1] = 0.1 + 0.8 * random.nextDouble();
    }
    double[] oddsBack = new double[links];
    for (int i = 0; i < links; i++) {
      oddsBack[links - 1 - i] = odds[i];
      back[links - 1 - i][links - i] = there[i][i];
      back[links - 1 - i][links - i - 1] = there[i][i + 1];
    }
    List<String> causes = Collections.nCopies(links, "cause");
    List<String> symptoms = Collections.nCopies(links + 1, "symptom");
    List<Observation> all = IntStream.rangeClosed(0, links).mapToObj(Observation::present).toList();
    Network forth = new Network(causes, odds, symptoms, background, there);
    assertThat(Inference.work(forth, all)).isLessThan(100_000);
    Inference.Posterior a = Inference.solve(forth, all);
    Inference.Posterior b =
        Inference.solve(new Network(causes, oddsBack, symptoms, background, back), all);
    for (int i = 0; i < links; i++) {
      assertThat(b.posterior()[links - 1 - i]).isCloseTo(a.posterior()[i], within(1e-12));
    }
    assertThat(b.logEvidence()).isCloseTo(a.logEvidence(), within(1e-9));
  }

  @Test
  @DisplayName("takes the work it says out of a budget, and nothing where it does not fit")
  void keepsToTheBudget() {
    RationalModel model = RationalModel.random(new Random(55), 8, 8);
    List<Observation> seen = IntStream.range(0, 8).mapToObj(Observation::present).toList();
    long work = Inference.work(model.network(), seen);
    WorkBudget enough = WorkBudget.of(work);
    Inference.Posterior solved = Inference.solve(model.network(), seen, enough).orElseThrow();
    same(Inference.solve(model.network(), seen), solved, 0);
    assertThat(enough.spent()).isEqualTo(work);
    assertThat(enough.usedUp()).isFalse();
    WorkBudget tooLittle = WorkBudget.of(work - 1);
    assertThat(Inference.solve(model.network(), seen, tooLittle)).isEmpty();
    assertThat(tooLittle.spent()).isZero();
    assertThat(tooLittle.usedUp()).isTrue();
  }

  @Test
  @DisplayName("solves any number of absent symptoms, and of present ones that hang apart")
  void solvesManyThatHangApart() {
    Network together = allTogether(80);
    List<Observation> absent = IntStream.range(0, 80).mapToObj(Observation::absent).toList();
    assertThat(Inference.solve(together, absent).posterior()[0]).isLessThan(1e-6);
    double[][] apart = new double[40][40];
    for (int i = 0; i < 40; i++) {
      apart[i][i] = 0.5;
    }
    Network diagonal =
        new Network(
            Collections.nCopies(40, "cause"),
            new double[40],
            Collections.nCopies(40, "symptom"),
            together.background(),
            apart);
    List<Observation> present = IntStream.range(0, 40).mapToObj(Observation::present).toList();
    // Prior odds 1, background 0.1: 0.55 if the cause is there.
    assertThat(Inference.solve(diagonal, present).posterior()[23])
        .isCloseTo(0.55 / 0.65, within(1e-12));
  }

  private static Network allTogether(int symptoms) {
    double[] background = new double[symptoms];
    double[] strength = new double[symptoms];
    Arrays.fill(background, 0.1);
    Arrays.fill(strength, 0.5);
    return new Network(
        List.of("one-for-all"),
        new double[] {-2},
        IntStream.range(0, symptoms).mapToObj(j -> "symptom-" + j).toList(),
        background,
        new double[][] {strength});
  }

  private static void same(Inference.Posterior a, Inference.Posterior b, double tolerance) {
    assertThat(b.posterior()).containsExactly(a.posterior(), within(tolerance));
    assertThat(b.noFault()).isCloseTo(a.noFault(), within(tolerance));
    assertThat(b.logEvidence()).isCloseTo(a.logEvidence(), within(tolerance * 100));
  }
}
