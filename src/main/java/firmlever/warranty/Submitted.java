package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.DocumentReader;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.rulebase.BrakeModel;
import java.time.LocalDate;
import java.util.List;

/**
 * A case as it was handed in.
 *
 * @param name how messages call its file
 * @param document the file with all its places
 * @param digest SHA-256 of the file
 */
public record Submitted(String name, Node document, CaseFile file, String digest) {

  /** Reads a case out of the bytes of its file. */
  public static Submitted read(CaseReader reader, byte[] bytes, String name) throws BadInput {
    Node document = DocumentReader.read(bytes, name);
    return new Submitted(name, document, reader.read(document, name), Digest.sha256(bytes));
  }

  /** The day of the claim. */
  static LocalDate claimDay(CaseFile file) {
    return file.claim().flatMap(Claim::made).orElse(file.opened());
  }

  /**
   * What only policy and rule base show to be wrong with the claim.
   *
   * @throws BadInput with every such problem, and its place in the case file
   */
  void check(Policy policy, BrakeModel model) throws BadInput {
    Problems problems = new Problems(name);
    LocalDate day = claimDay(file);
    if (day.isBefore(policy.validFrom())) {
      problems.add(
          claimDayNode().place(), outside(day, policy, "before the first day", policy.validFrom()));
    }
    policy
        .validUntil()
        .filter(day::isAfter)
        .ifPresent(
            last ->
                problems.add(
                    claimDayNode().place(), outside(day, policy, "after the last day", last)));
    file.claim()
        .map(Claim::cause)
        .filter(cause -> model.impossible().containsKey(cause))
        .ifPresent(
            cause ->
                problems.add(
                    at("claim", "cause").place(),
                    "\"" + cause + "\" is claimed and cannot be: " + cannotBe(model, cause)));
    file.outcome()
        .ifPresent(
            outcome ->
                outcome.causes().stream()
                    .filter(model.impossible()::containsKey)
                    .forEach(
                        cause ->
                            problems.add(
                                at("outcome", "causes").place(),
                                "\""
                                    + cause
                                    + "\" stands in the outcome and cannot be: "
                                    + cannotBe(model, cause))));
    problems.throwIfAny();
  }

  private static String outside(LocalDate day, Policy policy, String where, LocalDate bound) {
    return "the claim of "
        + day
        + " lies "
        + where
        + " of policy \""
        + policy.id()
        + "\" ("
        + bound
        + ")";
  }

  private static String cannotBe(BrakeModel model, String cause) {
    return model.impossible().get(cause).why();
  }

  private Node claimDayNode() {
    return file.claim().flatMap(Claim::made).isPresent() ? at("claim", "made") : at("opened");
  }

  /** The node along the names, as far down as it is there. */
  private Node at(String... names) {
    Node node = document;
    for (String each : List.of(names)) {
      if (!(node instanceof Node.Object object) || object.get(each).isEmpty()) {
        return node;
      }
      node = object.get(each).orElseThrow();
    }
    return node;
  }
}
