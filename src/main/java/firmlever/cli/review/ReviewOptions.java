package firmlever.cli.review;

import firmlever.cli.shell.Listening;
import firmlever.cli.shell.ShopRules;
import firmlever.plan.Shop;
import java.util.List;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What a review is asked for on the command line. */
final class ReviewOptions {
  @Parameters(
      arity = "0..*",
      paramLabel = "FILE",
      description = "case files (.json; .ndjson, .jsonl and .csv, also .gz) or folders of them")
  List<String> files = List.of();

  @Option(
      names = "--store",
      paramLabel = "FILE",
      description = "review the jobs of the bench's store too, or alone")
  String store = "";

  @Option(
      names = "--bench",
      description =
          "with --store, keep the page in the store, where the bench shows it to the owner")
  boolean bench;

  @Mixin ShopRules shop;

  @Mixin Listening listening;

  @Option(names = "--html", paramLabel = "FILE", description = "write a page for people")
  String html = "";

  @Option(names = "--json", description = "print the review for programs")
  boolean json;

  @Option(names = "--csv", paramLabel = "DIR", description = "write tables into this folder")
  String csv = "";

  @Option(
      names = "--tally-out",
      paramLabel = "FILE",
      description =
          "count only, and write the tally, to be merged with others; needs --until, the same day"
              + " everywhere; holds no codes of technicians")
  String tallyOut = "";

  @Option(
      names = "--with-technicians",
      description = "the tally keeps the codes of technicians, and what rejected records say")
  boolean withTechnicians;

  @Option(
      names = "--merge",
      description = "the files are tallies: review them as if all their records were here")
  boolean merge;

  @Option(
      names = "--propose",
      paramLabel = "DIR",
      description = "write base rates learned from the cases, as rules for a person to review")
  String propose = "";

  @Option(
      names = "--cases",
      paramLabel = "DIR",
      defaultValue = "cases",
      description = "case files to try a proposal on (default: ${DEFAULT-VALUE})")
  String cases;

  @Option(
      names = "--mapping",
      paramLabel = "FILE",
      description = "what the columns of a table mean; firmlever import guesses it")
  String mapping = "";

  @Option(
      names = "--rejects",
      paramLabel = "FILE",
      description = "write the rejected records with line and reason (default: rejects.csv)")
  String rejects = "rejects.csv";

  @Option(
      names = "--days",
      paramLabel = "N",
      split = ",",
      defaultValue = "30,90",
      description = "the two windows in days (default: ${DEFAULT-VALUE})")
  int[] days;

  @Option(
      names = "--until",
      paramLabel = "DAY",
      description =
          "last day of the data (default: the latest day a record speaks of, opened or given back)")
  String until = "";

  @Option(
      names = "--backtest",
      description = "try the forecast on earlier days, each time as if that evening were today")
  boolean backtest;

  @Option(
      names = "--change",
      paramLabel = "DAY=WORDS",
      description = "a change in the shop: comebacks before and after it; may be given again")
  List<String> changes = List.of();

  @Option(
      names = "--comeback-minutes",
      paramLabel = "N",
      description = "minutes a comeback costs beside the work (default: 120, from memory)")
  int comebackMinutes = (int) Shop.standard().comebackMinutes();

  @Option(
      names = "--hourly-rate",
      paramLabel = "MONEY",
      description = "what an hour of work costs; then money is told beside hours")
  double hourlyRate = Double.NaN;

  @Option(
      names = "--comeback-parts",
      paramLabel = "MONEY",
      description = "what a comeback costs in parts (default: 0)")
  double comebackParts;

  @Option(names = "--threads", paramLabel = "N", description = "threads (default: all processors)")
  int threads;
}
