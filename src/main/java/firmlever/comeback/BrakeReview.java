package firmlever.comeback;

import firmlever.belief.Network;
import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.visits.BroughtIn;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relatedness;
import firmlever.comeback.visits.Returns;
import firmlever.comeback.visits.Returns.Return;
import firmlever.comeback.visits.Visit;
import firmlever.comeback.visits.Witness;
import firmlever.comeback.visits.Witness.Look;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Looks at one brake with all its visits: which were comebacks, why, and what the first visit could
 * have known. Holds no state between brakes and may be used by any number of threads.
 */
public final class BrakeReview {
  /** Steps of the plan that are followed before it is said not to have led there. */
  private static final int STEPS = 4;

  /** A cause that stands among so many was in sight. */
  private static final int IN_SIGHT = 3;

  /** A check finds what the cause shows at least this often (from memory, as the next two). */
  private static final double SHOWS = 0.5;

  /** A check that shows the cause at least this often gives it away by itself. */
  private static final double GIVES_AWAY = 0.9;

  /** A check at the hand-back should show what the work left behind at least this often. */
  private static final double SHOWS_PLAINLY = 0.75;

  private final Diagnostician diagnostician;
  private final Vocabulary vocabulary;
  private final Definition definition;
  private final BroughtIn broughtIn;
  private final Relatedness relatedness;
  private final Costs costs;

  public BrakeReview(
      Diagnostician diagnostician, Vocabulary vocabulary, Definition definition, Costs costs) {
    this.diagnostician = diagnostician;
    this.vocabulary = vocabulary;
    this.definition = definition;
    this.broughtIn = new BroughtIn(diagnostician);
    this.relatedness = new Relatedness(broughtIn, definition.longDays());
    this.costs = costs;
  }

  /**
   * Adds to the tally all there is to learn of one brake from its visits, in any order; returns its
   * comebacks. Where a visit cannot be diagnosed, what it throws leaves the tally as it was.
   */
  public List<Comeback> review(List<CaseFile> files, Tally tally) {
    List<Visit> visits =
        files.stream()
            .flatMap(file -> definition.known(file).stream())
            .map(file -> Visit.of(file, vocabulary))
            .sorted(Visit.BY_TIME)
            .toList();
    if (visits.isEmpty()) {
      return List.of();
    }
    List<CaseFile> known = new ArrayList<>();
    List<Optional<Belief>> beliefs = new ArrayList<>();
    for (int i = 0; i < visits.size(); i++) {
      known.add(visits.get(i).knownThen(visits.subList(0, i), vocabulary));
      beliefs.add(belief(known.get(i)));
    }
    Returns laid =
        new Returns(
            visits,
            definition.longDays(),
            (i, j) -> relatedness.of(visits.get(i), beliefs.get(i), visits.get(j)));
    List<Looked> looked = new ArrayList<>();
    for (int i = 0; i < visits.size(); i++) {
      looked.add(look(visits.get(i), known.get(i), beliefs.get(i), i, laid));
    }
    List<Double> returns = new ArrayList<>();
    List<Comeback> comebacks = new ArrayList<>();
    for (Looked each : looked) {
      each.returns.forEach(again -> returns.add((double) weeks(visits.get(0), again.second())));
      comebacks.addAll(each.comebacks);
      sample(each, tally);
      tally.addVisit(
          each.visit,
          each.returns.stream().findFirst().map(again -> each.visit.daysUntil(again.second())),
          each.watched,
          each.comebacks,
          each.unrelated,
          definition);
      if (each.belief.isPresent()) {
        judge(each, tally);
      } else {
        tally.tooManySymptoms++;
      }
    }
    tally.addBrake(
        Math.max(1, (ChronoUnit.DAYS.between(visits.get(0).closed(), definition.end()) + 6) / 7),
        returns.stream().mapToDouble(Double::doubleValue).toArray());
    return comebacks;
  }

  /** Related or not: what chance calls avoidable must not hang on what was called related. */
  private void sample(Looked looked, Tally tally) {
    if (!looked.visit.recorded() || looked.belief.isEmpty()) {
      return;
    }
    for (int i = 0; i < looked.judged.size(); i++) {
      Comeback own = looked.judged.get(i);
      if (!own.found().isEmpty()) {
        tally.sample(
            new Tally.Sampled(looked.visit, looked.within.get(i).second(), looked.known, own));
      }
    }
  }

  /** Draws the conclusions from a whole tally. */
  public Findings conclude(Tally tally, Findings.Asked asked) {
    return Findings.of(tally, definition, vocabulary, costs, chanceLevel(tally), asked);
  }

  /**
   * A trial of the forecast on earlier days, to be fed with all visits of each brake.
   *
   * @param from the first day of the data
   */
  public Backtest backtest(LocalDate from) {
    return new Backtest(definition, from, vocabulary, this::judge);
  }

  private Returns.Judge judge(List<Visit> visits) {
    Map<Integer, Optional<Belief>> beliefs = new HashMap<>();
    return (i, j) ->
        relatedness.of(
            visits.get(i),
            beliefs.computeIfAbsent(
                i, at -> belief(visits.get(at).knownThen(visits.subList(0, at), vocabulary))),
            visits.get(j));
  }

  /** Judges the sampled comebacks again, each with what another one's second visit found. */
  private ChanceLevel chanceLevel(Tally tally) {
    Map<String, List<Tally.Sampled>> alike = new TreeMap<>();
    tally
        .sampled
        .values()
        .forEach(
            each ->
                alike.computeIfAbsent(each.first().firstGroup(), g -> new ArrayList<>()).add(each));
    List<Tally.Sampled[]> pairs = new ArrayList<>();
    for (List<Tally.Sampled> group : alike.values()) {
      for (int i = 0; i < group.size() && group.size() > 1; i++) {
        pairs.add(new Tally.Sampled[] {group.get(i), group.get((i + 1) % group.size())});
      }
    }
    List<Comeback> dealt =
        pairs.parallelStream().map(pair -> comebackWith(pair[0], pair[1].second())).toList();
    ChanceLevel level = ChanceLevel.NONE;
    for (int i = 0; i < pairs.size(); i++) {
      level = level.plus(pairs.get(i)[0].own(), dealt.get(i));
    }
    return level;
  }

  private Comeback comebackWith(Tally.Sampled own, Visit other) {
    Visit second = own.second().ending(other.file().outcome());
    Optional<Belief> belief = belief(own.known());
    return comeback(
        own.first(),
        new Return(second, List.of(), relatedness.of(own.first(), belief, second)),
        own.known(),
        belief);
  }

  /**
   * A visit as it is seen afterwards.
   *
   * @param known the case as it was known then
   * @param belief empty where too many symptoms hang together
   * @param returns related to it, in order of time
   * @param watched days it could be watched for a return
   * @param within all returns within the long window, related or not, in order of time
   * @param judged the same, judged
   */
  private record Looked(
      Visit visit,
      CaseFile known,
      Optional<Belief> belief,
      List<Return> returns,
      double watched,
      List<Return> within,
      List<Comeback> judged,
      List<Comeback> comebacks,
      List<Comeback> unrelated) {}

  private Looked look(
      Visit visit, CaseFile known, Optional<Belief> belief, int position, Returns laid) {
    List<Return> within =
        laid.after(position).stream()
            .filter(again -> visit.daysUntil(again.second()) <= definition.longDays())
            .toList();
    List<Comeback> judged =
        within.stream().map(again -> comeback(visit, again, known, belief)).toList();
    return new Looked(
        visit,
        known,
        belief,
        laid.relatedAfter(position),
        Math.max(
            0,
            ChronoUnit.DAYS.between(visit.closed(), laid.watchedUntil(position, definition.end()))),
        within,
        judged,
        judged.stream().filter(c -> c.relation().related()).toList(),
        judged.stream().filter(c -> !c.relation().related()).toList());
  }

  private static long weeks(Visit first, Visit again) {
    return Math.max(1, (ChronoUnit.DAYS.between(first.closed(), again.file().opened()) + 6) / 7);
  }

  private Optional<Belief> belief(CaseFile known) {
    try {
      return Optional.of(diagnostician.belief(known));
    } catch (TooManySymptoms e) {
      return Optional.empty();
    }
  }

  /** Holds the diagnosis against what turned out to be true, where enough is known to say so. */
  private void judge(Looked looked, Tally tally) {
    Visit visit = looked.visit;
    Belief belief = looked.belief.orElseThrow();
    if (!visit.recorded() || !definition.followed(visit.closed(), definition.shortDays())) {
      return;
    }
    boolean followed = definition.followed(visit.closed(), definition.longDays());
    Optional<Visit> overturning = Optional.empty();
    for (int i = 0; i < looked.judged.size() && overturning.isEmpty(); i++) {
      if (looked.judged.get(i).reason() == Reason.WRONG_CAUSE) {
        overturning = Optional.of(looked.within.get(i).second());
      }
    }
    if (followed && !visit.causes().isEmpty()) {
      tally.addHeld(visit, overturning.map(visit::daysUntil), definition);
    }
    tally.addJudged(
        looked.known,
        overturning
            .map(second -> new Witness(second.by(), Look.SECOND))
            .orElse(new Witness(visit.by(), followed ? Look.HELD : Look.OPEN)),
        overturning.orElse(visit).causes(),
        belief,
        ranked(belief));
  }

  /** Positions of the causes, most probable first. */
  private static List<Integer> ranked(Belief belief) {
    double[] posterior = belief.posterior().posterior();
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < posterior.length; i++) {
      order.add(i);
    }
    order.sort(Comparator.comparingDouble((Integer i) -> posterior[i]).reversed());
    return order;
  }

  private Comeback comeback(Visit first, Return again, CaseFile known, Optional<Belief> belief) {
    Visit second = again.second();
    List<String> found = second.causes();
    String cause = found.isEmpty() ? "" : found.get(0);
    int at = belief.map(b -> b.model().network().causes().indexOf(cause)).orElse(-1);
    int place = at < 0 ? 0 : ranked(belief.orElseThrow()).indexOf(at) + 1;
    Reason reason =
        again.relation().related() ? reason(first, second, belief, at, place) : Reason.NEW_FAULT;
    Followed followed =
        reason == Reason.WRONG_CAUSE && at >= 0
            ? follow(known, belief.orElseThrow(), cause)
            : reason == Reason.BROUGHT_IN ? lookAtHandBack(belief, cause) : Followed.NOT;
    boolean avoidable =
        reason == Reason.WRONG_CAUSE
            ? followed.planned || place == 1
            : reason == Reason.BROUGHT_IN && !followed.check.isEmpty();
    int saved =
        avoidable
            ? Math.max(0, costs.comebackMinutes() + wasted(first, belief, cause) - followed.minutes)
            : 0;
    double days = first.daysUntil(second);
    return new Comeback(
        first.file().brake().id(),
        first.file().id(),
        second.file().id(),
        again.alsoAfter().stream().map(visit -> visit.file().id()).toList(),
        again.relation(),
        first.closed(),
        second.file().opened(),
        days,
        first.by(),
        first.stay(),
        second.stay(),
        first.works(),
        first.causes(),
        found,
        reason,
        place,
        at < 0 ? 0 : belief.orElseThrow().posterior().posterior()[at],
        followed.planned,
        followed.check,
        followed.check.isEmpty() ? 0 : vocabulary.symptom(followed.check).minutes(),
        avoidable,
        saved,
        avoidable ? sentence(first, cause, reason, place, days, followed) : "");
  }

  private Reason reason(Visit first, Visit second, Optional<Belief> belief, int at, int place) {
    if (!first.recorded() || !second.recorded()) {
      return Reason.NOT_RECORDED;
    }
    if (second.causes().isEmpty()) {
      return nothingFound(first) && nothingFound(second)
          ? Reason.NO_FAULT_TWICE
          : Reason.NOT_RECORDED;
    }
    if (first.causes().stream().anyMatch(second.causes()::contains)) {
      return Reason.DID_NOT_HOLD;
    }
    double raisedBy = at < 0 ? 0 : raisedBy(belief.orElseThrow(), at);
    if (raisedBy >= Math.log(2) && place <= IN_SIGHT) {
      return Reason.WRONG_CAUSE;
    }
    if (broughtIn.by(first, second)) {
      return Reason.BROUGHT_IN;
    }
    return raisedBy > 0 ? Reason.WRONG_CAUSE : Reason.DID_NOT_SHOW;
  }

  /**
   * Whoever mends something has found something, whether it was written down or not; of a visit of
   * which nothing is on record nobody can tell.
   */
  private static boolean nothingFound(Visit visit) {
    return visit.causes().isEmpty()
        && !visit.works().isEmpty()
        && visit.works().stream().allMatch(Diagnosis.HAND_BACK::equals);
  }

  /** By how much what was found raises the log odds of a cause. */
  private static double raisedBy(Belief belief, int cause) {
    return belief.posterior().logOdds(cause) - belief.model().network().priorLogOdds()[cause];
  }

  /** Minutes of the first visit's works that do not mend the cause. */
  private int wasted(Visit first, Optional<Belief> belief, String cause) {
    return first.works().stream()
        .filter(work -> belief.filter(b -> mends(b, work, cause)).isEmpty())
        .map(vocabulary.actions()::get)
        .mapToInt(Action::minutes)
        .sum();
  }

  private static boolean mends(Belief belief, String work, String cause) {
    return belief.model().mends().getOrDefault(work, Map.of()).containsKey(cause);
  }

  /** Where following the plan would have led. */
  private record Followed(boolean planned, String check, int minutes) {
    static final Followed NOT = new Followed(false, "", 0);
  }

  /**
   * Follows the plan from what was known then, answering each check as the true cause shows itself,
   * until a check gives the cause away or a work is due.
   */
  private Followed follow(CaseFile known, Belief belief, String cause) {
    Map<String, Presence> symptoms = new LinkedHashMap<>(known.symptoms());
    Belief now = belief;
    int minutes = 0;
    for (int i = 0; i < STEPS; i++) {
      Optional<String> step = diagnostician.firstStep(now);
      if (step.isEmpty()) {
        break;
      }
      String id = step.get();
      if (!vocabulary.symptoms().containsKey(id)) {
        return new Followed(!id.equals(Diagnosis.HAND_BACK) && mends(now, id, cause), "", minutes);
      }
      minutes += vocabulary.symptom(id).minutes();
      double strength = strength(now, cause, id);
      if (strength >= GIVES_AWAY) {
        return new Followed(true, id, minutes);
      }
      symptoms.put(id, strength >= SHOWS ? Presence.PRESENT : Presence.ABSENT);
      try {
        now =
            diagnostician.belief(Visit.with(known, new LinkedHashMap<>(symptoms), known.history()));
      } catch (TooManySymptoms e) {
        break;
      }
    }
    return new Followed(false, "", minutes);
  }

  private static double strength(Belief belief, String cause, String symptom) {
    Network network = belief.model().network();
    int i = network.causes().indexOf(cause);
    return i < 0 ? 0 : network.strength()[i][network.symptoms().indexOf(symptom)];
  }

  /** The quickest check that shows plainly what the work left behind. */
  private Followed lookAtHandBack(Optional<Belief> belief, String cause) {
    return belief
        .flatMap(
            b ->
                vocabulary.symptoms().values().stream()
                    .filter(Symptom::canBeChecked)
                    .filter(s -> strength(b, cause, s.id()) >= SHOWS_PLAINLY)
                    .min(
                        Comparator.comparingInt(Symptom::minutes)
                            .thenComparing(s -> -strength(b, cause, s.id()))))
        .map(s -> new Followed(false, s.id(), s.minutes()))
        .orElse(Followed.NOT);
  }

  private String sentence(
      Visit first, String cause, Reason reason, int place, double days, Followed followed) {
    String later =
        days < 1 ? "the same day" : (int) days + (days < 2 ? " day" : " days") + " later";
    String name = vocabulary.cause(cause).name();
    String check =
        followed.check.isEmpty()
            ? ""
            : "looking for \""
                + vocabulary.symptom(followed.check).name()
                + "\" takes "
                + vocabulary.symptom(followed.check).minutes()
                + " min";
    if (reason == Reason.BROUGHT_IN) {
      return "It left after "
          + works(first)
          + " and was back "
          + later
          + " with "
          + name
          + ": before a brake is handed back, "
          + check
          + ".";
    }
    String treated =
        first.causes().isEmpty()
            ? nothingFound(first)
                ? "Nothing was found"
                : "No cause is known from the record of that visit"
            : "It was treated for " + vocabulary.cause(first.causes().get(0)).name();
    String known =
        place == 1
            ? "what was known then already pointed to it first of all causes"
            : place <= IN_SIGHT
                ? "what was known then already pointed to it, among the first three causes"
                : "the checks this program asks for, from what was known then, lead to it";
    return treated
        + "; "
        + later
        + " it came back with "
        + name
        + ". "
        + Character.toUpperCase(known.charAt(0))
        + known.substring(1)
        + (check.isEmpty() ? "." : ", and " + check + ".");
  }

  private String works(Visit visit) {
    return visit.works().isEmpty()
        ? "a visit without a work on record"
        : "\"" + vocabulary.action(visit.works().get(0)).name() + "\"";
  }
}
