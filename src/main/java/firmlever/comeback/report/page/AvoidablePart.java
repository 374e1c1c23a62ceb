package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Habit;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.visits.Comeback;

/** Comebacks that look avoidable, how many of them chance would give, and what would catch them. */
final class AvoidablePart {
  private static final int KINDS = 20;
  private static final int HABITS = 12;
  private static final int DEAREST = 60;

  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;

  AvoidablePart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void avoidable() {
    page.section(
        "avoidable",
        "Avoidable comebacks",
        "A comeback is called avoidable where "
            + ReviewAnswers.AVOIDABLE
            + ". That alone would call some avoidable by chance, so a sample is judged a second"
            + " time, each comeback with what the second visit of another brake found that first"
            + " came with the same kind of complaint (limits after Agresti and Min). Minutes: "
            + found.costs().comebackMinutes()
            + " for the comeback (from memory; set your own with --comeback-minutes) and the first"
            + " visit's works that do not mend the cause, less the checks that would have been"
            + " made.");
    beyondChance();
    habits();
    if (found.avoidable().count() > 0) {
      page.p(
          words.worthALook(found.avoidable().count())
              + ": first the commonest kinds, with the latest of each, then the dearest.");
    }
    kinds();
    dearest();
    page.list("Avoidable comebacks", found.avoidable());
    page.endSection();
  }

  private void beyondChance() {
    page.table(
        "Beyond chance",
        "judged",
        "comebacks",
        "seen, of 100",
        "by chance, of 100",
        "beyond chance, of 100 (95 %)");
    beyondChance("avoidable", found.chanceLevel().avoidable());
    beyondChance("wrong cause treated", found.chanceLevel().wrongCause());
    beyondChance(
        "wrong cause treated, what was known pointed to the true one first",
        found.chanceLevel().stoodFirst());
    page.endTable();
  }

  private void beyondChance(String what, PairedShare level) {
    page.row(
        what,
        ReviewAnswers.number(level.units()),
        Numbers.ofHundred(level.first()),
        Numbers.ofHundred(level.second()),
        Numbers.ofHundred(level.difference())
            + " ("
            + Numbers.ofHundred(level.interval(ReviewAnswers.LEVEL))
            + ")");
  }

  private void habits() {
    if (found.habits().isEmpty()) {
      return;
    }
    page.table(
        "Checks as habits, those that save most first; what they catch counts at its share beyond"
            + " chance",
        "check",
        "when",
        "would have caught",
        "more checks",
        "takes, h",
        "saves, h",
        "net, h",
        "pays up to so many checks");
    for (Habit habit : found.habits().stream().limit(HABITS).toList()) {
      String name = words.symptom(habit.check());
      page.row(
          name,
          PageWriter.escaped(words.place(habit.place())),
          page.link(
              ReviewAnswers.number(habit.caught().count()),
              "A habit would catch: " + name + ", " + words.place(habit.place()),
              habit.caught()),
          ReviewAnswers.number(habit.checks()),
          Numbers.tenth(habit.costMinutes() / 60),
          Numbers.tenth(habit.gainMinutes() / 60),
          Numbers.tenth(habit.netMinutes() / 60),
          ReviewAnswers.number((long) habit.breakEvenChecks()));
    }
    page.endTable();
  }

  private void kinds() {
    page.table("Kinds of avoidable comebacks", "how many", "latest", "what to say");
    for (Named kind : found.avoidableKinds().stream().limit(KINDS).toList()) {
      Comeback latest = kind.cases().shown().get(0);
      page.sentenceRow(
          latest.sentence(),
          page.link(
              ReviewAnswers.number(kind.cases().count()),
              "Avoidable comebacks: treated for "
                  + words.cause(latest.treatedFirst())
                  + ", was "
                  + words.cause(latest.foundFirst()),
              kind.cases()),
          PageWriter.escaped(latest.first() + " to " + latest.second()));
    }
    page.endTable();
  }

  private void dearest() {
    page.table("Dearest avoidable comebacks", "visits", "days", "minutes", "what to say");
    for (Comeback each : found.avoidable().shown().stream().limit(DEAREST).toList()) {
      page.sentenceRow(
          each.sentence(),
          page.linkToRow(each.first() + " to " + each.second(), each),
          Numbers.days(each),
          String.valueOf(each.minutesSaved()));
    }
    page.endTable();
  }
}
