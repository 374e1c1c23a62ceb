package firmlever.comeback;

/**
 * What a comeback costs, as the shop sets it.
 *
 * @param comebackMinutes minutes beside the work: taking it in, apologising, fetching the bike
 * @param hourlyRate money an hour of work is worth; NaN where nobody said
 * @param comebackParts money for parts a comeback takes
 */
public record Costs(int comebackMinutes, double hourlyRate, double comebackParts) {
  /** Throws {@link IllegalArgumentException} where a figure is negative. */
  public Costs {
    if (comebackMinutes < 0 || hourlyRate < 0 || comebackParts < 0) {
      throw new IllegalArgumentException("what a comeback costs must not be negative");
    }
  }

  /** Whether money can be told. */
  public boolean inMoney() {
    return !Double.isNaN(hourlyRate);
  }

  /** What these minutes and comebacks cost, in money. */
  public double money(double minutes, double comebacks) {
    return minutes / 60 * hourlyRate + comebacks * comebackParts;
  }
}
