package firmlever.cli.review;

import firmlever.document.BadInput;
import java.io.IOException;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Turns a table of a shop into records that the review reads. */
@Command(
    name = "import",
    description = {
      "A shop's table of jobs (.csv, .xlsx, .ndjson) as records for review.",
      "",
      "Guesses what the columns mean, how days are written and what the words say; shows the guess"
          + " with ten rows, tells what is lost, and writes two files beside the table: the mapping"
          + " (NAME.mapping.json) and the records (NAME.records.ndjson).",
      "Where the guess is wrong, change the mapping and run again: a mapping that is there is used."
          + " A field is named as in a case file: opened, brake.id, brake.position, complaint,"
          + " outcome.causes, outcome.works, outcome.by, outcome.site, outcome.closed (firmlever schema has all).",
      "One row is one visit of one brake. Needed: a day and a code of the bike. Worth having: the"
          + " wheel, the complaint, the cause found, the work done, who did it, the day it went back.",
      ""
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done, every row was read",
      "1:done, and some rows were rejected; they are counted and listed",
      "2:no row could be read, or wrong usage"
    },
    mixinStandardHelpOptions = true)
public final class ImportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ImportOptions asked;

  @Override
  public Integer call() throws BadInput, IOException {
    return new TableImport(asked, spec.commandLine().getOut()).run();
  }
}
