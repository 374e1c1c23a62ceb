package firmlever.interview;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Chance;
import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.Contradiction;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonEdit;
import firmlever.document.Node;
import firmlever.document.Problem;
import firmlever.hearing.Guesses;
import firmlever.hearing.Heard;
import firmlever.hearing.Heeding;
import firmlever.hearing.Heeding.Heeded;
import firmlever.hearing.Recounting;
import firmlever.hearing.language.Certainty;
import firmlever.interview.Answer.Back;
import firmlever.interview.Answer.Measured;
import firmlever.interview.Answer.No;
import firmlever.interview.Answer.Open;
import firmlever.interview.Answer.Seen;
import firmlever.interview.Answer.Stop;
import firmlever.interview.Answer.Unclear;
import firmlever.interview.Answer.Why;
import firmlever.interview.Answer.Yes;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.CheckKind;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The interview as a machine of states, without a terminal, a file or a clock: each answer turns
 * one state into the next. All that is known stands in the text of the case file, so that an
 * interview cut off goes on from there; what nobody could say is asked for again then.
 */
public final class Interview {
  private static final int CAUSES_SHOWN = 2;
  private static final double WORTH_SHOWING = 0.1;
  private static final int OUTCOMES_SHOWN = 4;
  private static final String NAME = "the case";
  private static final String HISTORY = "history";
  private static final String MISHEARD = "misheard";

  /** Stands among what is passed once a finding that cannot be true was asked for again. */
  private static final String DOUBTED = "doubted";

  /** Stands before words that were put to the person, among what is passed. */
  private static final String MEANT = "meant by ";

  private final Vocabulary vocabulary;
  private final Map<String, String> opposites;
  private final CaseReader reader;
  private final Diagnostician diagnostician;
  private final Heeding heeding;
  private final Recounting recounting;
  private final Guesses guesses = new Guesses();

  public Interview(
      Vocabulary vocabulary, CaseReader reader, Diagnostician diagnostician, Heeding heeding) {
    this.vocabulary = vocabulary;
    this.opposites = vocabulary.opposites();
    this.reader = reader;
    this.diagnostician = diagnostician;
    this.heeding = heeding;
    this.recounting = new Recounting(vocabulary);
  }

  /** Where an interview stands. */
  public enum Phase {
    COMPLAINT,
    /** What the complaint was heard to say is put to the person, one thing at a time. */
    HEARD,
    /** Words of the complaint nobody understood, with what they are most like. */
    MEANT,
    /** What was done to the brake lately. */
    DONE,
    /** One look, and all that it shows. */
    LOOK,
    OVER,
    STOPPED
  }

  /**
   * Something heard in the complaint.
   *
   * @param symptom id of the symptom; empty for a work or an event
   * @param present whether it was said to be there
   * @param entry the work or event as an entry of the history; none for a symptom
   */
  record Put(String words, String symptom, boolean present, Map<String, Object> entry) {
    /** Id of what was heard. */
    String id() {
      return symptom.isEmpty()
          ? (String) requireNonNull(entry.getOrDefault("work", entry.get("event")))
          : symptom;
    }
  }

  /**
   * One state.
   *
   * @param text the case file as it stands
   * @param heard what of the complaint is put to the person; empty but in that phase
   * @param question ids of the symptoms asked for, in the order of their numbers
   * @param passed ids of what nobody can say just now
   * @param before the state before the last answer that changed anything; empty at the start
   */
  public record State(
      String text,
      Phase phase,
      Optional<Put> heard,
      List<String> question,
      Set<String> passed,
      Diagnosis diagnosis,
      Optional<State> before) {
    public boolean over() {
      return phase == Phase.OVER || phase == Phase.STOPPED;
    }
  }

  /** A paragraph: {@code lead} stands once, the words wrap beside it. */
  public record Line(String lead, String words) {
    private Line(String words) {
      this("", words);
    }
  }

  /** A state and what is said on the way to it. */
  public record Turn(State state, List<Line> said) {}

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
    return onward(text, Set.of(), Optional.empty(), List.of(new Line("Answer ", Answer.LETTERS)));
  }

  /** What is asked in this state. */
  public List<Line> question(State state) {
    return switch (state.phase()) {
      case COMPLAINT ->
          List.of(new Line("What does the customer say? In their words, on one line, or ?"));
      case HEARD -> {
        Put heard = state.heard().orElseThrow();
        yield List.of(
            new Line(
                "Heard: ",
                "\""
                    + visible(heard.words())
                    + "\": "
                    + spoken(heard)
                    + meaning(heard)
                    + (onlyToldOf(heard.symptom())
                        ? ". Did the rider say so? y n ?"
                        : ". Is it so? y n ?")));
      }
      case MEANT -> meant(state);
      case DONE ->
          List.of(
              new Line(
                  "What was done to the brake lately, when, and by whom? Such as: bled 12 May with"
                      + " DOT 4 by T3; new pads yesterday, by the owner. n or nothing for nothing."));
      case LOOK -> look(state.question());
      default -> List.of();
    };
  }

  private List<Line> meant(State state) {
    List<Line> lines = new ArrayList<>();
    lines.add(
        new Line(
            "Not understood: ",
            "\"" + visible(state.heard().orElseThrow().words()) + "\". Perhaps:"));
    for (int i = 0; i < state.question().size(); i++) {
      Symptom symptom = vocabulary.symptom(state.question().get(i));
      lines.add(
          new Line(
              String.format(Locale.ROOT, "%4d  ", i + 1),
              symptom.name() + ": " + symptom.definition()));
    }
    lines.add(
        new Line(
            state.question().size() == 1
                ? "Is it so? y, n for something else, ?"
                : "Which? Its number, n for none of these, ?"));
    return lines;
  }

  private List<Line> look(List<String> asked) {
    List<Symptom> symptoms = asked.stream().map(vocabulary.symptoms()::get).toList();
    Symptom first = symptoms.get(0);
    int minutes = symptoms.stream().mapToInt(Symptom::minutes).max().orElseThrow();
    String time = String.format(Locale.ROOT, " (%d min).", minutes);
    List<Line> lines = new ArrayList<>();
    if (symptoms.size() == 1) {
      lines.add(new Line("Look: ", first.name() + time + " " + first.definition()));
      lines.add(new Line("How: ", first.check()));
    } else {
      lines.add(new Line("Look: ", vocabulary.lookFor(first.id(), true) + time));
      lines.add(new Line("How: ", vocabulary.howTo(first.id())));
      for (int i = 0; i < symptoms.size(); i++) {
        String number = String.format(Locale.ROOT, "%4d  ", i + 1);
        lines.add(new Line(number, symptoms.get(i).name()));
      }
    }
    String value =
        IntStream.range(0, symptoms.size())
            .boxed()
            .flatMap(i -> measured(symptoms, i))
            .collect(Collectors.joining());
    lines.add(
        new Line(
            symptoms.size() == 1
                ? "Is it there? y n ?" + value
                : tracing(asked)
                    ? "Which is the highest that gets wet? Its number, n if all is dry, ?"
                    : "What is there? Its numbers (1 3), n for nothing, 2? where 2 was not looked at, ?"
                        + value));
    return lines;
  }

  private static Stream<String> measured(List<Symptom> symptoms, int place) {
    return Answer.READINGS.getOrDefault(symptoms.get(place).id(), List.of()).stream()
        .map(r -> r.kind().base())
        .map(
            unit ->
                symptoms.size() == 1
                    ? ", or what it measured, in " + unit
                    : ", or what "
                        + (place + 1)
                        + " measured, in "
                        + unit
                        + " ("
                        + (place + 1)
                        + ": 2.5)");
  }

  /** Whether it is asked where it is wet, from the top down. */
  private boolean tracing(List<String> asked) {
    return asked.size() > 1
        && vocabulary.symptom(asked.get(0)).look().equals(Vocabulary.LEAK_TRACING);
  }

  private String spoken(Put heard) {
    return heard.symptom().isEmpty()
        ? spoken(heard.entry())
        : vocabulary.symptom(heard.symptom()).said(heard.present());
  }

  private String meaning(Put heard) {
    if (heard.symptom().isEmpty()) {
      return "";
    }
    Symptom symptom = vocabulary.symptom(heard.symptom());
    String meaning = symptom.definition().replaceFirst("\\.$", "");
    return " (" + (heard.present() ? "" : symptom.name() + ": ") + meaning + ")";
  }

  private String spoken(Map<String, Object> entry) {
    List<String> words =
        new ArrayList<>(
            List.of(
                vocabulary.name(String.valueOf(entry.getOrDefault("work", entry.get("event"))))));
    Optional.ofNullable(entry.get("date")).ifPresent(day -> words.add("on " + day));
    Optional.ofNullable(entry.get("fluid")).ifPresent(fluid -> words.add("with " + fluid));
    Optional.ofNullable(entry.get("by")).ifPresent(who -> words.add("by " + who));
    Optional.ofNullable(entry.get("outcome"))
        .map(id -> vocabulary.outcome((String) id).name())
        .ifPresent(words::add);
    return String.join(", ", words);
  }

  /** Takes an answer. */
  public Turn answer(State state, String line) {
    List<Symptom> asked = state.question().stream().map(vocabulary.symptoms()::get).toList();
    Answer answer =
        state.phase() == Phase.LOOK || state.phase() == Phase.MEANT
            ? Answer.read(one(state, line) ? "y" : line, asked)
            : Answer.word(line).orElse(new Unclear("say y, n or ?"));
    try {
      if (state.over()) {
        return new Turn(state, List.of());
      }
      if (answer instanceof Back) {
        return state.before().isPresent()
            ? new Turn(state.before().get(), List.of(new Line("Taken back.")))
            : new Turn(state, List.of(new Line("There is no answer before this to take back.")));
      }
      if (answer instanceof Why) {
        return new Turn(state, why(state));
      }
      if (answer instanceof Stop) {
        return stopped(state);
      }
      return switch (state.phase()) {
        case COMPLAINT -> complaint(state, line.strip(), answer);
        case HEARD -> heard(state, answer);
        case MEANT -> meant(state, answer);
        case DONE -> done(state, line.strip(), answer);
        default -> looked(state, answer);
      };
    } catch (BadInput e) {
      return new Turn(state, refused(e));
    }
  }

  /** Whether the number of the only guess was said. */
  private static boolean one(State state, String line) {
    return state.phase() == Phase.MEANT && state.question().size() == 1 && line.strip().equals("1");
  }

  private Turn complaint(State state, String line, Answer answer) throws BadInput {
    return line.isEmpty() || answer instanceof Open || answer instanceof No
        ? passing(state, List.of("complaint"))
        : onward(
            JsonEdit.set(state.text(), List.of("complaint"), line),
            state.passed(),
            Optional.of(state),
            List.of());
  }

  private Turn heard(State state, Answer answer) throws BadInput {
    Put heard = state.heard().orElseThrow();
    if (answer instanceof Open) {
      return passing(state, List.of(heard.id()));
    }
    if (!(answer instanceof Yes || answer instanceof No)) {
      return unclear(state, answer);
    }
    boolean so = answer instanceof Yes;
    String text;
    if (!so && onlyToldOf(heard.symptom())) {
      // A cold lever at the stand says nothing of a hot one: what was misheard is open, not absent.
      return onward(
          JsonEdit.add(state.text(), MISHEARD, heard.symptom()),
          state.passed(),
          Optional.of(state),
          List.of());
    }
    if (!heard.symptom().isEmpty()) {
      text = found(state.text(), heard.symptom(), so == heard.present());
    } else if (so) {
      Map<String, Object> entry = new LinkedHashMap<>(heard.entry());
      entry.put("note", "heard: " + heard.words());
      text = JsonEdit.add(state.text(), HISTORY, entry);
    } else {
      text = JsonEdit.add(state.text(), MISHEARD, heard.id());
    }
    List<Line> said =
        so || heard.symptom().isEmpty()
            ? List.of()
            : List.of(
                new Line(
                    "Noted: " + vocabulary.symptom(heard.symptom()).said(!heard.present()) + "."));
    return onward(text, state.passed(), Optional.of(state), said);
  }

  /** Whether only the rider can tell it: nothing at the stand shows it or shows that it is gone. */
  private boolean onlyToldOf(String symptom) {
    return !symptom.isEmpty() && vocabulary.symptom(symptom).kind() == CheckKind.ASK;
  }

  /** Notes what the words meant; that they meant nothing of it says nothing of the brake. */
  private Turn meant(State state, Answer answer) throws BadInput {
    List<String> put = List.of(MEANT + state.heard().orElseThrow().words());
    if (answer instanceof Open) {
      return passing(state, put);
    }
    if (!(answer instanceof Seen seen) || !seen.measured().isEmpty()) {
      return unclear(state, answer);
    }
    String text = state.text();
    for (int place : seen.there()) {
      text = found(text, state.question().get(place), true);
    }
    return onward(text, with(state.passed(), put), Optional.of(state), List.of());
  }

  private Turn done(State state, String line, Answer answer) throws BadInput {
    if (answer instanceof Open) {
      return passing(state, List.of(HISTORY));
    }
    boolean nothing = line.isEmpty() || answer instanceof No;
    List<Map<String, Object>> entries =
        nothing ? List.of() : recounting.entries(line, read(state.text()).opened());
    String text = state.text();
    List<Line> said = new ArrayList<>();
    if (entries.isEmpty()) {
      text = JsonEdit.set(text, List.of(HISTORY), List.of());
    }
    for (Map<String, Object> entry : entries) {
      text = JsonEdit.add(text, HISTORY, entry);
      said.add(new Line("Noted: ", spoken(entry)));
    }
    return onward(text, state.passed(), Optional.of(state), said);
  }

  private Turn looked(State state, Answer answer) throws BadInput {
    if (answer instanceof Open) {
      return passing(state, state.question());
    }
    return answer instanceof Seen seen ? seen(state, seen) : unclear(state, answer);
  }

  private static Turn unclear(State state, Answer answer) {
    String maybe = answer instanceof Unclear unclear ? unclear.maybe() : "say y, n or ?";
    return new Turn(
        state, List.of(new Line("Not understood: " + maybe + " Or: ? - w s, as said above.")));
  }

  /** Goes on without an answer: nothing is noted. */
  private Turn passing(State state, List<String> what) throws BadInput {
    return onward(state.text(), with(state.passed(), what), Optional.of(state), List.of());
  }

  /** Writes what a look showed into the case and goes on. */
  private Turn seen(State state, Seen seen) throws BadInput {
    List<String> asked = state.question();
    List<String> there = seen.there().stream().map(asked::get).toList();
    List<String> open = new ArrayList<>(seen.open().stream().map(asked::get).toList());
    List<Line> said = new ArrayList<>();
    if (tracing(asked) && !there.isEmpty()) {
      int highest = there.stream().mapToInt(this::height).max().orElseThrow();
      asked.stream().filter(place -> height(place) < highest).forEach(open::add);
      there = there.stream().filter(place -> height(place) == highest).toList();
      said.add(
          new Line("What is wet below it may only have been run over: mend the highest first."));
    }
    String text = state.text();
    for (Map.Entry<Integer, Measured> each : seen.measured().entrySet()) {
      Measured measured = each.getValue();
      text = JsonEdit.set(text, List.of("readings", measured.reading()), measured.value());
      open.add(asked.get(each.getKey()));
    }
    for (String symptom : there) {
      text = found(text, symptom, true);
    }
    Set<String> told = new HashSet<>(there);
    Map<String, Set<String>> coarser = vocabulary.coarser();
    there.forEach(fine -> told.addAll(coarser.getOrDefault(fine, Set.of())));
    List<String> rest =
        asked.stream().filter(id -> !told.contains(id) && !open.contains(id)).toList();
    if (tracing(asked) && there.isEmpty() && open.isEmpty() && !known(state, "leak-found")) {
      rest = List.of("leak-found");
    }
    String whole = text;
    for (String symptom : rest) {
      whole = found(whole, symptom, false);
    }
    if (asked.size() > 1) {
      // What was only not named among many is no finding against one that was made.
      Set<String> clashing = clashing(state.diagnosis(), read(whole));
      open.addAll(rest.stream().filter(clashing::contains).toList());
      for (String symptom : rest) {
        text = clashing.contains(symptom) ? text : found(text, symptom, false);
      }
    } else {
      text = whole;
    }
    return onward(text, with(state.passed(), open), Optional.of(state), said);
  }

  private int height(String place) {
    return vocabulary.symptom(place).height();
  }

  private static String found(String text, String symptom, boolean present) throws BadInput {
    return JsonEdit.set(text, List.of("symptoms", symptom), present ? "present" : "absent");
  }

  private static Set<String> with(Set<String> some, List<String> more) {
    Set<String> all = new LinkedHashSet<>(some);
    all.addAll(more);
    return all;
  }

  /** Symptoms of findings that cannot all be true, and could before. */
  private Set<String> clashing(Diagnosis before, CaseFile now) {
    try {
      List<List<String>> known =
          before.contradictions().stream().map(Contradiction::symptoms).toList();
      return diagnostician.belief(heeding.heed(now).file()).model().contradictions().stream()
          .filter(each -> !known.contains(each.symptoms()))
          .flatMap(each -> each.symptoms().stream())
          .collect(Collectors.toSet());
    } catch (TooManySymptoms e) {
      return Set.of(); // Named when it is diagnosed.
    }
  }

  /** From what is known now to the next question, or to the end. */
  private Turn onward(String text, Set<String> passed, Optional<State> before, List<Line> first)
      throws BadInput {
    Node.Object document = (Node.Object) DocumentReader.readText(text, NAME);
    CaseFile file = reader.read(document, NAME);
    Heeded heeded = heeding.heed(file);
    Diagnosis d = diagnose(heeded);
    List<Line> said = new ArrayList<>(first);
    before.ifPresent(state -> said.addAll(news(state.diagnosis(), d)));
    boolean blank = file.complaint().isEmpty() && file.symptoms().isEmpty();
    if (blank && d.concluded().isEmpty() && !passed.contains("complaint")) {
      return asking(Phase.COMPLAINT, text, List.of(), passed, d, before, said);
    }
    boolean fresh = before.map(state -> state.phase() == Phase.COMPLAINT).orElse(true);
    heeded.heard().filter(heard -> fresh).ifPresent(heard -> said.addAll(listened(heard, file)));
    Optional<Put> finding =
        heeded.heard().stream()
            .flatMap(heard -> heard.findings().stream())
            .map(this::put)
            .filter(put -> !file.symptoms().containsKey(put.id()) && !passed.contains(put.id()))
            .filter(put -> d.concluded().stream().noneMatch(c -> c.symptom().equals(put.id())))
            .findFirst();
    if (finding.isPresent()) {
      return new Turn(
          new State(text, Phase.HEARD, finding, List.of(finding.get().id()), passed, d, before),
          said);
    }
    Set<String> known = new HashSet<>(file.symptoms().keySet());
    d.concluded().forEach(each -> known.add(each.symptom()));
    boolean untold = document.get(HISTORY).isEmpty() && !passed.contains(HISTORY);
    // Asked once: that words meant nothing of the brake is written nowhere.
    Optional<State> meant =
        heeded
            .heard()
            .filter(heard -> untold)
            .flatMap(heard -> meant(heard, known, text, passed, d, before));
    if (meant.isPresent()) {
      return new Turn(meant.get(), said);
    }
    if (untold) {
      return asking(Phase.DONE, text, List.of(), passed, d, before, said);
    }
    Set<String> recorded = new HashSet<>(file.misheard());
    file.history().forEach(entry -> recorded.add(entry.work() + entry.event()));
    Optional<Put> deed =
        heeded.heard().stream()
            .flatMap(heard -> heard.history().stream())
            .map(told -> put(told, file.opened()))
            .filter(put -> !recorded.contains(put.id()) && !passed.contains(put.id()))
            .findFirst();
    if (deed.isPresent()) {
      return new Turn(new State(text, Phase.HEARD, deed, List.of(), passed, d, before), said);
    }
    said.add(new Line("  so far  ", standing(d)));
    Optional<Step> step = next(heeded, d, passed);
    List<String> looks = step.isPresent() ? asked(step.get(), passed) : notLooked(file, d, passed);
    if (!looks.isEmpty()) {
      return asking(Phase.LOOK, text, looks, passed, d, before, said);
    }
    // Before it ends, what cannot be true is looked at once more.
    List<String> doubted =
        d.contradictions().stream()
            .flatMap(each -> each.symptoms().stream())
            .filter(id -> file.symptoms().containsKey(id))
            .distinct()
            .limit(1)
            .toList();
    if (!doubted.isEmpty() && !passed.contains(DOUBTED)) {
      Set<String> once = with(passed, List.of(DOUBTED));
      return asking(Phase.LOOK, text, doubted, once, d, before, said);
    }
    said.add(new Line(ending(file, d, step, passed)));
    return asking(Phase.OVER, text, List.of(), passed, d, before, said);
  }

  /** The next clause nobody understood that is like something people say of brakes. */
  private Optional<State> meant(
      Heard heard,
      Set<String> known,
      String text,
      Set<String> passed,
      Diagnosis d,
      Optional<State> before) {
    return guesses
        .of(heard, id -> vocabulary.symptoms().containsKey(id) && !known.contains(id))
        .stream()
        .filter(guess -> !passed.contains(MEANT + guess.words()))
        .findFirst()
        .map(
            guess -> {
              Optional<Put> clause = Optional.of(new Put(guess.words(), "", true, Map.of()));
              return new State(text, Phase.MEANT, clause, guess.ids(), passed, d, before);
            });
  }

  private static Turn asking(
      Phase phase,
      String text,
      List<String> question,
      Set<String> passed,
      Diagnosis d,
      Optional<State> before,
      List<Line> said) {
    return new Turn(new State(text, phase, Optional.empty(), question, passed, d, before), said);
  }

  private Put put(Heard.Finding heard) {
    boolean said = heard.certainty() != Certainty.ABSENT;
    String symptom = opposites.get(heard.symptom());
    return new Put(
        heard.words(),
        symptom == null ? heard.symptom() : symptom,
        said == (symptom == null),
        Map.of());
  }

  private static Put put(Heard.Told told, LocalDate opened) {
    return new Put(told.words(), "", true, Recounting.entry(told, opened));
  }

  /** What of the complaint is left aside, or was not understood. */
  private static List<Line> listened(Heard heard, CaseFile file) {
    List<Line> said = new ArrayList<>();
    heard
        .elsewhere()
        .forEach(
            each ->
                said.add(
                    new Line(
                        "Left aside, it is said of the other wheel: \""
                            + visible(each.words())
                            + "\".")));
    boolean one = heard.wheel() == Heard.Wheel.FRONT || heard.wheel() == Heard.Wheel.REAR;
    if (one && file.brake().position().equals("unknown")) {
      said.add(
          new Line(
              "The words speak of the "
                  + heard.wheel().name().toLowerCase(Locale.ROOT)
                  + " wheel; the case does not say which brake it is. Write \"position\" into it."));
    }
    if (heard.findings().isEmpty() && heard.history().isEmpty()) {
      said.add(
          new Line(
              "Nothing of the complaint was understood. The looks that tell most come first."));
    }
    return said;
  }

  /** What is asked of a step: of a look, but not what nobody can say. */
  private List<String> asked(Step step, Set<String> passed) {
    return fromTheTop(step.looks().stream().filter(id -> !passed.contains(id)).toList());
  }

  /** Of wet places the highest first, and nothing that is no place; other looks as they are. */
  private List<String> fromTheTop(List<String> looks) {
    List<String> places = looks.stream().filter(id -> height(id) > 0).toList();
    return places.isEmpty()
        ? looks
        : places.stream().sorted(Comparator.comparingInt(id -> -height(id))).toList();
  }

  /**
   * Where nothing known is worth its minutes and yet the brake cannot go back: the next place
   * nobody has looked at; empty where all is looked at.
   */
  private List<String> notLooked(CaseFile file, Diagnosis d, Set<String> passed) {
    Set<String> known = new HashSet<>(file.symptoms().keySet());
    d.concluded().forEach(each -> known.add(each.symptom()));
    known.addAll(passed);
    Optional<Symptom> first =
        d.ride().notLooked().stream()
            .filter(id -> !passed.contains(id))
            .map(vocabulary.symptoms()::get)
            .findFirst();
    return vocabulary.symptoms().values().stream()
        .filter(each -> first.filter(each::isSeenWith).isPresent() && !known.contains(each.id()))
        .map(Symptom::id)
        .collect(Collectors.collectingAndThen(Collectors.toList(), this::fromTheTop));
  }

  /** The look that would come next, where nobody can make it or all of it. */
  private static Optional<Step> missing(Diagnosis d, Set<String> passed) {
    return d.firstStep().filter(step -> step.looks().stream().anyMatch(passed::contains));
  }

  /**
   * The first open step that is not a look nobody could make. Where the plan begins with such a
   * look, it is made anew without it, since what follows a look in a plan follows its likeliest
   * result. A work that comes next there would be done blindly, and is not proposed.
   */
  private Optional<Step> next(Heeded heeded, Diagnosis d, Set<String> passed) {
    if (missing(d, passed).isEmpty()) {
      return open(d.next(), passed).findFirst();
    }
    return Stream.of(diagnostician.planWithout(heeded, passed), d.next())
        .flatMap(plan -> open(plan, passed).limit(1))
        .filter(step -> step.kind() == StepKind.CHECK)
        .findFirst();
  }

  private Stream<Step> open(List<Step> plan, Set<String> passed) {
    return plan.stream()
        .filter(Step::open)
        .filter(step -> step.kind() == StepKind.WORK || !asked(step, passed).isEmpty());
  }

  private boolean known(State state, String symptom) throws BadInput {
    return read(state.text()).symptoms().containsKey(symptom)
        || state.diagnosis().concluded().stream().anyMatch(c -> c.symptom().equals(symptom));
  }

  private String standing(Diagnosis d) {
    String causes =
        d.causes().stream()
            .limit(CAUSES_SHOWN)
            .filter(cause -> cause.probability() >= WORTH_SHOWING)
            .map(
                cause ->
                    vocabulary.name(cause.id()) + ", " + Chance.withNumber(cause.probability()))
            .collect(Collectors.joining("; "));
    String none =
        d.noFaultFound() >= WORTH_SHOWING
            ? "no fault at all, " + Chance.withNumber(d.noFaultFound())
            : "";
    return Stream.of(causes, none)
        .filter(words -> !words.isEmpty())
        .reduce((a, b) -> a + "; " + b)
        .orElse("nothing stands out");
  }

  private String ending(CaseFile file, Diagnosis d, Optional<Step> step, Set<String> passed) {
    if (!d.contradictions().isEmpty()) {
      return "Findings contradict each other ("
          + d.contradictions().get(0).why()
          + "), so nothing is proposed and it is not handed back: measure again, and mend the one"
          + " that is wrong in the case file.";
    }
    if (step.isPresent()) {
      return "Nothing more is worth asking. Its card: firmlever jobcard CASE " + step.get().id();
    }
    Optional<Step> missing = missing(d, passed);
    if (missing.isPresent()) {
      String look = missing.get().id();
      return "What to do now hangs on what you could not say: "
          + vocabulary.lookFor(look, missing.get().looks().size() > 1)
          + ". "
          + vocabulary.howTo(look)
          + " Look when you can, or ask a trained mechanic; until then it is not handed back.";
    }
    List<String> looked =
        file.symptoms().keySet().stream()
            .map(vocabulary.symptoms()::get)
            .map(Symptom::name)
            .toList();
    String open =
        passed.stream()
            .filter(vocabulary.symptoms()::containsKey)
            .map(vocabulary::name)
            .collect(Collectors.joining(", "));
    return "Not found with what was looked at: "
        + (looked.isEmpty() ? "nothing yet" : String.join(", ", looked))
        + (open.isEmpty() ? "" : ". Not looked at: " + open)
        + ". It is not handed back like this: look at the rest, or ask a trained mechanic or the"
        + " maker.";
  }

  /** What the last answer brought up: contradictions and reasons not to ride. */
  private List<Line> news(Diagnosis before, Diagnosis now) {
    List<Line> lines = new ArrayList<>();
    for (Contradiction each : now.contradictions()) {
      if (!before.contradictions().contains(each)) {
        lines.add(
            new Line(
                "  ! ",
                "These cannot both be true: "
                    + each.symptoms().stream()
                        .map(vocabulary::name)
                        .collect(Collectors.joining(", "))
                    + ": "
                    + each.why()
                    + ". Maybe look again; - takes the last answer back, or go on and it is"
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
        .limit(1)
        .forEach(
            each ->
                lines.add(
                    new Line(
                        "  ! ",
                        "Not to be ridden: " + vocabulary.name(each.id()) + ": " + each.why())));
    return lines;
  }

  private List<Line> why(State state) throws BadInput {
    Optional<Step> step =
        state.phase() == Phase.LOOK
            ? next(heeding.heed(read(state.text())), state.diagnosis(), state.passed())
                .filter(each -> each.looks().containsAll(state.question()))
            : Optional.empty();
    if (step.isEmpty()) {
      return List.of(
          new Line(
              "Why: ",
              state.phase() == Phase.HEARD || state.phase() == Phase.MEANT
                  ? "the words only suggest it. What you say counts, and nothing else is noted."
                  : "what is told, and what was done before, says where to look first."));
    }
    List<Line> lines = new ArrayList<>(List.of(new Line("Why: ", step.get().why())));
    step.get().outcomes().stream()
        .sorted(Comparator.comparingDouble(outcome -> -outcome.probability()))
        .limit(OUTCOMES_SHOWN)
        .forEach(outcome -> lines.add(new Line("     ", leads(outcome))));
    state.diagnosis().stoppedEarly().forEach(what -> lines.add(new Line("     ", what)));
    return lines;
  }

  private String leads(Outcome outcome) {
    return (outcome.symptom().isEmpty() ? "none of it" : vocabulary.name(outcome.symptom()))
        + ", "
        + Chance.withNumber(outcome.probability())
        + ": "
        + outcome.next().map(this::doing).orElse("it is worked out anew then");
  }

  private String doing(String step) {
    return vocabulary.symptoms().containsKey(step)
        ? vocabulary.inQuestion(step)
        : vocabulary.name(step);
  }

  private static Turn stopped(State state) {
    return new Turn(
        new State(
            state.text(),
            Phase.STOPPED,
            state.heard(),
            state.question(),
            state.passed(),
            state.diagnosis(),
            state.before()),
        List.of(new Line("Stopped. All answers are in the case file; ask goes on from there.")));
  }

  private static List<Line> refused(BadInput e) {
    return e.problems().stream()
        .map(
            problem ->
                new Line("That cannot be noted: " + problem.spoken().replace("\n    ", ". ")))
        .toList();
  }

  private CaseFile read(String text) throws BadInput {
    return reader.read(DocumentReader.readText(text, NAME), NAME);
  }

  private Diagnosis diagnose(Heeded heeded) throws BadInput {
    try {
      return diagnostician.diagnose(heeded, Options.WITHOUT_DRAWS);
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(Problem.ofFile(NAME, e.what(), e.maybe())));
    }
  }

  /** Control characters would steer the terminal. */
  private static String visible(String text) {
    return text.replaceAll("\\p{Cntrl}", " ");
  }
}
