package firmlever.cli.review;

import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What an import is asked for on the command line. */
final class ImportOptions {
  @Parameters(paramLabel = "FILE", description = "the table")
  String file;

  @Option(
      names = "--mapping",
      paramLabel = "FILE",
      description = "the mapping to use, or to write where it is not there")
  String mapping = "";

  @Option(names = "--out", paramLabel = "FILE", description = "where to write the records")
  String out = "";

  @Option(
      names = "--rejects",
      paramLabel = "FILE",
      description = "write the rejected rows with line and reason (default: rejects.csv)")
  String rejects = "rejects.csv";
}
