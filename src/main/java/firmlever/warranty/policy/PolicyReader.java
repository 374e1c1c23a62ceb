package firmlever.warranty.policy;

import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Measures;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.document.Shape;
import firmlever.rulebase.warranty.WarrantyFacts.Basis;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.policy.Clause.Terms;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy.Signer;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads policy files. Tells everything that is wrong with a file at once. */
public final class PolicyReader {
  /** The clause that holds where no other does comes last of all. */
  private static final int LAST = -1;

  private static final int NAMED = 4;

  private final Vocabulary vocabulary;
  private final Shape shape;

  public PolicyReader(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.shape = PolicyFormat.shape(vocabulary);
  }

  /**
   * Reads one policy.
   *
   * @param name how messages call the file
   * @throws BadInput with every problem of the file; contradictions are looked for once its form is
   *     right
   */
  public Policy read(byte[] bytes, String name) throws BadInput {
    Node document = DocumentReader.read(bytes, name);
    Problems problems = new Problems(name);
    shape.check(document, problems);
    problems.throwIfAny();
    Fields f = Fields.of(document);
    List<Fields> given = f.objects("clauses");
    List<Clause> clauses = given.stream().map(this::clause).toList();
    checkDays(f, problems);
    checkClauses(document, given, clauses, problems);
    problems.throwIfAny();
    List<Clause> ordered = new ArrayList<>(clauses);
    ordered.sort(
        Comparator.comparingInt((Clause clause) -> -clause.priority()).thenComparing(Clause::id));
    return new Policy(
        f.text("id"),
        f.text("name"),
        f.date("valid-from").orElseThrow(),
        f.date("valid-until"),
        Collections.unmodifiableSet(new LinkedHashSet<>(f.texts("technicians"))),
        f.number("consider"),
        f.number("caused"),
        f.object().get("deadlines").map(node -> deadlines(Fields.of(node))),
        f.objects("signers").stream()
            .map(s -> new Signer(s.text("code"), s.text("role"), s.flag("overrides").orElse(false)))
            .toList(),
        List.copyOf(ordered),
        Digest.sha256(bytes));
  }

  private static Deadlines deadlines(Fields f) {
    return new Deadlines(
        f.whole("answer", 0),
        f.whole("papers", 0),
        f.whole("objection", 0),
        Set.copyOf(f.texts("free-days").stream().map(LocalDate::parse).toList()),
        Set.copyOf(f.texts("rest").stream().map(d -> DayOfWeek.valueOf(constant(d))).toList()),
        f.date("until").orElseThrow());
  }

  private static void checkDays(Fields f, Problems problems) {
    LocalDate from = f.date("valid-from").orElseThrow();
    f.date("valid-until")
        .filter(until -> until.isBefore(from))
        .ifPresent(
            until ->
                problems.add(
                    f.object().get("valid-until").orElseThrow().place(),
                    "\"" + until + "\" lies before the first day of the policy (" + from + ")"));
  }

  private static void checkClauses(
      Node document, List<Fields> given, List<Clause> clauses, Problems problems) {
    Map<String, Integer> positions = new HashMap<>();
    for (int i = 0; i < clauses.size(); i++) {
      Clause clause = clauses.get(i);
      Node.Object at = given.get(i).object();
      if (positions.putIfAbsent(clause.id(), i) != null) {
        problems.add(
            at.get("id").orElseThrow().place(),
            "two clauses have the number \"" + clause.id() + "\"; each needs one of its own");
      }
      Terms terms = clause.terms();
      if (clause.kind() == Clause.Kind.GOODWILL && terms.untilMonth() <= terms.fromMonth()) {
        problems.add(
            at.get("until-month").orElseThrow().place(),
            "goodwill that ends in month "
                + terms.untilMonth()
                + " must begin before it, not in month "
                + terms.fromMonth());
      }
      checkPayer(clause, at, problems);
      checkText(clause, at, problems);
      for (int j = 0; j < i; j++) {
        checkTogether(clauses.get(j), clause, at, problems);
      }
    }
    long last = clauses.stream().filter(c -> c.kind() == Clause.Kind.OTHERWISE).count();
    if (last != 1) {
      problems.add(
          ((Node.Object) document).get("clauses").orElseThrow().place(),
          last
              + " clauses of the kind \"otherwise\" stand here; exactly one must say what holds"
              + " where no other clause does");
    }
  }

  /** Who is refused pays; nobody is covered at their own cost. */
  private static void checkPayer(Clause clause, Node.Object at, Problems problems) {
    if (clause.result().isEmpty() || clause.kind() == Clause.Kind.NOTHING_FOUND) {
      return;
    }
    Award result = clause.result().orElseThrow();
    boolean claimant = result.pays() == Payer.CLAIMANT;
    if (!clause.kind().asks() && claimant != (result.outcome() == Outcome.REFUSE)) {
      problems.add(
          at.get("pays").or(() -> at.get("outcome")).orElseThrow().place(),
          "clause \""
              + clause.id()
              + "\" says "
              + result.outcome().id()
              + ", paid by the "
              + result.pays().id()
              + "; what is refused the claimant pays, and nothing else");
    }
  }

  private static final Pattern FIGURE =
      Pattern.compile("(\\d+(?:\\.\\d+)?) (months?|days?|years?|kg|%|[A-Z]{3})(?![A-Za-z])");

  /** The wording must not name other figures than the clause has. */
  private static void checkText(Clause clause, Node.Object at, Problems problems) {
    Terms t = clause.terms();
    Map<String, Set<Double>> figures =
        Map.of(
            "month", numbers(t.months(), t.fromMonth(), t.untilMonth()),
            "day", numbers(t.days()),
            "year", numbers(t.years()),
            "kg", numbers(t.mostKg()),
            "%", numbers(clause.result().map(Award::sharePercent).orElse(0)));
    Matcher named = FIGURE.matcher(clause.text());
    while (named.find()) {
      String unit = named.group(2).replaceFirst("s$", "");
      Set<Double> known =
          figures.getOrDefault(
              unit, t.cap().map(cap -> Set.of(cap.amount().doubleValue())).orElse(Set.of()));
      if (!known.isEmpty() && !known.contains(Double.valueOf(named.group(1)))) {
        problems.add(
            at.get("text").orElseThrow().place(),
            "the wording of clause \""
                + clause.id()
                + "\" says "
                + named.group(1)
                + " "
                + named.group(2)
                + ", and its figures say otherwise");
      }
    }
  }

  private static Set<Double> numbers(double... given) {
    Set<Double> numbers = new HashSet<>();
    for (double each : given) {
      if (each > 0) {
        numbers.add(each);
      }
    }
    return numbers;
  }

  /** Two clauses of one priority must not say different things of one cause. */
  private static void checkTogether(
      Clause before, Clause clause, Node.Object at, Problems problems) {
    Set<String> both = new LinkedHashSet<>(before.causes());
    both.retainAll(clause.causes());
    if (before.priority() != clause.priority()
        || before.result().equals(clause.result())
        || both.isEmpty()
        || clause.priority() == LAST) {
      return;
    }
    List<String> named = both.stream().limit(NAMED).toList();
    problems.add(
        at.get("priority").orElseThrow().place(),
        "clause \""
            + clause.id()
            + "\" ("
            + spoken(clause)
            + ") contradicts clause \""
            + before.id()
            + "\" ("
            + spoken(before)
            + "): both have priority "
            + clause.priority()
            + " and speak of "
            + String.join(", ", named)
            + (both.size() > NAMED ? " and " + (both.size() - NAMED) + " more" : ""),
        "Maybe give the one that goes first a higher priority.");
  }

  private static String spoken(Clause clause) {
    return clause
        .result()
        .map(result -> result.outcome().id() + ", " + result.pays().id())
        .orElse("as what brought it");
  }

  private Clause clause(Fields f) {
    Clause.Kind kind = Clause.Kind.valueOf(constant(f.text("kind")));
    return new Clause(
        f.text("id"),
        kind,
        f.whole("priority", LAST),
        f.text("text"),
        result(f, kind),
        causes(f),
        terms(f));
  }

  private static Optional<Award> result(Fields f, Clause.Kind kind) {
    if (kind.asks()) {
      return Optional.of(Award.ASKED);
    }
    if (kind == Clause.Kind.CONSEQUENCE) {
      return Optional.empty();
    }
    Outcome outcome =
        kind == Clause.Kind.NOTHING_FOUND
            ? Outcome.NOTHING_FOUND
            : Outcome.valueOf(constant(f.text("outcome")));
    boolean claimant = outcome == Outcome.REFUSE || outcome == Outcome.NOTHING_FOUND;
    Payer usual = claimant ? Payer.CLAIMANT : Payer.MAKER;
    Payer pays = f.has("pays") ? Payer.valueOf(constant(f.text("pays"))) : usual;
    double share = f.measure("share", Measures.Kind.SHARE);
    return Optional.of(
        new Award(outcome, pays, Double.isNaN(share) ? 100 : (int) Math.round(share)));
  }

  private Set<String> causes(Fields f) {
    if (!f.has("causes") && !f.has("parts")) {
      return vocabulary.causes().keySet();
    }
    List<String> named = f.texts("causes");
    List<String> parts = f.texts("parts");
    Set<String> causes = new LinkedHashSet<>();
    vocabulary
        .causes()
        .values()
        .forEach(
            cause -> {
              if (named.contains(cause.id()) || parts.contains(cause.part())) {
                causes.add(cause.id());
              }
            });
    return Collections.unmodifiableSet(causes);
  }

  private static Terms terms(Fields f) {
    return new Terms(
        f.text("from").equals("purchased") ? Basis.PURCHASED : Basis.FITTED,
        f.whole("months", 0),
        f.whole("from-month", 0),
        f.whole("until-month", 0),
        f.whole("days", 0),
        f.number("years"),
        f.measure("most-load", Measures.Kind.MASS),
        f.number("probability"),
        f.number("firmness"),
        f.whole("most-claims", 0),
        f.text("put-in-by").equals("shop"),
        f.money("cap"),
        Set.copyOf(f.texts("works")),
        f.texts("demands").stream().map(demand -> Missing.valueOf(constant(demand))).toList());
  }

  private static String constant(String id) {
    return id.toUpperCase(Locale.ROOT).replace('-', '_');
  }
}
