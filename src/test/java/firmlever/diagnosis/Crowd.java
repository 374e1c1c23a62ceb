package firmlever.diagnosis;

import firmlever.belief.Network;
import firmlever.rulebase.RuleBase;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
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
    return IntStream.range(0, network.symptoms().size())
        .boxed()
        .sorted(
            Comparator.comparingLong(
                j -> -Arrays.stream(network.strength()).filter(row -> row[j] > 0).count()))
        .limit(symptoms)
        .map(network.symptoms()::get)
        .toList();
  }
}
