package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.Groups;
import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.FairComparison.Verdict;
import firmlever.comeback.visits.Trait;
import java.util.List;

/** Groups of visits held against others of their kind; nobody is named of whom nothing is shown. */
final class GroupsPart {
  private static final int GROUPS = 14;

  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;
  private int charts;

  GroupsPart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void groups() {
    page.section(
        "groups",
        "Groups held against others of their kind",
        "Comebacks within "
            + found.definition().shortDays()
            + " days. The likely rate is what may be expected of a group: the fewer its visits, the"
            + " more it leans towards the rate of all (shrunk by an empirical Bayes prior). \"Of"
            + " 100\" and \"all others\" are plain rates; all others are all visits of"
            + " the other groups, outliers included. The verdict rests on another comparison: only"
            + " visits alike in what stands below each heading are held against each other"
            + " (Mantel and Haenszel's strata, exact test), and what others would have had there is"
            + " shown beside what the group had. The chances are adjusted for all groups of all"
            + " traits together, technicians for themselves (Benjamini and Hochberg), so that on"
            + " average no more than 5 of 100 verdicts are chance. A verdict must also hold when"
            + " any one other group is left out; on a work or cause, when any one technician is.");
    page.p(words.check("Technicians", found.persons()));
    page.p(words.check("All other groups", found.things()));
    found.brakeGroups().forEach(this::comparison);
    page.endSection();
  }

  private void comparison(Comparison comparison) {
    List<Integer> shown = ReviewAnswers.shown(comparison, GROUPS);
    page.heading("By " + comparison.trait().words());
    if (comparison.trait().ofPersons() && shown.isEmpty()) {
      page.p(words.nobodyNamed());
      return;
    }
    page.p("Held against " + comparison.trait().likeWords() + ".");
    comparison
        .paces()
        // The paces are not held within the same work: that would be unfair to persons.
        .filter(test -> !comparison.trait().ofPersons())
        .ifPresent(
            test ->
                page.p(
                    "Time to the comeback: "
                        + (test.chance() <= Groups.FALSE_SHARE
                            ? "the groups do not keep the same pace"
                            : "no difference in pace is shown")
                        + " (log-rank test, chance "
                        + ReviewAnswers.chance(test.chance())
                        + ")."));
    if (chartWorth(comparison.trait()) && shown.size() > 1) {
      page.chart(
          "Likely comeback rate by " + comparison.trait().words() + ", with 95 % intervals.",
          ReviewCharts.groups(comparison, shown, words, charts++));
    }
    page.table(
        "By " + comparison.trait().words(),
        comparison.trait().words(),
        "comebacks",
        "jobs",
        "of 100",
        "all others",
        "likely rate (95 %)",
        "had, of those compared",
        "others would have had",
        "adjusted chance",
        "verdict");
    shown.forEach(i -> standing(comparison.trait(), comparison.standings().get(i)));
    page.endTable();
    int left = comparison.standings().size() - shown.size();
    if (left > 0 && comparison.trait().ofPersons()) {
      page.p("Of " + left + " others no difference is shown; their figures are left out here.");
    } else if (left > 0) {
      page.p(left + " more groups are in the tables that --csv writes.");
    }
  }

  private void standing(Trait trait, Standing standing) {
    String name = words.group(trait, standing.name());
    page.row(
        name,
        page.link(
            ReviewAnswers.number(standing.count().events()),
            "By " + trait.words() + ": " + name,
            standing.cases()),
        ReviewAnswers.number(standing.count().trials()),
        Numbers.ofHundred(standing.count()),
        Numbers.ofHundred(standing.others()),
        Numbers.ofHundred(standing.shrunk().mean())
            + " ("
            + Numbers.ofHundred(standing.shrunk().interval(ReviewAnswers.LEVEL))
            + ")",
        ReviewAnswers.number(standing.like().contrast().own().events())
            + " of "
            + ReviewAnswers.number(standing.like().contrast().own().trials()),
        Numbers.tenth(standing.like().contrast().asOthers()),
        ReviewAnswers.chance(standing.like().adjusted()),
        emphasised(standing.like().verdict()));
  }

  private static boolean chartWorth(Trait trait) {
    return trait == Trait.TECHNICIAN
        || trait == Trait.SITE
        || trait == Trait.LOT
        || trait == Trait.WORK
        || trait == Trait.SEASON;
  }

  private static String emphasised(Verdict verdict) {
    String said = ReviewAnswers.verdict(verdict);
    return verdict == Verdict.NOT_SHOWN ? said : "<strong>" + said + "</strong>";
  }
}
