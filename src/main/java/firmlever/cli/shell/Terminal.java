package firmlever.cli.shell;

import firmlever.document.CalendarDay;
import java.time.LocalDate;
import java.util.Optional;

/** What is known of the terminal: the launcher measures it and hands it over. */
public final class Terminal {
  private Terminal() {}

  private static final int USUAL_WIDTH = 80;

  /** Width in characters. */
  public static int width() {
    String columns = System.getProperty("firmlever.columns", System.getenv("COLUMNS"));
    return columns != null && columns.matches("[0-9]{1,4}")
        ? Integer.parseInt(columns)
        : USUAL_WIDTH;
  }

  /** The day it is where the user is; empty where nobody told. */
  public static Optional<LocalDate> today() {
    return CalendarDay.of(System.getProperty("firmlever.today", ""));
  }

  /** Whether a person types the input, and can be asked again. */
  public static boolean keyboard() {
    return Boolean.getBoolean("firmlever.keyboard");
  }

  /** Whether headings may be bold: a terminal that did not ask for plain text (NO_COLOR). */
  public static boolean bold() {
    String plain = System.getenv("NO_COLOR");
    return Boolean.getBoolean("firmlever.terminal") && (plain == null || plain.isEmpty());
  }
}
