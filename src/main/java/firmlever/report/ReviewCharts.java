package firmlever.report;

/** Charts of the review. */
final class ReviewCharts {
  private ReviewCharts() {}

  /** How far the curve of the time to the comeback is drawn, in days. */
  static final int DAYS = 120;
}
