package firmlever.warranty;

import firmlever.belief.Network;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Statement;
import firmlever.casefile.Fluid;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.warranty.WarrantyFacts.DoneBy;
import firmlever.rulebase.warranty.WarrantyFacts.Link;
import firmlever.rulebase.warranty.WarrantyFacts.Trace;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Does;
import firmlever.warranty.policy.Policy;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;

/**
 * What each entry of the record has to do with a cause: whether it can have brought it, came before
 * it, and was not overtaken.
 *
 * <p>The chance that an entry brought a cause that is there is the share of its odds that the entry
 * made: 1 − 1/k, where the rule base multiplies the odds by k for the entry (the attributable
 * fraction among the exposed: Rothman, Modern Epidemiology, 1986; from memory). It is taken against
 * the record without any entry that could be blamed, so that two of them do not hide each other.
 */
final class Traces {
  private final CaseFile file;
  private final Policy policy;
  private final BrakeModel model;
  private final Vocabulary vocabulary;
  private final OptionalInt aroseDaysAgo;
  private final Map<Entry, Map<String, Double>> oddsWith;
  private final Map<String, Double> oddsWithout;

  /** Asks the rule base about the record with and without each entry that could be blamed. */
  static Traces of(CaseFile file, Policy policy, BrakeModel model, RuleBase rules) {
    Traces traces =
        new Traces(file, policy, model, rules.vocabulary(), new HashMap<>(), new HashMap<>());
    List<Entry> blamable = file.history().stream().filter(traces::canBeBlamed).toList();
    List<Entry> rest = new ArrayList<>(file.history());
    rest.removeAll(blamable);
    if (!blamable.isEmpty()) {
      traces.oddsWithout.putAll(traces.odds(rules, rest));
    }
    for (Entry entry : blamable) {
      List<Entry> with = new ArrayList<>(rest);
      with.add(entry);
      // With one to blame, that is the whole record, of which the rules were asked already.
      boolean whole = blamable.size() == 1;
      traces.oddsWith.put(entry, whole ? odds(model.network()) : traces.odds(rules, with));
    }
    return traces;
  }

  /** Whether another case has the same record, so that nothing need be asked again. */
  boolean serves(CaseFile other) {
    return other.history().equals(file.history());
  }

  /** The same of a case with the same record, brake and findings. */
  Traces in(CaseFile other) {
    return new Traces(other, policy, model, vocabulary, oddsWith, oddsWithout);
  }

  private Traces(
      CaseFile file,
      Policy policy,
      BrakeModel model,
      Vocabulary vocabulary,
      Map<Entry, Map<String, Double>> oddsWith,
      Map<String, Double> oddsWithout) {
    this.file = file;
    this.policy = policy;
    this.model = model;
    this.vocabulary = vocabulary;
    this.aroseDaysAgo =
        file.claim()
            .flatMap(Claim::arose)
            .map(day -> OptionalInt.of((int) ChronoUnit.DAYS.between(day, file.opened())))
            .orElse(OptionalInt.empty());
    this.oddsWith = oddsWith;
    this.oddsWithout = oddsWithout;
  }

  /** How many times the rule base is asked for the record of a case. */
  static int consultations(CaseFile file) {
    return 1 + file.history().size();
  }

  private Map<String, Double> odds(RuleBase rules, List<Entry> history) {
    return odds(rules.consult(file.with(file.symptoms(), file.onlyTold(), history)).network());
  }

  private static Map<String, Double> odds(Network network) {
    Map<String, Double> odds = new HashMap<>();
    for (int i = 0; i < network.causes().size(); i++) {
      odds.put(network.causes().get(i), network.priorLogOdds()[i]);
    }
    return odds;
  }

  private boolean canBeBlamed(Entry entry) {
    return crash(entry) || otherFamily(entry) || opening(entry) && doneBy(entry) != DoneBy.OWN;
  }

  private static boolean crash(Entry entry) {
    return entry.event().equals("crashed") || entry.event().equals("fell-over");
  }

  private boolean opening(Entry entry) {
    return vocabulary.worksThat(Does.OPENS).contains(entry.work())
        || entry.event().equals("home-serviced");
  }

  private boolean otherFamily(Entry entry) {
    return file.brake().fluid().clashesWith(entry.fluid());
  }

  private DoneBy doneBy(Entry entry) {
    if (policy.technicians().contains(entry.by())) {
      return DoneBy.OWN;
    }
    // What was done at home was not done here, whoever it was.
    return entry.by().isEmpty() && !entry.event().equals("home-serviced")
        ? DoneBy.UNKNOWN
        : DoneBy.OTHER;
  }

  /** The entries of the record before one cause. */
  List<Trace> before(String cause, boolean byWrongFluid) {
    List<Trace> traces = new ArrayList<>();
    for (Entry entry : file.history()) {
      traces.add(
          new Trace(
              cause,
              entry.work() + entry.event(),
              daysBefore(entry),
              entry.daysAgo().isPresent(),
              doneBy(entry),
              crash(entry),
              opening(entry),
              otherFamily(entry),
              otherFamily(entry) && first(entry),
              fluidToldBefore(entry),
              !entry.work().isEmpty()
                  && model.mends().getOrDefault(entry.work(), Map.of()).containsKey(cause),
              link(entry, cause, byWrongFluid),
              entry.daysAgo().isPresent() && aroseDaysAgo.isPresent()));
    }
    return traces;
  }

  private int daysBefore(Entry entry) {
    return Math.max(0, entry.daysAgo().orElse(0) - (entry.daysAgo().isPresent() ? arose() : 0));
  }

  private int arose() {
    return aroseDaysAgo.orElse(0);
  }

  /** Whether no other entry is known to have put such fluid in before this one. */
  private boolean first(Entry entry) {
    return file.history().stream()
        .filter(this::otherFamily)
        .noneMatch(
            other ->
                other.daysAgo().isPresent()
                    && entry.daysAgo().isPresent()
                    && other.daysAgo().getAsInt() > entry.daysAgo().getAsInt());
  }

  /** Whether every entry that may have put fluid in before this one says which. */
  private boolean fluidToldBefore(Entry entry) {
    return file.history().stream()
        .filter(other -> other != entry && fillsUntold(other, vocabulary))
        .allMatch(
            other ->
                other.daysAgo().isPresent()
                    && entry.daysAgo().isPresent()
                    && other.daysAgo().getAsInt() < entry.daysAgo().getAsInt());
  }

  /** A work that puts fluid in, and nobody wrote down which. */
  static boolean fillsUntold(Entry entry, Vocabulary vocabulary) {
    return entry.fluid() == Fluid.UNKNOWN
        && (vocabulary.worksThat(Does.FILLS).contains(entry.work())
            || entry.event().equals("home-serviced"));
  }

  private Link link(Entry entry, String cause, boolean byWrongFluid) {
    String what = entry.work() + entry.event();
    List<Statement> origins =
        file.claim().map(Claim::statements).orElse(List.of()).stream()
            .filter(statement -> statement.kind().equals(Statement.ORIGIN))
            .toList();
    // One of this shop has had the part in hand; what others sign leaves it open.
    List<String> told =
        origins.stream()
            .filter(statement -> policy.technicians().contains(statement.by()))
            .map(Statement::of)
            .distinct()
            .toList();
    if (later(entry)) {
      return Link.LATER;
    }
    if (told.size() == 1) {
      return told.get(0).equals(what)
          ? Link.BROUGHT
          : told.get(0).equals(Statement.MADE_SO) ? Link.MADE_SO : Link.UNLIKELY;
    }
    Link link = byWrongFluid && otherFamily(entry) ? Link.BROUGHT : byChance(chance(entry, cause));
    if (link == Link.BROUGHT && !origins.isEmpty()) {
      return Link.PERHAPS;
    }
    return overtaken(entry, cause) ? Link.OVERTAKEN : link;
  }

  private boolean later(Entry entry) {
    return entry.daysAgo().isPresent()
        && aroseDaysAgo.isPresent()
        && entry.daysAgo().getAsInt() < arose();
  }

  private Link byChance(double chance) {
    return chance >= policy.caused()
        ? Link.BROUGHT
        : chance >= 1 - policy.caused() ? Link.PERHAPS : Link.UNLIKELY;
  }

  /** The chance that the entry brought the cause, given that the cause is there. */
  private double chance(Entry entry, String cause) {
    Double with = oddsWith.getOrDefault(entry, Map.of()).get(cause);
    Double without = oddsWithout.get(cause);
    if (with == null) {
      return 0;
    }
    return without == null ? 1 : Math.max(0, 1 - Math.exp(without - with));
  }

  /** Something else came after it, before the fault, and brings this. */
  private boolean overtaken(Entry entry, String cause) {
    return doneBy(entry) == DoneBy.OWN
        && !otherFamily(entry)
        && entry.daysAgo().isPresent()
        && file.history().stream()
            .filter(other -> other != entry && doneByNoneOfOurs(other) && !later(other))
            .filter(
                other ->
                    other.daysAgo().isPresent()
                        && other.daysAgo().getAsInt() < entry.daysAgo().getAsInt())
            .anyMatch(other -> chance(other, cause) >= policy.caused());
  }

  private boolean doneByNoneOfOurs(Entry entry) {
    return crash(entry) || doneBy(entry) == DoneBy.OTHER;
  }
}
