package firmlever.belief;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * The oracle: any Bayesian network of yes-or-no variables, solved by adding up every world there
 * is, in exact fractions. Shares no line and no idea with {@link Inference}.
 */
final class Enumeration {
  private record Variable(
      String name, List<String> parents, Function<Map<String, Boolean>, Fraction> ifParents) {}

  private final List<Variable> variables = new ArrayList<>();

  /** Adds a variable after its parents; {@code ifParents} is how likely it is, given theirs. */
  Enumeration add(
      String name, List<String> parents, Function<Map<String, Boolean>, Fraction> ifParents) {
    variables.add(new Variable(name, parents, ifParents));
    return this;
  }

  Enumeration add(String name, String decimal) {
    return add(name, List.of(), world -> Fraction.of(decimal));
  }

  /** Probability that all of these hold at once. */
  Fraction joint(Map<String, Boolean> these) {
    Set<String> bearing = new HashSet<>(these.keySet());
    List<Variable> needed = new ArrayList<>();
    List<Variable> childrenFirst = new ArrayList<>(variables);
    Collections.reverse(childrenFirst);
    for (Variable variable : childrenFirst) {
      if (bearing.contains(variable.name())) {
        bearing.addAll(variable.parents());
        needed.add(0, variable);
      }
    }
    return sum(needed, 0, new HashMap<>(), these);
  }

  /** Probability of {@code what}, given {@code seen}. */
  Fraction given(Map<String, Boolean> seen, Map<String, Boolean> what) {
    Map<String, Boolean> both = new HashMap<>(seen);
    both.putAll(what);
    return joint(both).dividedBy(joint(seen));
  }

  private static Fraction sum(
      List<Variable> needed, int at, Map<String, Boolean> world, Map<String, Boolean> fixed) {
    if (at == needed.size()) {
      return Fraction.ONE;
    }
    Variable variable = needed.get(at);
    Fraction yes = variable.ifParents().apply(world);
    Fraction sum = Fraction.ZERO;
    for (boolean value : new boolean[] {true, false}) {
      Fraction chance = value ? yes : yes.complement();
      if (fixed.getOrDefault(variable.name(), value) == value && !chance.isZero()) {
        world.put(variable.name(), value);
        sum = sum.plus(chance.times(sum(needed, at + 1, world, fixed)));
      }
    }
    world.remove(variable.name());
    return sum;
  }
}
