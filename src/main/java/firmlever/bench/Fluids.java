package firmlever.bench;

import firmlever.casefile.Fluid;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** The fluids in words, as people write them. */
final class Fluids {
  private Fluids() {}

  /** All of them, to choose from. */
  static List<View.Choice> choices(String chosen) {
    return Arrays.stream(Fluid.values())
        .map(Fluid::id)
        .map(id -> new View.Choice(id, spoken(id), id.equals(chosen)))
        .toList();
  }

  static String spoken(String id) {
    return id.startsWith("dot")
        ? id.toUpperCase(Locale.ROOT).replace('-', ' ')
        : id.replace('-', ' ');
  }
}
