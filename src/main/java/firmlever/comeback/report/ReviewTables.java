package firmlever.comeback.report;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Cluster;
import firmlever.comeback.Findings.MatrixCell;
import firmlever.comeback.Findings.Month;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Reason;
import firmlever.sheet.CsvRow;
import java.util.LinkedHashMap;
import java.util.Map;

/** The review as tables for a spreadsheet. Rates are fractions of one. */
public final class ReviewTables {
  private ReviewTables() {}

  /** Heading of the table of all comebacks. */
  public static String comebackHead() {
    return CsvRow.of(
        "brake",
        "first visit",
        "second visit",
        "also after",
        "went back",
        "came again",
        "days",
        "related by",
        "related chance",
        "by",
        "complaint",
        "present",
        "works",
        "complaint again",
        "present again",
        "works again",
        "treated",
        "found",
        "reason",
        "place then",
        "probability then",
        "plan leads to it",
        "check left out",
        "avoidable",
        "minutes saved",
        "sentence");
  }

  /** One row of the table of all comebacks. */
  public static String comeback(Comeback c) {
    return CsvRow.of(
        c.brake(),
        c.first(),
        c.second(),
        String.join(";", c.alsoAfter()),
        c.closed(),
        c.opened(),
        c.days(),
        c.relation().ground().id(),
        Double.isNaN(c.relation().chance()) ? "" : c.relation().chance(),
        c.by(),
        c.before().complaint(),
        String.join(";", c.before().present()),
        String.join(";", c.works()),
        c.after().complaint(),
        String.join(";", c.after().present()),
        String.join(";", c.after().works()),
        String.join(";", c.treated()),
        String.join(";", c.found()),
        c.reason().id(),
        c.place() == 0 ? "" : c.place(),
        c.place() == 0 ? "" : c.probability(),
        c.planned(),
        c.check(),
        c.avoidable(),
        c.minutesSaved(),
        c.sentence());
  }

  /** The other tables, by file name. */
  public static Map<String, String> of(Findings found) {
    Map<String, String> tables = new LinkedHashMap<>();
    StringBuilder months =
        new StringBuilder(CsvRow.of("month", "comebacks", "jobs", "low", "high"));
    for (int i = 0; i < found.months().size(); i++) {
      Month month = found.months().get(i);
      Interval limits = found.chart().orElseThrow().points().get(i).limits();
      months.append(
          CsvRow.of(
              month.month(),
              month.count().events(),
              month.count().trials(),
              limits.low(),
              limits.high()));
    }
    tables.put("months.csv", months.toString());
    StringBuilder reasons = new StringBuilder(CsvRow.of("reason", "comebacks"));
    for (Reason reason : Reason.OF_COMEBACKS) {
      reasons.append(CsvRow.of(reason.id(), requireNonNull(found.reasons().get(reason)).count()));
    }
    tables.put("reasons.csv", reasons.toString());
    StringBuilder causes = new StringBuilder(CsvRow.of("cause", "comebacks"));
    for (Named cause : found.causes()) {
      causes.append(CsvRow.of(cause.id(), cause.cases().count()));
    }
    tables.put("causes.csv", causes.toString());
    StringBuilder matrix = new StringBuilder(CsvRow.of("treated", "found", "comebacks"));
    for (MatrixCell cell : found.matrix()) {
      matrix.append(CsvRow.of(cell.treated(), cell.found(), cell.cases().count()));
    }
    tables.put("treated-and-found.csv", matrix.toString());
    tables.put("groups.csv", groups(found));
    StringBuilder patterns =
        new StringBuilder(
            CsvRow.of("by", "value", "cause", "returns", "expected", "visits", "adjusted chance"));
    for (Cluster cluster : found.clusters()) {
      patterns.append(
          CsvRow.of(
              cluster.trait().id(),
              cluster.value(),
              cluster.cause(),
              cluster.returns(),
              cluster.expected(),
              cluster.visits(),
              cluster.adjusted()));
    }
    tables.put("patterns.csv", patterns.toString());
    return tables;
  }

  private static String groups(Findings found) {
    StringBuilder groups =
        new StringBuilder(
            CsvRow.of(
                "by",
                "group",
                "comebacks",
                "jobs",
                "drawn in",
                "low",
                "high",
                "all others",
                "chance against all others",
                "compared comebacks",
                "compared jobs",
                "as others of the same kind",
                "adjusted chance",
                "verdict"));
    for (Comparison comparison : found.brakeGroups()) {
      for (Standing standing : comparison.standings()) {
        Interval limits = standing.shrunk().interval(ReviewAnswers.LEVEL);
        groups.append(
            CsvRow.of(
                comparison.trait().id(),
                standing.name(),
                standing.count().events(),
                standing.count().trials(),
                standing.shrunk().mean(),
                limits.low(),
                limits.high(),
                standing.others().rate().orElse(0),
                standing.plainChance(),
                standing.like().contrast().own().events(),
                standing.like().contrast().own().trials(),
                standing.like().contrast().asOthers(),
                standing.like().adjusted(),
                ReviewAnswers.verdict(standing.like().verdict())));
      }
    }
    return groups.toString();
  }
}
