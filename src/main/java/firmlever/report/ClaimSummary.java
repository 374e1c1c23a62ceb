package firmlever.report;

import static firmlever.report.JsonReport.each;
import static firmlever.report.JsonReport.map;

import firmlever.casefile.CaseFile.Claim;
import firmlever.document.JsonText;
import firmlever.document.Problem;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Decided;
import firmlever.warranty.Outcome.Result;
import firmlever.warranty.Policy;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What became of many claims: one line for each, and the counts.
 *
 * @param rulebase digest of the rule base
 * @param failed problems by file, for the cases that were not decided
 */
public record ClaimSummary(
    Policy policy, String rulebase, List<Line> lines, Map<String, List<Problem>> failed) {

  public static final String FORMAT = "firmlever-claims/1";

  private static final List<String> WORDS = List.of("cover", "goodwill", "ask", "refuse", "split");

  /**
   * One claim.
   *
   * @param dossier name of its dossier files, without their ending
   * @param outcome an outcome, or {@code split}
   */
  public record Line(
      String file,
      String dossier,
      String caseId,
      String brake,
      String part,
      String outcome,
      List<Part> parts,
      List<String> missing,
      String digest) {

    /** Takes down what the summary needs of a dossier. */
    public static Line of(String file, String name, Dossier d) {
      return new Line(
          file,
          name,
          d.file().id(),
          d.file().brake().id(),
          d.file().claim().map(Claim::part).orElse(""),
          d.word(),
          d.decided().stream()
              .map(Decided::decision)
              .map(each -> new Part(each.cause(), each.result(), each.clause().id()))
              .toList(),
          d.missing().stream().map(Missing::id).toList(),
          d.caseDigest());
    }
  }

  /** The decision on one cause of a claim. */
  public record Part(String cause, Result result, String clause) {}

  /** As CSV (RFC 4180): one row for each claim, several causes separated by a space. */
  public String csv() {
    StringBuilder csv =
        new StringBuilder(
            "file,case,brake,part,outcome,causes,outcomes,pays,clauses,missing,sha256,problem\r\n");
    for (Line line : lines) {
      row(
          csv,
          line.file(),
          line.caseId(),
          line.brake(),
          line.part(),
          line.outcome(),
          joined(line, Part::cause),
          joined(line, part -> part.result().outcome().id()),
          joined(line, part -> part.result().pays().id()),
          joined(line, Part::clause),
          String.join(" ", line.missing()),
          line.digest(),
          "");
    }
    failed.forEach(
        (file, problems) ->
            row(csv, file, "", "", "", "failed", "", "", "", "", "", "", spoken(problems)));
    return csv.toString();
  }

  private static String joined(Line line, Function<Part, String> what) {
    return line.parts().stream().map(what).collect(Collectors.joining(" "));
  }

  private static String spoken(List<Problem> problems) {
    return problems.stream().map(Problem::spoken).collect(Collectors.joining(" | "));
  }

  private static void row(StringBuilder csv, String... fields) {
    List<String> quoted = new ArrayList<>();
    for (String given : fields) {
      String field = String.valueOf(ReviewTables.harmless(given));
      boolean plain = field.chars().noneMatch(c -> c == ',' || c == '"' || c < ' ');
      quoted.add(plain ? field : '"' + field.replace("\"", "\"\"") + '"');
    }
    csv.append(String.join(",", quoted)).append("\r\n");
  }

  /** The same for programs. */
  public String json() {
    Map<String, Object> counts = new LinkedHashMap<>();
    WORDS.forEach(word -> counts.put(word, (int) count(word)));
    counts.put("failed", failed.size());
    return JsonText.of(
        map(
            "format",
            FORMAT,
            "policy",
            policy.id(),
            "policy-digest",
            "sha256:" + policy.digest(),
            "rulebase",
            rulebase,
            "counts",
            counts,
            "claims",
            each(lines, ClaimSummary::line),
            "failed",
            each(
                List.copyOf(failed.entrySet()),
                e ->
                    map(
                        "file",
                        e.getKey(),
                        "problems",
                        e.getValue().stream().map(Problem::spoken).toList()))));
  }

  private static Map<String, Object> line(Line line) {
    return map(
        "file", line.file(),
        "case", line.caseId(),
        "dossier", line.dossier(),
        "brake", line.brake(),
        "part", line.part(),
        "outcome", line.outcome(),
        "decisions",
            each(
                line.parts(),
                p ->
                    map(
                        "cause", p.cause(),
                        "outcome", p.result().outcome().id(),
                        "pays", p.result().pays().id(),
                        "clause", p.clause())),
        "missing", line.missing(),
        "digest", "sha256:" + line.digest());
  }

  private long count(String word) {
    return lines.stream().filter(line -> line.outcome().equals(word)).count();
  }

  /** The counts in one sentence. */
  public String counts() {
    return (lines.size() + failed.size())
        + " claims: "
        + count("cover")
        + " covered, "
        + count("goodwill")
        + " goodwill, "
        + count("ask")
        + " asked back, "
        + count("refuse")
        + " refused, "
        + count("split")
        + " split; "
        + failed.size()
        + " failed.";
  }
}
