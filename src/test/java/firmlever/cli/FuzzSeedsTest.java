package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.BadInput;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

@DisplayName("What reads bytes from outside")
class FuzzSeedsTest {
  @ParameterizedTest
  @EnumSource
  @DisplayName("takes good files, spoilt ones and earlier finds, or says why not")
  void takesOrRefuses(FuzzTarget target) throws IOException {
    List<byte[]> seeds = target.seeds();
    List<byte[]> all = new ArrayList<>(seeds);
    all.addAll(finds(target));
    Random random = new Random(11);
    for (int i = 0; i < target.spoilt(); i++) {
      all.add(spoilt(seeds.get(random.nextInt(seeds.size())), random));
    }
    int taken = 0;
    for (byte[] each : all) {
      try {
        target.take(each);
        taken++;
      } catch (BadInput e) {
        assertThat(e.problems()).isNotEmpty();
      }
    }
    assertThat(taken).as("inputs that are taken").isPositive();
  }

  private static byte[] spoilt(byte[] seed, Random random) {
    byte[] spoilt = seed.clone();
    for (int i = 0; i < 3; i++) {
      spoilt[random.nextInt(spoilt.length)] = (byte) random.nextInt(256);
    }
    return spoilt;
  }

  /** Inputs that once were no documented outcome. */
  private static List<byte[]> finds(FuzzTarget target) throws IOException {
    Path folder = Path.of("src", "test", "resources", "firmlever", "cli", "finds", target.id());
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      List<byte[]> finds = new ArrayList<>();
      for (Path file : files.sorted().toList()) {
        finds.add(Files.readAllBytes(file));
      }
      return finds;
    }
  }
}
