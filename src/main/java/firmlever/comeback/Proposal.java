package firmlever.comeback;

import firmlever.comeback.Learning.Rate;
import firmlever.rulebase.RuleFiles;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What was learned as a folder of rules that can be laid over the built-in ones, once a person has
 * read it: each rule has the name of the one it would replace, and differs from it in one number.
 */
public final class Proposal {
  private Proposal() {}

  /** File names below the folder, with their texts. */
  public static Map<String, String> files(Learning learning) {
    Map<String, String> files = new LinkedHashMap<>();
    Map<String, StringBuilder> texts = new LinkedHashMap<>();
    for (Rate rate : learning.rates()) {
      if (rate.differs()) {
        rule(rate)
            .ifPresent(
                found ->
                    texts
                        .computeIfAbsent(
                            "causes/" + rate.cause() + ".drl", f -> new StringBuilder(found.head))
                        .append(found.rule));
      }
    }
    texts.forEach((name, text) -> files.put(name, text.toString()));
    files.put("READ-ME-FIRST.txt", explained(learning));
    return files;
  }

  private record Found(String head, String rule) {}

  /** The rule's own text with the number replaced, and the head of its file. */
  private static java.util.Optional<Found> rule(Rate rate) {
    Pattern whole = Pattern.compile("(?ms)^rule \"" + Pattern.quote(rate.rule()) + "\".*?^end$");
    Pattern number =
        Pattern.compile(
            "(model\\.possible\\(\\s*\"" + Pattern.quote(rate.cause()) + "\"\\s*,\\s*)[0-9.]+");
    for (String path : RuleFiles.builtIn()) {
      if (!path.endsWith(".drl")) {
        continue;
      }
      String text = RuleFiles.text(path);
      Matcher rule = whole.matcher(text);
      if (rule.find()) {
        String changed =
            number
                .matcher(rule.group())
                .replaceFirst("$1" + plain(rate.proposed()))
                .replaceFirst("@source\\(\"[^\"]*\"\\)", "@source(\"" + source(rate) + "\")");
        String head = text.substring(0, text.indexOf("\nrule \"") + 1);
        return java.util.Optional.of(new Found(head, evidence(rate) + changed + "\n\n"));
      }
    }
    return java.util.Optional.empty();
  }

  private static String source(Rate rate) {
    return "own closed cases: " + rate.seen() + " of " + rate.visits() + " visits";
  }

  private static String evidence(Rate rate) {
    return String.format(
        Locale.ROOT,
        "// Now %s of 100; the closed cases say %s (95 %%: %s to %s). Seen in %d of %d visits,"
            + " %.1f expected with each brake's history counted in.\n",
        plain(rate.now()),
        plain(rate.proposed()),
        plain(rate.range().low()),
        plain(rate.range().high()),
        rate.seen(),
        rate.visits(),
        rate.expected());
  }

  /** Two significant digits: more would claim what nobody knows. */
  static String plain(double value) {
    return new java.math.BigDecimal(value)
        .round(new java.math.MathContext(2))
        .stripTrailingZeros()
        .toPlainString();
  }

  private static String explained(Learning learning) {
    StringBuilder text = new StringBuilder();
    text.append("Proposed base rates, learned from ")
        .append(learning.visits())
        .append(" closed cases.\n")
        .append("Nothing here is in force. Read each rule, delete what you do not believe, then\n")
        .append("lay the folder over the built-in rules with --rules.\n\n");
    text.append(
        String.format(
            Locale.ROOT,
            "The elicited numbers are worth %.1f expected cases of each cause. On brakes kept out of the learning\n"
                + "the mean squared error goes from %s to %s and the calibration error from %s to %s.\n\n",
            learning.weight(),
            figure(learning.before().statements() == 0, learning.before()::brier),
            figure(learning.after().statements() == 0, learning.after()::brier),
            figure(learning.before().statements() == 0, learning.before()::expectedError),
            figure(learning.after().statements() == 0, learning.after()::expectedError)));
    text.append("Base rates that differ by more than chance, those of most effect first:\n");
    learning.rates().stream()
        .filter(Rate::differs)
        .forEach(
            rate ->
                text.append(
                    String.format(
                        Locale.ROOT,
                        "  %s: now %s of 100, proposed %s (%s to %s); %.2f of 100 visits\n",
                        rate.rule(),
                        plain(rate.now()),
                        plain(rate.proposed()),
                        plain(rate.range().low()),
                        plain(rate.range().high()),
                        rate.effect())));
    text.append("\nHow much the word of each recorder counts, as it has held at second visits:\n");
    for (Learning.Trusted each : learning.trusts()) {
      text.append(
          String.format(
              Locale.ROOT,
              "  %s %.2f\n",
              each.recorder().isEmpty() ? "nobody in particular" : each.recorder(),
              each.weight()));
    }
    text.append('\n');
    if (!learning.leftOut().isEmpty()) {
      text.append(
          "Not learned from, as it lies off what all others wrote down by more than chance:\n");
      for (Learning.LeftOut each : learning.leftOut()) {
        text.append(
            String.format(
                Locale.ROOT,
                "  %s, as %s wrote it: %d times, %.1f expected; all others %.1f times the expected\n",
                each.cause(),
                each.recorder().isEmpty() ? "nobody in particular" : each.recorder(),
                each.seen(),
                each.expected(),
                each.others()));
      }
      text.append('\n');
    }
    text.append("Case files that would change their verdict (")
        .append(learning.casesChecked())
        .append(" were tried):\n");
    for (Learning.Changed changed : learning.checked()) {
      text.append("  ")
          .append(changed.id())
          .append(changed.metBefore() ? " would be missed: " : " would be met")
          .append(String.join("; ", changed.missedAfter()))
          .append('\n');
    }
    text.append(learning.checked().isEmpty() ? "  none\n" : "");
    text.append(
            "\nHow often a cause shows a symptom, where the closed cases contradict the rules\n")
        .append("(for a person to judge; no rule is proposed for these):\n");
    List<Learning.Frequency> frequencies = learning.frequencies();
    for (Learning.Frequency each : frequencies) {
      text.append(
          String.format(
              Locale.ROOT,
              "  %s shows %s: rules %.2f, seen %d of %d (%.2f to %.2f)%n",
              each.cause(),
              each.symptom(),
              each.now(),
              each.seen().events(),
              each.seen().trials(),
              each.range().low(),
              each.range().high()));
    }
    return text.append(frequencies.isEmpty() ? "  none\n" : "").toString().replace("\r\n", "\n");
  }

  private static String figure(boolean none, java.util.function.DoubleSupplier value) {
    return none ? "unknown" : String.format(Locale.ROOT, "%.5f", value.getAsDouble());
  }
}
