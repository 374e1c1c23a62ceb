package firmlever.comeback.statistics;

import java.util.List;

/**
 * How many units that are whole will fail in the next period, each by its age, if they go on as all
 * did that were ever seen at that age. Nothing is assumed of the shape of their lives. The spread
 * holds chance and not knowing the pace at each age exactly. Source: Nelson and Aalen's estimator
 * of the cumulative hazard, Nelson 1982, Applied Life Data Analysis (from memory); the delta
 * method.
 *
 * @param expected how many
 * @param standardError of what comes, about what is expected
 * @param units how many units could fail
 */
public record ReturnForecast(double expected, double standardError, long units) {

  /**
   * The forecast.
   *
   * @param seen all units, failed and lost from sight
   * @param running its losses are the units still whole and in sight, at their age; its failures do
   *     not count
   * @param period the length of the period, 0 or more, in the unit of the tables
   */
  public static ReturnForecast of(LifeTable seen, LifeTable running, double period) {
    LifeTable.checkedTime(period);
    List<LifeTable.Row> rows = seen.rows();
    double[] hazards = new double[rows.size() + 1]; // summed over all rows before
    double[] atRisk = new double[rows.size()];
    long left = seen.units();
    for (int i = 0; i < rows.size(); i++) {
      atRisk[i] = left;
      hazards[i + 1] = hazards[i] + (double) rows.get(i).failures() / left;
      left -= rows.get(i).failures() + rows.get(i).losses();
    }
    double[] moves = new double[rows.size() + 1]; // how the forecast moves with each hazard
    double expected = 0;
    double variance = 0;
    long units = 0;
    int from = 0;
    int to = 0;
    for (LifeTable.Row unit : running.rows()) {
      while (from < rows.size() && rows.get(from).time() <= unit.time()) {
        from++;
      }
      while (to < rows.size() && rows.get(to).time() <= unit.time() + period) {
        to++;
      }
      double whole = Math.exp(hazards[from] - hazards[to]);
      units += unit.losses();
      expected += unit.losses() * (1 - whole);
      variance += unit.losses() * whole * (1 - whole);
      moves[from] += unit.losses() * whole;
      moves[to] -= unit.losses() * whole;
    }
    double move = 0;
    for (int i = 0; i < rows.size(); i++) {
      move += moves[i];
      variance += move * move * rows.get(i).failures() / (atRisk[i] * atRisk[i]);
    }
    return new ReturnForecast(expected, Math.sqrt(variance), units);
  }

  /**
   * Normal limits with correction for whole numbers, cut off at 0 and at the number of units.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(double level) {
    double reach = Interval.deviate(level) * standardError + 0.5;
    return new Interval(
        Math.max(0, expected - reach), Math.max(0, Math.min(units, expected + reach)));
  }
}
