package firmlever.diagnosis;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Balance;
import firmlever.belief.Elimination;
import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Odds;
import firmlever.belief.Redraw;
import firmlever.belief.Scenarios;
import firmlever.belief.Scenarios.Scenario;
import firmlever.belief.TooManySymptoms;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Concluded;
import firmlever.diagnosis.Diagnosis.Contradiction;
import firmlever.diagnosis.Diagnosis.Hazard;
import firmlever.diagnosis.Diagnosis.Impossible;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Stability;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Together;
import firmlever.diagnosis.Diagnosis.Turn;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.document.Nearest;
import firmlever.hearing.Heard;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heeding.Heeded;
import firmlever.hearing.language.Certainty;
import firmlever.plan.Planner.Extent;
import firmlever.plan.Shop;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.HoldKind;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.BrakeModel.Link;
import firmlever.rulebase.BrakeModel.Said;
import firmlever.rulebase.Overlay;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The pipeline: case file, symptoms, model, belief, plan, diagnosis. Holds no state between cases
 * and may be used by any number of threads.
 */
public final class Diagnostician {
  /** Stories looked at for planning. */
  private static final int STORIES = 80;

  private static final int TOGETHER_SHOWN = 3;
  private static final double TOGETHER_WORTH = 0.01;
  private static final int TURNS = 3;

  /** From this probability of no fault on, the brake counts as sound. */
  private static final double CLEARED = 0.5;

  /** No cause less likely than this explains a complaint (from memory). */
  private static final double EXPLAINED = 0.25;

  /** What follows a result less likely than this is not worked out in advance. */
  private static final double HARDLY_EVER = 0.02;

  private static final int DRAW_STORIES = 24;

  /** Fewer draws than this tell nothing. */
  private static final int LEAST_DRAWS = 8;

  /**
   * A draw beside its solve, its stories and its plan above all, takes as long as so many visits.
   */
  private static final long DRAW = 500_000;

  private final RuleBase rules;
  private final StepPlanner planner;
  private final RideJudge rideJudge;
  private final Goal goal;

  public Diagnostician(RuleBase rules) {
    this.rules = rules;
    this.planner = new StepPlanner(rules.vocabulary(), Shop.standard());
    this.rideJudge = new RideJudge(rules.vocabulary());
    this.goal = new Goal(rules.vocabulary());
  }

  /**
   * How much is worked out.
   *
   * @param draws redrawn models for the stability; 0 for none
   * @param seed of the redraws
   */
  public record Options(int draws, long seed, Ahead ahead) {
    public static final Options USUAL = new Options(100, 1, Ahead.ANSWERS);
    public static final Options WITHOUT_DRAWS = new Options(0, 1, Ahead.ANSWERS);

    /** Belief and plan alone. */
    public static final Options BARE = new Options(0, 1, Ahead.PLAN);

    /** Belief alone: nothing is planned. */
    public static final Options BELIEF = new Options(0, 1, Ahead.NOTHING);
  }

  /** How far it is looked ahead. */
  public enum Ahead {
    NOTHING,
    PLAN,
    /** The plan, with what the answers to the first checks would change. */
    ANSWERS
  }

  /**
   * What is believed of one case, without a plan.
   *
   * @param model what the rules made of it
   * @param posterior in the order of the causes of the model's network
   */
  public record Belief(BrakeModel model, Inference.Posterior posterior) {}

  /** Finds what to believe of one case and plans nothing: a third of the time of a diagnosis. */
  public Belief belief(CaseFile file) {
    BrakeModel model = rules.consult(file);
    return new Belief(model, Inference.solve(model.network(), model.observations()));
  }

  /**
   * The first thing to do in a case that is believed so, a check or a work by its id: the first
   * step of the plan, found without the steps that follow; empty where nothing is worth its minutes
   * or nothing can be done now.
   */
  public Optional<String> firstStep(Belief belief) {
    return first(standing(belief));
  }

  private Optional<String> first(Standing now) {
    Optional<String> first = planner.first(now.model(), worthPlanning(now));
    boolean handsBack = first.filter(Diagnosis.HAND_BACK::equals).isPresent();
    return handsBack && now.ride().stop() ? first(kept(now)) : first;
  }

  private static Optional<Step> openFirst(List<Step> plan) {
    return plan.stream().findFirst().filter(Step::open);
  }

  /** Whether the brake may be ridden, as far as is believed. */
  public RideVerdict ride(Belief belief) {
    return rideJudge.judge(belief.model(), belief.posterior());
  }

  /** The model for planning: no test ride on a brake that likely causes forbid to ride. */
  private static BrakeModel notRidden(BrakeModel model, RideVerdict ride) {
    return ride.stop() && model.hazards().isEmpty() ? model.stopped(forbidden(ride)) : model;
  }

  /**
   * The steps before the first test ride, where the brake must not be ridden: a look that has not
   * been made yet lifts no stop. If it does, the brake is planned anew.
   */
  private List<Step> notRiddenYet(RideVerdict ride, List<Step> steps) {
    return ride.stop()
        ? steps.stream()
            .takeWhile(step -> !planner.ridden(step.id()))
            .map(this::promisingNoRide)
            .toList()
        : steps;
  }

  private Step promisingNoRide(Step step) {
    return step.leadingTo(
        step.outcomes().stream()
            .map(each -> each.followedBy(each.next().filter(follows -> !planner.ridden(follows))))
            .toList());
  }

  private static Said forbidden(RideVerdict ride) {
    return new Said("", "", "it is not to be ridden: " + ride.because().get(0).why());
  }

  /** How a brake stands before it is planned: what may be wrong, and whether it may be ridden. */
  private record Standing(
      RideVerdict ride, BrakeModel model, Inference.Posterior posterior, List<Scenario> stories) {}

  private Standing standing(Belief belief) {
    RideVerdict ride = ride(belief);
    return standing(ride, notRidden(belief.model(), ride), belief.posterior());
  }

  private static Standing standing(
      RideVerdict ride, BrakeModel model, Inference.Posterior posterior) {
    List<Scenario> stories = stories(model, model.network(), posterior, 3, STORIES);
    return new Standing(ride, model, posterior, stories);
  }

  /** Plans, and plans anew without handing back where that would come first over a stop. */
  private List<Step> plan(Standing now, Extent extent) {
    return plan(now, extent, Set.of());
  }

  private List<Step> plan(Standing now, Extent extent, Set<String> unseen) {
    List<Step> plan = planner.plan(now.model(), worthPlanning(now), extent, unseen);
    boolean handsBack =
        openFirst(plan).filter(step -> step.id().equals(Diagnosis.HAND_BACK)).isPresent();
    return handsBack && now.ride().stop() ? plan(kept(now), extent, unseen) : plan;
  }

  private static Standing kept(Standing now) {
    BrakeModel kept = now.model().forbidding(Diagnosis.HAND_BACK, forbidden(now.ride()));
    return standing(now.ride(), kept, now.posterior());
  }

  private List<Scenario> worthPlanning(Standing now) {
    return worthPlanning(now.model(), now.model().network(), now.stories());
  }

  /** Diagnoses one case by what its file says outside the complaint. */
  public Diagnosis diagnose(CaseFile file, Options options) {
    return diagnose(file, rules.consult(file), options);
  }

  /** Diagnoses one case with what its complaint was heard to say. */
  public Diagnosis diagnose(Heeded heeded, Options options) {
    return diagnose(heeded, rules.consult(heeded.file()), options);
  }

  /** The same from what the rules said of the heeded case. */
  public Diagnosis diagnose(Heeded heeded, BrakeModel model, Options options) {
    return diagnose(heeded, model, options, WorkBudget.ofOneAnswer());
  }

  /**
   * What to do where some looks cannot be made just now: the plan up to its first look.
   *
   * @param unseen ids of the symptoms nobody can look for
   */
  public List<Step> planWithout(Heeded heeded, Set<String> unseen) {
    Belief alone = belief(heeded.file());
    Belief belief = new Belief(beside(heeded, alone.model()), alone.posterior());
    Optional<Said> kept = kept(belief.model(), belief.posterior(), heeded.heard());
    Standing now = standing(new Belief(keeping(belief.model(), kept), belief.posterior()));
    return sighted(blind(belief.model(), heeded.heard()), plan(now, Extent.FIRST_LOOK, unseen));
  }

  /** Diagnoses one case as if the named rules did not exist. */
  Diagnosis diagnoseWithout(CaseFile file, Set<String> ruleNames) {
    return diagnose(file, rules.consult(file, ruleNames), Options.BARE);
  }

  /** Works out the diagnosis from what the rules said. */
  public Diagnosis diagnose(CaseFile file, BrakeModel model, Options options) {
    return diagnose(file, model, options, WorkBudget.ofOneAnswer());
  }

  /**
   * The same within a budget, from which it takes what it spends.
   *
   * @throws TooManySymptoms where ranking and balance alone do not fit into it
   */
  public Diagnosis diagnose(CaseFile file, BrakeModel model, Options options, WorkBudget budget) {
    return diagnose(new Heeded(file, Optional.empty(), List.of()), model, options, budget);
  }

  private Diagnosis diagnose(Heeded heeded, BrakeModel model, Options options, WorkBudget budget) {
    return diagnosed(heeded, beside(heeded, model), options, budget);
  }

  /** The model of a brake of whose fellow something is told: that one carries the stop no more. */
  private static BrakeModel beside(Heeded heeded, BrakeModel model) {
    return heeded.heard().stream()
            .flatMap(heard -> heard.elsewhere().stream())
            .anyMatch(each -> each.certainty() == Certainty.PRESENT)
        ? model.unbacked()
        : model;
  }

  private Diagnosis diagnosed(Heeded heeded, BrakeModel said, Options options, WorkBudget budget) {
    CaseFile file = heeded.file();
    Network network = said.network();
    List<Observation> seen = said.observations();
    mustFit(network, seen, budget);
    Inference.Posterior posterior = Inference.solve(network, seen);
    Optional<Said> kept = kept(said, posterior, heeded.heard());
    Standing now = standing(new Belief(keeping(said, kept), posterior));
    BrakeModel model = now.model();
    List<Scenario> stories = now.stories();
    List<Step> planned =
        switch (options.ahead()) {
          case NOTHING -> List.of();
          case PLAN -> plan(now, Extent.WHOLE);
          case ANSWERS -> promised(heeded, now, budget);
        };
    List<Step> next = sighted(blind(said, heeded.heard()), planned);
    List<String> stoppedEarly = new ArrayList<>();
    Optional<Stability> stability =
        stability(model, posterior, stories, options, budget, stoppedEarly);
    List<Turn> turns =
        options.ahead() == Ahead.ANSWERS
            ? turns(network, seen, next, budget, stoppedEarly)
            : List.of();
    return new Diagnosis(
        file.id(),
        rules.digest(),
        rules.overlay().map(Overlay::spoken).orElse(""),
        spoken(file.brake()),
        now.ride(),
        kept.map(Said::why),
        said.hazards().stream()
            .map(h -> new Hazard(h.symptom(), h.said().why(), h.said().rule(), h.said().source()))
            .toList(),
        causes(model, posterior),
        model.impossible().entrySet().stream()
            .map(e -> impossible(e.getKey(), e.getValue()))
            .toList(),
        posterior.noFault(),
        together(network, stories),
        next,
        turns,
        heeded.heard(),
        notes(heeded),
        findings(model),
        file.onlyTold(),
        model.contradictions().stream()
            .map(c -> new Contradiction(c.symptoms(), c.said().why(), c.said().rule()))
            .toList(),
        concluded(model),
        stability,
        cautions(model, next),
        model.throwEstimate(),
        List.copyOf(stoppedEarly));
  }

  /** The model of a brake that is not handed back, where there is a reason for it. */
  private static BrakeModel keeping(BrakeModel model, Optional<Said> kept) {
    return kept.map(said -> model.forbidding(Diagnosis.HAND_BACK, said)).orElse(model);
  }

  /**
   * Why a brake is not handed back as long as its complaint is not explained: nothing of it was
   * understood and nothing else is found, or nobody has looked for anything and it only may mean
   * something, or something told of and there is shown by no likely cause.
   */
  private Optional<Said> kept(
      BrakeModel model, Inference.Posterior posterior, Optional<Heard> heard) {
    if (blind(model, heard)) {
      String why =
          heard
              .flatMap(Diagnostician::mayMean)
              .map(symptom -> rules.vocabulary().symptom(symptom).name())
              .map(name -> "nobody has looked for what the complaint may mean: " + name)
              .orElse("nobody has understood what the complaint is");
      return Optional.of(new Said("", "", why));
    }
    Optional<String> open = heard.flatMap(all -> leftOpen(model, all));
    if (open.isPresent()) {
      return open.map(
          words -> new Said("", "", "nobody has understood of the complaint: \"" + words + "\""));
    }
    return heard.stream()
        .flatMap(all -> all.findings().stream())
        .filter(each -> each.certainty() == Certainty.PRESENT)
        .map(Finding::symptom)
        .filter(symptom -> there(model, symptom))
        .filter(symptom -> explained(model.network(), posterior, symptom) < EXPLAINED)
        .findFirst()
        .map(symptom -> rules.vocabulary().symptom(symptom).name())
        .map(name -> new Said("", "", "nothing likely explains the complaint: " + name));
  }

  /** The first words not understood where all that was understood is that something is well. */
  private static Optional<String> leftOpen(BrakeModel model, Heard heard) {
    boolean nothingWrong =
        heard.findings().stream().allMatch(each -> each.certainty() == Certainty.ABSENT)
            && model.findings().keySet().stream().noneMatch(id -> there(model, id));
    return nothingWrong ? heard.unheard().stream().findFirst() : Optional.empty();
  }

  /**
   * Whether there is a complaint of which nothing was understood, and nothing was found either; or
   * one that only may mean something, and nobody has looked for anything yet.
   */
  private static boolean blind(BrakeModel model, Optional<Heard> heard) {
    return heard
        .filter(
            all ->
                all.findings().isEmpty()
                    ? (all.history().isEmpty() || !all.unheard().isEmpty())
                        && model.findings().keySet().stream().noneMatch(id -> there(model, id))
                    : model.findings().isEmpty() && mayMean(all).isPresent())
        .isPresent();
  }

  /** The first finding of a complaint that claims and denies none. */
  private static Optional<String> mayMean(Heard heard) {
    return heard.findings().stream().allMatch(each -> each.certainty() == Certainty.UNSURE)
        ? heard.findings().stream().findFirst().map(Finding::symptom)
        : Optional.empty();
  }

  private static boolean there(BrakeModel model, String symptom) {
    return model.findings().containsKey(symptom) && model.findings().get(symptom).present();
  }

  /** The steps, and no work of them on a brake of which nobody knows what is wrong. */
  private static List<Step> sighted(boolean blind, List<Step> steps) {
    return blind
        ? steps.stream().filter(step -> step.kind() == StepKind.CHECK || !step.open()).toList()
        : steps;
  }

  private boolean isCheck(String step) {
    return rules.vocabulary().symptoms().containsKey(step);
  }

  /** How likely the likeliest cause that shows the symptom is. */
  private static double explained(Network network, Inference.Posterior posterior, String symptom) {
    int at = requireNonNull(network.symptomPositions().get(symptom));
    return IntStream.range(0, network.causes().size())
        .filter(i -> network.strength()[i][at] > 0)
        .mapToDouble(i -> posterior.posterior()[i])
        .max()
        .orElse(0);
  }

  /**
   * Takes the work of ranking and balance out of the budget.
   *
   * @throws TooManySymptoms where it does not fit
   */
  static void mustFit(Network network, List<Observation> seen, WorkBudget budget) {
    long left = budget.left();
    if (!budget.take(Balance.work(network, seen))) {
      throw new TooManySymptoms(network, seen, some -> Balance.work(network, some), left);
    }
  }

  /**
   * The plan with what is proposed after each result of its first look: found by entering the
   * answer, since rules may conclude from it. What follows the likeliest result follows the look;
   * what follows a result that hardly ever comes is left open.
   */
  private List<Step> promised(Heeded heeded, Standing now, WorkBudget budget) {
    List<Step> next = plan(now, Extent.FIRST_LOOK);
    Step first = next.get(0);
    if (first.kind() != StepKind.CHECK) {
      return next;
    }
    Outcome likeliest =
        first.outcomes().stream()
            .max(Comparator.comparingDouble(Outcome::probability))
            .orElseThrow();
    List<Outcome> likely =
        first.outcomes().stream().filter(each -> each.probability() >= HARDLY_EVER).toList();
    List<BrakeModel> models =
        likely.parallelStream()
            .map(each -> rules.consult(answered(heeded.file(), first, each.symptom())))
            .map(then -> beside(heeded, then))
            .toList();
    List<Belief> beliefs = new ArrayList<>();
    for (BrakeModel then : models) {
      Optional<Inference.Posterior> posterior =
          Inference.solve(then.network(), then.observations(), budget);
      if (posterior.isEmpty()) {
        return plan(now, Extent.WHOLE);
      }
      beliefs.add(new Belief(then, posterior.get()));
    }
    Map<Outcome, After> after =
        IntStream.range(0, likely.size())
            .parallel()
            .boxed()
            .collect(
                Collectors.toMap(
                    likely::get,
                    k ->
                        after(
                            heeded.heard(),
                            now.ride(),
                            beliefs.get(k),
                            likely.get(k).equals(likeliest))));
    List<Outcome> outcomes =
        first.outcomes().stream()
            .map(each -> each.followedBy(after.getOrDefault(each, After.OPEN).first()))
            .toList();
    List<Step> promised = new ArrayList<>(List.of(first.leadingTo(outcomes)));
    requireNonNull(after.get(likeliest)).steps().stream()
        .filter(step -> !step.outcomes().isEmpty())
        .map(step -> planner.asOf(now.model(), step))
        .forEach(promised::add);
    Set<String> listed = promised.stream().map(Step::id).collect(Collectors.toSet());
    next.stream()
        .filter(step -> !step.open() && !listed.contains(step.id()))
        .map(step -> step.leadingTo(List.of()))
        .forEach(promised::add);
    return promised;
  }

  /** What follows a result: the first step, and the steps as far as they were planned. */
  private record After(Optional<String> first, List<Step> steps) {
    static final After OPEN = new After(Optional.empty(), List.of());
  }

  private After after(Optional<Heard> heard, RideVerdict ride, Belief belief, boolean whole) {
    boolean blind = blind(belief.model(), heard);
    BrakeModel model = keeping(belief.model(), kept(belief.model(), belief.posterior(), heard));
    Standing then = standing(new Belief(model, belief.posterior()));
    if (whole) {
      List<Step> steps = sighted(blind, notRiddenYet(ride, plan(then, Extent.WHOLE)));
      return new After(steps.stream().filter(Step::open).findFirst().map(Step::id), steps);
    }
    Optional<String> first =
        first(then)
            .filter(id -> !(ride.stop() && planner.ridden(id)))
            .filter(id -> !blind || isCheck(id));
    return new After(first, List.of());
  }

  /** The case with the look made: this symptom found, or none; and nothing else that it shows. */
  private CaseFile answered(CaseFile file, Step look, String found) {
    Set<String> there = new HashSet<>(Set.of(found));
    there.addAll(rules.vocabulary().coarser().getOrDefault(found, Set.of()));
    CaseFile answered = file;
    for (String symptom : look.looks()) {
      answered =
          answered.with(symptom, there.contains(symptom) ? Presence.PRESENT : Presence.ABSENT);
    }
    return answered;
  }

  /** The cautions of this brake and of the steps that are proposed for it. */
  private List<String> cautions(BrakeModel model, List<Step> next) {
    Set<String> all = new HashSet<>(model.cautions());
    next.forEach(step -> all.addAll(step.cautions()));
    return rules.vocabulary().cautions().keySet().stream().filter(all::contains).toList();
  }

  /** What of the case was read and not understood, or stands against something else in it. */
  private List<String> notes(Heeded heeded) {
    Set<String> known = rules.vocabulary().parts().keySet();
    List<String> notes = new ArrayList<>(heeded.clashes());
    heeded.file().history().stream()
        .flatMap(entry -> entry.parts().stream())
        .filter(part -> !known.contains(part))
        .distinct()
        .map(part -> unknownPart(part, known))
        .forEach(notes::add);
    notes.addAll(HeatAndRoom.of(heeded.file(), rules.vocabulary()));
    return List.copyOf(notes);
  }

  private static String unknownPart(String part, Set<String> known) {
    String note = "the part \"" + part + "\" in the record is kept in words: no rule knows it. ";
    return (note + Nearest.maybe(part, known)).strip();
  }

  private static String spoken(CaseFile.Brake brake) {
    String position = brake.position().equals("unknown") ? "brake" : brake.position() + " brake";
    return position + " " + brake.id() + ", built for " + brake.fluid().spoken();
  }

  private List<CauseBelief> causes(BrakeModel model, Inference.Posterior posterior) {
    Network network = model.network();
    List<Balance.Weighed> weighed = Balance.weigh(network, model.observations(), posterior);
    return IntStream.range(0, network.causes().size())
        .filter(i -> posterior.posterior()[i] > Diagnosis.LISTED)
        .boxed()
        .sorted(posterior.likelierFirst())
        .map(i -> cause(model, posterior, weighed, i, rules.vocabulary()))
        .toList();
  }

  /** The belief in one cause of the network, however small it is. */
  static CauseBelief belief(
      BrakeModel model, Inference.Posterior posterior, String cause, Vocabulary vocabulary) {
    return cause(
        model,
        posterior,
        Balance.weigh(model.network(), model.observations(), posterior),
        model.network().causes().indexOf(cause),
        vocabulary);
  }

  private static CauseBelief cause(
      BrakeModel model,
      Inference.Posterior posterior,
      List<Balance.Weighed> weighed,
      int i,
      Vocabulary vocabulary) {
    String id = model.network().causes().get(i);
    List<Weight> history = new ArrayList<>();
    for (BrakeModel.Factor factor : model.factors()) {
      if (factor.cause().equals(id)) {
        double weight = Math.log(factor.times());
        Said said = factor.said();
        history.add(
            new Weight("", true, false, weight, weight, said.rule(), said.source(), said.why()));
      }
    }
    List<Weight> symptoms = new ArrayList<>();
    for (Balance.Weighed each : weighed) {
      // What rounds to nothing in six decimals is left out, and no more: the rest must add up.
      if (Math.abs(each.weight()[i]) >= 5e-7 || Math.abs(each.alone()[i]) >= 5e-7) {
        symptoms.add(weight(model, each, i, vocabulary));
      }
    }
    return new CauseBelief(
        id,
        posterior.posterior()[i],
        posterior.logOdds(i),
        Odds.log(requireNonNull(model.bases().get(id)).per100() / 100),
        history,
        symptoms);
  }

  private static Weight weight(
      BrakeModel model, Balance.Weighed each, int i, Vocabulary vocabulary) {
    Network network = model.network();
    int j = each.observation().symptom();
    String symptom = network.symptoms().get(j);
    Known known = model.findings().get(symptom);
    boolean present = known == null || known.present();
    Link link = model.links().getOrDefault(network.causes().get(i), Map.of()).get(symptom);
    String rule = link == null ? "" : link.said().rule();
    String source = link == null ? "" : link.said().source();
    return new Weight(
        symptom,
        present,
        known == null,
        each.weight()[i],
        each.alone()[i],
        rule,
        source,
        Wording.ofWeight(
            vocabulary.symptom(symptom).name(),
            vocabulary.cause(network.causes().get(i)).name(),
            present,
            link,
            each.weight()[i],
            each.alone()[i]));
  }

  static Impossible impossible(String cause, Said said) {
    return new Impossible(cause, said.why(), said.rule(), said.source());
  }

  private static List<Together> together(Network network, List<Scenario> stories) {
    return stories.stream()
        .filter(story -> story.causes().length > 1 && story.probability() >= TOGETHER_WORTH)
        .limit(TOGETHER_SHOWN)
        .map(
            story ->
                new Together(
                    IntStream.of(story.causes()).mapToObj(network.causes()::get).toList(),
                    story.probability()))
        .toList();
  }

  private static List<Turn> turns(
      Network network,
      List<Observation> seen,
      List<Step> next,
      WorkBudget budget,
      List<String> stoppedEarly) {
    Map<String, Integer> positions = network.symptomPositions();
    List<Step> checks =
        next.stream().filter(step -> step.kind() == StepKind.CHECK).limit(TURNS).toList();
    List<Turn> turns = new ArrayList<>();
    for (Step check : checks) {
      int symptom = requireNonNull(positions.get(check.id()));
      List<Observation> ifPresent = Observation.joined(seen, Observation.present(symptom));
      List<Observation> ifAbsent = Observation.joined(seen, Observation.absent(symptom));
      Optional<Inference.Posterior> present = Inference.solve(network, ifPresent, budget);
      Optional<Inference.Posterior> absent =
          present.flatMap(solved -> Inference.solve(network, ifAbsent, budget));
      if (absent.isEmpty()) {
        stoppedEarly.add(
            String.format(
                Locale.ROOT,
                "What would change it was worked out for %d of the next %d checks: %s.",
                turns.size(),
                checks.size(),
                WorkBudget.USED_UP));
        break;
      }
      turns.add(turn(network, check.id(), present.orElseThrow(), absent.get()));
    }
    return turns;
  }

  private static Turn turn(
      Network network, String symptom, Inference.Posterior present, Inference.Posterior absent) {
    return new Turn(
        symptom,
        leader(network, present),
        leading(present),
        leader(network, absent),
        leading(absent));
  }

  static String leader(Network network, Inference.Posterior belief) {
    int first = firstOf(belief);
    return first < 0 ? Vocabulary.NO_FAULT_FOUND : network.causes().get(first);
  }

  static double leading(Inference.Posterior belief) {
    int first = firstOf(belief);
    return first < 0 ? belief.noFault() : belief.posterior()[first];
  }

  /** Position of the most probable cause, or -1 where no fault at all is more probable. */
  private static int firstOf(Inference.Posterior belief) {
    int first =
        IntStream.range(0, belief.posterior().length)
            .boxed()
            .min(belief.likelierFirst())
            .orElseThrow();
    return belief.noFault() > belief.posterior()[first] ? -1 : first;
  }

  private static Map<String, Boolean> findings(BrakeModel model) {
    Map<String, Boolean> findings = new LinkedHashMap<>();
    model.findings().forEach((symptom, known) -> findings.put(symptom, known.present()));
    return Collections.unmodifiableMap(findings);
  }

  private static List<Concluded> concluded(BrakeModel model) {
    return model.findings().values().stream()
        .filter(known -> !known.recorded())
        .map(
            known ->
                new Concluded(
                    known.symptom(),
                    known.present(),
                    known.ifPresent() / (known.ifPresent() + known.ifAbsent()),
                    known.weighs(),
                    known.said().why(),
                    known.said().rule(),
                    known.said().source()))
        .toList();
  }

  private Optional<Stability> stability(
      BrakeModel model,
      Inference.Posterior posterior,
      List<Scenario> stories,
      Options options,
      WorkBudget budget,
      List<String> stoppedEarly) {
    if (options.draws() == 0) {
      return Optional.empty();
    }
    Network network = model.network();
    List<Observation> seen = model.observations();
    int draws = affordable(options.draws(), DRAW + Inference.work(network, seen), budget);
    if (draws < options.draws()) {
      stoppedEarly.add(
          String.format(
              Locale.ROOT,
              "How firm it is was tried with %d of %d redrawn models: %s.",
              draws,
              options.draws(),
              WorkBudget.USED_UP));
    }
    if (draws == 0) {
      return Optional.empty();
    }
    int first = firstOf(posterior);
    Function<List<Scenario>, Optional<String>> work = planner.firstWork(model);
    Optional<String> firstWork = work.apply(worthPlanning(model, network, stories));
    List<Integer> symptoms = seen.stream().map(Observation::symptom).toList();
    Elimination shape = Elimination.of(network, seen);
    int[] held =
        IntStream.range(0, draws)
            .parallel()
            .mapToObj(
                draw -> {
                  Network drawn = Redraw.draw(network, symptoms, options.seed(), draw);
                  Inference.Posterior belief = Inference.solve(drawn, seen, shape);
                  List<Scenario> retold = stories(model, drawn, belief, 2, DRAW_STORIES);
                  return new int[] {
                    firstOf(belief) == first ? 1 : 0,
                    work.apply(worthPlanning(model, drawn, retold)).equals(firstWork) ? 1 : 0
                  };
                })
            .reduce(new int[2], (a, b) -> new int[] {a[0] + b[0], a[1] + b[1]});
    return Optional.of(
        new Stability(held[0] / (double) draws, held[1] / (double) draws, draws, options.seed()));
  }

  /**
   * How many draws of that work half of the budget allows; none where that is too few to tell
   * anything. Whoever asks for more than is usual gets more in the same measure: that is their
   * time.
   */
  private static int affordable(int draws, long work, WorkBudget budget) {
    long usual = Math.min(draws, Options.USUAL.draws());
    long fit = Math.min(usual, budget.left() / 2 / work);
    if (fit < Math.min(usual, LEAST_DRAWS)) {
      return 0;
    }
    budget.take(fit * work);
    return (int) (draws * fit / usual);
  }

  /**
   * Stories of what the observations put in question. Where they put nothing in question and do not
   * clear the brake either, every cause is.
   */
  private static List<Scenario> stories(
      BrakeModel model, Network network, Inference.Posterior belief, int together, int most) {
    List<Observation> seen = model.observations();
    boolean[] inQuestion = Scenarios.inQuestion(network, seen);
    boolean cleared = belief.noFault() >= CLEARED && !knownFaulty(model);
    if (!cleared && seen.stream().noneMatch(Observation::ratherPresent)) {
      Arrays.fill(inQuestion, true);
    }
    return Scenarios.likeliest(network, seen, belief, inQuestion, together, most);
  }

  /**
   * The same stories told of what is to be mended only. Where the brake is known not to be all
   * right, every story of a fault stays.
   */
  private List<Scenario> worthPlanning(BrakeModel model, Network network, List<Scenario> stories) {
    List<Scenario> worth = goal.toBeMended(network, model.observations(), stories);
    if (!knownFaulty(model)) {
      return worth;
    }
    return Stream.of(worth, stories)
        .map(told -> told.stream().filter(story -> story.causes().length > 0).toList())
        .filter(told -> !told.isEmpty())
        .findFirst()
        .orElse(worth);
  }

  /** Whether it is known, whatever was found, that the brake is not all right. */
  private static boolean knownFaulty(BrakeModel model) {
    return !model.hazards().isEmpty()
        || model.holds().stream()
            .anyMatch(
                hold ->
                    hold.kind() == HoldKind.FORBIDDEN && hold.action().equals(Diagnosis.HAND_BACK));
  }
}
