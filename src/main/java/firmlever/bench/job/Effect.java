package firmlever.bench.job;

import firmlever.bench.job.Verdicts.Judged;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Difference;
import firmlever.document.BadInput;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Change;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the last edit of a job's case changed, against the diagnosis before it.
 *
 * @param stamp who made the edit, when, and what it was
 * @param entered ids of the symptoms the edit itself is about
 */
public record Effect(Stamp stamp, Difference difference, Set<String> entered) {

  /**
   * The effect of the last change of a job; empty where that left the case as it was, as a photo
   * does, and where one of the two diagnoses is missing.
   *
   * @param now what is said of the case as it stands
   */
  public static Optional<Effect> of(JobStore store, Verdicts verdicts, Job job, Judged now) {
    List<Change> last =
        store.changesAfter(job.heading().id(), job.version() - 2).stream()
            .filter(change -> change.number() <= job.version())
            .toList();
    if (last.size() < 2
        || job.heading().state() == State.HANDED_BACK
        || last.get(0).caseText().equals(last.get(1).caseText())) {
      return Optional.empty();
    }
    try {
      Judged before = verdicts.of(last.get(0).caseText());
      Optional<Diagnosis> was = before.diagnosis();
      Optional<Diagnosis> is = now.diagnosis();
      return was.isEmpty() || is.isEmpty()
          ? Optional.empty()
          : Optional.of(
              new Effect(
                  last.get(1).stamp(),
                  Difference.of(was.get(), is.get()),
                  entered(before.file().symptoms(), now.file().symptoms())));
    } catch (BadInput e) {
      // A case that this program no longer reads; what stands now was read.
      return Optional.empty();
    }
  }

  private static Set<String> entered(Map<String, Presence> before, Map<String, Presence> now) {
    return Stream.concat(before.keySet().stream(), now.keySet().stream())
        .filter(id -> !Objects.equals(before.get(id), now.get(id)))
        .collect(Collectors.toSet());
  }
}
