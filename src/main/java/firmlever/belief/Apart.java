package firmlever.belief;

import java.util.ArrayList;
import java.util.List;

/**
 * The belief after the clearly absent findings alone, which leave the causes of a noisy-OR network
 * independent; and the findings still to be solved.
 */
final class Apart {
  final double[] posterior;
  final double[] logOdds;
  final List<Observation> open = new ArrayList<>();
  double logEvidence;
  double logNoFault;

  Apart(Network network, List<Observation> observations) {
    int n = network.causes().size();
    double[] without = new double[n];
    double[] with = new double[n];
    for (int i = 0; i < n; i++) {
      double prior = network.prior(i);
      without[i] = 1 - prior;
      with[i] = prior;
    }
    for (Observation seen : observations) {
      if (!seen.clearlyAbsent()) {
        open.add(seen);
        continue;
      }
      logEvidence += Math.log(seen.ifAbsent() * (1 - network.background()[seen.symptom()]));
      for (int i = 0; i < n; i++) {
        with[i] *= 1 - network.strength()[i][seen.symptom()];
      }
    }
    posterior = new double[n];
    logOdds = new double[n];
    logNoFault = logEvidence;
    for (int i = 0; i < n; i++) {
      double sum = without[i] + with[i];
      posterior[i] = with[i] / sum;
      logOdds[i] = Math.log(with[i]) - Math.log(without[i]);
      logEvidence += Math.log(sum);
      logNoFault += Math.log(without[i]);
    }
  }
}
