package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class LifeTableTest {
  // Freireich 1963: 30 relapses in 541 weeks, 182 + 359 (Rodriguez, notes on survival).
  @Test
  void exposureAsPublished() {
    var both = Published.DRUG.plus(Published.PLACEBO);
    assertThat(both.failures()).isEqualTo(30);
    assertThat(both.units()).isEqualTo(42);
    assertThat(weeks(Published.DRUG)).isEqualTo(359);
    assertThat(weeks(Published.PLACEBO)).isEqualTo(182);
    assertThat(weeks(both)).isEqualTo(541);
  }

  private static double weeks(LifeTable table) {
    return table.rows().stream().mapToDouble(r -> r.time() * (r.failures() + r.losses())).sum();
  }

  @Test
  void anySplitInAnyOrderGivesTheSameTable() {
    var random = new Random(3);
    var whole = new LifeTable.Counter();
    var parts = Stream.generate(LifeTable.Counter::new).limit(5).toList();
    for (int i = 0; i < 2000; i++) {
      double time = random.nextInt(60) / 10.0;
      boolean failed = random.nextInt(3) > 0;
      whole.add(time, failed);
      parts.get(random.nextInt(5)).add(time, failed);
    }
    var forwards = LifeTable.EMPTY;
    var backwards = LifeTable.EMPTY;
    for (int i = 0; i < 5; i++) {
      forwards = forwards.plus(parts.get(i).table());
      backwards = parts.get(4 - i).table().plus(backwards);
    }
    assertThat(forwards).isEqualTo(whole.table()).isEqualTo(backwards);
    assertThat(forwards.units()).isEqualTo(2000);
  }

  @Test
  void minusZeroIsZero() {
    var counter = new LifeTable.Counter();
    counter.add(0.0, true);
    counter.add(-0.0, false);
    assertThat(counter.table().rows()).containsExactly(new LifeTable.Row(0, 1, 1));
  }

  @Test
  void refusesWhatCannotBe() {
    var counter = new LifeTable.Counter();
    assertThatThrownBy(() -> counter.add(-2, true)).hasMessageContaining("-2.0");
    assertThatThrownBy(() -> counter.add(Double.NaN, true)).hasMessageContaining("NaN");
    assertThatThrownBy(() -> new LifeTable.Row(3, -1, 7)).hasMessageContaining("-1 and 7");
    var late = new LifeTable.Row(9, 1, 2);
    assertThatThrownBy(() -> new LifeTable(List.of(late, late))).hasMessageContaining("ascend");
  }
}
