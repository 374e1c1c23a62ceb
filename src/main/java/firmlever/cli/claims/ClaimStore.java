package firmlever.cli.claims;

import firmlever.bench.job.Claims;
import firmlever.cli.shell.PaperFolder;
import firmlever.cli.shell.WallClock;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.records.CaseFolder;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Changed;
import firmlever.store.SqliteStore;
import firmlever.warranty.Submitted.Papers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The claims of the bench's store, for the command that otherwise reads them out of files. */
final class ClaimStore implements AutoCloseable {
  private final Path file;
  private final JobStore jobs;
  private final Claims claims;

  private ClaimStore(Path file, JobStore jobs) {
    this.file = file;
    this.jobs = jobs;
    this.claims = new Claims(jobs);
  }

  /** Opens a store that is there. */
  static ClaimStore open(Path file) throws BadInput {
    if (!Files.isReadable(file)) {
      throw new BadInput(
          List.of(Problem.ofFile("--store", "there is no such file to read: " + file, "")));
    }
    return new ClaimStore(file, SqliteStore.open(file));
  }

  /** Where the papers of a job's claim lie. */
  Papers papers(String code) {
    return claims.papers(code, PaperFolder.of(file));
  }

  /** The jobs of these codes; without any, all that have a claim. */
  List<Path> jobs(List<String> codes) throws BadInput {
    if (!codes.isEmpty()) {
      List<Path> named = new ArrayList<>();
      for (String code : codes) {
        named.add(CaseFolder.path(code));
      }
      return named;
    }
    List<Path> claimed = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    jobs.each(
        job -> {
          try {
            if (Claims.claimed(claims.caseText(job))) {
              claimed.add(Path.of(job.heading().id()));
            }
          } catch (BadInput e) {
            problems.addAll(e.problems());
          }
        });
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
    return claimed;
  }

  /** The case of a job with its claim, as a file would hold it. */
  byte[] bytes(String code) throws BadInput {
    JobStore.Job job =
        jobs.job(code)
            .orElseThrow(
                () ->
                    new BadInput(
                        List.of(
                            Problem.ofFile(
                                code,
                                "there is no job of that code in " + file,
                                "Maybe look it up on the bench page."))));
    return claims.caseText(job).getBytes(StandardCharsets.UTF_8);
  }

  /** What was signed of a job's claim, and where the next decision goes. */
  Signing.Kept kept(String code) {
    int seen = claims.last(code);
    return new Signing.Kept() {
      @Override
      public String name() {
        return code;
      }

      @Override
      public String text() {
        return claims.decisions(code);
      }

      @Override
      public void write(String history, String by) throws BadInput {
        try {
          claims.decide(code, seen, history, by, WallClock.source().instant());
        } catch (Changed e) {
          throw new BadInput(
              List.of(
                  Problem.ofFile(
                      code,
                      "somebody else has added to this claim meanwhile; nothing was signed",
                      "Maybe look again, and sign then.")));
        }
      }
    };
  }

  @Override
  public void close() {
    jobs.close();
  }
}
