package firmlever.jobcard;

import firmlever.document.JsonText;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A job card for programs, format {@code firmlever-jobcard/1}. */
public final class JobCardJson {
  private JobCardJson() {}

  public static final String FORMAT = "firmlever-jobcard/1";

  /** The card as an object. */
  public static String of(JobCard card) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("case", card.caseId());
    json.put("format", FORMAT);
    json.put("brake", card.brake());
    json.put("works", card.works());
    json.put("minutes", card.minutes());
    json.put("notes", card.notes());
    List<Object> sections = new ArrayList<>();
    for (JobCard.Section section : card.sections()) {
      Map<String, Object> each = new LinkedHashMap<>();
      each.put("title", section.title());
      each.put("lines", section.lines().stream().map(JobCardJson::line).toList());
      sections.add(each);
    }
    json.put("sections", sections);
    List<Object> acceptance = new ArrayList<>();
    for (JobCard.Accept accept : card.acceptance()) {
      Map<String, Object> each = new LinkedHashMap<>();
      each.put("id", accept.id());
      each.put("name", accept.name());
      each.put("road", accept.road());
      each.put("want", accept.want());
      each.put("how", accept.how());
      acceptance.add(each);
    }
    json.put("acceptance", acceptance);
    List<Object> then = new ArrayList<>();
    for (JobCard.Then next : card.then()) {
      Map<String, Object> each = new LinkedHashMap<>();
      each.put("work", next.action());
      each.put("why", next.why());
      then.add(each);
    }
    json.put("then", then);
    return JsonText.of(json);
  }

  private static Map<String, Object> line(Line line) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("kind", line.kind().name().toLowerCase(Locale.ROOT));
    json.put("text", line.text());
    if (!line.want().isEmpty()) {
      json.put(line.kind() == Kind.MIND ? "caution" : "want", line.want());
    }
    json.put("rule", line.rule());
    json.put("source", line.source());
    return json;
  }
}
