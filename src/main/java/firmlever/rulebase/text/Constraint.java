package firmlever.rulebase.text;

import java.util.List;
import java.util.stream.Stream;

/** What a condition of a rule asks of one fact, as it is written. */
public sealed interface Constraint {

  /** {@code daysAgo <= 30}; the operator is one of {@code == != < <= > >=}. */
  record Comparison(Operand left, String operator, Operand right) implements Constraint {}

  /** {@code event in ( "hung", "flown" )}. */
  record Among(Operand left, boolean negated, List<Operand> values) implements Constraint {}

  /** {@code circumstances contains "pads-in"}. */
  record Contains(Operand left, boolean negated, Operand value) implements Constraint {}

  /** {@code present}: a statement that is true or not. */
  record Holds(Operand operand) implements Constraint {}

  /** {@code !opening}. */
  record Not(Constraint constraint) implements Constraint {}

  /** All of them, joined by {@code &&}. */
  record All(List<Constraint> parts) implements Constraint {}

  /** Any of them, joined by {@code ||}. */
  record Any(List<Constraint> parts) implements Constraint {}

  /** {@code $limit : value}: gives a name and asks nothing. */
  record Named(String variable, Operand operand) implements Constraint {}

  /** Something that is not of the small language rules are written in. */
  record Unread(String text) implements Constraint {}

  /** A value in a constraint. */
  sealed interface Operand {
    /** The value as text, where it is one. */
    default Stream<String> texts() {
      return this instanceof Literal literal && literal.value() instanceof String text
          ? Stream.of(text)
          : Stream.empty();
    }

    /** Whether it is this field of the fact itself. */
    default boolean isField(String name) {
      return this instanceof Field field
          && field.variable().isEmpty()
          && field.arguments().isEmpty()
          && field.name().equals(name);
    }
  }

  /** A text, a number (always a double), a flag or a {@link firmlever.casefile.Fluid}. */
  record Literal(Object value) implements Operand {}

  /**
   * A field or method of a fact.
   *
   * @param variable the fact, such as {@code $job}; empty for the fact in question
   * @param name of the field or method; empty where the variable itself is the value
   * @param arguments texts and numbers handed to the method; none for a field
   */
  record Field(String variable, String name, List<Literal> arguments) implements Operand {}
}
