package firmlever.comeback.report.page;

import firmlever.comeback.EightDisciplines;
import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Cluster;
import firmlever.comeback.report.ReviewAnswers;

/** Lots, technicians and seasons with more returns than usual, each as a report to begin with. */
final class PatternsPart {
  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;

  PatternsPart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void patterns() {
    page.section(
        "patterns",
        "Patterns",
        "Lots, technicians and seasons after which more brakes come back than brakes of the same"
            + " age with the same kind of complaint do elsewhere. Each brake counts once for each"
            + " cause. A pattern is named from 5 returns and one and a half times the usual number;"
            + " the clearest is taken out before the next is looked for.");
    if (found.clusters().isEmpty()) {
      page.p("None is shown.");
    }
    found.clusters().forEach(this::pattern);
    page.endSection();
  }

  private void pattern(Cluster cluster) {
    page.markup("<article class=\"pattern\">");
    page.heading(words.title(cluster).substring("Pattern: ".length()));
    page.markup(
        "<p>"
            + PageWriter.escaped(words.sentence(cluster))
            + " "
            + page.link(
                "The " + ReviewAnswers.number(cluster.returns()) + " returns",
                words.title(cluster),
                cluster.cases())
            + ".</p>\n<dl>");
    EightDisciplines eight = cluster.eightDisciplines();
    page.define("Problem (D2)", eight.problem());
    page.define("Containment (D3)", eight.containment());
    page.define("Root causes to look into (D4)", String.join("; ", eight.rootCauses()));
    page.define("Escape point (D4)", eight.escapePoint());
    page.define("Corrective action (D5, D6)", eight.corrective());
    page.define("Prevention (D7)", eight.preventive());
    page.markup("</dl></article>\n");
  }
}
