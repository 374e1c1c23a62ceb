package firmlever.interview;

import firmlever.belief.TooManySymptoms;
import firmlever.belief.Word;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFormat;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonEdit;
import firmlever.document.Problem;
import firmlever.interview.Answer.Back;
import firmlever.interview.Answer.Found;
import firmlever.interview.Answer.How;
import firmlever.interview.Answer.Measured;
import firmlever.interview.Answer.Stop;
import firmlever.interview.Answer.Unclear;
import firmlever.interview.Answer.Why;
import firmlever.interview.Listener.Heard;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The interview as a machine of states, without a terminal, a file or a clock: each answer turns
 * one state into the next. All that is known stands in the text of the case file, so that an
 * interview cut off goes on from there.
 */
public final class Interview {
  private static final int CAUSES_SHOWN = 3;
  private static final double WORTH_SHOWING = 0.03;
  private static final int OUTCOMES_SHOWN = 4;
  private static final String NAME = "the case";

  private final Vocabulary vocabulary;
  private final CaseReader reader;
  private final Diagnostician diagnostician;
  private final Listener listener;

  public Interview(
      Vocabulary vocabulary, CaseReader reader, Diagnostician diagnostician, Listener listener) {
    this.vocabulary = vocabulary;
    this.reader = reader;
    this.diagnostician = diagnostician;
    this.listener = listener;
  }

  /** Where an interview stands. */
  public enum Phase {
    COMPLAINT,
    /** What the complaint was heard to say is put to the person, symptom by symptom. */
    CONFIRM,
    CHECK,
    OVER
  }

  /**
   * One state.
   *
   * @param text the case file as it stands
   * @param heard what is still to be confirmed, the next one first
   * @param question id of the symptom asked for; empty where none is
   * @param before the state before the last answer that changed anything; empty at the start
   */
  public record State(
      String text,
      Phase phase,
      List<Heard> heard,
      String question,
      Diagnosis diagnosis,
      Optional<State> before) {
    public boolean over() {
      return phase == Phase.OVER;
    }
  }

  /** A paragraph: {@code lead} stands once, the words wrap beside it. */
  public record Line(String lead, String words) {}

  /** A state and what is said on the way to it. */
  public record Turn(State state, List<Line> said) {}

  /** The text of a new case: nothing is known but the brake. */
  public static String newCase(String id, String day, String brake, String position, String fluid) {
    return String.format(
        Locale.ROOT,
        """
        {
          "format": "%s",
          "id": "%s",
          "opened": "%s",
          "brake": { "id": "%s", "position": "%s", "fluid": "%s" },
          "symptoms": {}
        }
        """,
        CaseFormat.FORMAT,
        id,
        day,
        brake,
        position,
        fluid);
  }

  /**
   * Begins with a case, or goes on with one.
   *
   * @throws BadInput where it cannot be read, or is closed
   */
  public Turn begin(String text) throws BadInput {
    CaseFile file = read(text);
    if (file.outcome().isPresent()) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  file.id(),
                  "is closed: its outcome is on record, and nothing is asked any more",
                  "Maybe open a new case for this brake, and name the works of this one in its"
                      + " history.")));
    }
    Diagnosis diagnosis = diagnose(file);
    boolean blank = file.complaint().isEmpty() && file.symptoms().isEmpty();
    if (blank && diagnosis.concluded().isEmpty()) {
      return new Turn(
          new State(text, Phase.COMPLAINT, List.of(), "", diagnosis, Optional.empty()), List.of());
    }
    return listened(text, file, diagnosis, Optional.empty());
  }

  /** What is asked in this state. */
  public List<Line> question(State state) {
    List<Line> lines = new ArrayList<>();
    switch (state.phase()) {
      case COMPLAINT -> {
        lines.add(new Line("", "What does the customer say? In their words, on one line."));
        lines.add(new Line("", "Or: skip, stop."));
      }
      case CONFIRM -> {
        Heard heard = state.heard().get(0);
        Symptom symptom = vocabulary.symptoms().get(heard.symptom());
        lines.add(
            new Line(
                "Heard: ",
                "\""
                    + visible(heard.words())
                    + "\". Right to note: "
                    + symptom.name()
                    + (heard.present() ? ", present?" : ", absent?")
                    + " It means: "
                    + symptom.definition()));
        lines.add(new Line("", "right (as heard), present, absent, can't say, how, back, stop"));
      }
      case CHECK -> {
        Symptom symptom = vocabulary.symptoms().get(state.question());
        lines.add(
            new Line(
                "Check: ",
                symptom.name()
                    + String.format(Locale.ROOT, " (%d min). ", symptom.minutes())
                    + symptom.definition()));
        lines.add(new Line("How: ", symptom.check()));
        String value =
            Answer.READINGS.getOrDefault(symptom.id(), List.of()).stream()
                .map(r -> "a value in " + r.kind().base() + ", ")
                .collect(Collectors.joining());
        lines.add(new Line("", "present, absent, can't say, " + value + "why, back, stop"));
      }
      default -> {
        // Nothing is asked any more.
      }
    }
    return lines;
  }

  /** Takes an answer. */
  public Turn answer(State state, String line) {
    return switch (state.phase()) {
      case COMPLAINT -> complaint(state, line.strip());
      case CONFIRM, CHECK -> found(state, line);
      case OVER -> new Turn(state, List.of());
    };
  }

  private Turn complaint(State state, String line) {
    String word = line.toLowerCase(Locale.ROOT);
    if (Set.of("s", "stop", "q", "quit").contains(word)) {
      return stopped(state);
    }
    try {
      if (line.isEmpty() || word.equals("skip")) {
        Turn next = checked(state.text(), state.diagnosis(), Optional.of(state));
        return said(next, List.of(new Line("", "No complaint noted.")));
      }
      String text = JsonEdit.set(state.text(), List.of("complaint"), line);
      CaseFile file = read(text);
      return listened(text, file, diagnose(file), Optional.of(state));
    } catch (BadInput e) {
      return new Turn(state, refused(e));
    }
  }

  /** Goes to what the complaint was heard to say, or to the checks where nothing was heard. */
  private Turn listened(String text, CaseFile file, Diagnosis diagnosis, Optional<State> before) {
    if (file.complaint().isEmpty()) {
      return checked(text, diagnosis, before);
    }
    String position = file.brake().position();
    Listener.Result result = listener.listen(file.complaint(), position);
    List<Line> said = new ArrayList<>();
    result
        .elsewhere()
        .forEach(
            each ->
                said.add(
                    new Line(
                        "",
                        "Left aside, it is said of the other wheel: \""
                            + visible(each.words())
                            + "\".")));
    if (position.equals("unknown") && !result.wheel().isEmpty()) {
      said.add(
          new Line(
              "",
              "The words speak of the "
                  + result.wheel()
                  + " wheel; the case does not say which brake it is. Write \"position\" into it."));
    }
    List<Heard> open =
        result.heard().stream().filter(each -> !known(file, diagnosis, each.symptom())).toList();
    if (open.isEmpty()) {
      if (file.symptoms().isEmpty()) {
        said.add(new Line("", "No symptom known here was heard in these words."));
      }
      return said(checked(text, diagnosis, before), said);
    }
    return new Turn(
        new State(text, Phase.CONFIRM, open, open.get(0).symptom(), diagnosis, before), said);
  }

  private Turn found(State state, String line) {
    Symptom symptom = vocabulary.symptoms().get(state.question());
    Answer answer = Answer.read(line, symptom);
    String word = line.strip().toLowerCase(Locale.ROOT);
    if (state.phase() == Phase.CONFIRM && Set.of("r", "right", "y", "yes").contains(word)) {
      answer = new Found(state.heard().get(0).present() ? "present" : "absent");
    } else if (state.phase() == Phase.CONFIRM && Set.of("n", "no").contains(word)) {
      // "No" denies what was heard, which may be an absence; it does not say what is the case.
      answer = new Unclear("\"no\" can mean two things here: say present, absent or can't say.");
    }
    if (answer instanceof Found said) {
      return noted(state, List.of("symptoms", symptom.id()), said.presence());
    }
    if (answer instanceof Measured measured) {
      return noted(state, List.of("readings", measured.reading()), measured.value());
    }
    if (answer instanceof Back) {
      return state.before().isPresent()
          ? new Turn(state.before().orElseThrow(), List.of(new Line("", "Taken back.")))
          : new Turn(state, List.of(new Line("", "There is no answer before this to take back.")));
    }
    if (answer instanceof Why) {
      return new Turn(state, why(state));
    }
    if (answer instanceof How) {
      return new Turn(state, List.of(new Line("How: ", symptom.check())));
    }
    if (answer instanceof Stop) {
      return stopped(state);
    }
    String maybe = ((Unclear) answer).maybe();
    return new Turn(
        state,
        List.of(
            new Line(
                "",
                "Not understood: "
                    + maybe
                    + " Maybe answer present, absent, can't say, back, why or stop.")));
  }

  /** Writes a finding or reading into the case and goes on. */
  private Turn noted(State state, List<String> path, Object value) {
    try {
      String text = JsonEdit.set(state.text(), path, value);
      CaseFile file = read(text);
      Diagnosis diagnosis = diagnose(file);
      List<Line> said = new ArrayList<>(news(state.diagnosis(), diagnosis));
      if (path.get(0).equals("readings") && !known(file, diagnosis, state.question())) {
        // A value the rules draw no conclusion from must not be asked for again and again.
        text = JsonEdit.set(text, List.of("symptoms", state.question()), "not-checked");
        file = read(text);
        said.add(
            new Line("", "The value is noted; by itself it does not say whether this is there."));
      }
      CaseFile now = file;
      List<Heard> left =
          state.phase() == Phase.CONFIRM
              ? state.heard().stream()
                  .skip(1)
                  .filter(each -> !known(now, diagnosis, each.symptom()))
                  .toList()
              : List.of();
      if (!left.isEmpty()) {
        return new Turn(
            new State(
                text, Phase.CONFIRM, left, left.get(0).symptom(), diagnosis, Optional.of(state)),
            said);
      }
      return said(checked(text, diagnosis, Optional.of(state)), said);
    } catch (BadInput e) {
      return new Turn(state, refused(e));
    }
  }

  /** Whether the symptom needs no more asking: it is known, or nobody can say. */
  private static boolean known(CaseFile file, Diagnosis diagnosis, String symptom) {
    return file.symptoms().containsKey(symptom)
        || diagnosis.concluded().stream().anyMatch(each -> each.symptom().equals(symptom));
  }

  /** The ranking, and the check worth most that was not asked for in vain; or the end. */
  private Turn checked(String text, Diagnosis diagnosis, Optional<State> before) {
    Optional<Step> step = next(text, diagnosis);
    List<Line> said = new ArrayList<>(standing(diagnosis));
    if (step.isPresent() && step.get().kind() == StepKind.CHECK) {
      said.add(new Line("  to be done  ", toBeDone(diagnosis, step.get())));
      return new Turn(
          new State(text, Phase.CHECK, List.of(), step.get().id(), diagnosis, before), said);
    }
    said.add(new Line("", ending(diagnosis, step)));
    return new Turn(new State(text, Phase.OVER, List.of(), "", diagnosis, before), said);
  }

  /** The first open step that is not a check nobody could answer. */
  private Optional<Step> next(String text, Diagnosis diagnosis) {
    Set<String> asked = new LinkedHashSet<>();
    try {
      read(text)
          .symptoms()
          .forEach(
              (symptom, presence) -> {
                if (presence == Presence.NOT_CHECKED) {
                  asked.add(symptom);
                }
              });
    } catch (BadInput e) {
      throw new IllegalStateException("the text was read before", e);
    }
    Optional<Step> first =
        diagnosis.next().stream()
            .filter(step -> step.open() && !asked.contains(step.id()))
            .findFirst();
    boolean unsettled =
        first.isPresent()
            && first.get().id().equals(Diagnosis.HAND_BACK)
            && !diagnosis.first().equals(Vocabulary.NO_FAULT_FOUND);
    if (!unsettled) {
      return first;
    }
    // A fault is likelier than none, but its work waits: what it waits for is asked.
    return diagnosis.next().stream()
        .filter(step -> step.kind() == StepKind.WORK && !step.forbidden())
        .flatMap(step -> step.blockedBy().stream().map(check -> released(step, check)))
        .filter(check -> vocabulary.symptoms().containsKey(check.id()))
        .filter(check -> !asked.contains(check.id()) && unknown(text, diagnosis, check.id()))
        .findFirst()
        .or(() -> first);
  }

  /** The check a work waits for, as a step of its own. */
  private Step released(Step work, String check) {
    Symptom symptom = vocabulary.symptoms().get(check);
    return new Step(
        check,
        StepKind.CHECK,
        List.of(check),
        symptom == null ? 0 : symptom.minutes(),
        0,
        List.of(),
        false,
        List.of(),
        name(work.id()) + " waits for it: " + work.why(),
        List.of());
  }

  private boolean unknown(String text, Diagnosis diagnosis, String symptom) {
    try {
      return !known(read(text), diagnosis, symptom);
    } catch (BadInput e) {
      throw new IllegalStateException("the text was read before", e);
    }
  }

  private List<Line> standing(Diagnosis d) {
    List<Line> lines = new ArrayList<>();
    int rank = 0;
    for (CauseBelief cause : d.causes()) {
      if (rank > 0 && (rank == CAUSES_SHOWN || cause.probability() < WORTH_SHOWING)) {
        break;
      }
      rank++;
      lines.add(
          new Line(
              rank == 1 ? "  so far  " : "          ",
              vocabulary.causes().get(cause.id()).name()
                  + ", "
                  + Word.worded(cause.probability())));
    }
    if (d.noFaultFound() >= WORTH_SHOWING) {
      lines.add(new Line("          ", "no fault at all, " + Word.worded(d.noFaultFound())));
    }
    return lines;
  }

  private String toBeDone(Diagnosis diagnosis, Step step) {
    List<Step> path = new ArrayList<>(List.of(step));
    diagnosis.next().stream()
        .dropWhile(each -> !each.id().equals(step.id()))
        .skip(1)
        // What has no outcomes is not on the path: it only waits.
        .takeWhile(each -> !each.outcomes().isEmpty())
        .forEach(path::add);
    List<String> line = new ArrayList<>();
    for (Step each : path) {
      line.add(
          (each.kind() == StepKind.CHECK ? "check " : "")
              + name(each.id())
              + String.format(Locale.ROOT, " (%.0f min)", each.minutes()));
      if (each.kind() == StepKind.WORK) {
        break;
      }
    }
    boolean ends = path.stream().anyMatch(each -> each.kind() == StepKind.WORK);
    return "if all comes as expected: " + String.join(", then ", line) + (ends ? "" : ", and on");
  }

  private String ending(Diagnosis diagnosis, Optional<Step> step) {
    if (step.isEmpty()) {
      return "No check and no work known here is worth its minutes now: ask the maker or a trained"
          + " mechanic.";
    }
    String id = step.get().id();
    String card = " Its card: firmlever jobcard CASE " + id;
    if (!id.equals(Diagnosis.HAND_BACK)) {
      return "No further check is worth its minutes. Do: "
          + name(id)
          + String.format(Locale.ROOT, " (%.0f min): ", step.get().minutes())
          + step.get().why()
          + "."
          + card;
    }
    String kept = "Nothing more is worth its minutes before the acceptance checks.";
    if (diagnosis.first().equals(Vocabulary.NO_FAULT_FOUND)) {
      return kept + " Passed, all of them, it may go back: " + step.get().why() + "." + card;
    }
    String instead =
        diagnosis.next().stream()
            .filter(each -> each.kind() == StepKind.WORK && each.open())
            .filter(each -> !each.id().equals(Diagnosis.HAND_BACK))
            .findFirst()
            .map(each -> "do: " + name(each.id()) + ": " + each.why())
            .orElse("ask the maker or a trained mechanic");
    return kept
        + " Mind that "
        + name(diagnosis.first())
        + " is likelier than no fault: should any of them fail, "
        + instead
        + "."
        + card;
  }

  /** What the last answer brought up: contradictions and reasons not to ride. */
  private List<Line> news(Diagnosis before, Diagnosis now) {
    List<Line> lines = new ArrayList<>();
    for (Diagnosis.Contradiction each : now.contradictions()) {
      if (!before.contradictions().contains(each)) {
        lines.add(
            new Line(
                "  ! ",
                "These cannot both be true: "
                    + each.symptoms().stream().map(this::name).collect(Collectors.joining(", "))
                    + ": "
                    + each.why()
                    + ". Maybe look again; back takes the last answer away, or go on and it is"
                    + " kept as said."));
      }
    }
    Set<String> told =
        before.stopRide()
            ? before.ride().because().stream().map(Because::id).collect(Collectors.toSet())
            : Set.of();
    // A cause speaks only where nothing forbade riding before: its chance moves with every answer.
    now.ride().because().stream()
        .filter(each -> now.stopRide() && !told.contains(each.id()))
        .filter(each -> !each.isCause() || !before.stopRide() && now.hazards().isEmpty())
        .forEach(
            each ->
                lines.add(
                    new Line("  ! ", "Not to be ridden: " + name(each.id()) + ": " + each.why())));
    return lines;
  }

  private List<Line> why(State state) {
    Optional<Step> step =
        state.diagnosis().next().stream()
            .filter(each -> each.id().equals(state.question()))
            .findFirst();
    if (state.phase() == Phase.CONFIRM || step.isEmpty()) {
      return List.of(
          new Line(
              "Why: ",
              "the words only suggest it. What you say counts, and nothing else is written down."));
    }
    List<Line> lines = new ArrayList<>();
    lines.add(
        new Line(
            "Why: ",
            step.get().why()
                + (step.get().saves() < 0.5
                    ? ""
                    : String.format(
                        Locale.ROOT,
                        "; without it the repair is expected to take %.0f min more",
                        step.get().saves()))));
    step.get().outcomes().stream()
        .limit(OUTCOMES_SHOWN)
        .forEach(outcome -> lines.add(new Line("     ", leads(outcome))));
    state.diagnosis().turning().stream()
        .filter(turn -> turn.symptom().equals(state.question()))
        .forEach(
            turn ->
                lines.add(
                    new Line(
                        "     ",
                        "if present, "
                            + outcome(turn.ifPresent())
                            + " leads, "
                            + Word.worded(turn.ifPresentProbability())
                            + "; if absent, "
                            + outcome(turn.ifAbsent())
                            + ", "
                            + Word.worded(turn.ifAbsentProbability()))));
    state.diagnosis().stoppedEarly().forEach(what -> lines.add(new Line("     ", what)));
    return lines;
  }

  private String leads(Outcome outcome) {
    return outcome.result().toLowerCase(Locale.ROOT).replace('_', ' ')
        + ", "
        + Word.worded(outcome.probability())
        + ": "
        + outcome.next().map(this::name).orElse("nothing more");
  }

  private String outcome(String id) {
    return id.equals(Vocabulary.NO_FAULT_FOUND) ? "no fault at all" : name(id);
  }

  private static Turn stopped(State state) {
    return new Turn(
        new State(
            state.text(),
            Phase.OVER,
            state.heard(),
            state.question(),
            state.diagnosis(),
            state.before()),
        List.of(
            new Line("", "Stopped. All answers are in the case file; ask goes on from there.")));
  }

  private static Turn said(Turn turn, List<Line> first) {
    List<Line> all = new ArrayList<>(first);
    all.addAll(turn.said());
    return new Turn(turn.state(), all);
  }

  private static List<Line> refused(BadInput e) {
    return e.problems().stream()
        .map(
            problem ->
                new Line(
                    "",
                    "That cannot be noted: "
                        + problem.message()
                        + problem.maybe().map(maybe -> ". " + maybe).orElse(".")))
        .toList();
  }

  private CaseFile read(String text) throws BadInput {
    return reader.read(DocumentReader.readText(text, NAME), NAME);
  }

  private Diagnosis diagnose(CaseFile file) throws BadInput {
    try {
      return diagnostician.diagnose(file, Options.WITHOUT_DRAWS);
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(Problem.ofFile(NAME, e.what(), e.maybe())));
    }
  }

  private String name(String id) {
    if (vocabulary.symptoms().containsKey(id)) {
      return vocabulary.symptoms().get(id).name();
    }
    return vocabulary.causes().containsKey(id)
        ? vocabulary.causes().get(id).name()
        : vocabulary.actions().get(id).name();
  }

  /** Control characters would steer the terminal. */
  private static String visible(String text) {
    return text.replaceAll("\\p{Cntrl}", " ");
  }
}
