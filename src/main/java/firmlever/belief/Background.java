package firmlever.belief;

/**
 * How often a symptom shows in a brake that has none of the known causes: improbable or less. What
 * a customer feels and complains of is often reported where nothing is wrong; what is seen is
 * seldom there without a fault.
 *
 * <p>Source: common practice, numbers from memory.
 */
public enum Background {
  /** A complaint of feel or noise that customers bring without a fault behind it. */
  COMPLAINED_OF(0.15),
  /** Met now and then in sound brakes. */
  NOW_AND_THEN(0.06),
  /** Seldom met in sound brakes. */
  SELDOM(0.02),
  /** Seen with the eyes, and hardly ever there without its cause. */
  HARDLY_EVER(0.005),
  /** What is seen is the fault itself, but for an error of who looked. */
  THE_FAULT_ITSELF(0.0001);

  private final double probability;

  Background(double probability) {
    this.probability = probability;
  }

  /** The probability that the symptom shows without any known cause, in (0, 1). */
  public double probability() {
    return probability;
  }
}
