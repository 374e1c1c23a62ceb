package firmlever.rulebook;

import firmlever.document.JsonText;
import firmlever.hydraulics.Figure;
import firmlever.hydraulics.Figures;
import firmlever.hydraulics.Standing;
import firmlever.rulebase.RuleInfo;
import firmlever.sheet.JsonForm;
import firmlever.sheet.Page;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Where the figures of the hydraulics and the rules have their knowledge from. */
public final class SourcesReport {
  public static final String FORMAT = "firmlever-sources/1";

  private static final String PRACTICE = "common practice";
  private static final String MEMORY = "from memory";

  private final List<Figure> figures = Figures.all();
  private final List<RuleInfo> rules;

  public SourcesReport(List<RuleInfo> rules) {
    this.rules = List.copyOf(rules);
  }

  /** How well a rule is founded; what is both practice and memory is no better than memory. */
  static Standing standing(RuleInfo rule) {
    if (rule.source().endsWith(MEMORY)) {
      return Standing.FROM_MEMORY;
    }
    return rule.source().equals(PRACTICE) ? Standing.COMMON_PRACTICE : Standing.PUBLISHED;
  }

  private static String spoken(Standing standing) {
    return switch (standing) {
      case PUBLISHED -> "published";
      case COMMON_PRACTICE -> PRACTICE;
      case FROM_MEMORY -> MEMORY;
    };
  }

  /** For people: counts, then the figures by standing, then the published sources of rules. */
  public String text(int width, boolean bold) {
    Page page = new Page(width, bold);
    page.heading("Where the knowledge comes from");
    for (Standing standing : Standing.values()) {
      page.hanging(
          "  ",
          spoken(standing)
              + ": "
              + figuresOf(standing).size()
              + " figures and "
              + rulesOf(standing).size()
              + " rules");
    }
    for (Standing standing : Standing.values()) {
      page.heading("Figures: " + spoken(standing));
      for (Figure figure : figuresOf(standing)) {
        String unit = figure.unit().equals("1") ? "" : " " + figure.unit();
        page.hanging("  ", figure.what() + ": " + figure.value() + unit);
        page.hanging("      ", figure.source() + "; used in " + figure.usedIn());
      }
    }
    page.heading("Rules with a published source");
    bySource(rulesOf(Standing.PUBLISHED))
        .forEach(
            (source, named) -> {
              page.hanging("  ", source);
              named.forEach(rule -> page.hanging("      ", rule));
            });
    page.hanging(
        "  ",
        "All other rules rest on common practice or memory; each says which. Where the maker says"
            + " otherwise, the maker is right.");
    return page.toString();
  }

  private List<Figure> figuresOf(Standing standing) {
    return figures.stream().filter(figure -> figure.standing() == standing).toList();
  }

  private List<RuleInfo> rulesOf(Standing standing) {
    return rules.stream().filter(rule -> standing(rule) == standing).toList();
  }

  private static Map<String, List<String>> bySource(List<RuleInfo> some) {
    return some.stream()
        .collect(
            Collectors.groupingBy(
                RuleInfo::source,
                TreeMap::new,
                Collectors.mapping(RuleInfo::name, Collectors.toList())));
  }

  /** For programs, format {@value #FORMAT}. */
  public String json() {
    Map<String, Object> counts = new LinkedHashMap<>();
    for (Standing standing : Standing.values()) {
      counts.put(
          JsonForm.id(standing),
          JsonForm.map("figures", figuresOf(standing).size(), "rules", rulesOf(standing).size()));
    }
    return JsonText.of(
        JsonForm.map(
            "format",
            FORMAT,
            "counts",
            counts,
            "figures",
            JsonForm.each(
                figures,
                f ->
                    JsonForm.map(
                        "id", f.id(),
                        "what", f.what(),
                        "value", f.value(),
                        "unit", f.unit(),
                        "source", f.source(),
                        "standing", JsonForm.id(f.standing()),
                        "used-in", f.usedIn())),
            "rules",
            JsonForm.each(
                rules,
                rule ->
                    JsonForm.map(
                        "name", rule.name(),
                        "source", rule.source(),
                        "standing", JsonForm.id(standing(rule))))));
  }
}
