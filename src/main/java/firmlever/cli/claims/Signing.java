package firmlever.cli.claims;

import static java.util.Objects.requireNonNull;

import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.CalendarDay;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import firmlever.warranty.Dossier;
import firmlever.warranty.History;
import firmlever.warranty.Submitted;
import firmlever.warranty.report.DossierReport;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** A person decides: what is signed is added to the history of the claim. */
final class Signing {
  @Option(
      names = "--history",
      paramLabel = "F",
      description = "the history of the claim: tells what has changed since the last decision")
  private @Nullable String file;

  @Option(
      names = "--sign",
      paramLabel = "CODE",
      description = "sign the decision and add it to --history or to --store; needs --on")
  private String by = "";

  @Option(names = "--on", paramLabel = "DAY", description = "the day it is signed, yyyy-mm-dd")
  private String on = "";

  @Option(
      names = "--override",
      paramLabel = "TEXT",
      description =
          "decide this instead of what is recommended; needs --reason: refuse, ask, \"cover, paid by"
              + " the shop\", \"goodwill, 50 %% paid by the maker\", or other words, of which no"
              + " costs are reckoned")
  private String decided = "";

  @Option(names = "--reason", paramLabel = "TEXT", description = "why it is decided otherwise")
  private String reason = "";

  /** Where the decisions of a claim are kept. */
  interface Kept {
    /** How messages call it. */
    String name();

    /** All decisions so far, a line each. */
    String text() throws BadInput;

    /** Keeps them with one more. */
    void write(String history, String by) throws BadInput;
  }

  boolean wanted() {
    return file != null || !(by + on + decided + reason).isEmpty();
  }

  @Nullable String history() {
    return file;
  }

  /**
   * Tells at once what does not go together.
   *
   * @param stored whether the decisions are kept in a store
   */
  void check(CommandSpec spec, boolean stored) {
    if (stored && file != null) {
      throw new ParameterException(
          spec.commandLine(), "with --store the decisions stand in the store: leave out --history");
    }
    if (wanted() && file == null && !stored) {
      throw new ParameterException(spec.commandLine(), "a decision needs --history FILE");
    }
    if (by.isEmpty() && !(on + decided + reason).isEmpty()) {
      throw new ParameterException(spec.commandLine(), "a decision needs --sign CODE");
    }
    if (!by.isEmpty() && CalendarDay.of(on).isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "a signature needs its day: --on 2026-05-20, for example");
    }
  }

  /** The decisions in the file that was named. */
  Kept ofFile() {
    String history = requireNonNull(file);
    return new Kept() {
      @Override
      public String name() {
        return history;
      }

      @Override
      public String text() throws BadInput {
        Path path = CaseFolder.path(history);
        return WholeFile.mayExist(path)
            ? new String(DocumentReader.bytes(path, history), StandardCharsets.UTF_8)
            : "";
      }

      @Override
      public void write(String decisions, String by) throws BadInput {
        WholeFile.write(CaseFolder.path(history), decisions);
      }
    };
  }

  /**
   * What is kept of a claim with the decision that is signed now, if one is; nothing is written
   * yet.
   *
   * @param dossier with what was signed last
   * @param told what is to be told
   */
  record Ready(Dossier dossier, String told, Optional<String> history) {}

  /** Looks up what was signed, and signs where that is asked for. */
  Ready ready(Dossier dossier, Kept kept, DossierReport report) throws BadInput {
    History history = report.history(kept.text(), kept.name());
    StringBuilder told = new StringBuilder("\nHISTORY\n");
    List<String> changes = history.changes(dossier);
    told.append(history.size()).append(history.size() == 1 ? " decision" : " decisions");
    String diagnosis = report.diagnosisSince(history, dossier, Terminal.width());
    boolean same = changes.isEmpty() && diagnosis.isEmpty();
    told.append(same ? " before.\n" : " before; since the last one:\n");
    changes.forEach(change -> told.append("- ").append(change).append('\n'));
    told.append(diagnosis);
    if (by.isEmpty()) {
      return new Ready(dossier.with(history.signed(dossier)), told.toString(), Optional.empty());
    }
    LocalDate day = CalendarDay.of(on).orElseThrow();
    try {
      // Whatever cannot be reckoned is told before anything is written.
      Optional<String> due = late(dossier, day);
      String longer = history.with(dossier, new History.Signature(by, day, decided, reason));
      told.append("Signed by ").append(by).append(" on ").append(on);
      told.append(decided.isEmpty() ? ".\n" : ": " + decided + ".\nReason: " + reason + ".\n");
      due.ifPresent(told::append);
      return new Ready(
          dossier.with(report.history(longer, kept.name()).signed(dossier)),
          told.toString(),
          Optional.of(longer));
    } catch (IllegalArgumentException e) {
      throw new BadInput(List.of(Problem.ofFile(kept.name(), String.valueOf(e.getMessage()), "")));
    }
  }

  /** Keeps what was made ready. */
  void keep(Ready ready, Kept kept) throws BadInput {
    if (ready.history().isPresent()) {
      kept.write(ready.history().get(), by);
    }
  }

  private static Optional<String> late(Dossier dossier, LocalDate day) {
    return dossier
        .policy()
        .deadlines()
        .map(deadlines -> deadlines.after(Submitted.claimDay(dossier.file()), deadlines.answer()))
        .map(
            due ->
                day.isAfter(due)
                    ? "The answer was due on " + due + ": it is late.\n"
                    : "The answer is due on " + due + ".\n");
  }
}
