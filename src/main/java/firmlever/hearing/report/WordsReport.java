package firmlever.hearing.report;

import firmlever.document.JsonText;
import firmlever.hearing.Glossary.Entry;
import firmlever.hearing.Glossary.Found;
import firmlever.hearing.language.Certainty;
import firmlever.sheet.JsonForm;
import firmlever.sheet.Page;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Prints names of the vocabulary with what they mean: all of them, or those a search found. */
public final class WordsReport {
  private static final String FORMAT = "firmlever-words/1";

  private WordsReport() {}

  /** Names by kind, and by place of the brake. */
  public static String list(List<Entry> entries, int width, boolean bold) {
    Page page = new Page(width, bold);
    String heading = "";
    for (Entry each : entries) {
      if (!heading(each).equals(heading)) {
        heading = heading(each);
        page.heading(heading);
      }
      lines(page, each, "");
    }
    return page.toString();
  }

  private static String heading(Entry entry) {
    String kind = id(entry.kind());
    String plural = kind.substring(0, 1).toUpperCase(Locale.ROOT) + kind.substring(1) + "s";
    return entry.place().isEmpty() ? plural : plural + ": " + entry.place();
  }

  /** What a search found, the surest first, each with its kind. */
  public static String found(List<Found> found, int width, boolean bold) {
    Page page = new Page(width, bold);
    for (Found each : found) {
      boolean denied = each.said().filter(said -> said == Certainty.ABSENT).isPresent();
      lines(page, each.entry(), " (" + id(each.entry().kind()) + (denied ? ", denied" : "") + ")");
    }
    return page.toString();
  }

  private static void lines(Page page, Entry entry, String more) {
    page.hanging("  ", entry.id() + ": " + entry.name() + more);
    page.hanging("      ", entry.definition());
  }

  /** All names for programs, format {@value #FORMAT}. */
  public static String listJson(List<Entry> entries) {
    return json(entries.stream().map(WordsReport::entry).toList());
  }

  /** What a search found for programs, in the same format, with how each was found. */
  public static String foundJson(List<Found> found) {
    return json(
        found.stream()
            .map(
                each -> {
                  Map<String, Object> entry = entry(each.entry());
                  entry.put("found-by", id(each.way()));
                  each.said().ifPresent(said -> entry.put("said", id(said)));
                  return entry;
                })
            .toList());
  }

  private static String json(List<Map<String, Object>> words) {
    return JsonText.of(JsonForm.map("format", FORMAT, "words", words));
  }

  private static Map<String, Object> entry(Entry each) {
    Map<String, Object> entry = new LinkedHashMap<>();
    entry.put("kind", id(each.kind()));
    entry.put("id", each.id());
    entry.put("name", each.name());
    entry.put("place", each.place());
    entry.put("definition", each.definition());
    return entry;
  }

  private static String id(Enum<?> value) {
    return JsonForm.id(value);
  }
}
