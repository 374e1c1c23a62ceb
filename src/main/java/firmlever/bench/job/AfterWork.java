package firmlever.bench.job;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Node;
import firmlever.vocabulary.Acceptance;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The case as it stands after the work: what the acceptance is judged by. No check that was made
 * before the work counts for it, and what was found before stays found until somebody has looked
 * again, so that nothing unknown reads as clear.
 */
public final class AfterWork {
  private final CaseEdits edits;
  private final Map<String, Acceptance> checks = new LinkedHashMap<>();
  private final Set<String> covered = new LinkedHashSet<>();

  public AfterWork(Vocabulary vocabulary) {
    this.edits = new CaseEdits(vocabulary);
    for (Acceptance each : Acceptance.builtIn(vocabulary)) {
      checks.put(each.id(), each);
      covered.addAll(each.failsOn());
      covered.addAll(each.clear());
    }
  }

  public Map<String, Acceptance> checks() {
    return checks;
  }

  /** What was found before and no acceptance check looks for: to be looked at again. */
  public List<String> again(CaseFile file) {
    return file.symptoms().entrySet().stream()
        .filter(each -> each.getValue() == Presence.PRESENT && !covered.contains(each.getKey()))
        .map(Map.Entry::getKey)
        .toList();
  }

  /** The text of the case after the work. */
  public String text(CaseFile file, String caseText, Sheet sheet) throws BadInput {
    Map<String, Object> after =
        Plain.map((Node.Object) DocumentReader.readText(caseText, "the case"));
    Map<String, Presence> findings = findings(file, sheet);
    Map<String, Object> symptoms = new LinkedHashMap<>();
    findings.forEach(
        (id, presence) ->
            symptoms.put(id, presence.name().toLowerCase(Locale.ROOT).replace('_', '-')));
    after.put("symptoms", symptoms);
    List<String> told =
        file.onlyTold().stream()
            .filter(id -> findings.get(id) == file.symptoms().get(id))
            .filter(id -> !sheet.again().containsKey(id))
            .toList();
    after.remove("only-told");
    if (!told.isEmpty()) {
      after.put("only-told", told);
    }
    after.remove("readings");
    Map<String, Object> readings = edits.readings(sheet.readings());
    if (!readings.isEmpty()) {
      after.put("readings", readings);
    }
    List<Object> history = new ArrayList<>();
    if (after.get("history") instanceof List<?> before) {
      history.addAll(before);
    }
    for (Sheet.Done done : sheet.done()) {
      history.add(done.entry(ofThisVisit()));
    }
    sheet.checks().forEach((id, result) -> history.addAll(workOf(id, result, sheet)));
    after.put("history", history);
    return JsonText.of(after) + "\n";
  }

  private static Map<String, Object> ofThisVisit() {
    return new LinkedHashMap<>(Map.of("days-ago", 0));
  }

  /** A check that consists of a work, such as bedding in, passes by that work on record. */
  private List<Map<String, Object>> workOf(String check, String result, Sheet sheet) {
    Acceptance made = checks.get(check);
    if (made == null || !result.equals(Sheet.PASSED) || !made.clear().isEmpty()) {
      return List.of();
    }
    List<Map<String, Object>> works = new ArrayList<>();
    for (String work : made.works()) {
      if (sheet.done().stream().noneMatch(done -> done.work().equals(work))) {
        Map<String, Object> entry = ofThisVisit();
        entry.put("work", work);
        works.add(entry);
      }
    }
    return works;
  }

  private Map<String, Presence> findings(CaseFile file, Sheet sheet) {
    Map<String, Presence> after = new LinkedHashMap<>();
    file.symptoms()
        .forEach(
            (id, presence) -> {
              if (presence == Presence.PRESENT || !covered.contains(id)) {
                after.put(id, presence);
              }
            });
    sheet.again().forEach((id, said) -> after.put(id, presence(said)));
    sheet
        .checks()
        .forEach(
            (id, result) -> {
              Acceptance check = checks.get(id);
              if (check != null && result.equals(Sheet.PASSED)) {
                check.failsOn().stream()
                    .filter(after::containsKey)
                    .forEach(symptom -> after.put(symptom, Presence.ABSENT));
                check.clear().forEach(symptom -> after.put(symptom, Presence.ABSENT));
              }
            });
    // What failed one check may be covered by another that passed: what was found stands.
    sheet
        .checks()
        .forEach(
            (id, result) -> {
              if (checks.containsKey(id) && checks.get(id).failsOn().contains(result)) {
                after.put(result, Presence.PRESENT);
              }
            });
    return after;
  }

  private static Presence presence(String said) {
    return said.equals("absent") ? Presence.ABSENT : Presence.PRESENT;
  }

  /** The case that goes back to the diagnosis after works that did not help. */
  public String inVain(CaseFile file, String caseText, Sheet sheet) throws BadInput {
    Map<String, Object> after =
        Plain.map((Node.Object) DocumentReader.readText(text(file, caseText, sheet), "the case"));
    if (after.get("history") instanceof List<?> entries) {
      int first = entries.size() - sheet.done().size() - added(sheet);
      List<Object> history = new ArrayList<>();
      for (int i = 0; i < entries.size(); i++) {
        if (i >= first && entries.get(i) instanceof Map<?, ?> entry) {
          Map<String, Object> vain = new LinkedHashMap<>();
          entry.forEach((name, value) -> vain.put(String.valueOf(name), value));
          vain.put("outcome", "unchanged");
          history.add(vain);
        } else {
          history.add(entries.get(i));
        }
      }
      after.put("history", history);
    }
    return JsonText.of(after) + "\n";
  }

  private int added(Sheet sheet) {
    return sheet.checks().entrySet().stream()
        .mapToInt(each -> workOf(each.getKey(), each.getValue(), sheet).size())
        .sum();
  }
}
