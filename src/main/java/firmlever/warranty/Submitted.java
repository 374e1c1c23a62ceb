package firmlever.warranty;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Attachment;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.DocumentReader;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.rulebase.BrakeModel;
import firmlever.warranty.policy.Policy;
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

  /** Where the papers of a claim lie. */
  public interface Papers {
    /**
     * The content of a paper.
     *
     * @param file its name, from the folder of the case file
     * @throws Unreadable saying why it cannot be read
     */
    byte[] content(String file) throws Unreadable;
  }

  /** A paper that is not there, or cannot be read. */
  public static final class Unreadable extends Exception {
    private static final long serialVersionUID = 1;

    /** The reason, as the end of a sentence that begins with the name of the paper. */
    public Unreadable(String why) {
      super(why);
    }
  }

  /**
   * Reads a case out of the bytes of its file, and holds every paper against its digest.
   *
   * @throws BadInput with everything that is wrong with the file, or with its papers
   */
  public static Submitted read(CaseReader reader, byte[] bytes, String name, Papers papers)
      throws BadInput {
    Node document = DocumentReader.read(bytes, name);
    Submitted submitted =
        new Submitted(name, document, reader.read(document, name), Digest.sha256(bytes));
    Problems problems = new Problems(name);
    submitted.checkPapers(papers, problems);
    problems.throwIfAny();
    return submitted;
  }

  private void checkPapers(Papers papers, Problems problems) {
    if (!(at("claim", "attachments") instanceof Node.Array listed)) {
      return;
    }
    List<Attachment> attachments = file.claim().map(Claim::attachments).orElse(List.of());
    for (int i = 0; i < attachments.size(); i++) {
      Attachment paper = attachments.get(i);
      Node.Object at = (Node.Object) listed.items().get(i);
      Node.Place place = at.get("file").orElseThrow().place();
      // A case file is read anywhere; it must not make its reader open files elsewhere.
      if (paper.file().startsWith("/")
          || paper.file().contains("\\")
          || paper.file().contains(":")
          || List.of(paper.file().split("/")).contains("..")) {
        problems.add(
            place, "\"" + paper.file() + "\" must lie in the folder of the case file or below it");
        continue;
      }
      try {
        String digest = Digest.sha256(papers.content(paper.file()));
        if (!digest.equals(paper.sha256())) {
          problems.add(
              at.get("sha256").orElseThrow().place(),
              "\"" + paper.file() + "\" has another SHA-256 now (" + digest + ")",
              "Maybe it was changed after it was handed in.");
        }
      } catch (Unreadable e) {
        problems.add(place, "\"" + paper.file() + "\" " + e.getMessage());
      }
    }
  }

  /** The last day on which the fault can first have shown. */
  static LocalDate lastDay(CaseFile file) {
    return file.claim().flatMap(Claim::made).filter(file.opened()::isAfter).orElse(file.opened());
  }

  /** The day of the claim. */
  public static LocalDate claimDay(CaseFile file) {
    return file.claim().flatMap(Claim::made).orElse(file.opened());
  }

  /**
   * What only policy, rule base and papers show to be wrong with the claim.
   *
   * @throws BadInput with every such problem, and its place in the case file
   */
  void check(Policy policy, BrakeModel model) throws BadInput {
    Problems problems = new Problems(name);
    if (file.claim().isEmpty()) {
      problems.add(
          document.place(),
          "no claim stands in this case, so there is nothing to decide",
          "Maybe add \"claim\", or use triage for a brake without one.");
    }
    file.claim()
        .flatMap(Claim::purchased)
        .ifPresent(
            day -> {
              if (day.isBefore(policy.validFrom())) {
                outside(day, policy, "before the first day", policy.validFrom(), problems);
              }
              policy
                  .validUntil()
                  .filter(day::isAfter)
                  .ifPresent(last -> outside(day, policy, "after the last day", last, problems));
            });
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

  private void outside(
      LocalDate day, Policy policy, String where, LocalDate bound, Problems problems) {
    problems.add(
        at("claim", "purchased").place(),
        "bought on "
            + day
            + ": that lies "
            + where
            + " of policy \""
            + policy.id()
            + "\" ("
            + bound
            + ")",
        "Maybe name the policy that was in force on that day.");
  }

  private static String cannotBe(BrakeModel model, String cause) {
    return requireNonNull(model.impossible().get(cause)).why();
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
