package firmlever.cli;

/** What is known of the terminal: the launcher measures it and hands it over. */
final class Terminal {
  private Terminal() {}

  private static final int USUAL_WIDTH = 80;

  /** Width in characters. */
  static int width() {
    String columns = System.getProperty("firmlever.columns", System.getenv("COLUMNS"));
    return columns != null && columns.matches("[0-9]{1,4}")
        ? Integer.parseInt(columns)
        : USUAL_WIDTH;
  }

  /** Whether headings may be bold: a terminal that did not ask for plain text (NO_COLOR). */
  static boolean bold() {
    String plain = System.getenv("NO_COLOR");
    return Boolean.getBoolean("firmlever.terminal") && (plain == null || plain.isEmpty());
  }
}
