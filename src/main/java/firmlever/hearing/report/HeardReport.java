package firmlever.hearing.report;

import firmlever.hearing.Heard;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.language.Certainty;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What a complaint was heard to say, so that a person can see and mend it. */
public final class HeardReport {
  private static final int FEW = 2;

  private final Vocabulary vocabulary;
  private final Map<String, String> opposites;

  public HeardReport(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.opposites = vocabulary.opposites();
  }

  public void text(Page page, Heard heard) {
    page.heading("Heard in the complaint");
    List<String> said =
        Stream.concat(
                heard.findings().stream().map(this::spoken),
                heard.history().stream().map(this::spoken))
            .toList();
    page.hanging("  ", said.isEmpty() ? "nothing that is known here" : String.join("; ", said));
    if (!heard.unheard().isEmpty()) {
      page.hanging("  ", "not understood: " + quoted(heard.unheard()));
    }
    if (!heard.elsewhere().isEmpty()) {
      page.hanging(
          "  ",
          "of the other brake, left aside: "
              + quoted(heard.elsewhere().stream().map(Finding::words).toList()));
    }
    if (heard.cut()) {
      page.hanging("  ", "the complaint is too long: only its beginning was listened to");
    }
  }

  /** What counts of it and what was not understood, for a first screen. */
  public String oneLine(Heard heard) {
    StringBuilder line = new StringBuilder(counted(heard));
    if (!heard.unheard().isEmpty()) {
      line.append("; not understood: ").append(few(heard.unheard()));
    }
    if (!heard.elsewhere().isEmpty()) {
      line.append("; of the other brake, left aside: ")
          .append(few(heard.elsewhere().stream().map(Finding::words).toList()));
    }
    return line.toString();
  }

  private static String few(List<String> words) {
    int more = words.size() - FEW;
    return quoted(words.subList(0, Math.min(FEW, words.size())))
        + (more > 0 ? " and " + more + " more" : "");
  }

  private String counted(Heard heard) {
    String said =
        Stream.concat(
                heard.findings().stream()
                    .filter(each -> each.certainty() != Certainty.UNSURE)
                    .map(this::spoken),
                heard.history().stream().map(this::spoken))
            .collect(Collectors.joining("; "));
    if (!said.isEmpty()) {
      return said;
    }
    String unsure = heard.findings().stream().map(this::spoken).collect(Collectors.joining("; "));
    return unsure.isEmpty() ? "nothing that is known here" : "nothing for certain; " + unsure;
  }

  private String spoken(Finding each) {
    String symptom = opposites.getOrDefault(each.symptom(), each.symptom());
    boolean turned = opposites.containsKey(each.symptom());
    String name = vocabulary.symptom(symptom).said(true);
    return switch (each.certainty()) {
      case PRESENT -> vocabulary.symptom(symptom).said(!turned);
      case ABSENT -> vocabulary.symptom(symptom).said(turned);
      case UNSURE -> name + " perhaps (weighs little)";
    };
  }

  private String spoken(Told each) {
    String name = vocabulary.name(each.id());
    List<String> more = new ArrayList<>();
    each.daysAgo().ifPresent(days -> more.add(days == 0 ? "today" : days + " days ago"));
    switch (each.kind() == Kind.EVENT ? Heard.Person.UNKNOWN : each.by()) {
      case OWNER -> more.add("by the owner");
      case SHOP -> more.add("by a workshop");
      case UNKNOWN -> {}
    }
    each.outcome().ifPresent(outcome -> more.add(outcome.replace('-', ' ')));
    return name + (more.isEmpty() ? "" : " (" + String.join(", ", more) + ")");
  }

  private static String quoted(List<String> words) {
    return String.join(", ", words.stream().map(each -> "\"" + each.strip() + "\"").toList());
  }

  public static Map<String, Object> json(Heard heard) {
    Map<String, Object> json = new LinkedHashMap<>();
    for (Certainty certainty : Certainty.values()) {
      json.put(
          certainty.name().toLowerCase(java.util.Locale.ROOT),
          heard.findings().stream()
              .filter(each -> each.certainty() == certainty)
              .map(Finding::symptom)
              .toList());
    }
    json.put("history", heard.history().stream().map(HeardReport::json).toList());
    json.put("elsewhere", heard.elsewhere().stream().map(Finding::symptom).toList());
    json.put("wheel", heard.wheel().name().toLowerCase(java.util.Locale.ROOT));
    json.put("not-understood", heard.unheard());
    return json;
  }

  private static Map<String, Object> json(Told told) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put(told.kind() == Kind.EVENT ? "event" : "work", told.id());
    told.daysAgo().ifPresent(days -> json.put("days-ago", days));
    if (told.by() != Heard.Person.UNKNOWN) {
      json.put("by", told.by().name().toLowerCase(java.util.Locale.ROOT));
    }
    told.outcome().ifPresent(outcome -> json.put("outcome", outcome));
    told.fluid().ifPresent(fluid -> json.put("fluid", fluid.id()));
    json.put("words", told.words());
    return json;
  }
}
