package firmlever.jobcard;

import firmlever.rulebase.jobcard.Card.Stage;
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

  /** A part of the card, all of one stage. */
  public record Section(Stage stage, String title, List<Line> lines) {}

  /**
   * A check to tick before the brake goes back.
   *
   * @param road whether it is made riding, after all that are made on the stand
   */
  public record Accept(String id, String name, boolean road, String how, String want) {}

  /** The sections from one stage to another, both among them. */
  public List<Section> sections(Stage from, Stage to) {
    return sections.stream()
        .filter(each -> each.stage().compareTo(from) >= 0 && each.stage().compareTo(to) <= 0)
        .toList();
  }

  /** The checks made on the stand, or those made riding. */
  public List<Accept> acceptance(boolean road) {
    return acceptance.stream().filter(each -> each.road() == road).toList();
  }

  /**
   * Whether the line waits for what is not on this card: the bleed that follows before anything is
   * closed up, the checks on the stand before anybody rides.
   */
  public boolean waits(Line line) {
    return line.stage() == Stage.ROAD || line.stage() == Stage.CLOSE && !then.isEmpty();
  }

  /** A work that must follow. */
  public record Then(String action, String why) {}
}
