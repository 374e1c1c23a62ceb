package firmlever.diagnosis.report;

import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Grade;
import firmlever.diagnosis.Gist.Reason;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What other rules change in many cases: the gravest on one screen, the others counted. */
public final class ChangedCases {
  /** The most lines at 80 columns. */
  static final int LINES = 24;

  private static final Comparator<Changed> GRAVEST_FIRST =
      Comparator.comparing((Changed each) -> each.difference().grade())
          .thenComparing(each -> !each.difference().loosened())
          .thenComparing(
              each -> each.difference().because().gone().stream().allMatch(Reason::isCause))
          .thenComparing(Changed::name);

  private final DifferenceReport words;
  private final int width;
  private final boolean bold;

  public ChangedCases(Vocabulary vocabulary, int width, boolean bold) {
    this.words = new DifferenceReport(vocabulary);
    this.width = width;
    this.bold = bold;
  }

  /**
   * A case that was judged twice.
   *
   * @param name of its file
   */
  public record Changed(String name, Difference difference) {}

  /**
   * What changes, on one screen.
   *
   * @param by what changes it, in words
   * @param cases all that were judged, with those in which nothing changes
   */
  public String of(String by, List<Changed> cases) {
    List<Changed> changed =
        cases.stream()
            .filter(each -> each.difference().grade() != Grade.NONE)
            .sorted(GRAVEST_FIRST)
            .toList();
    String head =
        by
            + (changed.isEmpty()
                ? " change nothing in " + counted(cases.size(), "case") + "."
                : " change "
                    + changed.size()
                    + " of "
                    + counted(cases.size(), "case")
                    + ": "
                    + counts(changed)
                    + ".");
    String text = new Page(width, bold).heading(head).toString();
    int shown = 0;
    for (Changed each : changed) {
      String more = text + one(each);
      String whole = more + rest(changed.subList(shown + 1, changed.size()));
      if (whole.lines().count() > LINES) {
        break;
      }
      text = more;
      shown++;
    }
    return text + rest(changed.subList(shown, changed.size()));
  }

  private String one(Changed changed) {
    return new Page(width, false)
        .hanging("  ", changed.name() + ":")
        .hanging("      ", words.inShort(changed.difference()))
        .toString();
  }

  private String rest(List<Changed> left) {
    return left.isEmpty()
        ? ""
        : new Page(width, false)
            .hanging("  ", "and " + left.size() + " more: " + counts(left) + ".")
            .toString();
  }

  private static String counted(int number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  /** Each case counted once, by the gravest that changes in it. */
  private static String counts(List<Changed> cases) {
    Map<Grade, Integer> counts = new EnumMap<>(Grade.class);
    cases.forEach(each -> counts.merge(each.difference().grade(), 1, Integer::sum));
    return counts.entrySet().stream()
        .map(each -> what(each.getKey()) + " in " + each.getValue())
        .collect(Collectors.joining(", else "));
  }

  private static String what(Grade grade) {
    return switch (grade) {
      case RIDE -> "whether it may be ridden";
      case NEXT -> "the next step";
      case FIRST -> "the first cause";
      case CAUTIONS -> "the cautions";
      case LESS, NONE -> "only reasons and chances";
    };
  }
}
