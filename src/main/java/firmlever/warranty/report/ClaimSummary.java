package firmlever.warranty.report;

import static firmlever.rulebase.warranty.WarrantyFacts.counted;
import static firmlever.sheet.JsonForm.each;
import static firmlever.sheet.JsonForm.map;

import firmlever.document.JsonText;
import firmlever.document.Money;
import firmlever.document.Problem;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.sheet.CsvRow;
import firmlever.warranty.Costs;
import firmlever.warranty.Dossier;
import firmlever.warranty.Signed;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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

  public static final String FORMAT = "firmlever-claims/2";

  private static final List<String> WORDS =
      List.of("cover", "goodwill", "ask", "refuse", "nothing-found", "split", "part-open");

  private static final List<Payer> PAYERS = List.of(Payer.values());

  /**
   * One claim.
   *
   * @param dossier name of its dossier files, without their ending
   * @param outcome what is recommended: an outcome, {@code split} or {@code part-open}
   * @param signed what a person decided of it, where one has
   */
  public record Line(
      String file,
      String dossier,
      String caseId,
      String number,
      String brake,
      String part,
      String outcome,
      List<Part> parts,
      Costs costs,
      List<String> missing,
      Optional<Signed> signed,
      String digest) {

    /** Takes down what the summary needs of a dossier. */
    public static Line of(String file, String name, Dossier d) {
      return new Line(
          file,
          name,
          d.file().id(),
          d.claim().number(),
          d.file().brake().id(),
          d.claim().part(),
          d.word(),
          d.judged().matters().stream()
              .map(
                  each ->
                      new Part(
                          each.decisions().isEmpty() ? "" : each.decisions().get(0).cause(),
                          each.result(),
                          each.clause().id()))
              .toList(),
          d.costs(),
          d.missing().stream().map(Missing::id).toList(),
          d.signed(),
          d.caseDigest());
    }
  }

  /** One outcome of a claim, with its likeliest cause. */
  public record Part(String cause, Award result, String clause) {}

  /** As CSV (RFC 4180): one row for each claim, several causes separated by a space. */
  public String csv() {
    StringBuilder csv =
        new StringBuilder(
            "file,case,claim,brake,part,outcome,causes,outcomes,pays,shares,clauses,");
    csv.append("missing,currency,total,");
    PAYERS.forEach(payer -> csv.append(payer.id()).append(','));
    csv.append("sha256,problem,decided,signed\r\n");
    for (Line line : lines) {
      List<String> fields =
          new ArrayList<>(
              List.of(
                  line.file(),
                  line.caseId(),
                  line.number(),
                  line.brake(),
                  line.part(),
                  line.outcome(),
                  joined(line, Part::cause),
                  joined(line, part -> part.result().outcome().id()),
                  joined(line, part -> part.result().pays().id()),
                  joined(line, part -> part.result().sharePercent() + "%"),
                  joined(line, Part::clause),
                  String.join(" ", line.missing())));
      Optional<Money> total = line.costs().total();
      fields.add(total.map(sum -> sum.currency().getCurrencyCode()).orElse(""));
      fields.add(total.map(ClaimSummary::plain).orElse(""));
      PAYERS.forEach(
          payer ->
              fields.add(
                  Optional.ofNullable(line.costs().totals().get(payer))
                      .map(ClaimSummary::plain)
                      .orElse("")));
      fields.add(line.digest());
      fields.add("");
      fields.add(line.signed().map(Signed::decided).orElse(""));
      fields.add(line.signed().map(signed -> signed.by() + " " + signed.on()).orElse(""));
      row(csv, fields);
    }
    failed.forEach(
        (file, problems) -> {
          List<String> fields = new ArrayList<>(Collections.nCopies(14 + PAYERS.size() + 4, ""));
          fields.set(0, file);
          fields.set(5, "failed");
          fields.set(14 + PAYERS.size() + 1, spoken(problems));
          row(csv, fields);
        });
    return csv.toString();
  }

  private static String plain(Money money) {
    return money.amount().toPlainString();
  }

  private static String joined(Line line, Function<Part, String> what) {
    return line.parts().stream().map(what).collect(Collectors.joining(" "));
  }

  private static String spoken(List<Problem> problems) {
    return problems.stream().map(Problem::spoken).collect(Collectors.joining(" | "));
  }

  private static void row(StringBuilder csv, List<String> fields) {
    List<String> quoted = new ArrayList<>();
    for (String given : fields) {
      String field = String.valueOf(CsvRow.harmless(given));
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
    Map<String, Object> json =
        map(
            "file", line.file(),
            "case", line.caseId(),
            "claim", line.number(),
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
                            "share-percent", p.result().sharePercent(),
                            "clause", p.clause())),
            "costs", costs(line.costs()),
            "missing", line.missing(),
            "digest", "sha256:" + line.digest());
    line.signed()
        .ifPresent(
            signed ->
                json.put(
                    "signed",
                    map(
                        "by",
                        signed.by(),
                        "on",
                        signed.on().toString(),
                        "decided",
                        signed.decided(),
                        "override",
                        signed.override())));
    return json;
  }

  private static Map<String, Object> costs(Costs costs) {
    Map<String, Object> json = new LinkedHashMap<>();
    costs.total().ifPresent(sum -> json.put("total", sum.spoken()));
    costs.totals().forEach((payer, sum) -> json.put(payer.id(), sum.spoken()));
    return json;
  }

  private long count(String word) {
    return lines.stream().filter(line -> line.outcome().equals(word)).count();
  }

  /** The counts in one sentence. */
  public String counts() {
    return counted(lines.size() + failed.size(), "claim")
        + ": "
        + count("cover")
        + " covered, "
        + count("goodwill")
        + " goodwill, "
        + count("ask")
        + " asked back, "
        + count("refuse")
        + " refused, "
        + count("nothing-found")
        + " nothing found, "
        + count("split")
        + " split, "
        + count("part-open")
        + " open in part; "
        + failed.size()
        + " failed."
        + signatures();
  }

  /** How many of the recommendations a person has decided on. */
  private String signatures() {
    List<Signed> signed = lines.stream().flatMap(line -> line.signed().stream()).toList();
    return signed.isEmpty()
        ? ""
        : String.format(
            Locale.ROOT,
            " That is what is recommended; %d signed, %d of them otherwise.",
            signed.size(),
            signed.stream().filter(Signed::override).count());
  }
}
