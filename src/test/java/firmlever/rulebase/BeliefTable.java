package firmlever.rulebase;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.casefile.CaseFile;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * What the rules make one believe of every case file, and of each symptom found alone: the table
 * whose difference shows what a change of a rule does.
 */
final class BeliefTable {
  /** So many causes stand in a line, the likeliest. */
  private static final int TOLD = 6;

  private BeliefTable() {}

  /** The models of all cases, by the name of the case in the table. */
  static Map<String, BrakeModel> models() {
    Map<String, BrakeModel> models = new LinkedHashMap<>();
    for (String symptom : Cases.VOCABULARY.symptoms().keySet()) {
      CaseFile alone =
          Cases.of(
              "'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'mineral-oil'},"
                  + "'symptoms':{'"
                  + symptom
                  + "':'present'}");
      models.put("alone: " + symptom, Cases.RULES.consult(alone));
    }
    List<CaseFile> cases = new ArrayList<>(Cases.all());
    cases.sort(Comparator.comparing(CaseFile::id));
    cases.forEach(file -> models.put(file.id(), Cases.RULES.consult(file)));
    return models;
  }

  /** The table, a line each: the case, then the causes with their probabilities. */
  static List<String> lines(Map<String, BrakeModel> models) {
    return models.entrySet().stream()
        .map(each -> each.getKey() + " | " + said(each.getValue()))
        .toList();
  }

  /** What is believed, the likeliest cause first, in thousandths. */
  static String said(BrakeModel model) {
    return said(model.network(), model.observations());
  }

  static String said(Network network, List<Observation> seen) {
    Inference.Posterior belief = Inference.solve(network, seen);
    List<String> causes =
        new ArrayList<>(
            IntStream.range(0, network.causes().size())
                .boxed()
                .sorted(belief.likelierFirst())
                .limit(TOLD)
                .map(i -> network.causes().get(i) + " " + thousandths(belief.posterior()[i]))
                .toList());
    causes.add("no fault " + thousandths(belief.noFault()));
    return String.join(", ", causes);
  }

  private static String thousandths(double probability) {
    return String.format(Locale.ROOT, "%.3f", probability);
  }
}
