package firmlever.bench.job;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.report.JsonReport;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.hearing.Heeding.Heeded;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What is to be said of a case as it stands. A case that did not change is not thought through
 * again: its text is the key.
 */
public final class Verdicts {
  /** Cases kept; each takes some tens of kilobytes. */
  private static final int KEPT = 100;

  private final Reasoning reasoning;
  private final Map<String, Judged> kept =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Judged> eldest) {
          return size() > KEPT;
        }
      };

  public Verdicts(Reasoning reasoning) {
    this.reasoning = reasoning;
  }

  /**
   * A case and its diagnosis.
   *
   * @param file what is written down
   * @param heeded the same with what the complaint was heard to say
   * @param diagnosis empty where the case says too much for one
   * @param refusal why there is none, in words
   */
  public record Judged(
      CaseFile file, Heeded heeded, Optional<Diagnosis> diagnosis, String refusal) {}

  /** The case as files hold it. */
  public CaseFile read(String text) throws BadInput {
    return reasoning.reader().read(DocumentReader.readText(text, "the case"), "the case");
  }

  /** The diagnosis without redrawn models, which only programs are told of. */
  public Judged of(String text) throws BadInput {
    synchronized (kept) {
      Judged before = kept.get(text);
      if (before != null) {
        return before;
      }
    }
    CaseFile file = read(text);
    Heeded heeded = reasoning.heeding().heed(file);
    Judged judged;
    try {
      judged =
          new Judged(
              file,
              heeded,
              Optional.of(reasoning.diagnostician().diagnose(heeded, Options.WITHOUT_DRAWS)),
              "");
    } catch (TooManySymptoms e) {
      judged = new Judged(file, heeded, Optional.empty(), e.what() + ". " + e.maybe());
    }
    synchronized (kept) {
      kept.put(text, judged);
    }
    return judged;
  }

  /** The diagnosis for programs, as {@code triage --json} prints it. */
  public String json(String text) throws BadInput {
    Heeded heeded = reasoning.heeding().heed(read(text));
    try {
      return JsonReport.of(reasoning.diagnostician().diagnose(heeded, Options.USUAL)) + "\n";
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(Problem.ofFile(heeded.file().id(), e.what(), e.maybe())));
    }
  }
}
