package firmlever.rulebase.text;

import firmlever.casefile.Fluid;
import firmlever.rulebase.text.Constraint.Field;
import firmlever.rulebase.text.Constraint.Literal;
import firmlever.rulebase.text.Constraint.Operand;
import firmlever.rulebase.text.RuleText.Condition;
import firmlever.rulebase.text.RuleText.Kind;
import firmlever.rulebase.text.RuleText.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.drools.drl.ast.descr.AnnotationDescr;
import org.drools.drl.ast.descr.BaseDescr;
import org.drools.drl.ast.descr.ExistsDescr;
import org.drools.drl.ast.descr.ExprConstraintDescr;
import org.drools.drl.ast.descr.NotDescr;
import org.drools.drl.ast.descr.PackageDescr;
import org.drools.drl.ast.descr.PatternDescr;
import org.drools.drl.ast.descr.RuleDescr;
import org.drools.drl.parser.DrlParser;
import org.drools.drl.parser.DroolsParserException;

/**
 * Reads rule files as texts: the engine's own parser finds the rules, and what stands in their
 * conditions and statements is read in the small language that rules are written in.
 */
public final class RuleReader {
  private RuleReader() {}

  /**
   * Reads the text of one rule file.
   *
   * @throws RuleFault where it is no rule file, or a statement in it has no end
   */
  public static List<RuleText> read(String path, String text) {
    DrlParser parser = new DrlParser();
    PackageDescr file;
    try {
      file = parser.parse(false, text);
    } catch (DroolsParserException e) {
      throw new RuleFault("", path + " cannot be read: " + e.getMessage(), "");
    }
    if (file == null || parser.hasErrors()) {
      throw new RuleFault("", path + " cannot be read: " + parser.getErrors(), "");
    }
    return file.getRules().stream().map(rule -> rule(path, file.getName(), rule)).toList();
  }

  private static RuleText rule(String path, String packageName, RuleDescr rule) {
    AnnotationDescr source = rule.getAnnotation("source");
    return new RuleText(
        rule.getName(),
        packageName,
        source == null ? "" : source.getSingleValueStripped().toString(),
        path,
        rule.getLine(),
        rule.getLhs().getDescrs().stream().map(RuleReader::condition).toList(),
        statements(rule.getName(), rule.getConsequence().toString()));
  }

  private static Condition condition(BaseDescr descr) {
    if (descr instanceof PatternDescr pattern) {
      return pattern(Kind.EACH, pattern);
    }
    Kind kind =
        descr instanceof NotDescr
            ? Kind.NOT
            : descr instanceof ExistsDescr ? Kind.EXISTS : Kind.UNREAD;
    List<?> inner =
        descr instanceof NotDescr not
            ? not.getDescrs()
            : descr instanceof ExistsDescr exists ? exists.getDescrs() : List.of();
    return inner.size() == 1 && inner.get(0) instanceof PatternDescr pattern
        ? pattern(kind, pattern)
        : new Condition(Kind.UNREAD, "", "", List.of(), descr.toString());
  }

  private static Condition pattern(Kind kind, PatternDescr pattern) {
    List<String> texts = new ArrayList<>();
    List<Constraint> constraints = new ArrayList<>();
    for (BaseDescr each : pattern.getConstraint().getDescrs()) {
      String text =
          each instanceof ExprConstraintDescr expression
              ? expression.getExpression().strip().replaceAll("\\s+", " ")
              : each.toString();
      texts.add(text);
      constraints.add(new Words(text).whole());
    }
    String variable = pattern.getIdentifier() == null ? "" : pattern.getIdentifier();
    String text =
        (kind == Kind.EACH ? "" : kind == Kind.NOT ? "not " : "exists ")
            + (variable.isEmpty() ? "" : variable + " : ")
            + pattern.getObjectType()
            + (texts.isEmpty() ? "()" : "( " + String.join(", ", texts) + " )");
    boolean plain = pattern.getSource() == null && pattern.getBehaviors().isEmpty();
    return new Condition(
        plain ? kind : Kind.UNREAD, variable, pattern.getObjectType(), constraints, text);
  }

  /** Space and comments, texts in quotes, words with an empty pair of brackets, single signs. */
  private static final Pattern PART =
      Pattern.compile(
          "\\s+|//[^\n]*|/\\*.*?\\*/|\"(?:[^\"\\\\]|\\\\.)*\"" + "|[-\\w$.]+(?:\\s*\\(\\s*\\))?|.",
          Pattern.DOTALL);

  private static final Pattern CALL = Pattern.compile("model\\.(\\w+)");

  /** The calls of {@code model} in a consequence. */
  private static List<Statement> statements(String rule, String consequence) {
    List<String> parts =
        PART.matcher(consequence)
            .results()
            .map(MatchResult::group)
            .filter(part -> !part.isBlank() && !part.startsWith("//") && !part.startsWith("/*"))
            .toList();
    List<Statement> statements = new ArrayList<>();
    for (int i = 0; i + 1 < parts.size(); i++) {
      Matcher call = CALL.matcher(parts.get(i));
      if (call.matches() && parts.get(i + 1).equals("(")) {
        statements.add(new Statement(call.group(1), arguments(rule, parts, i + 2)));
      }
    }
    return statements;
  }

  /** The arguments from {@code at} up to the bracket that closes the call. */
  private static List<String> arguments(String rule, List<String> parts, int at) {
    List<String> arguments = new ArrayList<>();
    StringBuilder argument = new StringBuilder();
    int depth = 0;
    for (String part : parts.subList(at, parts.size())) {
      if (depth == 0 && (part.equals(",") || part.equals(")"))) {
        arguments.add(argument.toString());
        argument.setLength(0);
        if (part.equals(")")) {
          return List.copyOf(arguments);
        }
      } else if (part.startsWith("\"")) {
        argument.append(unescaped(part.substring(1, part.length() - 1)));
      } else if (!part.equals("+")) {
        depth += part.equals("(") ? 1 : part.equals(")") ? -1 : 0;
        argument.append(part.replaceAll("\\s", ""));
      }
    }
    throw new RuleFault(rule, "a statement is not closed", "");
  }

  private static String unescaped(String quoted) {
    return quoted.replaceAll("\\\\(.)", "$1");
  }

  /** One constraint, word by word. */
  private static final class Words {
    private static final Pattern WORD =
        Pattern.compile(
            "\"(?:[^\"\\\\]|\\\\.)*\"|-?\\d+(?:\\.\\d+)?|[$A-Za-z_][\\w$]*"
                + "|==|!=|<=|>=|&&|\\|\\||[<>!(),.:]");

    private final String text;
    private final List<String> words = new ArrayList<>();
    private int at;
    private boolean strange;

    Words(String text) {
      this.text = text;
      Matcher word = WORD.matcher(text);
      int from = 0;
      while (word.find()) {
        strange |= !text.substring(from, word.start()).isBlank();
        words.add(word.group());
        from = word.end();
      }
      strange |= !text.substring(from).isBlank();
    }

    Constraint whole() {
      if (strange) {
        return new Constraint.Unread(text);
      }
      Optional<Constraint> read = any();
      return at == words.size() && read.isPresent() ? read.get() : new Constraint.Unread(text);
    }

    private boolean next(String word) {
      boolean here = at < words.size() && words.get(at).equals(word);
      at += here ? 1 : 0;
      return here;
    }

    private String peek() {
      return at < words.size() ? words.get(at) : "";
    }

    private Optional<Constraint> any() {
      List<Constraint> parts = new ArrayList<>();
      do {
        Optional<Constraint> part = all();
        if (part.isEmpty()) {
          return part;
        }
        parts.add(part.get());
      } while (next("||"));
      return Optional.of(parts.size() == 1 ? parts.get(0) : new Constraint.Any(parts));
    }

    private Optional<Constraint> all() {
      List<Constraint> parts = new ArrayList<>();
      do {
        Optional<Constraint> part = one();
        if (part.isEmpty()) {
          return part;
        }
        parts.add(part.get());
      } while (next("&&"));
      return Optional.of(parts.size() == 1 ? parts.get(0) : new Constraint.All(parts));
    }

    private Optional<Constraint> one() {
      if (next("!")) {
        return one().map(Constraint.Not::new);
      }
      if (next("(")) {
        Optional<Constraint> inner = any();
        return next(")") ? inner : Optional.empty();
      }
      if (peek().startsWith("$") && at + 1 < words.size() && words.get(at + 1).equals(":")) {
        String variable = peek();
        at += 2;
        return operand().map(operand -> new Constraint.Named(variable, operand));
      }
      return operand().flatMap(this::relation);
    }

    private Optional<Constraint> relation(Operand left) {
      boolean negated = next("not");
      if (next("in")) {
        return next("(")
            ? values().map(values -> new Constraint.Among(left, negated, values))
            : Optional.empty();
      }
      if (next("contains")) {
        return operand().map(value -> new Constraint.Contains(left, negated, value));
      }
      if (negated) {
        return Optional.empty();
      }
      String operator = peek();
      if (List.of("==", "!=", "<", "<=", ">", ">=").contains(operator)) {
        at++;
        return operand().map(right -> new Constraint.Comparison(left, operator, right));
      }
      return Optional.of(new Constraint.Holds(left));
    }

    /** Values up to the closing bracket. */
    private Optional<List<Operand>> values() {
      List<Operand> values = new ArrayList<>();
      do {
        Optional<Operand> value = operand();
        if (value.isEmpty()) {
          return Optional.empty();
        }
        values.add(value.get());
      } while (next(","));
      return next(")") ? Optional.of(values) : Optional.empty();
    }

    private static final Map<String, Boolean> FLAGS = Map.of("true", true, "false", false);

    private Optional<Operand> operand() {
      String word = peek();
      at++;
      if (word.startsWith("\"")) {
        return Optional.of(new Literal(unescaped(word.substring(1, word.length() - 1))));
      }
      if (word.matches("-?\\d.*")) {
        return Optional.of(new Literal(Double.valueOf(word)));
      }
      if (FLAGS.containsKey(word)) {
        return Optional.of(new Literal(FLAGS.get(word)));
      }
      if (!word.matches("[$A-Za-z_].*")) {
        return Optional.empty();
      }
      if (word.equals("Fluid") && next(".")) {
        String name = peek();
        at++;
        return Optional.ofNullable(FLUIDS.get(name)).map(Literal::new);
      }
      String variable = word.startsWith("$") ? word : "";
      String name = variable.isEmpty() ? word : "";
      if (!variable.isEmpty() && next(".")) {
        name = peek();
        at++;
      }
      if (!next("(")) {
        return Optional.of(new Field(variable, name, List.of()));
      }
      if (next(")")) {
        return Optional.of(new Field(variable, name, List.of()));
      }
      String method = name;
      return values()
          .filter(values -> values.stream().allMatch(Literal.class::isInstance))
          .map(values -> values.stream().map(Literal.class::cast).toList())
          .map(values -> new Field(variable, method, values));
    }

    private static final Map<String, Fluid> FLUIDS =
        Arrays.stream(Fluid.values()).collect(Collectors.toMap(Fluid::name, fluid -> fluid));
  }
}
