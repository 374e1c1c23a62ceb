package firmlever.benchmark;

import firmlever.document.BadInput;
import firmlever.hearing.Hearing;
import firmlever.hearing.Judged;
import firmlever.hearing.Judged.Score;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * How well complaints are heard, against what their authors say a fair listener may take. Prints
 * figures by file and language, and with {@code --misses} every complaint heard amiss; asserts
 * nothing. Arguments: files, one complaint a line, as in {@code cases/hearing}.
 */
public final class HearingBenchmark {
  private HearingBenchmark() {}

  /** Prints the report. */
  public static void main(String[] args) throws IOException, BadInput {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    boolean misses = List.of(args).contains("--misses");
    long before = System.nanoTime();
    Hearing hearing = new Hearing();
    Map<String, Score> scores = new TreeMap<>();
    List<Judged> all = new ArrayList<>();
    for (String arg : args) {
      if (!arg.startsWith("--")) {
        Path file = Path.of(arg);
        for (Judged each : Judged.read(file)) {
          all.add(each);
          Score score = each.score(hearing);
          scores.merge(file.getFileName() + " " + each.language(), score, Score::plus);
          scores.merge("all " + each.language(), score, Score::plus);
          scores.merge("all", score, Score::plus);
          if (misses && !score.words().isEmpty()) {
            out.println(each.id() + " " + each.complaint());
            score.words().forEach(word -> out.println("    " + word));
          }
        }
      }
    }
    double first = (System.nanoTime() - before) / 1e6;
    scores.forEach((name, score) -> out.println(name + ": " + score));
    for (int round = 0; round < 20; round++) {
      all.forEach(each -> each.hear(hearing));
    }
    before = System.nanoTime();
    all.forEach(each -> each.hear(hearing));
    out.printf(
        "reading the languages and the first round %.0f ms; warm %.3f ms a complaint%n",
        first, (System.nanoTime() - before) / 1e6 / Math.max(1, all.size()));
  }
}
