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
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;

/** Puts the question "what to do next" to the planner, in the terms of this brake. */
final class StepPlanner {
  /** The set-up of a check that is made by riding. */
  private static final String RIDE = "ride";

  /** How often a look misses what is there, or sees what is not (common practice, from memory). */
  static final double MISSES = 0.03;

  static final double FALSE_ALARMS = 0.01;

  /**
   * A brake less likely sound than this is not handed back at any turn of the plan: that the causes
   * looked for are not there does not explain what was found.
   */
  private static final double MAYBE_SOUND = 0.25;

  private final Vocabulary vocabulary;
  private final Shop shop;

  StepPlanner(Vocabulary vocabulary, Shop shop) {
    this.vocabulary = vocabulary;
    this.shop = shop;
  }

  /** The whole plan; where nothing is thought to be wrong, the brake goes back. */
  List<Step> plan(BrakeModel model, List<Scenario> stories, double noFault) {
    if (stories.stream().allMatch(story -> story.causes().length == 0)) {
      return List.of(handBack(model));
    }
    Problem problem = problem(model, stories);
    List<Plan.Step> steps = Planner.plan(problem).steps();
    boolean begins = !steps.isEmpty() && handsBack(steps.get(0).id());
    if (begins ? !sound(stories, noFault) : noFault < MAYBE_SOUND && leadsBack(steps)) {
      List<Plan.Step> others = Planner.plan(withoutHandingBack(problem)).steps();
      boolean same = !others.isEmpty() && others.get(0).id().equals(steps.get(0).id());
      steps = begins || same ? others : untilHandingBack(steps);
    }
    return steps.stream().map(step -> step(model, step)).toList();
  }

  private static boolean sound(List<Scenario> stories, double noFault) {
    return noFault >= MAYBE_SOUND && likelierSound(stories);
  }

  private static boolean leadsBack(List<Plan.Step> steps) {
    return steps.stream()
        .flatMap(step -> step.outcomes().stream())
        .anyMatch(outcome -> outcome.next().filter(Diagnosis.HAND_BACK::equals).isPresent());
  }

  private static List<Plan.Step> untilHandingBack(List<Plan.Step> steps) {
    return steps.stream()
        .takeWhile(step -> !handsBack(step.id()))
        .map(
            step ->
                new Plan.Step(
                    step.id(),
                    step.kind(),
                    step.minutes(),
                    step.saves(),
                    step.waits(),
                    step.why(),
                    step.outcomes().stream()
                        .map(
                            each ->
                                new Plan.Outcome(
                                    each.result(),
                                    each.probability(),
                                    each.next().filter(id -> !handsBack(id))))
                        .toList()))
        .toList();
  }

  private static boolean handsBack(String id) {
    return id.equals(Diagnosis.HAND_BACK);
  }

  /** A brake that is likelier faulty than sound is not tried out by handing it back. */
  private static Problem withoutHandingBack(Problem problem) {
    return new Problem(
        problem.network(),
        problem.scenarios(),
        problem.checks(),
        problem.works().stream().filter(work -> !handsBack(work.id())).toList(),
        problem.holds(),
        problem.shop(),
        problem.inPlace());
  }

  /** The first step of the plan that can be done now. */
  Optional<Step> firstStep(BrakeModel model, List<Scenario> stories, double noFault) {
    if (stories.stream().allMatch(story -> story.causes().length == 0)) {
      return Optional.of(handBack(model)).filter(Step::open);
    }
    Problem problem = problem(model, stories);
    Optional<Plan.Step> first = Planner.next(problem);
    if (first.isPresent() && handsBack(first.get().id()) && !sound(stories, noFault)) {
      first = Planner.next(withoutHandingBack(problem));
    }
    return first.map(step -> step(model, step)).filter(Step::open);
  }

  /**
   * Finds the first work that would be done if nothing more were looked for, for several tellings
   * of the same brake; empty where none is worth its minutes.
   */
  Function<List<Scenario>, Optional<String>> firstWork(BrakeModel model) {
    boolean[] every = new boolean[model.network().causes().size()];
    Arrays.fill(every, true);
    List<Work> works = works(model, every);
    List<Hold> holds = holds(model);
    return stories ->
        Planner.next(new Problem(model.network(), stories, List.of(), works, holds, shop, Set.of()))
            .map(Plan.Step::id);
  }

  private Problem problem(BrakeModel model, List<Scenario> stories) {
    Network network = model.network();
    Map<String, Integer> symptoms = network.symptomPositions();
    List<Hold> holds = holds(model);
    Set<String> asked = new HashSet<>();
    holds.stream()
        .filter(hold -> hold.kind() == Problem.HoldKind.CHECK_FIRST)
        .forEach(hold -> asked.add(hold.first()));
    boolean[] told = told(network, stories);
    List<Check> checks = new ArrayList<>();
    for (Symptom symptom : vocabulary.symptoms().values()) {
      // Never a test ride on a brake that is not to be ridden, whoever asks for it.
      boolean safe = model.hazards().isEmpty() || !symptom.needs().contains(RIDE);
      boolean tells =
          symptom.canBeChecked()
              && arises(symptom, model)
              && tells(network, symptoms.get(symptom.id()), told);
      if (safe
          && (tells || asked.contains(symptom.id()))
          && !model.findings().containsKey(symptom.id())) {
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
    return new Problem(network, stories, checks, works(model, told), holds, shop, Set.of());
  }

  /** Whether there is anything to look at: some checks need what is not known to be there. */
  private static boolean arises(Symptom symptom, BrakeModel model) {
    return symptom.presupposes().isEmpty()
        || symptom.presupposes().stream()
            .map(model.findings()::get)
            .anyMatch(known -> known != null && known.present());
  }

  /** Whether the brake is likelier sound than not. */
  private static boolean likelierSound(List<Scenario> stories) {
    double sound = 0;
    double all = 0;
    for (Scenario story : stories) {
      all += story.probability();
      sound += story.causes().length == 0 ? story.probability() : 0;
    }
    return sound > all / 2;
  }

  /** The causes that any of the stories tells of. */
  private static boolean[] told(Network network, List<Scenario> stories) {
    boolean[] told = new boolean[network.causes().size()];
    stories.forEach(story -> IntStream.of(story.causes()).forEach(i -> told[i] = true));
    return told;
  }

  /** Whether any of the causes shows the symptom: a check of another could tell nothing. */
  private static boolean tells(Network network, int symptom, boolean[] causes) {
    return IntStream.range(0, causes.length)
        .anyMatch(i -> causes[i] && network.strength()[i][symptom] > 0);
  }

  /** The works that mend any of the causes, and handing back. */
  private List<Work> works(BrakeModel model, boolean[] causes) {
    Map<String, Integer> positions = new HashMap<>();
    for (int i = 0; i < causes.length; i++) {
      if (causes[i]) {
        positions.put(model.network().causes().get(i), i);
      }
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
      if (!mends.isEmpty() || handsBack(action.id())) {
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
