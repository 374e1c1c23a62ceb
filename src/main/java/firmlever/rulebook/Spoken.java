package firmlever.rulebook;

import firmlever.casefile.Fluid;
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
import firmlever.rulebase.Facts.Use;
import firmlever.rulebase.Judge.Judged;
import firmlever.rulebase.Judge.Verdict;
import firmlever.rulebase.text.Constraint;
import firmlever.rulebase.text.Constraint.Field;
import firmlever.rulebase.text.Constraint.Literal;
import firmlever.rulebase.text.Constraint.Operand;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Condition;
import firmlever.rulebase.text.RuleText.Kind;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Conditions of rules, and the facts they meet, in the words of the workshop. What has no words
 * here is told as it is written in the rule.
 */
public final class Spoken {
  private final Vocabulary vocabulary;
  private final UnaryOperator<String> symptomName;
  private final int most;

  /**
   * A speaker of that vocabulary.
   *
   * @param symptomName how a symptom is named, by its id
   * @param most how many things of a list are named
   */
  private Spoken(Vocabulary vocabulary, UnaryOperator<String> symptomName, int most) {
    this.vocabulary = vocabulary;
    this.symptomName = symptomName;
    this.most = most;
  }

  /** A speaker that names everything, and symptoms in its own way. */
  public Spoken(Vocabulary vocabulary, UnaryOperator<String> symptomName) {
    this(vocabulary, symptomName, Integer.MAX_VALUE);
  }

  /** A speaker that names no more than {@code most} things of a list. */
  public Spoken(Vocabulary vocabulary, int most) {
    this(vocabulary, id -> vocabulary.symptom(id).name(), most);
  }

  /** All conditions of a rule; {@code in every brake} where it has none to speak of. */
  String conditions(RuleText rule) {
    String spoken =
        rule.conditions().stream()
            .filter(condition -> !condition.always())
            .map(this::condition)
            .collect(Collectors.joining("; "));
    return spoken.isEmpty() ? "in every brake" : spoken;
  }

  /** One condition: what it needs. */
  public String condition(Condition c) {
    if (c.kind() == Kind.UNREAD) {
      return c.text();
    }
    boolean not = c.kind() == Kind.NOT;
    return switch (c.fact()) {
      case "Finding" -> finding(c, not);
      case "Reading" ->
          ids(c.named("reading"), Spoken::plain)
              + (not ? " was not measured" : " was measured")
              + rest(c, "reading");
      case "Estimate" -> ids(c.named("symptom"), symptomName) + " as worked out from the throws";
      case "SoundBrake" -> "how far sound brakes of this kind go";
      case "GasOrGive" ->
          "the throws were worked out" + (c.constraints().isEmpty() ? "" : ": " + all(c));
      case "KindOf" ->
          c.named("coarse").isEmpty()
              ? "one symptom is a kind of another"
              : "a kind of "
                  + ids(c.named("coarse"), symptomName)
                  + (has(c, "finest") ? " of which there is no finer one" : "");
      case "MakerFigure" ->
          (not ? "the maker gives no figure for " : "the maker gives a figure for ")
              + ids(c.named("figure"), Spoken::plain);
      case "Job" -> (not ? "no job on record: " : "a job on record: ") + all(c);
      case "Event" -> (not ? "no event on record: " : "an event on record: ") + all(c);
      default -> (not ? "not so, or not known: " : "") + all(c);
    };
  }

  private String finding(Condition c, boolean not) {
    List<String> symptoms = c.named("symptom");
    boolean present = has(c, "present");
    boolean absent = has(c, "absent");
    if (symptoms.isEmpty()) {
      return "that symptom is " + (present ? "there" : "absent");
    }
    if (!present && !absent) {
      return (not ? "nothing is known of " : "it is known of ") + ids(symptoms, symptomName);
    }
    return ids(symptoms, symptomName)
        + (not ? " is not known to be " : " is ")
        + (present ? "there" : "absent");
  }

  private static boolean has(Condition c, String flag) {
    return c.constraints().stream()
        .anyMatch(each -> each instanceof Constraint.Holds h && h.operand().isField(flag));
  }

  private String all(Condition c) {
    Optional<Field> unknown = askedToBeUnknown(c.constraints());
    if (unknown.isPresent()) {
      return field(c.fact(), unknown.get()) + "not known";
    }
    return c.constraints().isEmpty()
        ? "any"
        : c.constraints().stream()
            .map(each -> constraint(c.fact(), each))
            .collect(Collectors.joining(", "));
  }

  /** A number that is neither over nor under a limit is none at all. */
  private static Optional<Field> askedToBeUnknown(List<Constraint> constraints) {
    return constraints.size() == 2
            && constraints.get(0) instanceof Constraint.Not first
            && constraints.get(1) instanceof Constraint.Not second
            && first.constraint() instanceof Constraint.Comparison over
            && second.constraint() instanceof Constraint.Comparison under
            && over.left() instanceof Field field
            && field.equals(under.left())
            && over.operator().equals(">")
            && under.operator().equals("<=")
            && over.right().equals(under.right())
        ? Optional.of(field)
        : Optional.empty();
  }

  /** The constraints besides the one that names {@code field}. */
  private String rest(Condition c, String field) {
    return c.constraints().stream()
        .filter(each -> !(each instanceof Constraint.Comparison of && of.left().isField(field)))
        .filter(each -> !(each instanceof Constraint.Among of && of.left().isField(field)))
        .map(each -> constraint(c.fact(), each))
        .filter(words -> !words.isEmpty())
        .map(words -> ", " + words)
        .collect(Collectors.joining());
  }

  private String constraint(String fact, Constraint constraint) {
    if (constraint instanceof Constraint.Comparison c) {
      return comparison(fact, c);
    }
    if (constraint instanceof Constraint.Among among && among.left() instanceof Field field) {
      return (among.negated() ? "not " : "")
          + field(fact, field)
          + list(among.values().stream().map(value -> operand(field.name(), value)).toList());
    }
    if (constraint instanceof Constraint.Contains contains
        && contains.left() instanceof Field field) {
      return (contains.negated() ? "not " : "")
          + (field.name().equals("parts") ? "with new " : "")
          + operand(field.name(), contains.value());
    }
    if (constraint instanceof Constraint.Holds holds && holds.operand() instanceof Field field) {
      return flag(field);
    }
    if (constraint instanceof Constraint.Not not) {
      return not.constraint() instanceof Constraint.Holds h && h.operand().isField("fluidKnown")
          ? "the fluid it is built for is not known"
          : "not " + constraint(fact, not.constraint());
    }
    if (constraint instanceof Constraint.Any any) {
      return any.parts().stream()
          .map(part -> constraint(fact, part))
          .collect(Collectors.joining(" or "));
    }
    if (constraint instanceof Constraint.All all) {
      return all.parts().stream()
          .map(part -> constraint(fact, part))
          .collect(Collectors.joining(" and "));
    }
    return constraint instanceof Constraint.Unread unread ? unread.text() : "";
  }

  private String comparison(String fact, Constraint.Comparison c) {
    if (!(c.left() instanceof Field field)) {
      return operand("", c.left()) + " " + c.operator() + " " + operand("", c.right());
    }
    String right = operand(field.name(), c.right());
    if (field.name().equals("daysAgo")) {
      return days(c, right);
    }
    if (c.operator().equals("==") || c.operator().equals("!=")) {
      return (c.operator().equals("!=") ? "not " : "") + field(fact, field) + right;
    }
    String relation =
        switch (c.operator()) {
          case "<" -> "under ";
          case "<=" -> "at most ";
          case ">" -> "over ";
          default -> "at least ";
        };
    return field(fact, field) + relation + right + unit(field.name());
  }

  private static String days(Constraint.Comparison c, String right) {
    if (c.right() instanceof Field) {
      return switch (c.operator()) {
        case "<" -> "later than that";
        case "<=" -> "not before that";
        case ">" -> "before that";
        default -> "not after that";
      };
    }
    return switch (c.operator()) {
      case "<", "<=" -> "in the last " + right + " days";
      case ">", ">=" -> "more than " + right + " days ago";
      default -> right + " days ago";
    };
  }

  /** A field as the beginning of what is asked of it. */
  private String field(String fact, Field field) {
    List<String> arguments = field.arguments().stream().map(a -> operand("", a)).toList();
    return switch (field.name()) {
      case "work", "event", "circumstances", "reading", "figure", "symptom", "value" -> "";
      case "fluid" -> fact.equals("Brake") ? "built for " : "filled with ";
      case "timesGas" -> "times likelier with gas than with give: ";
      case "ageYears" -> "age of the brake ";
      case "fluidAgeYears" -> "age of the fluid ";
      case "hoseMm" -> "hose ";
      case "rotorMm" -> "rotor ";
      case "pistons" -> "caliper pistons ";
      case "ambientC" -> "temperature ";
      case "riderAndLoadKg" -> "rider and load ";
      case "altitudeM" -> "altitude ";
      case "bleedsWithin" -> "bleeds in " + arguments.get(0) + " days: ";
      case "bleedsInVainWithin" ->
          "bleeds in vain or of no lasting help in " + arguments.get(0) + " days: ";
      default -> field.name() + " ";
    };
  }

  private static String unit(String field) {
    return switch (field) {
      case "ageYears", "fluidAgeYears" -> " years";
      case "hoseMm", "rotorMm" -> " mm";
      case "ambientC" -> " °C";
      case "riderAndLoadKg" -> " kg";
      case "altitudeM" -> " m";
      default -> "";
    };
  }

  private String flag(Field field) {
    List<Literal> arguments = field.arguments();
    return switch (field.name()) {
      case "mineral" -> "built for mineral oil";
      case "glycol" -> "built for a glycol DOT fluid";
      case "fluidKnown" -> "the fluid it is built for is known";
      case "bleed" -> "a bleed";
      case "opening" -> "work that opens the hydraulics";
      case "hoseWork" -> "work on the hose";
      case "newest" -> "the newest work";
      case "inVain" -> "in vain";
      case "torqueOnRecord" -> "torque on record";
      case "dated" -> "with its date";
      case "told" -> "something is on record";
      case "openedWithin" -> "opened in the last " + operand("", arguments.get(0)) + " days";
      case "doneWithin", "happenedWithin" ->
          list(arguments.stream().skip(1).map(a -> operand("work", a)).toList())
              + " in the last "
              + operand("", arguments.get(0))
              + " days";
      default -> plain(field.name());
    };
  }

  private String operand(String field, Operand operand) {
    if (operand instanceof Field named) {
      return named.name().isEmpty() ? "that figure" : named.variable() + "." + named.name();
    }
    Object value = ((Literal) operand).value();
    if (value instanceof Double number) {
      return number(number);
    }
    if (value instanceof Fluid fluid) {
      return fluid(fluid);
    }
    String id = value.toString();
    return switch (field) {
      case "symptom" -> symptomName.apply(id);
      case "work", "event" -> workOrEvent(id);
      case "circumstances" -> vocabulary.circumstance(id).name();
      case "parts" -> vocabulary.part(id).name();
      case "outcome" -> vocabulary.outcome(id).name();
      default -> plain(id);
    };
  }

  private String workOrEvent(String id) {
    if (vocabulary.actions().containsKey(id)) {
      return vocabulary.action(id).name();
    }
    return vocabulary.works().containsKey(id)
        ? vocabulary.work(id).name()
        : vocabulary.events().containsKey(id) ? vocabulary.event(id).name() : plain(id);
  }

  private String ids(List<String> ids, UnaryOperator<String> name) {
    return list(ids.stream().map(name).toList());
  }

  /** {@code a, b or c}. */
  private String list(List<String> names) {
    if (names.size() - 1 > most) {
      return String.join(", ", names.subList(0, most)) + " or " + (names.size() - most) + " others";
    }
    int last = names.size() - 1;
    return last < 1
        ? String.join("", names)
        : String.join(", ", names.subList(0, last)) + " or " + names.get(last);
  }

  static String plain(String id) {
    return id.replace('-', ' ');
  }

  public static String number(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%s", Math.round(value * 1000) / 1000.0);
  }

  static String fluid(Fluid fluid) {
    return switch (fluid) {
      case UNKNOWN -> "an unknown fluid";
      case DOT -> "DOT of no named grade";
      default -> fluid.id().replace("dot-", "DOT ").replace('-', ' ');
    };
  }

  /** The facts that meet a condition, or come nearest to it. */
  public String facts(Judged judged) {
    return judged.seen().stream()
        .limit(2)
        .map(fact -> fact(fact, judged.condition()))
        .filter(words -> !words.isEmpty())
        .collect(Collectors.joining(", "));
  }

  /** What the case has to say to a condition. */
  public String seen(Judged judged) {
    String facts = facts(judged);
    if (judged.verdict() == Verdict.NOT_CHECKED) {
      return notChecked(judged.condition()) + (facts.isEmpty() ? "" : "; " + facts);
    }
    if (!facts.isEmpty()) {
      String lacking =
          judged.lacking().stream()
              .map(each -> constraint(judged.condition().fact(), each))
              .collect(Collectors.joining(", "));
      return lacking.isEmpty() || isSingle(judged) ? facts : facts + "; it lacks: " + lacking;
    }
    return switch (judged.verdict()) {
      case UNKNOWN -> "nobody recorded it";
      case RESTS_ON_ANOTHER -> "rests on the condition before it";
      case NOT_JUDGED -> "not judged";
      case MET -> judged.condition().kind() == Kind.NOT ? "nothing of the kind" : "so it is";
      default -> "nothing of the kind on record";
    };
  }

  /** Of what there is one in every case, the condition tells what is lacking. */
  private static boolean isSingle(Judged judged) {
    return Set.of("Brake", "Use", "History").contains(judged.condition().fact());
  }

  private static String notChecked(Condition c) {
    return Set.of("Reading", "Estimate", "SoundBrake", "GasOrGive").contains(c.fact())
        ? "not measured"
        : "not checked";
  }

  private String fact(Object fact, Condition condition) {
    if (fact instanceof Finding finding) {
      return symptomName.apply(finding.symptom())
          + (finding.present() ? " is there" : " is absent");
    }
    if (fact instanceof Reading reading) {
      return plain(reading.reading()) + " " + number(reading.value());
    }
    if (fact instanceof Estimate estimate) {
      return symptomName.apply(estimate.symptom()) + " " + number(estimate.ifPresent());
    }
    if (fact instanceof SoundBrake sound) {
      return sound.takes();
    }
    if (fact instanceof GasOrGive tells) {
      return "times likelier with gas than with give: " + number(tells.timesGas());
    }
    if (fact instanceof MakerFigure figure) {
      return plain(figure.figure()) + " " + number(figure.value());
    }
    if (fact instanceof Event event) {
      return workOrEvent(event.event()) + " " + event.when();
    }
    if (fact instanceof Job job) {
      String outcome =
          job.outcome().equals("unknown")
              ? ", outcome not recorded"
              : ", " + vocabulary.outcome(job.outcome()).name();
      return workOrEvent(job.work()) + " " + job.when() + outcome;
    }
    return asked(condition)
        .map(field -> single(fact, field))
        .distinct()
        .collect(Collectors.joining(", "));
  }

  /** The fields a condition asks about. */
  private static Stream<Field> asked(Condition condition) {
    List<Field> fields = new ArrayList<>();
    condition.constraints().forEach(each -> collect(each, fields));
    return fields.stream();
  }

  private static void collect(Constraint constraint, List<Field> fields) {
    Optional<Operand> operand =
        constraint instanceof Constraint.Comparison c
            ? Optional.of(c.left())
            : constraint instanceof Constraint.Among among
                ? Optional.of(among.left())
                : constraint instanceof Constraint.Holds holds
                    ? Optional.of(holds.operand())
                    : Optional.empty();
    operand.filter(Field.class::isInstance).map(Field.class::cast).ifPresent(fields::add);
    if (constraint instanceof Constraint.Not not) {
      collect(not.constraint(), fields);
    } else if (constraint instanceof Constraint.Any any) {
      any.parts().forEach(part -> collect(part, fields));
    } else if (constraint instanceof Constraint.All all) {
      all.parts().forEach(part -> collect(part, fields));
    }
  }

  private String single(Object fact, Field field) {
    if (fact instanceof Brake brake) {
      return switch (field.name()) {
        case "ageYears" -> known(brake.ageYears(), "%s years old", "age not told");
        case "hoseMm" -> known(brake.hoseMm(), "hose %s mm", "hose length not told");
        case "rotorMm" -> known(brake.rotorMm(), "rotor %s mm", "rotor size not told");
        case "reservoir" -> "reservoir " + brake.reservoir();
        case "position" -> "position " + brake.position();
        case "pistons" -> brake.pistons() == 0 ? "not told" : brake.pistons() + " pistons";
        default -> "built for " + fluid(brake.fluid());
      };
    }
    if (fact instanceof Use use) {
      return switch (field.name()) {
        case "ambientC" -> known(use.ambientC(), "%s °C", "temperature not told");
        case "riderAndLoadKg" -> known(use.riderAndLoadKg(), "%s kg", "load not told");
        default -> known(use.altitudeM(), "%s m", "altitude not told");
      };
    }
    History history = (History) fact;
    int days =
        field.arguments().isEmpty() ? 0 : ((Double) field.arguments().get(0).value()).intValue();
    return switch (field.name()) {
      case "fluidAgeYears" ->
          known(history.fluidAgeYears(), "fluid %s years old", "age of the fluid not told");
      case "bleedsWithin" -> "bleeds in " + days + " days: " + history.bleedsWithin(days);
      case "bleedsInVainWithin" -> "bleeds in vain: " + history.bleedsInVainWithin(days);
      case "openedWithin" ->
          (history.openedWithin(days) ? "opened" : "not opened") + " in the last " + days + " days";
      case "told" -> history.told() ? "there is a record" : "nothing is on record";
      default -> history.told() ? "the record says otherwise" : "nothing is on record";
    };
  }

  private static String known(double value, String words, String unknown) {
    return Double.isNaN(value)
        ? unknown
        : String.format(Locale.ROOT, words, number(Math.round(value * 10) / 10.0));
  }
}
