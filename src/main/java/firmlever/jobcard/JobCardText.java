package firmlever.jobcard;

import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.stream.Collectors;

/** A job card for the terminal. */
public final class JobCardText {
  private final Vocabulary vocabulary;
  private final int width;
  private final boolean bold;

  public JobCardText(Vocabulary vocabulary, int width, boolean bold) {
    this.vocabulary = vocabulary;
    this.width = width;
    this.bold = bold;
  }

  /** Where a card of the command line leads. */
  static final String JUDGED =
      "Work goes into the history of the case file, findings into its symptoms and readings; then:"
          + " firmlever accept CASE";

  /** The whole card as text. */
  public String of(JobCard card) {
    Page page = new Page(width, bold);
    page.heading("Job card " + card.caseId() + ": " + title(vocabulary, card));
    page.hanging("  ", card.brake() + "; about " + card.minutes() + " min.");
    page.hanging("  ! ", vocabulary.caution("maker-first").text());
    card.notes().forEach(note -> page.hanging("  ", note));
    int number = 0;
    for (JobCard.Section section : card.sections()) {
      page.heading(section.title());
      for (Line line : section.lines()) {
        if (line.kind() == Kind.STEP) {
          number++;
        }
        page.hanging(lead(line, number), words(line));
      }
    }
    card.then()
        .forEach(
            then ->
                page.hanging(
                    "  next  ",
                    then(vocabulary, then)
                        + " (its card: firmlever jobcard CASE "
                        + then.action()
                        + ")"));
    page.heading("Before it goes back: every one of these, or it stays");
    for (JobCard.Accept accept : card.acceptance()) {
      page.hanging("  [ ] ", accept.name() + ": " + accept.want() + ". " + accept.how());
    }
    page.hanging("  ! ", vocabulary.caution("acceptance-first").text());
    page.hanging("  ", JUDGED);
    page.hanging("  ! ", vocabulary.caution("not-sure-ask").text());
    return page.toString();
  }

  static String title(Vocabulary vocabulary, JobCard card) {
    return card.works().stream()
        .map(work -> vocabulary.action(work).name())
        .collect(Collectors.joining(", then "));
  }

  static String then(Vocabulary vocabulary, JobCard.Then then) {
    return vocabulary.action(then.action()).name() + ": " + then.why();
  }

  private static String lead(Line line, int number) {
    return switch (line.kind()) {
      case STEP -> String.format(java.util.Locale.ROOT, "  [ ] %2d  ", number);
      case VALUE, TORQUE -> "          = ";
      case MIND -> "          ! ";
    };
  }

  private static String words(Line line) {
    return switch (line.kind()) {
      case STEP, MIND -> line.text();
      case VALUE -> line.text() + ": ________ (" + line.want() + ")";
      case TORQUE -> line.text() + ", torque: ________ N·m (" + line.want() + ")";
    };
  }
}
