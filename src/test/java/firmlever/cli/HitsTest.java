package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The hits of a report")
class HitsTest {
  private static final List<List<String>> TOLD =
      List.of(List.of("a", "b"), List.of("b"), List.of("c", "a"), List.of("d"));
  private static final List<List<String>> RIGHT =
      List.of(List.of("a"), List.of("b", "c"), List.of("a", "d"), List.of("e"));

  @Test
  @DisplayName("by chance are the mean over every way to exchange the right causes")
  void byChance() {
    List<Integer> hits = new ArrayList<>();
    permuted(new ArrayList<>(RIGHT), 0, hits);
    assertThat(hits).hasSize(24);
    assertThat(Hits.exchanged(TOLD, RIGHT))
        .isCloseTo(hits.stream().mapToInt(n -> n).average().orElseThrow(), within(1e-12));
    assertThat(Hits.exchanged(List.of(), List.of())).isZero();
  }

  private static void permuted(List<List<String>> right, int from, List<Integer> hits) {
    if (from == right.size()) {
      int count = 0;
      for (int i = 0; i < TOLD.size(); i++) {
        count += TOLD.get(i).stream().anyMatch(right.get(i)::contains) ? 1 : 0;
      }
      hits.add(count);
      return;
    }
    for (int i = from; i < right.size(); i++) {
      Collections.swap(right, from, i);
      permuted(right, from + 1, hits);
      Collections.swap(right, from, i);
    }
  }
}
