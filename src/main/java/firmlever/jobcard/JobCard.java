package firmlever.jobcard;

import firmlever.rulebase.jobcard.JobCardRules.Line;
import java.util.List;

/**
 * The card of one or more works on one brake, ready to be printed.
 *
 * @param brake the brake in words
 * @param works ids of the works, in their order
 * @param notes what should be known before one begins
 * @param sections its parts, in the order in which they are done
 * @param acceptance what the brake must show before it goes back
 * @param then works that must follow and are not on this card
 */
public record JobCard(
    String caseId,
    String brake,
    List<String> works,
    int minutes,
    List<String> notes,
    List<Section> sections,
    List<Accept> acceptance,
    List<Then> then) {

  /** A part of the card. */
  public record Section(String title, List<Line> lines) {}

  /** A check to tick before the brake goes back. */
  public record Accept(String id, String name, String how, String want) {}

  /** A work that must follow. */
  public record Then(String action, String why) {}
}
