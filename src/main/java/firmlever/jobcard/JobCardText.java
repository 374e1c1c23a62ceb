package firmlever.jobcard;

import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.List;
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

  static final String ON_THE_STAND =
      "Before it goes back, on the stand first: every one of these, or it stays";

  static final String RIDING = "Riding, only when all of those are passed";

  /** The whole card as text. */
  public String of(JobCard card) {
    Page page = new Page(width, bold);
    page.heading("Job card " + card.caseId() + ": " + title(vocabulary, card));
    page.hanging("  ", card.brake() + "; about " + card.minutes() + " min.");
    page.hanging("  ! ", vocabulary.caution("maker-first").text());
    card.notes().forEach(note -> page.hanging("  ", note));
    int number = 0;
    number = sections(page, card.sections(Stage.READY, Stage.DO), number);
    card.then()
        .forEach(
            then ->
                page.hanging(
                    "  next  ",
                    then(vocabulary, then)
                        + " (its card: firmlever jobcard CASE "
                        + then.action()
                        + ")"));
    number = sections(page, card.sections(Stage.CLOSE, Stage.CLOSE), number);
    checks(page, ON_THE_STAND, card.acceptance(false));
    number = sections(page, card.sections(Stage.ROAD, Stage.ROAD), number);
    checks(page, RIDING, card.acceptance(true));
    sections(page, card.sections(Stage.AFTER, Stage.AFTER), number);
    page.hanging("  ! ", vocabulary.caution("acceptance-first").text());
    page.hanging("  ", JUDGED);
    page.hanging("  ! ", vocabulary.caution("not-sure-ask").text());
    return page.toString();
  }

  private static int sections(Page page, List<JobCard.Section> sections, int before) {
    int number = before;
    for (JobCard.Section section : sections) {
      page.heading(section.title());
      for (Line line : section.lines()) {
        if (line.kind() == Kind.STEP) {
          number++;
        }
        page.hanging(lead(line, number), words(line));
      }
    }
    return number;
  }

  private static void checks(Page page, String heading, List<JobCard.Accept> checks) {
    page.heading(heading);
    for (JobCard.Accept accept : checks) {
      page.hanging("  [ ] ", accept.name() + ": " + accept.want() + ". " + accept.how());
    }
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
