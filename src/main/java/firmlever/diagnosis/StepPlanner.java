package firmlever.diagnosis;

import firmlever.belief.Network;
import firmlever.belief.Scenarios.Scenario;
import firmlever.belief.Word;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.plan.Plan;
import firmlever.plan.Planner;
import firmlever.plan.Problem;
import firmlever.plan.Problem.Check;
import firmlever.plan.Problem.Hold;
import firmlever.plan.Problem.Work;
import firmlever.plan.Shop;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.HoldKind;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/** Puts the question "what to do next" to the planner, in the terms of this brake. */
final class StepPlanner {
  /** How often a look misses what is there, or sees what is not (common practice, from memory). */
  private static final double MISSES = 0.03;

  private static final double FALSE_ALARMS = 0.01;

  private final Vocabulary vocabulary;
  private final Shop shop;

  StepPlanner(Vocabulary vocabulary, Shop shop) {
    this.vocabulary = vocabulary;
    this.shop = shop;
  }

  /** The whole plan; where nothing is thought to be wrong, the brake goes back. */
  List<Step> plan(BrakeModel model, List<Scenario> stories) {
    if (stories.stream().allMatch(story -> story.causes().length == 0)) {
      return List.of(handBack(model));
    }
    Problem problem = problem(model, model.network(), stories);
    return Planner.plan(problem).steps().stream().map(step -> step(model, step)).toList();
  }

  /**
   * Finds the first work that would be done if nothing more were looked for, for several tellings
   * of the same brake; empty where none is worth its minutes.
   */
  Function<List<Scenario>, Optional<String>> firstWork(BrakeModel model) {
    List<Work> works = works(model, model.network());
    List<Hold> holds = holds(model);
    return stories ->
        Planner.next(new Problem(model.network(), stories, List.of(), works, holds, shop, Set.of()))
            .map(Plan.Step::id);
  }

  private Problem problem(BrakeModel model, Network network, List<Scenario> stories) {
    Map<String, Integer> symptoms = network.symptomPositions();
    List<Hold> holds = holds(model);
    Set<String> asked = new HashSet<>();
    holds.stream()
        .filter(hold -> hold.kind() == Problem.HoldKind.CHECK_FIRST)
        .forEach(hold -> asked.add(hold.first()));
    List<Check> checks = new ArrayList<>();
    for (Symptom symptom : vocabulary.symptoms().values()) {
      boolean safe = model.hazards().isEmpty() || !symptom.needs().contains("ride");
      boolean open = symptom.canBeChecked() && safe || asked.contains(symptom.id());
      if (open && !model.findings().containsKey(symptom.id())) {
        checks.add(
            new Check(
                symptom.id(),
                symptoms.get(symptom.id()),
                symptom.minutes(),
                symptom.needs(),
                MISSES,
                FALSE_ALARMS));
      }
    }
    return new Problem(network, stories, checks, works(model, network), holds, shop, Set.of());
  }

  private List<Work> works(BrakeModel model, Network network) {
    Map<String, Integer> positions = new HashMap<>();
    for (int i = 0; i < network.causes().size(); i++) {
      positions.put(network.causes().get(i), i);
    }
    List<Work> works = new ArrayList<>();
    for (Action action : vocabulary.actions().values()) {
      Map<Integer, Double> mends = new HashMap<>();
      for (Map.Entry<String, Word> each :
          model.mends().getOrDefault(action.id(), Map.of()).entrySet()) {
        Integer position = positions.get(each.getKey());
        if (position != null) {
          mends.put(position, each.getValue().probability());
        }
      }
      if (!mends.isEmpty() || action.id().equals(Diagnosis.HAND_BACK)) {
        works.add(new Work(action.id(), action.minutes(), action.needs(), action.parts(), mends));
      }
    }
    return works;
  }

  private Step handBack(BrakeModel model) {
    Action action = vocabulary.actions().get(Diagnosis.HAND_BACK);
    List<String> whys =
        model.holds().stream()
            .filter(hold -> hold.action().equals(action.id()))
            .map(hold -> hold.said().why())
            .toList();
    return new Step(
        action.id(),
        StepKind.WORK,
        action.minutes(),
        0,
        List.of(),
        !whys.isEmpty(),
        List.of(),
        whys.isEmpty()
            ? "nothing that was found puts any cause in question"
            : String.join("; ", whys),
        List.of());
  }

  /** What still holds works back: a check that was made holds nothing any more. */
  private static List<Hold> holds(BrakeModel model) {
    List<Hold> holds = new ArrayList<>();
    for (BrakeModel.Hold hold : model.holds()) {
      if (hold.kind() == HoldKind.CHECK && model.findings().containsKey(hold.first())) {
        continue;
      }
      Problem.HoldKind kind =
          switch (hold.kind()) {
            case MEND -> Problem.HoldKind.MEND_FIRST;
            case CHECK -> Problem.HoldKind.CHECK_FIRST;
            case WORK -> Problem.HoldKind.DO_FIRST;
            case FORBIDDEN -> Problem.HoldKind.FORBIDDEN;
          };
      String first = hold.kind() == HoldKind.FORBIDDEN ? hold.action() : hold.first();
      holds.add(new Hold(kind, hold.action(), first, hold.said().why()));
    }
    return holds;
  }

  private Step step(BrakeModel model, Plan.Step step) {
    boolean forbidden =
        step.waits().stream().anyMatch(hold -> hold.kind() == Problem.HoldKind.FORBIDDEN);
    return new Step(
        step.id(),
        step.kind() == Plan.Kind.CHECK ? StepKind.CHECK : StepKind.WORK,
        step.minutes(),
        step.saves(),
        forbidden ? List.of() : step.blockedBy(),
        forbidden,
        model.cautionsByAction().getOrDefault(step.id(), List.of()),
        new Wording(vocabulary).ofStep(step),
        step.outcomes().stream()
            .map(each -> new Outcome(each.result().name(), each.probability(), each.next()))
            .toList());
  }
}
