package firmlever.comeback.report;

import firmlever.comeback.Shelf.Cases;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** A paragraph in which numbers point to the cases behind them. */
public final class Saying {
  private final List<Part> parts = new ArrayList<>();

  /**
   * A piece of it.
   *
   * @param title of the cases behind a number; empty for plain words
   */
  public record Part(String text, String title, Cases cases) {}

  Saying say(String words) {
    parts.add(new Part(words, "", Cases.NONE));
    return this;
  }

  /** A number with the cases behind it. */
  Saying number(String text, String title, Cases cases) {
    parts.add(new Part(text, title, cases));
    return this;
  }

  /** Its pieces, in order. */
  public List<Part> parts() {
    return parts;
  }

  @Override
  public String toString() {
    return parts.stream().map(Part::text).collect(Collectors.joining());
  }
}
