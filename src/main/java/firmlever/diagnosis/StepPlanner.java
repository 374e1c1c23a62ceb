package firmlever.diagnosis;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Scenarios.Scenario;
import firmlever.belief.Word;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.Hold;
import firmlever.rulebase.BrakeModel.HoldKind;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What to do next: works by what they mend a minute, behind what must come first. */
final class StepPlanner {
  private final Vocabulary vocabulary;

  StepPlanner(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  List<Step> plan(BrakeModel model, Inference.Posterior belief, List<Scenario> stories) {
    List<Step> steps = new ArrayList<>();
    Set<String> checks = new LinkedHashSet<>();
    for (Action action : vocabulary.actions().values()) {
      double gain = gain(model, model.network(), belief, action.id());
      if (gain > 0.02) {
        List<Hold> holds =
            model.holds().stream().filter(h -> h.action().equals(action.id())).toList();
        List<String> blockedBy = new ArrayList<>();
        boolean forbidden = false;
        for (Hold hold : holds) {
          if (hold.kind() == HoldKind.FORBIDDEN) {
            forbidden = true;
          } else if (hold.kind() == HoldKind.CHECK) {
            if (!model.findings().containsKey(hold.first())) {
              blockedBy.add(hold.first());
              checks.add(hold.first());
            }
          } else if (hold.kind() == HoldKind.MEND) {
            blockedBy.add(mender(model, belief, hold.first()));
          } else {
            blockedBy.add(hold.first());
          }
        }
        steps.add(
            new Step(
                action.id(),
                StepKind.WORK,
                action.minutes(),
                gain,
                blockedBy.stream().distinct().toList(),
                forbidden,
                List.of(),
                holds.isEmpty() ? action.definition() : holds.get(0).said().why()));
      }
    }
    steps.sort(
        Comparator.comparing((Step s) -> !s.open())
            .thenComparing(
                Comparator.comparingDouble((Step s) -> s.saves() / s.minutes()).reversed()));
    List<Step> all = new ArrayList<>();
    for (String check : checks) {
      var symptom = vocabulary.symptoms().get(check);
      all.add(
          new Step(
              check,
              StepKind.CHECK,
              symptom.minutes(),
              0,
              List.of(),
              false,
              List.of(),
              symptom.check()));
    }
    all.addAll(steps);
    return all;
  }

  private static double gain(
      BrakeModel model, Network network, Inference.Posterior belief, String action) {
    Map<String, Word> mends = model.mends().getOrDefault(action, Map.of());
    double gain = 0;
    for (int i = 0; i < network.causes().size(); i++) {
      Word word = mends.get(network.causes().get(i));
      if (word != null) {
        gain += belief.posterior()[i] * word.probability();
      }
    }
    return gain;
  }

  private String mender(BrakeModel model, Inference.Posterior belief, String symptom) {
    Network network = model.network();
    int j = network.symptomPositions().get(symptom);
    String best = symptom;
    double most = 0;
    for (Action action : vocabulary.actions().values()) {
      Map<String, Word> mends = model.mends().getOrDefault(action.id(), Map.of());
      double gain = 0;
      for (int i = 0; i < network.causes().size(); i++) {
        Word word = mends.get(network.causes().get(i));
        if (word != null) {
          gain += belief.posterior()[i] * word.probability() * network.strength()[i][j];
        }
      }
      if (gain / action.minutes() > most) {
        most = gain / action.minutes();
        best = action.id();
      }
    }
    return best;
  }

  String firstStep(BrakeModel model, Network drawn, Inference.Posterior belief, List<Step> next) {
    Step best = null;
    double most = -1;
    for (Step step : next) {
      if (step.open() && step.kind() == StepKind.CHECK) {
        return step.id();
      }
      if (step.open() && gain(model, drawn, belief, step.id()) / step.minutes() > most) {
        most = gain(model, drawn, belief, step.id()) / step.minutes();
        best = step;
      }
    }
    return best == null ? "" : best.id();
  }
}
