package firmlever.diagnosis.report;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Grade;
import firmlever.diagnosis.report.ChangedCases.Changed;
import firmlever.diagnosis.report.Pairs.Pair;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The difference of two diagnoses in words")
class DifferenceReportTest {
  private static final DifferenceReport REPORT = new DifferenceReport(Bench.VOCABULARY);

  private static Difference of(String before, String now) {
    return Difference.of(diagnosed(before), diagnosed(now));
  }

  private static Diagnosis diagnosed(String symptoms) {
    CaseFile file =
        Bench.of(
            "'complaint':'odd','brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'symptoms':{"
                + symptoms
                + "}");
    return Bench.DIAGNOSTICIAN.diagnose(file, Options.WITHOUT_DRAWS);
  }

  @Test
  @DisplayName("begins with the ride verdict, and says of each kind what was and what is")
  void beginsWithTheVerdict() {
    Difference d =
        of(
            "'drag':'present','leak-found':'absent'",
            "'drag':'present','weep-at-lever-piston':'present'");
    assertThat(REPORT.text(d, 80)).startsWith("Ride   NO (was: not cleared); because of: ");
    assertThat(REPORT.text(d, 80).replaceAll("\\s+", " "))
        .contains("now the other way: weep behind the lever blade;")
        .contains("first now weeping lever piston (from 0 to ")
        .contains("; no longer known: wet somewhere at the caliper");
    String back =
        REPORT.text(
            of(
                "'drag':'present','weep-at-lever-piston':'present'",
                "'drag':'present','leak-found':'absent'"),
            80);
    assertThat(back).startsWith("Ride   not cleared (was: NO); no longer because of: ");
  }

  @Test
  @DisplayName("says that nothing differs where nothing does, and then nothing in short")
  void saysThatNothingDiffers() {
    Difference d = of("'drag':'present'", "'drag':'present'");
    assertThat(REPORT.text(d, 80).lines())
        .containsExactly(
            "Ride   not cleared, as before",
            "       findings, likely causes, next step and cautions are the same too");
    assertThat(new ChangedCases(Bench.VOCABULARY, 80, false).of("They", changed(d, 3)))
        .isEqualTo("They change nothing in 3 cases.\n");
  }

  @Test
  @DisplayName("fits into eleven lines of 80 columns, and names every caution that is new")
  void fits() {
    int shortened = 0;
    for (Pair pair : Pairs.ALL) {
      for (Pair each : List.of(pair, pair.swapped())) {
        Difference d = Difference.of(each.before(), each.now());
        String text = REPORT.text(d, 80);
        assertThat(text.lines()).allMatch(line -> line.length() <= 80);
        assertThat(text.lines().count()).isLessThanOrEqualTo(DifferenceReport.LINES);
        String plain = text.replaceAll("\\s+", " ");
        for (String caution : d.cautions().added()) {
          assertThat(plain).contains(Bench.VOCABULARY.cautions().get(caution).inShort());
        }
        // Something is said of whatever differs.
        assertThat(text.lines().count() > 1 || text.contains(";")).isEqualTo(true);
        shortened += Pattern.compile("and \\d+ more").matcher(plain).find() ? 1 : 0;
      }
    }
    assertThat(shortened).isPositive();
  }

  private static List<Changed> changed(Difference d, int times) {
    List<Changed> all = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      all.add(new Changed("case-" + i + ".json", d));
    }
    return all;
  }

  @Test
  @DisplayName("of many cases fits on one screen, the gravest first, the others counted")
  void ofManyFitsOnOneScreen() {
    List<Changed> cases = new ArrayList<>();
    int differing = 0;
    for (Pair pair : Pairs.ALL) {
      for (Pair each : List.of(pair, pair.swapped())) {
        Difference d = Difference.of(each.before(), each.now());
        cases.add(new Changed("cases/regression/case-" + cases.size() + ".json", d));
        differing += d.grade() == Grade.NONE ? 0 : 1;
      }
    }
    String screen = new ChangedCases(Bench.VOCABULARY, 80, false).of("The rules of shop", cases);
    assertThat(screen.lines().count()).isBetween(20L, (long) ChangedCases.LINES);
    assertThat(screen.lines()).allMatch(line -> line.length() <= 80);
    assertThat(screen).startsWith("The rules of shop change " + differing + " of " + cases.size());
    List<String> shown =
        screen.lines().filter(line -> line.endsWith(".json:")).map(String::strip).toList();
    List<Grade> grades =
        shown.stream()
            .map(name -> cases.get(Integer.parseInt(name.replaceAll("\\D+", ""))))
            .map(each -> each.difference().grade())
            .toList();
    assertThat(grades).isSorted().contains(Grade.RIDE);
    String plain = screen.replaceAll("\\s+", " ");
    assertThat(plain).contains("and " + (differing - shown.size()) + " more: ");
    // A stop that is lifted comes before all else.
    List<Boolean> lifted =
        shown.stream()
            .map(name -> cases.get(Integer.parseInt(name.replaceAll("\\D+", ""))))
            .map(each -> each.difference().loosened())
            .toList();
    assertThat(lifted).contains(true);
    assertThat(lifted.lastIndexOf(true))
        .isLessThan(lifted.contains(false) ? lifted.indexOf(false) : 99);
  }
}
