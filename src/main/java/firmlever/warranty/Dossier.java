package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Everything about one claim that both sides need to check the decision. Every output renders this
 * and nothing else.
 *
 * @param caseDigest SHA-256 of the case file
 * @param draws redrawn models behind each firmness
 * @param judged what is decided
 * @param balances the balance of evidence of each cause decided on, in their order
 * @param costs who pays what of what is claimed for
 * @param due parts the claimant bears because they were worn out by their own measure
 * @param turns what would turn the decision
 * @param beside causes that were found and are not claimed, most probable first
 * @param alternatives causes that were considered and fell, most probable first
 * @param stoppedEarly what was not fully worked out, because the work for one answer was used up;
 *     whole sentences
 * @param signed what a person signed last; empty where nobody has
 */
public record Dossier(
    CaseFile file,
    String caseDigest,
    Policy policy,
    Diagnosis diagnosis,
    int draws,
    Judged judged,
    List<Balanced> balances,
    Costs costs,
    List<DueAnyway> due,
    List<Turn> turns,
    List<CauseBelief> beside,
    List<CauseBelief> alternatives,
    List<String> stoppedEarly,
    Optional<Signed> signed) {

  /** The same with what was signed last. */
  public Dossier with(Optional<Signed> last) {
    return new Dossier(
        file,
        caseDigest,
        policy,
        diagnosis,
        draws,
        judged,
        balances,
        costs,
        due,
        turns,
        beside,
        alternatives,
        stoppedEarly,
        last);
  }

  /** Whether what was signed is what is recommended, of the case as it stands. */
  public boolean followed() {
    return signed.filter(Signed::follows).isPresent();
  }

  /** Whether something else was signed than what is recommended, of the case as it stands. */
  public boolean decidedOtherwise() {
    return signed.isPresent() && !followed();
  }

  /** Whether what is missing is still asked for. */
  public boolean asks() {
    return !missing().isEmpty()
        && (!decidedOtherwise() || override().filter(Award.ASKED::equals).isPresent());
  }

  /** The day of the decision: when it was signed, or as the claim tells it. */
  public Optional<LocalDate> decidedOn() {
    return signed.map(Signed::on).or(() -> claim().decided());
  }

  /** What an override comes to, where its words say so. */
  public Optional<Award> override() {
    return signed.filter(Signed::override).flatMap(each -> Award.told(each.decided()));
  }

  /** Who pays what by the decision, or by the recommendation; empty where that cannot be told. */
  public Optional<Costs> decidedCosts() {
    return decidedOtherwise() ? override().map(costs::by) : Optional.of(costs);
  }

  /** The claim; there is no dossier without one. */
  public Claim claim() {
    return file.claim().orElseThrow();
  }

  /**
   * A cause with its balance.
   *
   * @param confirmed weight of what the one who closed the case confirmed; 0 where nothing was
   */
  public record Balanced(String cause, Optional<CauseBelief> balance, double confirmed) {}

  /** In one word for tables: an outcome, {@code split}, or {@code part-open}. */
  public String word() {
    List<Award> results = judged.results();
    return results.size() == 1
        ? results.get(0).outcome().id()
        : split(results) ? "split" : "part-open";
  }

  /** What results come to, in the words of the papers. */
  public static String spoken(List<Award> results) {
    return results.size() == 1
        ? results.get(0).outcome().spoken()
        : split(results) ? "split" : "open in part";
  }

  /** Whether several are decided and none is left open. */
  public static boolean split(List<Award> results) {
    return results.size() > 1 && !results.contains(Award.ASKED);
  }

  /** All that is missing, over all matters and lines, in a fixed order. */
  public List<Missing> missing() {
    return Stream.concat(
            judged.missing().stream(),
            costs.lines().stream().flatMap(line -> line.missing().stream()))
        .distinct()
        .sorted()
        .toList();
  }
}
