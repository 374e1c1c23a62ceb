package firmlever.interview;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonEdit;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.hearing.Heeding.Heeded;
import firmlever.interview.Answer.Measured;
import firmlever.interview.Answer.Seen;
import firmlever.interview.Interview.Phase;
import firmlever.interview.Interview.State;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

/** Asks about a brake of which the truth is known: by the interview, and by a fixed check-list. */
public final class Asking {
  private Asking() {}

  /** No interview takes more; one that does is cut off and counted with so many. */
  private static final int MOST_QUESTIONS = 120;

  private static final Heeding HEEDING = new Heeding(Bench.VOCABULARY, new Hearing());

  /** The interview as the product holds it, with a rule base put together once for all tests. */
  public static Interview fresh() {
    return new Interview(Bench.VOCABULARY, Bench.READER, Bench.DIAGNOSTICIAN, HEEDING);
  }

  /**
   * What was asked.
   *
   * @param text the case file at the end
   * @param ended whether it ended by itself
   * @param questions ids of the symptoms asked for, question by question; none where it was asked
   *     for something else
   * @param answers what was answered to each
   * @param nanos how long each answer took to turn into the next question
   */
  public record Asked(
      String text,
      Diagnosis diagnosis,
      boolean ended,
      List<List<String>> questions,
      List<String> answers,
      List<Long> nanos) {
    /** Minutes a mechanic needs for all that was asked: one look takes as long as its longest. */
    public int minutes() {
      return questions.stream()
          .mapToInt(
              asked ->
                  asked.stream()
                      .mapToInt(id -> Bench.VOCABULARY.symptoms().get(id).minutes())
                      .max()
                      .orElse(0))
          .sum();
    }
  }

  /**
   * Holds the interview to its end. Of what was done nothing more is told than the file has.
   *
   * @param truth what is the case with a symptom: present, absent or a value
   */
  public static Asked interview(String start, UnaryOperator<String> truth) throws BadInput {
    Interview interview = fresh();
    State state = interview.begin(start).state();
    List<List<String>> questions = new ArrayList<>();
    List<String> answers = new ArrayList<>();
    List<Long> nanos = new ArrayList<>();
    while (!state.over() && questions.size() < MOST_QUESTIONS) {
      questions.add(state.question());
      answers.add(answer(state, truth));
      long from = System.nanoTime();
      state = interview.answer(state, answers.get(answers.size() - 1)).state();
      nanos.add(System.nanoTime() - from);
    }
    return new Asked(state.text(), state.diagnosis(), state.over(), questions, answers, nanos);
  }

  /** What one who knows the truth answers. */
  public static String answer(State state, UnaryOperator<String> truth) {
    List<String> asked = state.question();
    if (state.phase() == Phase.HEARD && !state.heard().orElseThrow().symptom().isEmpty()) {
      String is = truth.apply(state.heard().get().symptom());
      return is.equals("absent") == state.heard().get().present() ? "n" : "y";
    }
    if (state.phase() != Phase.LOOK) {
      return state.phase() == Phase.HEARD ? "y" : "n";
    }
    if (asked.size() == 1) {
      String is = truth.apply(asked.get(0));
      return is.equals("present") ? "y" : is.equals("absent") ? "n" : is;
    }
    List<String> there = new ArrayList<>();
    for (int i = 0; i < asked.size(); i++) {
      String is = truth.apply(asked.get(i));
      if (!is.equals("absent")) {
        there.add((i + 1) + (is.equals("present") ? "" : ": " + is));
      }
    }
    return there.isEmpty() ? "n" : String.join(", ", there);
  }

  /**
   * Asks the vocabulary in its order, leaving out what is known already, until the first cause (or
   * no fault) is as probable as wanted, or until all is asked.
   *
   * @param least so many questions are asked in any case
   */
  public static Asked fixedList(
      String start, UnaryOperator<String> truth, double certainty, int least) throws BadInput {
    String text = start;
    CaseFile file = read(text);
    Diagnosis diagnosis = diagnose(file);
    List<List<String>> questions = new ArrayList<>();
    List<String> answers = new ArrayList<>();
    for (Symptom symptom : Bench.VOCABULARY.symptoms().values()) {
      String id = symptom.id();
      boolean known =
          file.symptoms().containsKey(id)
              || diagnosis.concluded().stream().anyMatch(each -> each.symptom().equals(id));
      if (certainty(diagnosis) >= certainty && questions.size() >= least) {
        break;
      }
      if (!known && symptom.canBeChecked()) {
        String answer = truth.apply(id);
        questions.add(List.of(id));
        answers.add(answer);
        List<Measured> values =
            Answer.read(answer, List.of(symptom)) instanceof Seen seen
                ? List.copyOf(seen.measured().values())
                : List.of();
        text =
            values.isEmpty()
                ? JsonEdit.set(text, List.of("symptoms", id), answer)
                : JsonEdit.set(
                    text, List.of("readings", values.get(0).reading()), values.get(0).value());
        file = read(text);
        diagnosis = diagnose(file);
      }
    }
    return new Asked(
        text, diagnosis, certainty(diagnosis) >= certainty, questions, answers, List.of());
  }

  /** Probability of what leads: a cause, or no fault at all. */
  public static double certainty(Diagnosis d) {
    return Math.max(d.noFaultFound(), d.causes().isEmpty() ? 0 : d.causes().get(0).probability());
  }

  /** Reads the text of a case. */
  public static CaseFile read(String text) throws BadInput {
    return Bench.READER.read(DocumentReader.readText(text, "asked"), "asked");
  }

  /** The case with what its complaint adds. */
  static Heeded heed(CaseFile file) {
    return HEEDING.heed(file);
  }

  /** Diagnoses as the interview does. */
  public static Diagnosis diagnose(CaseFile file) {
    return Bench.DIAGNOSTICIAN.diagnose(HEEDING.heed(file), Options.WITHOUT_DRAWS);
  }
}
