package firmlever.jobcard;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.WearLimit;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.HeatAndRoom;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.hydraulics.Brake;
import firmlever.hydraulics.FluidExchange;
import firmlever.hydraulics.FluidExchange.Flow;
import firmlever.hydraulics.SoundThrow;
import firmlever.jobcard.JobCard.Accept;
import firmlever.jobcard.JobCard.Section;
import firmlever.jobcard.JobCard.Then;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.HoldKind;
import firmlever.rulebase.CaseBrake;
import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.CardFacts.Filling;
import firmlever.rulebase.jobcard.CardFacts.Limits;
import firmlever.rulebase.jobcard.CardFacts.Torques;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.rulebase.jobcard.JobCardRules.Said;
import firmlever.vocabulary.Acceptance;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Does;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Writes job cards: which works may be done now on this brake, and how they are done. */
public final class JobCards {
  /** A flush leaves no more than this share of the old fluid (common practice, from memory). */
  private static final double LEFT_BY_A_FLUSH = 0.05;

  /** Fluid for syringe joints, cup and spills, mL (from memory). */
  private static final double SPARE_ML = 5;

  private static final Set<String> MOUNTINGS =
      Set.of("fit-caliper", "torque-caliper", "replace-caliper", "centre-caliper");

  private final Vocabulary vocabulary;
  private final JobCardRules rules;
  private final List<Acceptance> acceptance;

  public JobCards(Vocabulary vocabulary, JobCardRules rules) {
    this.vocabulary = vocabulary;
    this.rules = rules;
    this.acceptance = Acceptance.builtIn(vocabulary);
  }

  /** Works that were asked for and may not be done now; the message says why and what to do. */
  public static final class NotNow extends Exception {
    private static final long serialVersionUID = 1L;

    NotNow(String message) {
      super(message);
    }
  }

  /**
   * The card of the named works, or of the first work the plan allows where none is named.
   *
   * @param actions ids of the vocabulary, in the order to be done
   * @throws NotNow where a rule of order holds one of them back
   */
  public JobCard write(CaseFile file, BrakeModel model, Diagnosis diagnosis, List<String> actions)
      throws NotNow {
    return write(file, model, diagnosis, actions, List.of());
  }

  /**
   * The same after works that are done already, on findings from before them.
   *
   * @param done ids of works of this visit
   * @throws NotNow where a rule of order holds one of the named works back
   */
  public JobCard write(
      CaseFile file, BrakeModel model, Diagnosis diagnosis, List<String> actions, List<String> done)
      throws NotNow {
    List<String> works = new ArrayList<>(new LinkedHashSet<>(actions));
    List<String> notes = new ArrayList<>();
    Optional<Step> first = diagnosis.firstStep();
    if (works.isEmpty()) {
      works.add(firstWork(diagnosis).id());
    }
    for (int i = 0; i < works.size(); i++) {
      List<String> before = new ArrayList<>(done);
      before.addAll(works.subList(0, i));
      mustBeFree(model, works.get(i), before);
    }
    RideVerdict ride = diagnosis.ride();
    if (ride.stop() && done.isEmpty() && rides(works.get(0))) {
      throw new NotNow(
          vocabulary.name(works.get(0))
              + " is done riding, and this brake is not to be ridden: "
              + ride.because().get(0).why()
              + ".\n    "
              + instead(first));
    }
    if (ride.stop() && works.contains(Diagnosis.HAND_BACK)) {
      throw new NotNow(
          vocabulary.name(Diagnosis.HAND_BACK)
              + " is not to be done on this brake: it is not to be ridden: "
              + ride.because().get(0).why()
              + ".\n    Maybe run: firmlever triage, which names the works that help here.");
    }
    if (diagnosis.kept().isPresent() && works.contains(Diagnosis.HAND_BACK)) {
      throw new NotNow(
          vocabulary.name(Diagnosis.HAND_BACK)
              + " is not to be done on this brake: "
              + diagnosis.kept().get()
              + ".\n    "
              + instead(first));
    }
    if (ride.stop()) {
      notes.add("Not to be ridden until mended: " + named(ride.because(), Because::id) + ".");
    } else if (ride.verdict() == RideVerdict.Answer.NOT_CLEARED) {
      notes.add(
          "Not cleared for riding until the acceptance below is passed"
              + (ride.because().isEmpty() ? "" : ", and for: " + named(ride.because(), Because::id))
              + (ride.notLooked().isEmpty()
                  ? "."
                  : ". Not looked for yet: " + named(ride.notLooked(), id -> id) + "."));
    }
    notes.addAll(HeatAndRoom.of(file, vocabulary));
    if (!diagnosis.contradictions().isEmpty()) {
      notes.add("Findings contradict each other: look again before anything is done.");
    }
    first
        .filter(step -> step.kind() == StepKind.CHECK)
        .ifPresent(
            step ->
                notes.add(
                    "The plan would first "
                        + vocabulary.lookFor(step.id(), step.looks().size() > 1)
                        + String.format(Locale.ROOT, " (%.0f min): ", step.minutes())
                        + step.why()
                        + ". How: "
                        + vocabulary.howTo(step.id())));
    Filling filling = filling(file.brake());
    Limits limits = limits(file);
    Map<String, Said> said = new LinkedHashMap<>();
    for (int i = 0; i < works.size(); i++) {
      String work = works.get(i);
      Set<String> earlier = new LinkedHashSet<>(done);
      earlier.addAll(works.subList(0, i));
      Said lines =
          rules.write(
              file, model, vocabulary.action(work), earlier, filling, torques(file), limits);
      said.put(work, lines);
      if (actions.isEmpty()) {
        // What a mended leak asks for belongs on the same card, if nothing else holds it.
        for (String after : lines.then().keySet()) {
          if (!works.contains(after) && waitsFor(model, after, works).isEmpty()) {
            works.add(after);
          }
        }
      }
    }
    List<Then> then = then(said);
    return new JobCard(
        file.id(),
        diagnosis.brake(),
        List.copyOf(works),
        works.stream().mapToInt(work -> vocabulary.action(work).minutes()).sum(),
        notes,
        sections(said, then),
        accept(works, limits),
        then);
  }

  /**
   * Torques to write down that the works on record ask for, spoken; none where nothing was
   * tightened.
   */
  List<String> torques(CaseFile file, BrakeModel model, String work) {
    Action action = vocabulary.actions().get(work);
    if (action == null) {
      return List.of();
    }
    return rules
        .write(file, model, action, Set.of(), filling(file.brake()), torques(file), limits(file))
        .lines()
        .stream()
        .filter(line -> line.kind() == Kind.TORQUE)
        .map(Line::text)
        .toList();
  }

  private boolean rides(String work) {
    return vocabulary.action(work).needs().contains("ride");
  }

  /** The work the plan begins with. Where that one has to wait, no other is put before it. */
  private Step firstWork(Diagnosis diagnosis) throws NotNow {
    boolean looksFirst =
        diagnosis.firstStep().filter(step -> step.kind() == StepKind.CHECK).isPresent();
    Optional<Step> work =
        diagnosis.next().stream()
            .filter(step -> step.kind() == StepKind.WORK)
            .findFirst()
            .filter(Step::open)
            .filter(step -> !looksFirst || !step.id().equals(Diagnosis.HAND_BACK));
    if (work.isEmpty()) {
      throw new NotNow(
          "no work may be done on this brake yet"
              + diagnosis
                  .firstStep()
                  .map(
                      step ->
                          ": first " + vocabulary.lookFor(step.id(), step.looks().size() > 1) + ".")
                  .orElse(".")
              + "\n    Maybe run: firmlever ask, which asks for what is missing.");
    }
    return work.get();
  }

  private void mustBeFree(BrakeModel model, String work, List<String> before) throws NotNow {
    List<BrakeModel.Hold> waits = waitsFor(model, work, before);
    if (waits.isEmpty()) {
      return;
    }
    String why =
        waits.stream().map(hold -> hold.said().why()).distinct().collect(Collectors.joining("; "));
    boolean never = waits.stream().anyMatch(hold -> hold.kind() == HoldKind.FORBIDDEN);
    String way =
        never
            ? "Maybe run: firmlever triage, which names the works that help here."
            : waits.stream()
                .map(hold -> way(model, hold))
                .distinct()
                .collect(Collectors.joining("\n    "));
    throw new NotNow(
        vocabulary.name(work)
            + (never ? " is not to be done on this brake: " : " must wait: ")
            + why
            + ".\n    "
            + way);
  }

  /** What to do with a brake that stays, given the first step of its plan. */
  private String instead(Optional<Step> first) {
    if (first.isEmpty()) {
      return "Maybe look at what nobody has looked at yet, or ask a trained mechanic or the maker.";
    }
    Step step = first.get();
    return step.kind() == StepKind.CHECK
        ? "Maybe first "
            + vocabulary.lookFor(step.id(), step.looks().size() > 1)
            + " and write it into the case: "
            + vocabulary.howTo(step.id())
        : "Maybe first "
            + vocabulary.name(step.id())
            + ": firmlever jobcard CASE "
            + step.id()
            + ".";
  }

  private String way(BrakeModel model, BrakeModel.Hold hold) {
    return switch (hold.kind()) {
      case CHECK ->
          "Maybe check "
              + vocabulary.name(hold.first())
              + " now and write it into the case: "
              + vocabulary.howTo(hold.first());
      case WORK -> "Maybe put " + hold.first() + " before it on the same card.";
      default -> {
        List<String> menders =
            vocabulary.actions().keySet().stream()
                .filter(action -> mends(model, action, hold.first()))
                .filter(action -> waitsFor(model, action, List.of()).isEmpty())
                .limit(3)
                .toList();
        yield menders.isEmpty()
            ? "Maybe mend what shows " + vocabulary.name(hold.first()) + " first."
            : "Maybe put one of these before it on the same card: "
                + String.join(", ", menders)
                + ".";
      }
    };
  }

  /** What holds a work back, given the works that stand before it on the card. */
  private List<BrakeModel.Hold> waitsFor(BrakeModel model, String work, List<String> before) {
    return model.holds().stream()
        .filter(hold -> hold.action().equals(work))
        .filter(
            hold ->
                switch (hold.kind()) {
                  case FORBIDDEN -> true;
                  case CHECK -> !model.findings().containsKey(hold.first());
                  case WORK -> !before.contains(hold.first());
                  case MEND ->
                      before.stream().noneMatch(earlier -> mends(model, earlier, hold.first()));
                })
        .toList();
  }

  /** Whether the action mends a cause that would mostly show the symptom. */
  private static boolean mends(BrakeModel model, String action, String symptom) {
    return model.mends().getOrDefault(action, Map.of()).keySet().stream()
        .map(cause -> model.links().getOrDefault(cause, Map.of()).get(symptom))
        .anyMatch(link -> link != null && link.word().probability() > 0.5);
  }

  private List<Section> sections(Map<String, Said> said, List<Then> then) {
    List<Section> sections = new ArrayList<>();
    sections.add(new Section(Stage.READY, "Get ready", merged(said, Stage.READY)));
    said.forEach(
        (work, lines) ->
            sections.add(
                new Section(
                    Stage.DO,
                    "The work: " + vocabulary.name(work),
                    lines.lines().stream().filter(line -> line.stage() == Stage.DO).toList())));
    // Nothing is put under pressure, nor put back, that the bleed to come takes out again.
    String close =
        then.isEmpty()
            ? "Close up"
            : "Close up, only after what follows: "
                + then.stream()
                    .map(each -> vocabulary.name(each.action()))
                    .collect(Collectors.joining(", "));
    sections.add(new Section(Stage.CLOSE, close, merged(said, Stage.CLOSE)));
    sections.add(
        new Section(
            Stage.ROAD,
            "On the road, once every check on the stand is passed",
            merged(said, Stage.ROAD)));
    sections.add(new Section(Stage.AFTER, "Afterwards", merged(said, Stage.AFTER)));
    sections.removeIf(section -> section.lines().isEmpty());
    return sections;
  }

  /** What several works say of one stage, each line once. */
  private static List<Line> merged(Map<String, Said> said, Stage stage) {
    Map<String, Line> once = new LinkedHashMap<>();
    said.values().stream()
        .flatMap(each -> each.lines().stream())
        .filter(line -> line.stage() == stage)
        .forEach(line -> once.putIfAbsent(line.text() + line.want(), line));
    return once.values().stream().sorted(Comparator.comparingInt(Line::place)).toList();
  }

  /** What this brake must show after these works before it goes back. */
  public List<Accept> acceptance(CaseFile file, List<String> works) {
    return accept(works, limits(file));
  }

  private List<Accept> accept(List<String> works, Limits limits) {
    return acceptance.stream()
        .filter(each -> each.after().isEmpty() || each.after().stream().anyMatch(works::contains))
        .map(
            each ->
                new Accept(
                    each.id(),
                    each.name(),
                    each.road(),
                    each.how(),
                    each.want()
                        .replace("{throw}", limits.leverThrow())
                        .replace("{pads}", limits.pads())
                        .replace("{rotor}", limits.rotor())
                        .replace("{run-out}", limits.runOut())))
        .toList();
  }

  private static List<Then> then(Map<String, Said> said) {
    Map<String, String> then = new LinkedHashMap<>();
    said.values().forEach(each -> each.then().forEach(then::putIfAbsent));
    // A flush does all that a full bleed does, and that all that one at the lever end does.
    if (said.containsKey("fluid-flush")) {
      then.remove("full-bleed");
      then.remove("lever-end-bleed");
    }
    if (said.containsKey("full-bleed") || then.containsKey("full-bleed")) {
      then.remove("lever-end-bleed");
    }
    return then.entrySet().stream()
        .filter(each -> !said.containsKey(each.getKey()))
        .map(each -> new Then(each.getKey(), each.getValue()))
        .toList();
  }

  private static Filling filling(CaseFile.Brake b) {
    Brake brake = CaseBrake.assumed(b).middle();
    double ml = brake.systemVolumeMl();
    double least = FluidExchange.pushMl(Flow.PLUG, LEFT_BY_A_FLUSH, ml);
    double most = FluidExchange.pushMl(Flow.MIXED, LEFT_BY_A_FLUSH, ml);
    double inSyringes = 2 * FluidExchange.USUAL_PASS_ML;
    boolean measured = !Double.isNaN(b.hoseLengthMm()) && !b.caliperBoresMm().isEmpty();
    return new Filling(
        b.fluid().spoken(),
        Math.round(ml),
        (long) Math.ceil(ml),
        (long) Math.ceil(least),
        (long) Math.ceil(most),
        Math.round(100 * LEFT_BY_A_FLUSH),
        Math.round(100 * FluidExchange.toAndFroFloor(inSyringes, ml, 0)),
        inFives(2 * ml + SPARE_ML),
        inFives(most + SPARE_ML),
        measured
            ? "reckoned from hose and caliper on record"
            : "usual sizes taken: hose or caliper is not on record");
  }

  private static long inFives(double ml) {
    return 5 * (long) Math.ceil(ml / 5);
  }

  private Torques torques(CaseFile file) {
    return new Torques(
        torque(file, "port-torque", vocabulary.worksThat(Does.BLEEDS)),
        torque(file, "fitting-torque", vocabulary.worksThat(Does.ON_HOSE)),
        torque(file, "clamp-torque", Set.of("replace-lever")),
        torque(file, "mount-torque", MOUNTINGS));
  }

  /** The maker's figure, or that it is needed; with what was written down last, if anything was. */
  private static String torque(CaseFile file, String figure, Set<String> works) {
    Double makers = file.brake().makerFigures().get(figure);
    String wanted =
        makers == null
            ? "maker's figure needed"
            : plain(makers) + " N·m, the maker's figure on record";
    return wanted
        + file.history().stream()
            .filter(entry -> works.contains(entry.work()) && !Double.isNaN(entry.torqueNm()))
            .min(
                Comparator.comparingInt((Entry entry) -> entry.daysAgo().orElse(Integer.MAX_VALUE)))
            .map(entry -> "; last written down: " + plain(entry.torqueNm()) + " N·m")
            .orElse("");
  }

  private static Limits limits(CaseFile file) {
    Map<String, Double> figures = file.brake().makerFigures();
    return new Limits(
        least(WearLimit.ofPads(file.brake())),
        least(WearLimit.ofRotor(file.brake())),
        limit(figures, "run-out-limit", "at most ", "0.3 mm"),
        figures.containsKey("throw")
            ? "at most " + plain(figures.get("throw")) + " mm (maker)"
            : soundThrow(file));
  }

  private static String soundThrow(CaseFile file) {
    SoundThrow sound = CaseBrake.soundThrow(file);
    return String.format(
        Locale.ROOT,
        "at most %.0f mm at %.0f N (reckoned: sound brakes of its kind take %.0f to %.0f mm; maker's"
            + " figure needed)",
        sound.mm().high(),
        sound.forceN(),
        sound.mm().low(),
        sound.mm().high());
  }

  private static String least(WearLimit limit) {
    return "at least "
        + plain(limit.mm())
        + (limit.makers() ? " mm (maker)" : " mm (usual; maker's figure needed)");
  }

  private static String limit(
      Map<String, Double> figures, String figure, String side, String usual) {
    Double makers = figures.get(figure);
    return makers == null
        ? side + usual + " (usual; maker's figure needed)"
        : side + plain(makers) + " mm (maker)";
  }

  private static String plain(double value) {
    return new java.math.BigDecimal(String.format(Locale.ROOT, "%.2f", value))
        .stripTrailingZeros()
        .toPlainString();
  }

  private <T> String named(List<T> things, Function<T, String> id) {
    return things.stream()
        .map(id)
        .map(vocabulary::name)
        .distinct()
        .collect(Collectors.joining(", "));
  }
}
