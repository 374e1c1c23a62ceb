package firmlever.rulebase;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.Fluid;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.Facts.Brake;
import firmlever.rulebase.Facts.Estimate;
import firmlever.rulebase.Facts.Event;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.Facts.GasOrGive;
import firmlever.rulebase.Facts.History;
import firmlever.rulebase.Facts.Job;
import firmlever.rulebase.Facts.MakerFigure;
import firmlever.rulebase.Facts.Reading;
import firmlever.rulebase.Facts.SoundBrake;
import firmlever.rulebase.text.Constraint;
import firmlever.rulebase.text.Constraint.Field;
import firmlever.rulebase.text.Constraint.Literal;
import firmlever.rulebase.text.Constraint.Operand;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Condition;
import firmlever.rulebase.text.RuleText.Kind;
import firmlever.vocabulary.Vocabulary;
import java.lang.reflect.Array;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * Holds the conditions of a rule, as they are written, against the facts of one case: which are
 * met, and what the others lack. The engine decides which rules speak; this tells people why one
 * did not.
 */
public final class Judge {

  /** What is to be said of a condition. */
  public enum Verdict {
    MET,
    /** It is known not to be so. */
    FALSE,
    /** A symptom nobody looked for, or a reading nobody took, would decide it. */
    NOT_CHECKED,
    /** It rests on something that nobody recorded. */
    UNKNOWN,
    /** It speaks of a fact that a condition before it did not find. */
    RESTS_ON_ANOTHER,
    /** It is not of the language this judge reads. */
    NOT_JUDGED
  }

  /**
   * One condition and what the case says to it.
   *
   * @param seen the facts that meet it, or the one that comes nearest; none where there is nothing
   *     like it
   * @param lacking what the nearest one lacks
   */
  public record Judged(
      Condition condition, Verdict verdict, List<Object> seen, List<Constraint> lacking) {
    Judged(Condition condition, Verdict verdict, List<Object> seen) {
      this(condition, verdict, seen, List.of());
    }
  }

  /** A rule and what the case says to each of its conditions. */
  public record Judgement(RuleText rule, List<Judged> conditions) {}

  private static final Map<String, Class<?>> KINDS = new HashMap<>();

  static {
    for (Class<?> kind : Facts.class.getDeclaredClasses()) {
      KINDS.put(kind.getSimpleName(), kind);
    }
  }

  private final List<Object> facts;
  private final Map<String, Known> findings;
  private final boolean told;

  /** A judge of that case and of what the rules found in it. */
  public Judge(CaseFile file, BrakeModel model, Vocabulary vocabulary) {
    facts = CaseFacts.others(file, model.throwEstimate(), vocabulary);
    facts.addAll(Names.kindFacts(vocabulary));
    findings = model.findings();
    told = facts.stream().anyMatch(fact -> fact instanceof History history && history.told());
  }

  /** Judges the conditions of one rule, in their order. */
  public Judgement of(RuleText rule) {
    List<Judged> judged = new ArrayList<>();
    List<Map<String, Object>> bindings = List.of(Map.of());
    for (Condition condition : rule.conditions()) {
      if (condition.kind() == Kind.UNREAD || !KINDS.containsKey(condition.fact())) {
        judged.add(new Judged(condition, Verdict.NOT_JUDGED, List.of()));
        continue;
      }
      List<Object> candidates = factsOf(condition.fact(), rule.name());
      try {
        List<Map<String, Object>> met = met(condition, candidates, bindings);
        judged.add(
            met.isEmpty()
                ? unmet(condition, candidates, bindings)
                : new Judged(
                    condition,
                    Verdict.MET,
                    condition.kind() == Kind.NOT
                        ? List.of()
                        : matching(condition, candidates, bindings.get(0))));
        bindings = met.isEmpty() ? bindings : met;
      } catch (Unbound e) {
        judged.add(new Judged(condition, Verdict.RESTS_ON_ANOTHER, List.of()));
      } catch (Unreadable e) {
        judged.add(new Judged(condition, Verdict.NOT_JUDGED, List.of()));
      }
    }
    return new Judgement(rule, List.copyOf(judged));
  }

  /** A rule that concludes a symptom does so while it is not concluded yet. */
  private List<Object> factsOf(String kind, String rule) {
    Class<?> type = requireNonNull(KINDS.get(kind));
    if (type == Finding.class) {
      return findings.values().stream()
          .filter(known -> !known.said().rule().equals(rule))
          .<Object>map(known -> new Finding(known.symptom(), known.present()))
          .toList();
    }
    return facts.stream().filter(type::isInstance).toList();
  }

  /** How the conditions so far and this one can be met together. */
  private static List<Map<String, Object>> met(
      Condition condition, List<Object> candidates, List<Map<String, Object>> bindings) {
    List<Map<String, Object>> met = new ArrayList<>();
    for (Map<String, Object> before : bindings) {
      List<Object> matching = matching(condition, candidates, before);
      if (condition.kind() == Kind.EACH) {
        matching.forEach(fact -> met.add(bound(condition, fact, before)));
      } else if (matching.isEmpty() == (condition.kind() == Kind.NOT)) {
        met.add(before);
      }
    }
    return met;
  }

  private static List<Object> matching(
      Condition condition, List<Object> candidates, Map<String, Object> bindings) {
    // Without any candidate the constraints are looked at all the same: they may not be readable.
    condition.constraints().forEach(each -> mustBeReadable(each, condition.fact(), bindings));
    return candidates.stream()
        .filter(
            fact ->
                condition.constraints().stream()
                    .allMatch(each -> truth(each, fact, bindings).holds()))
        .toList();
  }

  private static Map<String, Object> bound(
      Condition condition, Object fact, Map<String, Object> before) {
    Map<String, Object> bound = new HashMap<>(before);
    if (!condition.variable().isEmpty()) {
      bound.put(condition.variable(), fact);
    }
    for (Constraint each : condition.constraints()) {
      if (each instanceof Constraint.Named named) {
        bound.put(named.variable(), value(named.operand(), fact, before));
      }
    }
    return bound;
  }

  private Judged unmet(
      Condition condition, List<Object> candidates, List<Map<String, Object>> bindings) {
    Map<String, Object> first = bindings.get(0);
    if (condition.kind() == Kind.NOT) {
      return new Judged(condition, Verdict.FALSE, matching(condition, candidates, first));
    }
    Function<Object, List<Truth>> truths =
        fact -> condition.constraints().stream().map(each -> truth(each, fact, first)).toList();
    boolean open =
        candidates.stream()
            .anyMatch(fact -> truths.apply(fact).stream().allMatch(t -> t.holds() || !t.sure()));
    List<Object> nearest =
        candidates.stream()
            .filter(fact -> truths.apply(fact).get(0).holds() || isSingle(fact))
            .max(
                Comparator.comparingLong(
                    f -> truths.apply(f).stream().filter(Truth::holds).count()))
            .stream()
            .toList();
    List<Constraint> lacking =
        nearest.stream()
            .flatMap(
                fact ->
                    condition.constraints().stream()
                        .filter(each -> !truth(each, fact, first).holds()))
            .toList();
    return new Judged(condition, open ? Verdict.UNKNOWN : lack(condition), nearest, lacking);
  }

  /** Of these there is one in every case. */
  private static boolean isSingle(Object fact) {
    return !(fact instanceof Finding
        || fact instanceof Reading
        || fact instanceof MakerFigure
        || fact instanceof Job
        || fact instanceof Event);
  }

  /** Why no fact meets a condition that no fact leaves open. */
  private Verdict lack(Condition condition) {
    Class<?> kind = KINDS.get(condition.fact());
    if (kind == Finding.class) {
      return findings.keySet().containsAll(condition.named("symptom"))
          ? Verdict.FALSE
          : Verdict.NOT_CHECKED;
    }
    if (kind == Reading.class) {
      return isThere(condition, "reading", Reading.class, Reading::reading)
          ? Verdict.FALSE
          : Verdict.NOT_CHECKED;
    }
    if (kind == Estimate.class) {
      return isThere(condition, "symptom", Estimate.class, Estimate::symptom)
          ? Verdict.FALSE
          : Verdict.NOT_CHECKED;
    }
    if (kind == MakerFigure.class) {
      return isThere(condition, "figure", MakerFigure.class, MakerFigure::figure)
          ? Verdict.FALSE
          : Verdict.UNKNOWN;
    }
    if (kind == SoundBrake.class || kind == GasOrGive.class) {
      return facts.stream().anyMatch(kind::isInstance) ? Verdict.FALSE : Verdict.NOT_CHECKED;
    }
    boolean ofTheRecord = kind == Job.class || kind == Event.class || kind == History.class;
    return ofTheRecord && !told ? Verdict.UNKNOWN : Verdict.FALSE;
  }

  private <T> boolean isThere(
      Condition condition, String field, Class<T> kind, Function<T, String> name) {
    return facts.stream()
        .filter(kind::isInstance)
        .map(kind::cast)
        .anyMatch(fact -> condition.named(field).contains(name.apply(fact)));
  }

  /**
   * Whether a constraint holds, as the engine sees it.
   *
   * @param sure false where it rests on something nobody recorded
   */
  private record Truth(boolean holds, boolean sure) {}

  private static Truth truth(Constraint constraint, Object fact, Map<String, Object> bindings) {
    if (constraint instanceof Constraint.Comparison c) {
      Object left = value(c.left(), fact, bindings);
      Object right = value(c.right(), fact, bindings);
      boolean asksWhetherKnown = c.right() instanceof Literal literal && isUnknown(literal.value());
      boolean sure = asksWhetherKnown || known(c.left(), fact, bindings);
      return new Truth(compared(left, c.operator(), right), sure);
    }
    if (constraint instanceof Constraint.Among among) {
      Object left = value(among.left(), fact, bindings);
      boolean found =
          among.values().stream().anyMatch(each -> left.equals(value(each, fact, bindings)));
      return new Truth(found != among.negated(), known(among.left(), fact, bindings));
    }
    if (constraint instanceof Constraint.Contains contains) {
      Collection<?> held = (Collection<?>) value(contains.left(), fact, bindings);
      boolean found = held.contains(value(contains.value(), fact, bindings));
      return new Truth(found != contains.negated(), true);
    }
    if (constraint instanceof Constraint.Holds holds) {
      return new Truth(
          (Boolean) value(holds.operand(), fact, bindings), known(holds.operand(), fact, bindings));
    }
    if (constraint instanceof Constraint.Not not) {
      Truth inner = truth(not.constraint(), fact, bindings);
      return new Truth(!inner.holds(), inner.sure());
    }
    if (constraint instanceof Constraint.All all) {
      List<Truth> parts = all.parts().stream().map(p -> truth(p, fact, bindings)).toList();
      boolean holds = parts.stream().allMatch(Truth::holds);
      return new Truth(
          holds, parts.stream().allMatch(Truth::sure) || surely(parts, false) && !holds);
    }
    if (constraint instanceof Constraint.Any any) {
      List<Truth> parts = any.parts().stream().map(p -> truth(p, fact, bindings)).toList();
      boolean holds = parts.stream().anyMatch(Truth::holds);
      return new Truth(holds, parts.stream().allMatch(Truth::sure) || surely(parts, true));
    }
    if (constraint instanceof Constraint.Named) {
      return new Truth(true, true);
    }
    throw new Unreadable();
  }

  private static boolean surely(List<Truth> parts, boolean holds) {
    return parts.stream().anyMatch(part -> part.sure() && part.holds() == holds);
  }

  private static boolean compared(Object left, String operator, Object right) {
    if (left instanceof Number a && right instanceof Number b) {
      double x = a.doubleValue();
      double y = b.doubleValue();
      return switch (operator) {
        case "==" -> x == y;
        case "!=" -> x != y;
        case "<" -> x < y;
        case "<=" -> x <= y;
        case ">" -> x > y;
        default -> x >= y;
      };
    }
    return switch (operator) {
      case "==" -> Objects.equals(left, right);
      case "!=" -> !Objects.equals(left, right);
      default -> throw new Unreadable();
    };
  }

  /** Whether the value was recorded, and is not what stands for nothing recorded. */
  private static boolean known(Operand operand, Object fact, Map<String, Object> bindings) {
    if (!(operand instanceof Field field)) {
      return true;
    }
    Object owner = owner(field, fact, bindings);
    if (isUnknown(value(operand, fact, bindings))) {
      return false;
    }
    if (owner instanceof Brake brake) {
      boolean ofFluid = field.name().equals("mineral") || field.name().equals("glycol");
      boolean ofPistons = field.name().equals("pistons") && brake.pistons() == 0;
      return !(ofFluid && !brake.fluidKnown() || ofPistons);
    }
    if (owner instanceof Job job) {
      boolean ofDay = field.name().equals("daysAgo") && !job.dated();
      boolean ofOutcome = field.name().equals("inVain") && isUnknown(job.outcome());
      return !(ofDay || ofOutcome);
    }
    if (owner instanceof Event event) {
      return !field.name().equals("daysAgo") || event.dated();
    }
    return !(owner instanceof History history) || history.told();
  }

  private static boolean isUnknown(Object value) {
    return value instanceof Double number && number.isNaN()
        || value == Fluid.UNKNOWN
        || "unknown".equals(value);
  }

  private static Object value(Operand operand, Object fact, Map<String, Object> bindings) {
    if (operand instanceof Literal literal) {
      return literal.value();
    }
    Field field = (Field) operand;
    Object owner = owner(field, fact, bindings);
    return field.name().isEmpty() ? owner : called(owner, field);
  }

  private static Object owner(Field field, Object fact, Map<String, Object> bindings) {
    if (field.variable().isEmpty()) {
      return fact;
    }
    if (!bindings.containsKey(field.variable())) {
      throw new Unbound();
    }
    return bindings.get(field.variable());
  }

  private static Object called(Object owner, Field field) {
    Method method = method(owner.getClass(), field).orElseThrow(Unreadable::new);
    try {
      return method.invoke(owner, arguments(method, field.arguments()));
    } catch (IllegalAccessException | InvocationTargetException | IllegalArgumentException e) {
      throw new Unreadable();
    }
  }

  private static Optional<Method> method(Class<?> type, Field field) {
    int given = field.arguments().size();
    return Stream.of(type.getMethods())
        .filter(method -> method.getName().equals(field.name()))
        .filter(
            method ->
                method.isVarArgs()
                    ? given >= method.getParameterCount() - 1
                    : given == method.getParameterCount())
        .findFirst();
  }

  /** Numbers become whole ones where the method wants them; the last texts may be any number. */
  private static Object[] arguments(Method method, List<Literal> given) {
    Class<?>[] types = method.getParameterTypes();
    Object[] handed = new Object[types.length];
    for (int i = 0; i < types.length; i++) {
      if (method.isVarArgs() && i == types.length - 1) {
        int rest = given.size() - i;
        handed[i] = Array.newInstance(types[i].getComponentType(), rest);
        for (int k = 0; k < rest; k++) {
          Array.set(handed[i], k, given.get(i + k).value());
        }
      } else {
        Object value = given.get(i).value();
        handed[i] =
            types[i] == int.class && value instanceof Double number ? number.intValue() : value;
      }
    }
    return handed;
  }

  /** Throws where a constraint cannot be held against a fact of that kind. */
  private static void mustBeReadable(
      Constraint constraint, String kind, Map<String, Object> bindings) {
    if (constraint instanceof Constraint.Unread) {
      throw new Unreadable();
    } else if (constraint instanceof Constraint.Not not) {
      mustBeReadable(not.constraint(), kind, bindings);
    } else if (constraint instanceof Constraint.All all) {
      all.parts().forEach(part -> mustBeReadable(part, kind, bindings));
    } else if (constraint instanceof Constraint.Any any) {
      any.parts().forEach(part -> mustBeReadable(part, kind, bindings));
    } else if (constraint instanceof Constraint.Comparison c) {
      Stream.of(c.left(), c.right()).forEach(each -> mustBeReadable(each, kind, bindings));
    } else if (constraint instanceof Constraint.Among among) {
      mustBeReadable(among.left(), kind, bindings);
      among.values().forEach(each -> mustBeReadable(each, kind, bindings));
    } else if (constraint instanceof Constraint.Contains contains) {
      mustBeReadable(contains.left(), kind, bindings);
      mustBeReadable(contains.value(), kind, bindings);
    } else if (constraint instanceof Constraint.Holds holds) {
      mustBeReadable(holds.operand(), kind, bindings);
    } else if (constraint instanceof Constraint.Named named) {
      mustBeReadable(named.operand(), kind, bindings);
    }
  }

  private static void mustBeReadable(Operand operand, String kind, Map<String, Object> bindings) {
    if (operand instanceof Field field) {
      Class<?> type =
          field.variable().isEmpty()
              ? requireNonNull(KINDS.get(kind))
              : owner(field, field, bindings).getClass();
      if (!field.name().isEmpty() && method(type, field).isEmpty()) {
        throw new Unreadable();
      }
    }
  }

  /** A constraint speaks of a fact that no condition before it found. */
  private static final class Unbound extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  /** A constraint is not of the language this judge reads. */
  private static final class Unreadable extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }
}
