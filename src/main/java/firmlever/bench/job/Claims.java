package firmlever.bench.job;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonEdit;
import firmlever.document.JsonText;
import firmlever.document.Node;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Paper;
import firmlever.store.JobStore.Photo;
import firmlever.store.StoreFault;
import firmlever.warranty.Submitted.Papers;
import firmlever.warranty.Submitted.Unreadable;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The claims of the jobs in a store. A claim is a paper beside its job, since it is made when the
 * job is long handed back and nothing of it can be changed; the last one handed in holds.
 */
public final class Claims {
  private static final String CLAIM = "claim";
  private static final String DECISION = "decision";

  /**
   * What the folder of a job's photos is called where they are files, behind the code of the job.
   */
  public static final String PHOTO_FOLDER = ".photos";

  private final JobStore store;

  public Claims(JobStore store) {
    this.store = store;
  }

  /**
   * The text of the job's case with its claim in it, as export writes it and the desk judges it.
   */
  public String caseText(Job job) throws BadInput {
    List<Paper> claims = of(job.heading().id(), CLAIM);
    return claims.isEmpty()
        ? job.content().caseText()
        : JsonEdit.set(
            job.content().caseText(),
            List.of(CLAIM),
            Plain.of(
                DocumentReader.readText(claims.get(claims.size() - 1).content(), "the claim")));
  }

  /**
   * Where the papers of a job's claim lie: its photos in the store, all others where they are said
   * to.
   */
  public Papers papers(String job, Papers others) {
    return file -> {
      Optional<Photo> photo =
          store.photos(job).stream().filter(each -> paper(each).equals(file)).findAny();
      if (photo.isEmpty()) {
        return others.content(file);
      }
      try {
        return store.picture(photo.get());
      } catch (StoreFault e) {
        throw new Unreadable("cannot be read: " + e.getMessage());
      }
    };
  }

  /** What a claim calls a photo of its job: the file that an export writes, from its case on. */
  public static String paper(Photo photo) {
    return photo.job() + PHOTO_FOLDER + "/" + photo.digest() + ".jpg";
  }

  /** Whether a claim stands in the text of a case. */
  public static boolean claimed(String caseText) throws BadInput {
    return DocumentReader.readText(caseText, "the case") instanceof Node.Object object
        && Fields.of(object).has(CLAIM);
  }

  /** What was signed of a job's claim, a line for each decision; empty where nothing was. */
  public String decisions(String job) {
    return of(job, DECISION).stream()
        .map(paper -> paper.content() + "\n")
        .collect(Collectors.joining());
  }

  private List<Paper> of(String job, String kind) {
    return store.papers(job).stream().filter(paper -> paper.kind().equals(kind)).toList();
  }

  /** The number of the last paper of a job; 0 where there is none. */
  public int last(String job) {
    return store.papers(job).size();
  }

  /**
   * Keeps a claim as it is handed in.
   *
   * @param seen the number of the last paper its author has seen
   */
  public void handIn(String job, int seen, Map<String, Object> claim, String author, Instant moment)
      throws Changed {
    store.addPaper(job, new Paper(seen + 1, moment, author, CLAIM, JsonText.of(claim) + "\n"));
  }

  /**
   * Keeps a decision.
   *
   * @param seen the number of the last paper its author has seen
   * @param history all decisions, this one the last
   */
  public void decide(String job, int seen, String history, String author, Instant moment)
      throws Changed {
    List<String> lines = history.lines().toList();
    store.addPaper(job, new Paper(seen + 1, moment, author, DECISION, lines.get(lines.size() - 1)));
  }
}
