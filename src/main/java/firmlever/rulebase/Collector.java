package firmlever.rulebase;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Background;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Odds;
import firmlever.belief.Word;
import firmlever.document.Nearest;
import firmlever.hydraulics.Normal;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.BrakeModel.Base;
import firmlever.rulebase.BrakeModel.Contradiction;
import firmlever.rulebase.BrakeModel.Factor;
import firmlever.rulebase.BrakeModel.Hazard;
import firmlever.rulebase.BrakeModel.Hold;
import firmlever.rulebase.BrakeModel.HoldKind;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.BrakeModel.Link;
import firmlever.rulebase.BrakeModel.Said;
import firmlever.rulebase.BrakeModel.Unlooked;
import firmlever.rulebase.Facts.Estimate;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.Facts.Reading;
import firmlever.rulebase.Shown.Pair;
import firmlever.rulebase.Shown.Settled;
import firmlever.rulebase.text.RuleFault;
import firmlever.vocabulary.Vocabulary;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Takes down what the rules say of one case, and puts it in order. */
final class Collector implements Model {
  /** A reading this sure to be on one side of its limit is a plain finding. */
  private static final double SURE = 0.98;

  /**
   * How often a rider who says that something is not there has overlooked it: he has not looked, or
   * does not know the feel (from memory).
   */
  private static final double RIDER_OVERLOOKS = 0.4;

  /**
   * Likelihood ratio of a hint: a rider without the symptom says it so much less often than one
   * with it. Fitted to the complaints of six blind authors, for whom 0.08 to 0.3 do about as well.
   */
  private static final double HINTED_FALSELY = 0.15;

  private static final DecimalFormatSymbols SIGNS = DecimalFormatSymbols.getInstance(Locale.ROOT);

  /** One work in ten was not done as written down (from memory). */
  private static final double DONE_AS_WRITTEN = 0.9;

  private final Names names;
  private final Vocabulary vocabulary;
  private String rule = "";
  private String source = "";
  private Said silent = new Said("", "", "");

  private final Map<String, Known> findings = new HashMap<>();
  private final Map<String, Base> bases = new HashMap<>();
  private final Map<String, Said> impossible = new TreeMap<>();
  private final Map<String, Factor> factors = new TreeMap<>();
  private final Map<String, Shown> links = new HashMap<>();

  /** The causes of which a rule has spoken to this one. */
  private final Set<String> own = new HashSet<>();

  private final Map<String, Background> backgrounds = new HashMap<>();
  private final Map<String, Hazard> hazards = new HashMap<>();
  private final Map<String, Unlooked> unlooked = new HashMap<>();
  private final Set<String> cautions = new TreeSet<>();

  /** In the order of the vocabulary; a list is replaced, not changed, for all cases share it. */
  private final Map<String, List<String>> cautionsByStep = new HashMap<>();

  private final Map<String, Contradiction> contradictions = new TreeMap<>();

  /** What a work mends is replaced, not changed, for all cases share it. */
  private final Map<String, Map<String, Word>> mends = new HashMap<>();

  private final Map<String, Said> inVain = new TreeMap<>();
  private final Map<String, Hold> holds = new TreeMap<>();
  private final Set<String> fired = new HashSet<>();
  private final Set<String> onlyTold = new HashSet<>();
  private final Set<String> hinted;

  /**
   * @param recorded what the case file says of symptoms
   * @param onlyTold ids of those that only a rider told
   * @param hinted ids of symptoms a rider hinted at
   */
  Collector(Names names, Collection<Finding> recorded, Set<String> onlyTold, Set<String> hinted) {
    this.names = names;
    this.onlyTold.addAll(onlyTold);
    this.hinted = hinted;
    this.vocabulary = names.vocabulary();
    for (Finding finding : recorded) {
      findings.put(
          finding.symptom(),
          known(finding.symptom(), finding.present() ? 1 : 0, true, new Said("", "", "")));
    }
  }

  /**
   * One that has heard already what another was told, of a case of which nothing was recorded.
   *
   * @throws IllegalStateException where the other was told what hangs on the findings of a case
   */
  Collector(
      Collector heard, Collection<Finding> recorded, Set<String> onlyTold, Set<String> hinted) {
    this(heard.names, recorded, onlyTold, hinted);
    if (!heard.findings.isEmpty() || !heard.contradictions.isEmpty()) {
      throw new IllegalStateException(
          "a rule without a condition concludes " + heard.findings.keySet());
    }
    bases.putAll(heard.bases);
    impossible.putAll(heard.impossible);
    factors.putAll(heard.factors);
    links.putAll(heard.links);
    backgrounds.putAll(heard.backgrounds);
    hazards.putAll(heard.hazards);
    unlooked.putAll(heard.unlooked);
    cautions.addAll(heard.cautions);
    cautionsByStep.putAll(heard.cautionsByStep);
    mends.putAll(heard.mends);
    inVain.putAll(heard.inVain);
    holds.putAll(heard.holds);
    fired.addAll(heard.fired);
  }

  /** Names the rule that speaks from now on. */
  void enter(String ruleName, String ruleSource) {
    rule = ruleName;
    source = ruleSource;
    silent = new Said(ruleName, ruleSource, "");
    fired.add(ruleName);
  }

  private Said said(String why) {
    return why.isEmpty() ? silent : new Said(rule, source, why);
  }

  private static Known known(String symptom, double probability, boolean weighs, Said said) {
    double sure = probability >= SURE ? 1 : probability <= 1 - SURE ? 0 : probability;
    return new Known(symptom, sure >= 0.5, sure, 1 - sure, weighs, said);
  }

  @Override
  public void possible(String cause, double per100) {
    mustBeKnown(cause, vocabulary.causes().keySet(), "a cause");
    mustHold(per100 > 0 && per100 < 100, "how common a cause is must lie between 0 and 100");
    Base base = new Base(cause, per100, said(""));
    Base before = bases.put(cause, base);
    mustHold(
        before == null || before.said().rule().equals(rule),
        "two rules say how common "
            + cause
            + " is: "
            + rule
            + " and "
            + (before == null ? "" : before.said().rule()));
  }

  @Override
  public void impossible(String cause, String why) {
    mustBeKnown(cause, vocabulary.causes().keySet(), "a cause");
    impossible.merge(cause, said(why), (a, b) -> Said.BY_RULE.compare(a, b) <= 0 ? a : b);
  }

  @Override
  public void raise(String cause, double times, String why) {
    mustHold(times > 1, "raise needs a factor above 1");
    factor(cause, times, why);
  }

  @Override
  public void lower(String cause, double times, String why) {
    mustHold(times > 0 && times < 1, "lower needs a factor between 0 and 1");
    factor(cause, times, why);
  }

  /** One rule moves one cause once, by its strongest match. */
  private void factor(String cause, double times, String why) {
    mustBeKnown(cause, vocabulary.causes().keySet(), "a cause");
    factors.merge(
        cause + "\n" + rule,
        new Factor(cause, times, said(why)),
        (a, b) -> {
          int stronger =
              Double.compare(Math.abs(Math.log(a.times())), Math.abs(Math.log(b.times())));
          if (stronger != 0) {
            return stronger > 0 ? a : b;
          }
          return a.said().why().compareTo(b.said().why()) <= 0 ? a : b;
        });
  }

  @Override
  public void shows(String cause, Word howOften, String... symptoms) {
    mustBeKnown(cause, vocabulary.causes().keySet(), "a cause");
    if (own.add(cause)) {
      // What was heard before belongs to all cases.
      Shown before = links.get(cause);
      links.put(cause, before == null ? new Shown(names) : new Shown(before));
    }
    Shown shown = requireNonNull(links.get(cause));
    Link link = new Link(howOften, said(""));
    for (String symptom : symptoms) {
      int at = symptomAt(symptom);
      if (Shown.stronger(link, shown.at(at))) {
        shown.put(at, link);
      }
    }
  }

  @Override
  public void background(Background howOften, String... symptoms) {
    for (String symptom : symptoms) {
      mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
      backgrounds.merge(symptom, howOften, (a, b) -> a.probability() >= b.probability() ? a : b);
    }
  }

  @Override
  public Finding found(String symptom, boolean present, String why) {
    return concluded(symptom, present ? 1 : 0, true, why);
  }

  @Override
  public Finding told(String symptom, boolean present, String why) {
    boolean first = !findings.containsKey(symptom);
    Finding finding = concluded(symptom, present ? 1 : 0, true, why);
    if (first) {
      onlyTold.add(symptom);
    }
    return finding;
  }

  @Override
  public Finding implied(String symptom, boolean present, String why) {
    return concluded(symptom, present ? 1 : 0, false, why);
  }

  @Override
  public Finding above(String symptom, Reading reading, double limit, String why) {
    return measured(symptom, chanceAbove(reading, limit), why + read(reading));
  }

  @Override
  public Finding below(String symptom, Reading reading, double limit, String why) {
    return measured(symptom, 1 - chanceAbove(reading, limit), why + read(reading));
  }

  /** Whoever doubts a finding looks at the figure first. */
  private static String read(Reading reading) {
    return "; it read " + new DecimalFormat("0.##", SIGNS).format(reading.value());
  }

  @Override
  public Finding estimated(String symptom, Estimate estimate, String why) {
    return measured(symptom, estimate.ifPresent(), why);
  }

  /** What a rider only told and a reading bears out is no longer only told. */
  private Finding measured(String symptom, double probability, String why) {
    Finding finding = concluded(symptom, probability, true, why);
    if (finding.present() == probability >= 0.5 && beyondError(probability)) {
      onlyTold.remove(symptom);
    }
    return finding;
  }

  private static double chanceAbove(Reading reading, double limit) {
    return Normal.below((reading.value() - limit) / reading.error());
  }

  /** Whether it lies further from the limit than a reading may be off: less contradicts nobody. */
  private static boolean beyondError(double probability) {
    return Math.max(probability, 1 - probability) > Normal.below(1);
  }

  /** What a person recorded stands; of several conclusions the first by rule name. */
  private Finding concluded(String symptom, double probability, boolean weighs, String why) {
    mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    Known concluded = known(symptom, probability, weighs, said(why));
    Known before = findings.get(symptom);
    if (before != null && before.present() != concluded.present() && beyondError(probability)) {
      contradictions.merge(
          symptom + "\n" + rule,
          new Contradiction(
              List.of(symptom),
              said(
                  vocabulary.symptom(symptom).said(before.present())
                      + " is on record, but "
                      + why)),
          (a, b) -> Said.BY_RULE.compare(a.said(), b.said()) <= 0 ? a : b);
    }
    if (before == null
        || !before.recorded() && Said.BY_RULE.compare(concluded.said(), before.said()) < 0) {
      findings.put(symptom, concluded);
    }
    return new Finding(symptom, requireNonNull(findings.get(symptom)).present());
  }

  @Override
  public void contradiction(String why, String... symptoms) {
    for (String symptom : symptoms) {
      mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    }
    contradictions.put(
        String.join(",", symptoms) + "\n" + rule, new Contradiction(List.of(symptoms), said(why)));
  }

  @Override
  public void stopRide(String symptom, String why) {
    mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    hazards.merge(
        symptom,
        new Hazard(symptom, said(why)),
        (a, b) -> Said.BY_RULE.compare(a.said(), b.said()) <= 0 ? a : b);
  }

  @Override
  public void clearFirst(String symptom, String why) {
    mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    unlooked.merge(
        symptom,
        new Unlooked(symptom, said(why)),
        (a, b) -> Said.BY_RULE.compare(a.said(), b.said()) <= 0 ? a : b);
  }

  @Override
  public void caution(String caution) {
    mustBeKnown(caution, vocabulary.cautions().keySet(), "a caution");
    cautions.add(caution);
  }

  @Override
  public void cautionFor(String caution, String... steps) {
    mustBeKnown(caution, vocabulary.cautions().keySet(), "a caution");
    for (String name : steps) {
      List<String> named = names.steps().getOrDefault(name, List.of());
      mustHold(!named.isEmpty(), "\"" + name + "\" is no action, group, set-up or look");
      named.forEach(step -> cautionsByStep.merge(step, List.of(caution), this::together));
    }
  }

  @Override
  public void mends(String action, Word howOften, String... causes) {
    mustBeKnown(action, vocabulary.actions().keySet(), "an action");
    Map<String, Word> mended = new HashMap<>(mends.getOrDefault(action, Map.of()));
    for (String cause : causes) {
      mustBeKnown(cause, vocabulary.causes().keySet(), "a cause");
      mended.merge(cause, howOften, (a, b) -> a.probability() >= b.probability() ? a : b);
    }
    mends.put(action, mended);
  }

  @Override
  public void triedInVain(String work, String why) {
    mustBeKnown(work, vocabulary.recordedWorks(), "a work");
    inVain.merge(work, said(why), (a, b) -> Said.BY_RULE.compare(a, b) <= 0 ? a : b);
  }

  @Override
  public void mendFirst(String symptom, String why, String... actions) {
    mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    hold(HoldKind.MEND, symptom, why, actions);
  }

  @Override
  public void checkFirst(String symptom, String why, String... actions) {
    mustBeKnown(symptom, vocabulary.symptoms().keySet(), "a symptom");
    hold(HoldKind.CHECK, symptom, why, actions);
  }

  @Override
  public void doFirst(String work, String why, String... actions) {
    mustBeKnown(work, vocabulary.actions().keySet(), "an action");
    hold(HoldKind.WORK, work, why, actions);
  }

  @Override
  public void forbid(String why, String... actions) {
    hold(HoldKind.FORBIDDEN, "", why, actions);
  }

  private void hold(HoldKind kind, String first, String why, String... actionsOrGroups) {
    for (String actionOrGroup : actionsOrGroups) {
      for (String action : actions(actionOrGroup)) {
        if (!action.equals(first)) {
          holds.merge(
              action + "\n" + kind + "\n" + first,
              new Hold(action, kind, first, said(why)),
              (a, b) -> Said.BY_RULE.compare(a.said(), b.said()) <= 0 ? a : b);
        }
      }
    }
  }

  private List<String> actions(String actionOrGroup) {
    List<String> actions = names.actions().getOrDefault(actionOrGroup, List.of());
    mustHold(!actions.isEmpty(), "\"" + actionOrGroup + "\" is no action or group of actions");
    return actions;
  }

  /** Whether a finer kind of the symptom forbids riding too: then that one says it. */
  private boolean saidMoreFinely(String symptom) {
    return names.kindFacts().stream()
        .anyMatch(kind -> kind.coarse().equals(symptom) && hazards.containsKey(kind.fine()));
  }

  private int symptomAt(String symptom) {
    Integer at = names.symptoms().get(symptom);
    if (at == null) {
      mustBeKnown(symptom, names.symptoms().keySet(), "a symptom");
    }
    return requireNonNull(at);
  }

  private void mustBeKnown(String id, Collection<String> known, String what) {
    if (!known.contains(id)) {
      throw new RuleFault(
          rule, "\"" + id + "\" is not " + what + " of the vocabulary", Nearest.maybe(id, known));
    }
  }

  private void mustHold(boolean holds, String what) {
    if (!holds) {
      throw new RuleFault(rule, what, "");
    }
  }

  /** The model of this brake, from everything said and what the throws were found to say. */
  BrakeModel model(Optional<ThrowEstimate> throwEstimate) {
    List<Factor> allFactors = new ArrayList<>(factors.values());
    allFactors.addAll(failedRepairs());
    allFactors.removeIf(factor -> !possible(factor.cause()));
    List<String> causes = vocabulary.causes().keySet().stream().filter(this::possible).toList();
    Map<String, Double> logOdds = new HashMap<>();
    causes.forEach(
        cause -> logOdds.put(cause, Odds.log(requireNonNull(bases.get(cause)).per100() / 100)));
    allFactors.forEach(f -> logOdds.merge(f.cause(), Math.log(f.times()), Double::sum));

    List<String> symptoms = List.copyOf(vocabulary.symptoms().keySet());
    double[] background = new double[symptoms.size()];
    double[][] strength = new double[causes.size()][];
    List<Observation> observations = new ArrayList<>();
    Map<String, Known> known = new LinkedHashMap<>();
    Set<String> told = toldByAnother(symptoms);
    for (int j = 0; j < symptoms.size(); j++) {
      String symptom = symptoms.get(j);
      background[j] = backgrounds.getOrDefault(symptom, Background.HARDLY_EVER).probability();
      Known finding = findings.get(symptom);
      if (finding != null) {
        finding = told.contains(symptom) ? finding.weightless() : finding;
        known.put(symptom, finding);
        if (finding.weighs()) {
          observations.add(new Observation(j, finding.ifPresent(), finding.ifAbsent()));
        }
      } else if (hinted.contains(symptom)) {
        observations.add(new Observation(j, 1, HINTED_FALSELY));
      }
    }
    Map<String, Map<String, Link>> shows = new HashMap<>(links);
    List<Pair> apart = apart(symptoms);
    for (int i = 0; i < causes.size(); i++) {
      Shown shown = links.get(causes.get(i));
      if (shown == null) {
        strength[i] = new double[symptoms.size()];
      } else {
        Settled settled = shown.settled(apart);
        shows.put(causes.get(i), settled.shown());
        strength[i] = settled.strength().clone();
      }
    }
    for (Observation seen : observations) {
      weighReport(seen, symptoms.get(seen.symptom()), background, strength);
    }
    double[] prior = causes.stream().mapToDouble(logOdds::get).toArray();
    List<Hazard> stops = new ArrayList<>(hazards.values());
    stops.removeIf(hazard -> told.contains(hazard.symptom()) && saidMoreFinely(hazard.symptom()));
    List<Hold> waits = new ArrayList<>(holds.values());
    waits.removeIf(hold -> hold.kind() == HoldKind.MEND && told.contains(hold.first()));
    List<Unlooked> looks = new ArrayList<>(unlooked.values());
    // What only a rider told, nobody has looked for.
    looks.removeIf(look -> known.containsKey(look.symptom()) && !onlyTold.contains(look.symptom()));
    looks.sort(Comparator.comparingInt(look -> names.symptoms().get(look.symptom())));
    waits.removeIf(hold -> hold.kind() == HoldKind.CHECK && known.containsKey(hold.first()));
    stops.sort(Comparator.comparingInt(hazard -> names.symptoms().get(hazard.symptom())));
    return new BrakeModel(
        new Network(causes, prior, symptoms, background, strength),
        List.copyOf(observations),
        Collections.unmodifiableMap(known),
        inVocabularyOrder(bases),
        List.copyOf(allFactors),
        shows,
        impossible,
        List.copyOf(stops),
        List.copyOf(looks),
        inVocabularyOrder(cautions),
        cautionsByStep,
        List.copyOf(contradictions.values()),
        mends,
        List.copyOf(waits),
        fired,
        throwEstimate,
        false);
  }

  /**
   * Nobody's word is beyond doubt. A rider's false reports raise the symptom's background (its leak
   * probability); a finding that is easily missed lowers the chance that its causes show it.
   */
  private void weighReport(
      Observation seen, String symptom, double[] background, double[][] strength) {
    Vocabulary.Symptom known = vocabulary.symptom(symptom);
    int j = seen.symptom();
    boolean told = onlyTold.contains(symptom);
    if (told && seen.ifAbsent() == 0) {
      background[j] = Math.max(background[j], known.toldFalsely());
    } else if (seen.ifPresent() == 0) {
      double heeded = 1 - (told ? RIDER_OVERLOOKS : known.overlooked());
      for (double[] each : strength) {
        each[j] *= heeded;
      }
    }
  }

  /**
   * Findings that another one says already: a coarser symptom whose finer kind is there, and the
   * kinds of a coarser one that is absent. They must not weigh twice.
   */
  private Set<String> toldByAnother(List<String> symptoms) {
    Set<String> told = new HashSet<>();
    for (int coarse : names.coarse()) {
      for (int fine : names.kinds()[coarse]) {
        if (is(symptoms.get(coarse), true) && is(symptoms.get(fine), true)) {
          told.add(symptoms.get(coarse));
        } else if (is(symptoms.get(coarse), false) && is(symptoms.get(fine), false)) {
          told.add(symptoms.get(fine));
        }
      }
    }
    return told;
  }

  private boolean is(String symptom, boolean present) {
    Known known = findings.get(symptom);
    return known != null && known.present() == present;
  }

  /** Finer kinds that were ruled out and do not speak for their coarser symptom, which was not. */
  private List<Pair> apart(List<String> symptoms) {
    List<Pair> apart = new ArrayList<>();
    for (int coarse : names.coarse()) {
      for (int fine : names.kinds()[coarse]) {
        if (is(symptoms.get(fine), false) && !is(symptoms.get(coarse), false)) {
          apart.add(new Pair(coarse, fine));
        }
      }
    }
    return apart;
  }

  private boolean possible(String cause) {
    return bases.containsKey(cause) && !impossible.containsKey(cause);
  }

  private List<Factor> failedRepairs() {
    List<Factor> failed = new ArrayList<>();
    inVain.forEach(
        (work, said) ->
            mends
                .getOrDefault(work, Map.of())
                .forEach(
                    (cause, word) ->
                        failed.add(
                            new Factor(cause, 1 - DONE_AS_WRITTEN * word.probability(), said))));
    failed.sort(Comparator.comparing(Factor::cause).thenComparing(f -> f.said().why()));
    return failed;
  }

  private List<String> together(List<String> some, List<String> others) {
    Set<String> all = new HashSet<>(some);
    return all.addAll(others) ? inVocabularyOrder(all) : some;
  }

  private List<String> inVocabularyOrder(Set<String> some) {
    return some.stream().sorted(Comparator.comparingInt(names.cautions()::get)).toList();
  }

  private Map<String, Base> inVocabularyOrder(Map<String, Base> map) {
    Map<String, Base> ordered = new LinkedHashMap<>();
    for (String cause : vocabulary.causes().keySet()) {
      if (possible(cause)) {
        ordered.put(cause, map.get(cause));
      }
    }
    return Collections.unmodifiableMap(ordered);
  }
}
