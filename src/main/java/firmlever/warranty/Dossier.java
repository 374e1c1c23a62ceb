package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyRules.State;
import firmlever.warranty.Outcome.Result;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Everything about one claim that both sides need to check the decision. Every output renders this
 * and nothing else.
 *
 * @param caseDigest SHA-256 of the case file
 * @param draws redrawn models behind each firmness
 * @param decided a decision for each cause in question, most probable first
 * @param alternatives causes that were considered and fell, most probable first
 * @param stoppedEarly what was not fully worked out, because the work for one answer was used up;
 *     whole sentences
 */
public record Dossier(
    CaseFile file,
    String caseDigest,
    Policy policy,
    Diagnosis diagnosis,
    int draws,
    List<Decided> decided,
    List<CauseBelief> alternatives,
    List<String> stoppedEarly) {

  /**
   * A decision with the balance of its cause and what would turn it.
   *
   * @param allTried whether all that might turn it was tried; otherwise the work was used up before
   */
  public record Decided(
      Decision decision, Optional<CauseBelief> balance, List<Turn> turns, boolean allTried) {}

  /**
   * What is decided of one cause.
   *
   * @param clause the clause that decides, or the first one that cannot be told yet
   * @param facts the facts it rests on, in words
   * @param missing what to send
   * @param firmness share of redrawn models in which the cause stays likelier than not
   * @param confirmed whether the mended work confirmed the cause
   * @param considered the clauses looked at, in the order of their priority, up to the one that
   *     settles it
   */
  public record Decision(
      String cause,
      Result result,
      Clause clause,
      List<String> why,
      List<String> facts,
      List<Missing> missing,
      double probability,
      double firmness,
      boolean confirmed,
      List<Considered> considered) {}

  /** A clause that was looked at, and whether it holds. */
  public record Considered(Clause clause, State state, List<String> why, List<String> rules) {}

  /**
   * A smallest set of further findings that changes the decision.
   *
   * @param becomes the outcome then; empty where the cause is no longer in question
   */
  public record Turn(List<Further> findings, Optional<Result> becomes) {}

  /** The outcome of the whole claim, if all causes share one; a split claim has none. */
  public Optional<Result> together() {
    Set<Result> results = new LinkedHashSet<>();
    decided.forEach(each -> results.add(each.decision().result()));
    return results.size() == 1 ? Optional.of(results.iterator().next()) : Optional.empty();
  }

  /** In one word for tables: an outcome, or {@code split}. */
  public String word() {
    return together().map(result -> result.outcome().id()).orElse("split");
  }

  /** All that is missing, over all causes, in a fixed order. */
  public List<Missing> missing() {
    return List.of(Missing.values()).stream()
        .filter(each -> decided.stream().anyMatch(d -> d.decision().missing().contains(each)))
        .toList();
  }
}
