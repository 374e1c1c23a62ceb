package firmlever.diagnosis;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Scenarios.Scenario;
import firmlever.belief.Word;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.plan.Plan;
import firmlever.plan.Planner;
import firmlever.plan.Planner.Extent;
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
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Puts the question "what to do next" to the planner, in the terms of this brake. */
final class StepPlanner {
  /** How often a look misses what is there, or sees what is not (common practice, from memory). */
  static final double MISSES = 0.03;

  static final double FALSE_ALARMS = 0.01;

  private final Vocabulary vocabulary;
  private final Map<String, Set<String>> coarser;
  private final Shop shop;

  StepPlanner(Vocabulary vocabulary, Shop shop) {
    this.vocabulary = vocabulary;
    this.coarser = vocabulary.coarser();
    this.shop = shop;
  }

  /** The plan as far as it is wanted; at least what keeps the brake from going back. */
  List<Step> plan(BrakeModel model, List<Scenario> stories, Extent extent) {
    return plan(model, stories, extent, Set.of());
  }

  /**
   * The same without some looks.
   *
   * @param unseen ids of the symptoms nobody can look for
   */
  List<Step> plan(BrakeModel model, List<Scenario> stories, Extent extent, Set<String> unseen) {
    List<Step> steps =
        Planner.plan(problem(model, stories, unseen), extent).steps().stream()
            .map(step -> step(model, step))
            .toList();
    return steps.isEmpty() ? List.of(handBack(model)) : steps;
  }

  /** The id of the first step of the same plan; empty where nothing can be done now. */
  Optional<String> first(BrakeModel model, List<Scenario> stories) {
    return Planner.next(problem(model, stories, Set.of()))
        .or(
            () ->
                plan(model, stories, Extent.FIRST_LOOK).stream()
                    .findFirst()
                    .filter(Step::open)
                    .map(Step::id));
  }

  private static boolean handsBack(String id) {
    return id.equals(Diagnosis.HAND_BACK);
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
        Planner.next(
            new Problem(model.network(), stories, List.of(), works, holds, shop, Set.of()));
  }

  private Problem problem(BrakeModel model, List<Scenario> stories, Set<String> unseen) {
    Network network = model.network();
    Map<String, Integer> symptoms = network.symptomPositions();
    List<Hold> holds = holds(model);
    Set<String> asked = new HashSet<>();
    holds.stream()
        .filter(hold -> hold.kind() == Problem.HoldKind.CHECK_FIRST)
        .forEach(hold -> asked.add(hold.first()));
    boolean[] told = told(network, stories);
    Map<String, List<Symptom>> looks = new LinkedHashMap<>();
    for (Symptom symptom : vocabulary.symptoms().values()) {
      // Never a test ride on a brake that is not to be ridden, whoever asks for it.
      boolean safe = model.hazards().isEmpty() || !symptom.isRidden();
      boolean tells =
          symptom.canBeChecked()
              && arises(symptom, model)
              && tells(network, requireNonNull(symptoms.get(symptom.id())), told);
      if (safe
          && (tells || asked.contains(symptom.id()))
          && !unseen.contains(symptom.id())
          && !model.findings().containsKey(symptom.id())) {
        String look = symptom.look().isEmpty() ? symptom.id() : symptom.look();
        looks.computeIfAbsent(look, none -> new ArrayList<>()).add(symptom);
      }
    }
    List<Check> checks =
        looks.values().stream().map(seen -> check(seen, model, symptoms, stories, asked)).toList();
    return new Problem(
        network, stories, checks, works(model, told), holds, shop, Set.of(), hinted(model));
  }

  /** What the complaint hints at: seen in the network, and no finding. */
  private static Map<Integer, Double> hinted(BrakeModel model) {
    return model.observations().stream()
        .filter(
            seen -> !model.findings().containsKey(model.network().symptoms().get(seen.symptom())))
        .collect(
            Collectors.toMap(Observation::symptom, seen -> seen.ifAbsent() / seen.ifPresent()));
  }

  /**
   * One look at these symptoms. It leads with the coarsest of them, else with one that is asked
   * for, else with the likeliest. What a coarse one shows is told by its kinds, if they are seen
   * too.
   */
  private Check check(
      List<Symptom> seen,
      BrakeModel model,
      Map<String, Integer> positions,
      List<Scenario> stories,
      Set<String> asked) {
    Map<String, Double> chance = new HashMap<>();
    Set<String> coarse = new HashSet<>();
    for (Symptom symptom : seen) {
      boolean alone = seen.size() == 1;
      int at = requireNonNull(positions.get(symptom.id()));
      chance.put(symptom.id(), alone ? 1 : chance(model.network(), at, stories));
      coarse.addAll(coarser.getOrDefault(symptom.id(), Set.of()));
    }
    List<Symptom> likeliest =
        seen.stream()
            .sorted(
                Comparator.comparingDouble(
                    (Symptom each) -> -requireNonNull(chance.get(each.id()))))
            .toList();
    String leads =
        Stream.concat(
                seen.stream().filter(each -> coarse.contains(each.id())),
                likeliest.stream().filter(each -> asked.contains(each.id())))
            .findFirst()
            .orElse(likeliest.get(0))
            .id();
    Set<String> needs = new TreeSet<>();
    seen.forEach(each -> needs.addAll(each.needs()));
    return new Check(
        leads,
        likeliest.stream()
            .filter(each -> !coarse.contains(each.id()))
            .map(each -> positions.get(each.id()))
            .toList(),
        seen.stream().map(each -> positions.get(each.id())).collect(Collectors.toSet()),
        seen.stream().mapToInt(Symptom::minutes).max().orElseThrow(),
        needs,
        MISSES,
        FALSE_ALARMS);
  }

  /** How likely the symptom shows. */
  private static double chance(Network network, int symptom, List<Scenario> stories) {
    double chance = 0;
    for (Scenario story : stories) {
      double absent = 1 - network.background()[symptom];
      for (int cause : story.causes()) {
        absent *= 1 - network.strength()[cause][symptom];
      }
      chance += story.probability() * (1 - absent);
    }
    return chance;
  }

  /** Whether there is anything to look at: some checks need what is not known to be there. */
  private static boolean arises(Symptom symptom, BrakeModel model) {
    return symptom.presupposes().isEmpty()
        || symptom.presupposes().stream()
            .map(model.findings()::get)
            .anyMatch(known -> known != null && known.present());
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

  /** Whether the step is a check that is made by riding. */
  boolean ridden(String step) {
    Symptom check = vocabulary.symptoms().get(step);
    return check != null && check.isRidden();
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
    Action action = vocabulary.action(Diagnosis.HAND_BACK);
    List<String> whys =
        model.holds().stream()
            .filter(hold -> hold.action().equals(action.id()))
            .map(hold -> hold.said().why())
            .toList();
    return new Step(
        action.id(),
        StepKind.WORK,
        List.of(),
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
    if (!model.hazards().isEmpty()) {
      holds.add(
          new Hold(
              Problem.HoldKind.FORBIDDEN,
              Diagnosis.HAND_BACK,
              Diagnosis.HAND_BACK,
              model.hazards().get(0).said().why()));
    }
    return holds;
  }

  /** The same step with what it waits for in that brake. */
  Step asOf(BrakeModel model, Step step) {
    List<Hold> waits = holds(model).stream().filter(hold -> hold.work().equals(step.id())).toList();
    boolean forbidden = waits.stream().anyMatch(hold -> hold.kind() == Problem.HoldKind.FORBIDDEN);
    return new Step(
        step.id(),
        step.kind(),
        step.looks(),
        step.minutes(),
        step.saves(),
        forbidden ? List.of() : waits.stream().map(Hold::first).distinct().toList(),
        forbidden,
        step.cautions(),
        step.why(),
        step.outcomes());
  }

  /** The symptoms of the look, the leading one first. */
  private static List<String> looks(BrakeModel model, Plan.Step step) {
    return step.settles().stream()
        .map(model.network().symptoms()::get)
        .sorted(Comparator.comparing((String id) -> !id.equals(step.id())))
        .toList();
  }

  private Step step(BrakeModel model, Plan.Step step) {
    boolean forbidden =
        step.waits().stream().anyMatch(hold -> hold.kind() == Problem.HoldKind.FORBIDDEN);
    return new Step(
        step.id(),
        step.kind() == Plan.Kind.CHECK ? StepKind.CHECK : StepKind.WORK,
        looks(model, step),
        // What parts and the checks after a work cost is for the planner; here counts its own time.
        step.kind() == Plan.Kind.CHECK ? step.minutes() : vocabulary.action(step.id()).minutes(),
        step.saves(),
        forbidden ? List.of() : step.blockedBy(),
        forbidden,
        model.cautionsByStep().getOrDefault(step.id(), List.of()),
        new Wording(vocabulary).ofStep(step),
        step.outcomes().stream()
            .map(
                each ->
                    new Outcome(
                        each.result(),
                        each.symptom() < 0 ? "" : model.network().symptoms().get(each.symptom()),
                        each.probability(),
                        each.next()))
            .toList());
  }
}
