package firmlever.bench;

import firmlever.bench.job.ClaimDesk;
import firmlever.bench.job.Reasoning;
import firmlever.diagnosis.Bench;
import firmlever.document.BadInput;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCards;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.warranty.Desk;
import firmlever.warranty.Submitted.Unreadable;
import firmlever.warranty.policy.PolicyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** The parts that think, put together once for the tests of the bench. */
final class Reasons {
  private Reasons() {}

  private static final JobCards CARDS =
      new JobCards(Bench.VOCABULARY, JobCardRules.builtIn(Bench.VOCABULARY));

  static final Reasoning ALL =
      new Reasoning(
          Bench.VOCABULARY,
          Bench.RULES,
          Bench.READER,
          new Heeding(Bench.VOCABULARY, new Hearing()),
          Bench.DIAGNOSTICIAN,
          CARDS,
          new Acceptor(Bench.VOCABULARY, Bench.RULES, Bench.DIAGNOSTICIAN, CARDS),
          Optional.of(desk()));

  /** The desk of the invented depot, with the papers of its demo claims. */
  private static ClaimDesk desk() {
    Path policy = Path.of("rules", "policies", "lakeside-depot.json");
    try {
      return new ClaimDesk(
          new Desk(Bench.RULES, WarrantyRules.builtIn()),
          new PolicyReader(Bench.VOCABULARY).read(Files.readAllBytes(policy), policy.toString()),
          name -> {
            try {
              return Files.readAllBytes(Path.of("cases", "claims").resolve(name));
            } catch (IOException e) {
              throw new Unreadable("is not there");
            }
          });
    } catch (IOException | BadInput e) {
      throw new IllegalStateException(e);
    }
  }
}
