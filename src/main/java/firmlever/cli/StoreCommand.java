package firmlever.cli;

import firmlever.bench.job.Carried;
import firmlever.bench.job.Claims;
import firmlever.bench.job.People;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.StoreOption;
import firmlever.cli.shell.WallClock;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.document.Visible;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Photo;
import firmlever.store.SqliteStore;
import firmlever.store.StoreFault;
import firmlever.web.Role;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Carries jobs in and out of the store, and copies it. */
@Command(
    name = "store",
    description =
        "The file in which the bench keeps its jobs, and the photos beside it: backup FILE copies both"
            + " while they are open, export DIR writes each job as a case file with its photos"
            + " beside it, import CASE… takes case files in (no photos), role CODE ROLE gives a code"
            + " of the bench a role and a key of its own.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:done", "2:a file could not be read or written; the others are still done"},
    mixinStandardHelpOptions = true)
final class StoreCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private StoreOption store;

  @Parameters(index = "0", paramLabel = "DEED", description = "backup, export, import or role")
  private String deed;

  @Parameters(index = "1..*", arity = "1..*", paramLabel = "FILE", description = "what with")
  private List<String> files;

  @Override
  public Integer call() throws BadInput {
    try (JobStore jobs = SqliteStore.open(store.file())) {
      return switch (deed) {
        case "backup" -> backup(jobs);
        case "export" -> export(jobs);
        case "import" -> take(jobs);
        case "role" -> role(jobs);
        default ->
            throw new BadInput(
                List.of(
                    Problem.ofFile(
                        deed, "is no deed of a store", "Maybe backup, export, import or role.")));
      };
    }
  }

  private int backup(JobStore jobs) throws BadInput {
    jobs.backup(CaseFolder.path(files.get(0)));
    spec.commandLine().getOut().println("copied to " + files.get(0));
    return Exit.DONE;
  }

  /** Gives a code a role and a key, which is printed once, or takes both from it. */
  private int role(JobStore jobs) throws BadInput {
    String code = files.get(0).toUpperCase(Locale.ROOT);
    String name = files.size() == 2 ? files.get(1) : "";
    Optional<Role> role = Role.of(name);
    if (!People.CODE.matcher(code).matches() || role.isEmpty() && !name.equals("none")) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  String.join(" ", files),
                  "must be a code such as D1 and one of mechanic, desk, owner, none",
                  "")));
    }
    People people = new People(jobs);
    if (role.isEmpty()) {
      people.dismiss(code);
      spec.commandLine().getOut().println(code + " has no role and no key any more.");
    } else {
      String key = people.enrol(code, role.get());
      spec.commandLine().getOut().println("The key of " + code + ", printed this once: " + key);
    }
    return Exit.DONE;
  }

  /**
   * Writes the text of each case letter for letter, with the claim that was handed in for it; what
   * was decided of that lies beside it.
   */
  private int export(JobStore jobs) throws BadInput {
    Path folder = CaseFolder.path(files.get(0));
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(files.get(0), "cannot be made: " + e.getMessage(), "")));
    }
    List<Problem> problems = new ArrayList<>();
    int[] written = {0};
    Claims claims = new Claims(jobs);
    jobs.each(
        job -> {
          try {
            // A code is made of letters, digits, points, hyphens and underscores.
            String id = job.heading().id();
            WholeFile.write(folder.resolve(id + ".json"), claims.caseText(job));
            String decisions = claims.decisions(id);
            if (!decisions.isEmpty()) {
              // Not .ndjson: the review would take its lines for records.
              WholeFile.write(folder.resolve(id + ".history"), decisions);
            }
            exportPhotos(jobs, id, folder, problems);
            written[0]++;
          } catch (BadInput e) {
            problems.addAll(e.problems());
          }
        });
    spec.commandLine().getOut().println("written to " + folder + ", jobs: " + written[0]);
    return told(problems);
  }

  /**
   * Writes the photos of a job into a folder beside its case, each under its digest, and a list of
   * them: digest, moment, who, what it shows, why it was struck out, with a tab between.
   */
  private static void exportPhotos(JobStore jobs, String id, Path folder, List<Problem> problems)
      throws BadInput {
    List<Photo> photos = jobs.photos(id);
    if (photos.isEmpty()) {
      return;
    }
    Path beside = folder.resolve(id + Claims.PHOTO_FOLDER);
    try {
      Files.createDirectories(beside);
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(beside.toString(), "cannot be made: " + WholeFile.reason(e), "")));
    }
    StringBuilder list = new StringBuilder();
    for (Photo photo : photos) {
      list.append(
          Stream.of(
                      photo.digest(),
                      photo.stamp().moment().toString(),
                      photo.stamp().author(),
                      photo.shows(),
                      photo.struck().orElse(""))
                  .map(Visible::of)
                  .collect(Collectors.joining("\t"))
              + "\n");
      try {
        WholeFile.write(folder.resolve(Claims.paper(photo)), jobs.picture(photo));
      } catch (StoreFault e) {
        // The others are still written.
        problems.add(Problem.ofFile(id, String.valueOf(e.getMessage()), ""));
      }
    }
    WholeFile.write(beside.resolve("list.txt"), list.toString());
  }

  private int take(JobStore jobs) {
    Engine engine = Engine.start();
    Carried carried = new Carried(jobs, engine.reader(), WallClock.source());
    List<Problem> problems = new ArrayList<>();
    int taken = 0;
    for (String file : files) {
      List<Problem> wrong =
          OneCase.problems(
              file,
              () ->
                  carried.take(
                      new String(
                          DocumentReader.bytes(CaseFolder.path(file), file),
                          StandardCharsets.UTF_8),
                      file));
      problems.addAll(wrong);
      taken += wrong.isEmpty() ? 1 : 0;
      if (wrong.isEmpty()
          && Files.isDirectory(Path.of(file.replaceAll("\\.json$", "") + Claims.PHOTO_FOLDER))) {
        spec.commandLine().getOut().println(file + ": its photos stay where they are");
      }
    }
    spec.commandLine().getOut().println(taken + " of " + files.size() + " taken in");
    return told(problems);
  }

  private int told(List<Problem> problems) {
    PrintWriter err = spec.commandLine().getErr();
    problems.forEach(problem -> err.println(problem.spoken()));
    return problems.isEmpty() ? Exit.DONE : Exit.BAD_INPUT;
  }
}
