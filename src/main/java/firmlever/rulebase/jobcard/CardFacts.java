package firmlever.rulebase.jobcard;

import firmlever.rulebase.Facts;
import java.util.Set;

/** The facts that only job card rules match, besides {@link Facts}. Names as there. */
public final class CardFacts {
  private CardFacts() {}

  /**
   * The work the card is for.
   *
   * @param group its group in the vocabulary
   * @param needs the set-ups it needs
   * @param opening whether the hydraulic system is opened in it
   * @param earlier the works that are done before it, on this card or earlier in this visit
   */
  public record Ordered(
      String action, String group, Set<String> needs, boolean opening, Set<String> earlier) {

    public boolean bleed() {
      return group.equals("bleed");
    }
  }

  /** How the hose runs: {@code internal}, {@code external} or {@code unknown}. */
  public record Route(String routing) {}

  /**
   * The fluid and the reckoning of its exchange.
   *
   * @param fluid its name, spoken: {@code mineral oil}
   * @param brakeMl what the brake holds, reservoir and all, mL
   * @param pushMl one slow push through the brake, mL
   * @param flushLeastMl to be pushed through for a flush if new fluid drives the old out, mL
   * @param flushMostMl the same if the two mix at once, mL
   * @param leftPercent share of the old fluid a flush leaves at most, %
   * @param toAndFroPercent share of the old fluid that stays when the same fluid is pushed to and
   *     fro between two syringes, %
   * @param readyMl to have ready for a bleed, mL
   * @param flushReadyMl to have ready for a flush, mL
   * @param basis from what the brake's content is reckoned, spoken
   */
  public record Filling(
      String fluid,
      long brakeMl,
      long pushMl,
      long flushLeastMl,
      long flushMostMl,
      long leftPercent,
      long toAndFroPercent,
      long readyMl,
      long flushReadyMl,
      String basis) {}

  /** Torques and limits, spoken: the maker's figure, or that it is needed. */
  public record Torques(String port, String fitting, String clamp, String mount) {}

  /** Limits of wear and travel, spoken likewise. */
  public record Limits(String pads, String rotor, String runOut, String leverThrow) {}
}
