package firmlever.diagnosis;

import firmlever.belief.Network;
import firmlever.rulebase.RuleBase;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/** The symptoms that hang together most. */
public final class Crowd {
  private Crowd() {}

  /** So many symptoms, those that the most causes show, most first. */
  public static List<String> of(RuleBase rules, int symptoms) {
    Network network =
        rules
            .consult(
                Bench.of("'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'mineral-oil'}"))
            .network();
    Set<String> coarse = new HashSet<>();
    rules.vocabulary().coarser().values().forEach(coarse::addAll);
    return IntStream.range(0, network.symptoms().size())
        .boxed()
        .filter(j -> !coarse.contains(network.symptoms().get(j))) // their kinds weigh for them
        .sorted(
            Comparator.comparingLong(
                j -> -Arrays.stream(network.strength()).filter(row -> row[j] > 0).count()))
        .limit(symptoms)
        .map(network.symptoms()::get)
        .toList();
  }
}
