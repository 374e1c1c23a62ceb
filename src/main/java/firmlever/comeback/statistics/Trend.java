package firmlever.comeback.statistics;

import java.util.Locale;
import java.util.Optional;

/**
 * Whether events come faster or slower as time goes on: the Laplace test, and the power law model
 * of Crow (AMSAA), in which scale · time^shape events are expected up to a time. Source: Crow 1974;
 * MIL-HDBK-189; NIST/SEMATECH handbook 8.2.3.4 (Laplace); all from memory.
 *
 * @param events how many there were
 * @param end until when they were watched, above 0
 * @param shape below 1: they come ever slower; above 1: ever faster (maximum likelihood)
 * @param scale events expected up to time 1
 * @param laplace about standard normal without a trend; below 0 slower, above 0 faster
 */
public record Trend(long events, double end, double shape, double scale, double laplace) {

  /**
   * The trend of events watched until a time fixed beforehand; empty with fewer than two events, or
   * when all came at the very end.
   *
   * @param end above 0, not before the last event
   * @throws IllegalArgumentException where an event lies after the end
   */
  public static Optional<Trend> until(double end, EventTimes times) {
    if (!times.counts().isEmpty() && !(times.counts().lastKey() <= end)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "an event at %s lies after the end at %s",
              times.counts().lastKey(),
              end));
    }
    long events = times.events();
    double logs = 0;
    double sum = 0;
    for (var entry : times.counts().entrySet()) {
      logs += entry.getValue() * Math.log(end / entry.getKey());
      sum += entry.getValue() * (entry.getKey() / end);
    }
    if (events < 2 || !(logs > 0)) {
      return Optional.empty();
    }
    double shape = events / logs;
    double laplace = (sum / events - 0.5) * Math.sqrt(12.0 * events);
    return Optional.of(new Trend(events, end, shape, events / Math.pow(end, shape), laplace));
  }

  /** The chance of a Laplace value this far from 0 where there is no trend, from 0 to 1. */
  public double laplaceChance() {
    return Interval.twoSidedChance(laplace);
  }
}
