package firmlever.rulebase;

import firmlever.document.BadInput;
import firmlever.rulebase.text.RuleReader;
import firmlever.rulebase.text.RuleText;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/** The texts of the rules that a rule base goes by. */
public final class RulesInForce {
  private RulesInForce() {}

  /**
   * All rules in force: those of this build that no shop has replaced or switched off, then the
   * shop's own.
   *
   * @throws BadInput where a file of the shop's can no longer be read
   */
  public static List<RuleText> of(RuleBase rules) throws BadInput {
    return of(rules, text -> true);
  }

  /**
   * The rules in force that make, move or describe the belief in that cause.
   *
   * @throws BadInput as for {@link #of}
   */
  public static List<RuleText> about(String cause, RuleBase rules) throws BadInput {
    return of(rules, text -> text.contains('"' + cause + '"')).stream()
        .filter(rule -> rule.isAbout(cause))
        .toList();
  }

  private static List<RuleText> of(RuleBase rules, Predicate<String> files) throws BadInput {
    List<RuleText> texts = new ArrayList<>(builtIn(files));
    if (rules.overlay().isPresent()) {
      Overlay overlay = rules.overlay().get();
      texts.removeIf(
          rule ->
              overlay.replaced().contains(rule.name())
                  || overlay.switchedOff().contains(rule.name()));
      texts.addAll(overlay.texts());
    }
    return List.copyOf(texts);
  }

  private static List<RuleText> builtIn(Predicate<String> files) {
    List<RuleText> rules = new ArrayList<>();
    for (String path : RuleFiles.builtIn()) {
      // Warranty clauses and job cards are rule bases of their own.
      boolean ofAnother = path.startsWith("rules/warranty/") || path.startsWith("rules/jobcard/");
      if (path.endsWith(".drl") && !ofAnother) {
        String text = RuleFiles.text(path);
        if (files.test(text)) {
          rules.addAll(RuleReader.read(path, text));
        }
      }
    }
    return rules;
  }
}
