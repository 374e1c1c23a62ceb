package firmlever.interview;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonEdit;
import firmlever.interview.Answer.Measured;
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

  /** The interview as the product holds it, with a rule base put together once for all tests. */
  public static Interview fresh() {
    return new Interview(
        Bench.VOCABULARY, Bench.READER, Bench.DIAGNOSTICIAN, new Listener(Bench.VOCABULARY));
  }

  /**
   * What was asked.
   *
   * @param text the case file at the end
   * @param ended whether it ended by itself
   * @param questions ids of the symptoms asked for, in their order
   * @param answers what was answered to each
   * @param nanos how long each answer took to turn into the next question
   */
  public record Asked(
      String text,
      Diagnosis diagnosis,
      boolean ended,
      List<String> questions,
      List<String> answers,
      List<Long> nanos) {
    /** Minutes a mechanic needs for all that was asked. */
    public int minutes() {
      return questions.stream().mapToInt(id -> Bench.VOCABULARY.symptoms().get(id).minutes()).sum();
    }
  }

  /**
   * Holds the interview to its end.
   *
   * @param truth the answer to the question about a symptom: present, absent or a value
   */
  public static Asked interview(String start, UnaryOperator<String> truth) throws BadInput {
    Interview interview = fresh();
    State state = interview.begin(start).state();
    List<String> questions = new ArrayList<>();
    List<String> answers = new ArrayList<>();
    List<Long> nanos = new ArrayList<>();
    while (!state.over() && questions.size() < MOST_QUESTIONS) {
      questions.add(state.question());
      answers.add(truth.apply(state.question()));
      long from = System.nanoTime();
      state = interview.answer(state, answers.get(answers.size() - 1)).state();
      nanos.add(System.nanoTime() - from);
    }
    return new Asked(state.text(), state.diagnosis(), state.over(), questions, answers, nanos);
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
    List<String> questions = new ArrayList<>();
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
        questions.add(id);
        answers.add(answer);
        text =
            Answer.read(answer, symptom) instanceof Measured measured
                ? JsonEdit.set(text, List.of("readings", measured.reading()), measured.value())
                : JsonEdit.set(text, List.of("symptoms", id), answer);
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

  /** Diagnoses as the interview does. */
  public static Diagnosis diagnose(CaseFile file) {
    return Bench.DIAGNOSTICIAN.diagnose(file, Options.WITHOUT_DRAWS);
  }
}
