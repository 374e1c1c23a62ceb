package firmlever.comeback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.Learning.Rate;
import firmlever.comeback.Tally.CauseCount;
import firmlever.comeback.Tally.CauseRule;
import firmlever.comeback.Tally.CauseTally;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.visits.Witness;
import firmlever.comeback.visits.Witness.Look;
import firmlever.diagnosis.Diagnostician;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.mockito.Mockito;

@DisplayName("What is learned from closed cases")
class LearningTest {
  private static final Diagnostician UNASKED = Mockito.mock(Diagnostician.class);

  private static void add(
      Tally tally, String cause, double per100, Witness witness, long visits, long seen) {
    CauseTally of =
        tally.causes.computeIfAbsent(
            new CauseRule(cause, "how common " + cause), k -> new CauseTally());
    of.per100 = per100;
    CauseCount count = of.of(witness);
    count.visits += visits;
    count.seen += seen;
    for (long i = 0; i < visits; i++) {
      count.expected = count.expected.plus(per100 / 100);
    }
  }

  private static Rate rate(Learning learning, String cause) {
    return learning.rates().stream().filter(r -> r.cause().equals(cause)).findFirst().orElseThrow();
  }

  @Test
  @DisplayName("counts a visit as often as its recorder's word has held, by hand")
  void weighsByTrust() {
    Tally tally = new Tally();
    tally.overturned.put("T1", new Proportion(10, 1000));
    tally.overturned.put("T2", new Proportion(500, 1000));
    tally.overturnedLate = new Proportion(5, 100);
    Trust trust = Trust.of(tally);
    // With so many visits each keeps its own share, but for the little the others lend.
    assertThat(trust.of(new Witness("T1", Look.HELD))).isCloseTo(0.99, within(0.01));
    assertThat(trust.of(new Witness("T2", Look.HELD))).isCloseTo(0.5, within(0.01));
    assertThat(trust.of(new Witness("T2", Look.OPEN)))
        .isEqualTo(0.95 * trust.of(new Witness("T2", Look.HELD)));
    assertThat(trust.of(new Witness("T9", Look.SECOND))).isEqualTo(1);
  }

  @Test
  @DisplayName("lets one who calls everything air move the rate less, the less the word holds")
  void dampsTheOutlying() {
    // Two recorders: nobody can be called odd, so that trust alone works. Truth: 5 of 100.
    double blind = learned(false);
    double trusting = learned(true);
    assertThat(blind).isGreaterThan(10);
    assertThat(trusting).isLessThan(blind - 1).isGreaterThan(5);
  }

  private static double learned(boolean overturns) {
    Tally tally = new Tally();
    add(tally, "air", 5, new Witness("T1", Look.HELD), 1000, 50);
    add(tally, "air", 5, new Witness("T2", Look.HELD), 1000, 300);
    if (overturns) {
      tally.overturned.put("T1", new Proportion(20, 1000));
      tally.overturned.put("T2", new Proportion(700, 1000));
    }
    return rate(Learning.from(tally, UNASKED, List.of()), "air").proposed();
  }

  @Test
  @DisplayName("leaves one of many out who lies off, and comes to the truth without")
  void leavesOutTheOdd() {
    Random random = new Random(4);
    Tally tally = new Tally();
    for (int recorder = 1; recorder <= 6; recorder++) {
      for (String cause : List.of("air", "pads", "seal")) {
        double share = cause.equals("air") && recorder == 3 ? 0.4 : 0.08;
        long seen = 0;
        for (int i = 0; i < 800; i++) {
          seen += random.nextDouble() < share ? 1 : 0;
        }
        add(tally, cause, 5, new Witness("T" + recorder, Look.HELD), 800, seen);
      }
    }
    Learning learning = Learning.from(tally, UNASKED, List.of());
    assertThat(learning.leftOut())
        .singleElement()
        .satisfies(
            out -> {
              assertThat(out.recorder()).isEqualTo("T3");
              assertThat(out.cause()).isEqualTo("air");
            });
    // With T3 among them it would be 13.
    assertThat(rate(learning, "air").range().contains(8)).isTrue();
    assertThat(rate(learning, "air").visits()).isEqualTo(5 * 800);
    assertThat(learning.rates()).allSatisfy(r -> assertThat(r.proposed()).isBetween(7.0, 9.0));
  }

  @Test
  @DisplayName("moves a cause that was never seen by how many jobs could have shown it")
  void shrinksByExposure() {
    Tally tally = new Tally();
    Witness witness = new Witness("T1", Look.HELD);
    add(tally, "common", 5, witness, 4000, 190);
    add(tally, "seldom asked", 1, witness, 30, 0);
    add(tally, "often asked", 1, witness, 4000, 0);
    add(tally, "as said", 2, witness, 4000, 81);
    Learning learning = Learning.from(tally, UNASKED, List.of());
    Rate seldom = rate(learning, "seldom asked");
    Rate often = rate(learning, "often asked");
    // 0.3 cases were to be expected of the one, 40 of the other.
    assertThat(seldom.proposed()).isBetween(0.7, 1.0);
    assertThat(seldom.differs()).isFalse();
    assertThat(often.proposed()).isLessThan(0.5);
    assertThat(often.differs()).isTrue();
    assertThat(often.range().low()).isLessThan(often.range().high() / 2);
    // The one that moves most of the visits first: nearly 1 of 100.
    assertThat(learning.rates().get(0)).isEqualTo(often);
    assertThat(often.effect()).isBetween(0.7, 1.0);
  }
}
