package firmlever.document;

import java.util.Locale;

/**
 * Text out of files, made safe to look at: control characters would steer the terminal, and marks
 * of writing direction would show text in another order than it has. They are spelt out instead.
 */
public final class Visible {
  private Visible() {}

  /** The text with every such character as a backslash, a u and four hexadecimal figures. */
  public static String of(String text) {
    if (text.chars().noneMatch(Visible::steers)) {
      return text;
    }
    StringBuilder safe = new StringBuilder();
    text.chars()
        .forEach(
            c -> {
              if (steers(c)) {
                safe.append(spelt(c));
              } else {
                safe.append((char) c);
              }
            });
    return safe.toString();
  }

  /** Whether the character steers a terminal: controls, line breaks and direction marks. */
  public static boolean steers(int c) {
    return Character.isISOControl(c)
        || c >= 0x202A && c <= 0x202E
        || c >= 0x2066 && c <= 0x2069
        || c == 0x2028
        || c == 0x2029;
  }

  /** The character spelt out. */
  public static String spelt(int c) {
    return String.format(Locale.ROOT, "\\u%04x", c);
  }
}
