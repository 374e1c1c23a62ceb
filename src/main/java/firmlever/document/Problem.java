package firmlever.document;

import firmlever.document.Node.Place;
import java.util.Optional;

/**
 * One thing wrong with an input file: where, what stands there, what must hold, and a guess at what
 * was meant.
 *
 * @param file as the user named it
 * @param line from 1; 0 where the file as a whole is meant
 * @param column from 1; 0 where the file as a whole is meant
 * @param pointer JSON Pointer; empty for the whole file
 * @param message what stands there and what must hold
 * @param maybe a suggestion, a whole sentence beginning with {@code Maybe}
 */
public record Problem(
    String file, int line, int column, String pointer, String message, Optional<String> maybe) {

  static Problem at(String file, Place place, String message, Optional<String> maybe) {
    return new Problem(file, place.line(), place.column(), place.pointer(), message, maybe);
  }

  /** A problem of a file that could not be read at all. */
  public static Problem ofFile(String file, String message, String maybe) {
    return new Problem(
        file, 0, 0, "", message, maybe.isEmpty() ? Optional.empty() : Optional.of(maybe));
  }

  /** The problem as people read it: one line, and a second one with the suggestion. */
  public String spoken() {
    StringBuilder text = new StringBuilder(Visible.of(file));
    if (line > 0) {
      text.append(':').append(line).append(':').append(column);
    }
    text.append(": ");
    if (!pointer.isEmpty()) {
      text.append(Visible.of(pointer)).append(": ");
    }
    text.append(Visible.of(message));
    maybe.ifPresent(guess -> text.append("\n    ").append(Visible.of(guess)));
    return text.toString();
  }
}
