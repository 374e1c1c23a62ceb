package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ReturnForecastTest {
  @Test
  void byHand() {
    LifeTable.Counter seen = new LifeTable.Counter();
    for (int i = 0; i < 2; i++) {
      seen.add(5, true);
    }
    seen.add(10, true);
    for (int i = 0; i < 7; i++) {
      seen.add(20, false);
    }
    LifeTable.Counter running = new LifeTable.Counter();
    running.add(0, false); // both failures lie before it: 2 of 10 and 1 of 8
    running.add(5, false); // only the second
    running.add(10, false); // none
    ReturnForecast forecast = ReturnForecast.of(seen.table(), running.table(), 15);
    double first = 1 - Math.exp(-0.2 - 0.125);
    double second = 1 - Math.exp(-0.125);
    assertThat(forecast.expected()).isCloseTo(first + second, within(1e-12));
    assertThat(forecast.units()).isEqualTo(3);
    double variance =
        first * (1 - first)
            + second * (1 - second)
            + Math.pow(1 - first, 2) * 2 / 100
            + Math.pow(2 - first - second, 2) / 64;
    assertThat(forecast.standardError()).isCloseTo(Math.sqrt(variance), within(1e-12));
    assertThat(new ReturnForecast(1.2, 2, 3).interval(0.95)).isEqualTo(new Interval(0, 3));
  }

  @Test
  void holdsItsRateForLivesOfManyKinds() {
    Random random = new Random(8);
    int held = 0;
    int runs = 600;
    for (int run = 0; run < runs; run++) {
      LifeTable.Counter seen = new LifeTable.Counter();
      LifeTable.Counter running = new LifeTable.Counter();
      int came = 0;
      for (int i = 0; i < 500; i++) {
        // One in three comes back soon, the others hardly ever: no Weibull distribution.
        boolean soon = random.nextInt(3) == 0;
        double life = -Math.log(1 - random.nextDouble()) * (soon ? 15 : 2000);
        double age = 1 + random.nextInt(300);
        boolean failed = life <= age;
        seen.add(failed ? life : age, failed);
        if (!failed) {
          running.add(age, false);
          came += life <= age + 30 ? 1 : 0;
        }
      }
      held +=
          ReturnForecast.of(seen.table(), running.table(), 30).interval(0.95).contains(came)
              ? 1
              : 0;
    }
    assertThat((double) held / runs).isBetween(0.93, 0.99);
  }
}
