package firmlever.rulebase.text;

import firmlever.rulebase.Model;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A rule as it is written: what a person reads in it, and what it says when its conditions are met.
 *
 * @param packageName the package it stands in, such as {@code firmlever.rules.causes}
 * @param source where its knowledge is from
 * @param file path of its rule file
 * @param line of its name in that file, from 1
 */
public record RuleText(
    String name,
    String packageName,
    String source,
    String file,
    int line,
    List<Condition> conditions,
    List<Statement> statements) {

  /** How many facts must match. */
  public enum Kind {
    /** Every matching fact makes the rule speak. */
    EACH,
    /** At least one, however many there are. */
    EXISTS,
    /** None at all. */
    NOT,
    /** A form this reader does not know; only {@code text} is told. */
    UNREAD
  }

  /**
   * One condition: a pattern on one kind of fact.
   *
   * @param variable name the matching fact is bound to, such as {@code $job}; empty where it is not
   * @param fact kind of fact, such as {@code Job}
   * @param constraints what must all hold of the fact
   * @param text the condition as it is written, on one line
   */
  public record Condition(
      Kind kind, String variable, String fact, List<Constraint> constraints, String text) {
    /** Whether it is met in every case, because every case has a brake. */
    public boolean always() {
      return kind == Kind.EACH && fact.equals("Brake") && constraints.isEmpty();
    }

    /** The ids that {@code field} may have, as far as the condition says it by name. */
    public List<String> named(String field) {
      return constraints.stream().flatMap(each -> named(each, field)).toList();
    }

    private static Stream<String> named(Constraint constraint, String field) {
      if (constraint instanceof Constraint.Comparison c
          && c.operator().equals("==")
          && c.left().isField(field)) {
        return Stream.of(c.right()).flatMap(Constraint.Operand::texts);
      }
      if (constraint instanceof Constraint.Among among
          && !among.negated()
          && among.left().isField(field)) {
        return among.values().stream().flatMap(Constraint.Operand::texts);
      }
      return Stream.empty();
    }
  }

  /**
   * What a rule says: a call of {@link Model}.
   *
   * @param verb name of the method
   * @param arguments texts without quotes and put together; what is known only in a case stands as
   *     it is written, such as {@code $job.when()}
   */
  public record Statement(String verb, List<String> arguments) {}

  /** What the rule says by one of these verbs. */
  public Stream<Statement> saying(String... verbs) {
    Set<String> wanted = Set.of(verbs);
    return statements.stream().filter(statement -> wanted.contains(statement.verb()));
  }

  /** Whether it makes or moves the belief in that cause, or says what the cause shows. */
  public boolean isAbout(String cause) {
    return saying("possible", "impossible", "raise", "lower", "shows")
        .anyMatch(statement -> statement.arguments().get(0).equals(cause));
  }

  /** Whether it speaks in every case. */
  public boolean always() {
    return conditions.stream().allMatch(Condition::always);
  }

  /**
   * The ids an argument stands for: itself, or the symptoms or works that the fact may have of
   * which it is a part ({@code $leak.symptom()}).
   */
  public List<String> ids(String argument) {
    if (!argument.startsWith("$")) {
      return List.of(argument);
    }
    String variable = argument.substring(0, argument.indexOf('.'));
    String field = argument.substring(argument.indexOf('.') + 1).replace("()", "");
    return conditions.stream()
        .filter(condition -> condition.variable().equals(variable))
        .flatMap(condition -> condition.named(field).stream())
        .collect(Collectors.toList());
  }
}
