package firmlever.bench.job;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonText;
import firmlever.document.Node;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What was done in the shop on one job, beside what its case file holds.
 *
 * @param card the work in hand
 * @param done the works of this visit that are done and not judged in vain
 * @param vain those that were
 * @param checks what came of each acceptance check: {@code passed}, or the id of the symptom that
 *     failed it
 * @param again of what was found before and no check covers: {@code present} or {@code absent}
 * @param readings what was typed after the work, by name
 * @param reason why it is put aside; empty where it is not
 * @param signed who handed it back, and when
 */
public record Sheet(
    Optional<Card> card,
    List<Done> done,
    List<Done> vain,
    Map<String, String> checks,
    Map<String, String> again,
    Map<String, String> readings,
    String reason,
    Optional<Signed> signed) {

  static final String FORMAT = "firmlever-sheet/1";
  public static final String PASSED = "passed";
  static final Sheet EMPTY =
      new Sheet(
          Optional.empty(),
          List.of(),
          List.of(),
          Map.of(),
          Map.of(),
          Map.of(),
          "",
          Optional.empty());

  /**
   * A job card in hand.
   *
   * @param work id of the work
   * @param ticked texts of the steps that are done
   * @param values what was written down, by the text of its line
   * @param fluid id of the fluid used; empty for none
   */
  public record Card(
      String work,
      List<String> ticked,
      Map<String, String> values,
      String fluid,
      List<String> parts) {}

  /**
   * A work done.
   *
   * @param by code of who did it
   * @param torque the first torque written down, with its unit; empty for none
   * @param values all that was written down
   */
  public record Done(
      String work,
      String by,
      LocalDate day,
      String fluid,
      String torque,
      List<String> parts,
      Map<String, String> values) {

    /** The work as an entry of a history. */
    Map<String, Object> entry(Map<String, Object> when) {
      Map<String, Object> entry = new LinkedHashMap<>(when);
      entry.put("work", work);
      if (!fluid.isEmpty()) {
        entry.put("fluid", fluid);
      }
      entry.put("by", by);
      if (!torque.isEmpty()) {
        entry.put("torque", torque);
      }
      if (!parts.isEmpty()) {
        entry.put("parts", parts);
      }
      return entry;
    }
  }

  /** A signature. */
  public record Signed(String by, LocalDate day) {}

  public Sheet withCard(Optional<Card> other) {
    return new Sheet(other, done, vain, checks, again, readings, reason, signed);
  }

  public Sheet withDone(List<Done> works, List<Done> inVain) {
    return new Sheet(card, works, inVain, checks, again, readings, reason, signed);
  }

  public Sheet withAcceptance(
      Map<String, String> made, Map<String, String> anew, Map<String, String> measured) {
    return new Sheet(card, done, vain, made, anew, measured, reason, signed);
  }

  public Sheet withReason(String why) {
    return new Sheet(card, done, vain, checks, again, readings, why, signed);
  }

  public Sheet withSignature(Signed by) {
    return new Sheet(card, done, vain, checks, again, readings, "", Optional.of(by));
  }

  /** Reads a sheet that this program wrote; one without anything is empty. */
  public static Sheet read(String text) {
    try {
      Fields f = Fields.of(DocumentReader.readText(text, "the sheet"));
      return new Sheet(
          f.has("card") ? Optional.of(card(f.inner("card"))) : Optional.empty(),
          f.objects("done").stream().map(Sheet::done).toList(),
          f.objects("vain").stream().map(Sheet::done).toList(),
          texts(f.inner("checks")),
          texts(f.inner("again")),
          texts(f.inner("readings")),
          f.text("reason"),
          f.has("signed")
              ? Optional.of(
                  new Signed(
                      f.inner("signed").text("by"), f.inner("signed").date("day").orElseThrow()))
              : Optional.empty());
    } catch (BadInput e) {
      throw new IllegalStateException("a work sheet in the store is damaged", e);
    }
  }

  private static Card card(Fields f) {
    return new Card(
        f.text("work"),
        f.texts("ticked"),
        texts(f.inner("values")),
        f.text("fluid"),
        f.texts("parts"));
  }

  private static Done done(Fields f) {
    return new Done(
        f.text("work"),
        f.text("by"),
        f.date("day").orElseThrow(),
        f.text("fluid"),
        f.text("torque"),
        f.texts("parts"),
        texts(f.inner("values")));
  }

  private static Map<String, String> texts(Fields f) {
    Map<String, String> texts = new LinkedHashMap<>();
    f.object()
        .members()
        .forEach(
            (name, node) -> {
              if (node instanceof Node.Text text) {
                texts.put(name, text.value());
              }
            });
    return texts;
  }

  String json() {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("format", FORMAT);
    card.ifPresent(
        c -> {
          Map<String, Object> inner = new LinkedHashMap<>();
          inner.put("work", c.work());
          inner.put("ticked", c.ticked());
          inner.put("values", c.values());
          inner.put("fluid", c.fluid());
          inner.put("parts", c.parts());
          json.put("card", inner);
        });
    json.put("done", done.stream().map(Sheet::json).toList());
    json.put("vain", vain.stream().map(Sheet::json).toList());
    json.put("checks", checks);
    json.put("again", again);
    json.put("readings", readings);
    json.put("reason", reason);
    signed.ifPresent(s -> json.put("signed", Map.of("by", s.by(), "day", s.day().toString())));
    return JsonText.of(json);
  }

  private static Map<String, Object> json(Done done) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("work", done.work());
    json.put("by", done.by());
    json.put("day", done.day().toString());
    json.put("fluid", done.fluid());
    json.put("torque", done.torque());
    json.put("parts", done.parts());
    json.put("values", done.values());
    return json;
  }
}
