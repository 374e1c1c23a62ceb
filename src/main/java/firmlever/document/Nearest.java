package firmlever.document;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the known name a misspelt one was probably meant to be. */
public final class Nearest {
  private Nearest() {}

  /**
   * The known name with the fewest edits to {@code given} (insert, delete, replace, swap of
   * neighbours), where these are at most a third of its length, or one. Of several the longest, as
   * letters are sooner left out than put in ({@code dot5} is {@code dot-5} and not {@code dot}); of
   * those the first in the order of {@code known}. Capitals count as small letters, and spaces as
   * hyphens: {@code DOT 4} is {@code dot-4}.
   */
  public static Optional<String> to(String written, Collection<String> known) {
    String given = plain(written);
    String best = null;
    int fewest = Math.max(1, Math.min(given.length(), 40) / 3) + 1;
    for (String name : known) {
      if (Math.abs(name.length() - given.length()) <= fewest) {
        int edits = edits(given, plain(name));
        boolean longer = best != null && edits == fewest && name.length() > best.length();
        if (edits < fewest || longer) {
          fewest = edits;
          best = name;
        }
      }
    }
    return Optional.ofNullable(best);
  }

  /** A name as files write it: small letters, and hyphens for spaces and underscores. */
  public static String plain(String written) {
    return written.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_]+", "-");
  }

  /**
   * {@code Maybe "x".} where a known name is near, else a list of what is known when it is short.
   */
  public static String maybe(String given, Collection<String> known) {
    Optional<String> near = to(given, known);
    if (near.isPresent()) {
      return "Maybe \"" + near.get() + "\" was meant.";
    }
    return known.size() > 12 ? "" : "Maybe one of: " + String.join(", ", known) + ".";
  }

  /** Optimal string alignment distance: letters put in, left out, replaced or swapped. */
  public static int edits(String a, String b) {
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1], last[j]) + 1, last[j - 1] + change);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
        }
      }
      int[] spare = beforeLast;
      beforeLast = last;
      last = row;
      row = spare;
    }
    return last[b.length()];
  }
}
