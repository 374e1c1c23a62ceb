package firmlever.comeback.report;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.EightDisciplines;
import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Cluster;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Groups;
import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.Habit;
import firmlever.comeback.Learning;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.statistics.FairComparison.Check;
import firmlever.comeback.statistics.FairComparison.Verdict;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.ProportionChart.Signal;
import firmlever.comeback.statistics.RiskDifference;
import firmlever.comeback.statistics.Trend;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Trait;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** The six questions of a reviewer, answered in sentences. */
public final class ReviewAnswers {
  /** Of every interval told. */
  public static final double LEVEL = 0.95;

  /** How far the curve of the time to the comeback is told, in days. */
  public static final int CURVE_DAYS = 120;

  /** A check that would have caught fewer is no habit to plead for. */
  private static final int FEWEST_CAUGHT = 5;

  /** Of fewer visits only counts are told: a share of a handful says nothing. */
  public static final int FEWEST_TOLD = 20;

  /** Of fewer returns it is not said how many chance would call avoidable. */
  private static final long FEWEST_JUDGED = 10;

  private final Findings found;
  private final Vocabulary vocabulary;

  public ReviewAnswers(Findings found, Vocabulary vocabulary) {
    this.found = found;
    this.vocabulary = vocabulary;
  }

  /** A question with its answer. */
  public record Answer(String question, List<Saying> all) {
    private static final int FIRST = 2;

    /** What the first screen says. */
    public List<Saying> sayings() {
      return all.subList(0, Math.min(FIRST, all.size()));
    }

    /** What there is to say beside. */
    public List<Saying> more() {
      return all.subList(Math.min(FIRST, all.size()), all.size());
    }
  }

  /** All six, in the order of the page. */
  public List<Answer> answers() {
    return List.of(
        new Answer("How often do brakes come back?", howOften()),
        new Answer("Is it getting better or worse?", whereTo()),
        new Answer("Why do they come back?", why()),
        new Answer("Which of it was avoidable?", avoidable()),
        new Answer("Where is a pattern?", patterns()),
        new Answer("What should we change?", change()));
  }

  static String percent(double share) {
    return String.format(Locale.ROOT, "%.1f %%", 100 * share);
  }

  /** A count; a narrow space that does not break parts its thousands. */
  public static String number(long count) {
    return String.format(Locale.ROOT, "%,d", count).replace(',', '\u202f');
  }

  /** So many of them, in words: 1 record, 2 records. */
  public static String counted(long count, String one) {
    return number(count) + " " + one + (count == 1 ? "" : "s");
  }

  /** The limits of a share, of 100. */
  public static String range(Interval interval) {
    return String.format(
        Locale.ROOT, "%.1f to %.1f %%", 100 * interval.low(), 100 * interval.high());
  }

  static String rate(Proportion count) {
    return count.rate().isEmpty() ? "no rate" : percent(count.rate().getAsDouble());
  }

  /** A cause in words. */
  public String cause(String id) {
    return id.equals(Comeback.NONE) || id.isEmpty()
        ? "no cause on record"
        : vocabulary.causes().containsKey(id) ? vocabulary.cause(id).name() : id;
  }

  /** A symptom in words. */
  public String symptom(String id) {
    return vocabulary.symptoms().containsKey(id) ? vocabulary.symptom(id).name() : id;
  }

  /** A work in words. */
  public String work(String id) {
    return vocabulary.actions().containsKey(id)
        ? vocabulary.action(id).name()
        : vocabulary.works().containsKey(id) ? vocabulary.work(id).name() : id;
  }

  /** The value of a group in words. */
  public String group(Trait trait, String value) {
    return switch (trait) {
      case WORK -> work(value);
      case CAUSE -> cause(value);
      case TECHNICIAN_AND_WORK -> {
        int dot = value.indexOf(" · ");
        yield value.substring(0, dot) + " · " + work(value.substring(dot + 3));
      }
      default -> value;
    };
  }

  private String within() {
    return "within " + found.definition().shortDays() + " days";
  }

  private String withinLong() {
    return "within " + found.definition().longDays() + " days";
  }

  private List<Saying> howOften() {
    List<Saying> all = new ArrayList<>();
    Proportion count = found.within();
    if (count.trials() == 0) {
      all.add(new Saying().say("No visit has been followed for long enough to say."));
      return all;
    }
    if (tooFew()) {
      all.add(counts("Comebacks " + within(), within(), count, found.withinCases()));
      if (found.withinLong().trials() > 0) {
        all.add(
            counts(
                "Comebacks " + withinLong(),
                withinLong(),
                found.withinLong(),
                found.withinLongCases()));
      }
      return all;
    }
    all.add(
        new Saying()
            .say("Of 100 visits, about ")
            .number(
                String.format(Locale.ROOT, "%.1f", 100 * count.rate().orElse(0)),
                "Comebacks " + within(),
                found.withinCases())
            .say(
                " come back "
                    + within()
                    + " ("
                    + number(count.events())
                    + " of "
                    + number(count.trials())
                    + "; 95 % interval "
                    + range(count.wilson(LEVEL))
                    + "); "
                    + percent(1 - count.rate().orElse(0))
                    + " did not come back "
                    + within()
                    + "."));
    if (found.withinLong().trials() >= FEWEST_TOLD) {
      all.add(
          new Saying()
              .say("Within " + found.definition().longDays() + " days it is ")
              .number(
                  rate(found.withinLong()), "Comebacks " + withinLong(), found.withinLongCases())
              .say(
                  " ("
                      + number(found.withinLong().events())
                      + " of "
                      + number(found.withinLong().trials())
                      + "; "
                      + range(found.withinLong().wilson(LEVEL))
                      + "); only visits followed so long count"
                      + (fewerInLonger() ? ", fewer than for the shorter time" : "")
                      + byTheCurve()
                      + "."));
    } else if (found.withinLong().trials() > 0) {
      all.add(
          counts(
              "Comebacks " + withinLong(),
              withinLong(),
              found.withinLong(),
              found.withinLongCases()));
    }
    return all;
  }

  /** Whether so few visits could be followed that no share of them is told. */
  public boolean tooFew() {
    return found.within().trials() < FEWEST_TOLD;
  }

  /** A count of so few that nothing else is said of it. */
  private Saying counts(String title, String within, Proportion count, Cases cases) {
    return new Saying()
        .number(number(count.events()), title, cases)
        .say(
            " of "
                + counted(count.trials(), "visit")
                + " came back "
                + within
                + "; only visits followed so long count"
                + (count.trials() < found.within().trials()
                    ? ", fewer than for the shorter time"
                    : "")
                + ": too few to say anything.");
  }

  /** What the curve says of the long time, where that is another figure. */
  private String byTheCurve() {
    String curve = percent(1 - found.curve().survival(found.definition().longDays()));
    return curve.equals(rate(found.withinLong()))
        ? ""
        : ". The curve of the time to the comeback says "
            + curve
            + ", since it counts the others too, each for as long as it was followed";
  }

  /** A longer window holds more, unless fewer visits could be followed so long. */
  private boolean fewerInLonger() {
    return found.withinLong().events() < found.within().events()
        || found.withinLong().rate().orElse(0) < found.within().rate().orElse(0);
  }

  private List<Saying> whereTo() {
    List<Saying> all = new ArrayList<>();
    all.add(new Saying().say(tooFew() ? "Too few visits were followed to say." : trend()));
    Saying signals = new Saying();
    List<String> out = new ArrayList<>();
    found
        .chart()
        .ifPresent(
            chart -> {
              for (int i = 0; i < chart.points().size(); i++) {
                Signal signal = chart.points().get(i).signal();
                if (signal != Signal.NONE) {
                  out.add(
                      found.months().get(i).month()
                          + (signal == Signal.HIGH ? " above" : " below"));
                }
              }
            });
    signals.say(
        out.isEmpty()
            ? "No month lies outside the limits of chance; small differences between months would not"
                + " show."
            : "Outside the limits of chance lie "
                + String.join(", ", out)
                + "; of the other months nothing is shown. Of a steady shop about "
                + String.format(Locale.ROOT, "%.2f", 0.0027 * found.months().size())
                + " of "
                + found.months().size()
                + " months would.");
    if (found.chart().isPresent() && !tooFew()) {
      all.add(signals);
    }
    forecast().ifPresent(words -> all.add(new Saying().say(words)));
    // What a person asked for comes on the first screen.
    int at = Math.min(1, all.size());
    for (ChangeSeries.Effect effect : found.changes()) {
      all.add(at++, new Saying().say(changed(effect)));
      all.add(new Saying().say(movedBefore(effect)));
    }
    found
        .backtest()
        .filter(trial -> trial.held().trials() > 0)
        .ifPresent(trial -> all.add(new Saying().say(backtest(trial))));
    return all;
  }

  /** How many are to be expected back; empty where too little is known. */
  public Optional<String> forecast() {
    return found
        .nextMonth()
        .map(
            next ->
                String.format(
                    Locale.ROOT,
                    "In the %d days after %s expect about %s (%.0f to %.0f) of the brakes"
                        + " of %s visits that are out, each by the days since it went"
                        + " back.",
                    Backtest.DAYS,
                    found.definition().end(),
                    counted(Math.round(next.expected()), "return"),
                    next.interval(LEVEL).low(),
                    next.interval(LEVEL).high(),
                    number(next.units())));
  }

  /** What came after a change in the shop. */
  public String changed(ChangeSeries.Effect effect) {
    String what = effect.change().words() + " (" + effect.change().day() + ")";
    RiskDifference after = effect.after();
    if (effect.days() == 0 || after.standardError() == 0) {
      return what + ": too close to the edge of the data, or too few visits, to say what it did.";
    }
    Interval limits = after.interval(LEVEL);
    return String.format(
        Locale.ROOT,
        "%s: in the %d days since, %s of %s visits came back %s, in as many days before %s of %s;"
            + " within the same work and age of brake %.1f of 100 %s (%+.1f to %+.1f; chance %s):"
            + " %s.",
        capital(what),
        effect.days(),
        rate(after.own()),
        number(after.own().trials()),
        within(),
        rate(after.others()),
        number(after.others().trials()),
        100 * Math.abs(after.difference()),
        after.difference() > 0 ? "more" : "fewer",
        100 * limits.low(),
        100 * limits.high(),
        chance(effect.chance()),
        effect.chance() <= Groups.FALSE_SHARE
            ? "more than chance, though season and people may have changed too"
            : "chance explains it");
  }

  /** Whether it was on the move before the change. */
  public static String movedBefore(ChangeSeries.Effect effect) {
    RiskDifference before = effect.earlier();
    if (before.standardError() == 0) {
      return "Whether it was on the move before " + effect.change().day() + " cannot be told.";
    }
    Interval limits = before.interval(LEVEL);
    return String.format(
        Locale.ROOT,
        "Of the time before %s the later half had %.1f of 100 %s than the first (%+.1f to %+.1f;"
            + " chance %s): %s.",
        effect.change().day(),
        100 * Math.abs(before.difference()),
        before.difference() > 0 ? "more" : "fewer",
        100 * limits.low(),
        100 * limits.high(),
        chance(effect.earlierChance()),
        effect.earlierChance() <= Groups.FALSE_SHARE
            ? "it was on the move already"
            : "no move before it is shown");
  }

  /** How the forecast would have done. */
  public static String backtest(Backtest.Result result) {
    Proportion held = result.held();
    if (held.trials() == 0) {
      return "The forecast cannot be tried on the past: too few days, or too few comebacks.";
    }
    return String.format(
        Locale.ROOT,
        "Tried on %d earlier days with what was known then, its 95 %% interval held what came on %d"
            + " of them (%s; from so few trials its true rate may be %s).",
        held.trials(),
        held.events(),
        rate(held),
        range(held.exact(LEVEL)));
  }

  private String trend() {
    if (found.trend().isEmpty()) {
      return "There are too few comebacks to speak of a trend.";
    }
    Trend trend = found.trend().get();
    String test =
        String.format(
            Locale.ROOT,
            " (chance does as much in %s of steady shops)",
            ofHundred(trend.laplaceChance()));
    if (trend.laplaceChance() > 0.05) {
      return "Neither is shown: job for job, about as many brakes come back as before" + test + ".";
    }
    return (trend.laplace() > 0
            ? "Worse: brakes come back more often for each job than they did"
            : "Better: brakes come back less often for each job than they did")
        + test
        + ".";
  }

  /** The chance of a test in words. */
  public static String chance(double chance) {
    return chance < 0.0001
        ? "below 1 in 10\u202f000"
        : chance < 0.01
            ? String.format(Locale.ROOT, "%.4f", chance)
            : String.format(Locale.ROOT, "%.2f", chance);
  }

  /** A chance as so many of a hundred. */
  private static String ofHundred(double chance) {
    return chance < 0.01 ? "less than 1 %" : Math.round(100 * chance) + " %";
  }

  /** How much the trend grew, for those who know the term. */
  public static String reckoned(Trend trend) {
    return String.format(
        Locale.ROOT,
        "How the trend was reckoned: Laplace test over the jobs done, chance %s; a power law fitted"
            + " to the comebacks over the jobs has the exponent %.2f (1: steady; more: they come"
            + " faster; less: slower).",
        chance(trend.laplaceChance()),
        trend.shape());
  }

  private static String of(long part, long all) {
    return number(part) + (all < FEWEST_TOLD ? "" : " (" + Math.round(100.0 * part / all) + " %)");
  }

  private List<Saying> why() {
    long all = found.all().count();
    List<Saying> sayings = new ArrayList<>();
    Saying reasons =
        new Saying()
            .say("Of all ")
            .number(number(all), "All comebacks " + withinLong(), found.all())
            .say(" comebacks " + withinLong() + ", also after visits not followed so long yet, ");
    List<Reason> order =
        found.reasons().entrySet().stream()
            .filter(e -> e.getValue().count() > 0)
            .sorted(
                Comparator.comparingLong(
                        (java.util.Map.Entry<Reason, Cases> e) -> e.getValue().count())
                    .reversed())
            .map(java.util.Map.Entry::getKey)
            .toList();
    for (int i = 0; i < order.size(); i++) {
      Cases cases = requireNonNull(found.reasons().get(order.get(i)));
      reasons
          .say(i == 0 ? "" : i == order.size() - 1 ? " and " : ", ")
          .number(of(cases.count(), all), "Reason: " + order.get(i).words(), cases)
          .say((cases.count() == 1 ? " is \"" : " are \"") + order.get(i).words() + "\"");
    }
    sayings.add(order.isEmpty() ? new Saying().say("No brake came back.") : reasons.say("."));
    List<Named> commonest =
        found.causes().stream().filter(c -> !c.id().equals(Comeback.NONE)).limit(3).toList();
    if (!commonest.isEmpty()) {
      Saying causes = new Saying().say("Most often it then was ");
      for (int i = 0; i < commonest.size(); i++) {
        Named named = commonest.get(i);
        causes
            .say(i == 0 ? "" : i == commonest.size() - 1 ? " or " : ", ")
            .say(cause(named.id()) + " (")
            .number(
                number(named.cases().count()), "Came back with " + cause(named.id()), named.cases())
            .say(")");
      }
      PairedShare wrong = found.chanceLevel().wrongCause();
      sayings.add(
          causes.say(
              wrong.units() < FEWEST_JUDGED
                  ? "."
                  : String.format(
                      Locale.ROOT,
                      ". \"Wrong cause treated\" is said of %s of a sample; with the causes dealt"
                          + " out at random, %s.",
                      rate(wrong.first()),
                      rate(wrong.second()))));
    }
    return sayings;
  }

  /** What is called avoidable. */
  public static final String AVOIDABLE =
      "what was known at the first visit pointed to the cause found later before all others, or the"
          + " checks this program would have asked for lead to it; or the work left it behind and a"
          + " check at the hand-back shows it";

  /** What is seen beside what chance gives, with limits for what lies between. */
  private String chanceLevel(PairedShare level) {
    Interval limits = level.interval(LEVEL);
    double beyond = found.chanceLevel().beyondChance();
    return (limits.low() > 0 ? "" : "Chance may explain all that looks avoidable here. ")
        + String.format(
            Locale.ROOT,
            "Of the %s sampled returns %s look avoidable, and %s with what another brake's second"
                + " visit found",
            number(level.units()),
            rate(level.first()),
            rate(level.second()))
        + (limits.low() > 0
            ? String.format(
                Locale.ROOT,
                "; so %.0f of 100 (%.0f to %.0f) are beyond chance and cost about %s, at %d min a"
                    + " comeback and the minutes of the works that did not mend it.",
                100 * level.difference(),
                100 * limits.low(),
                100 * limits.high(),
                cost(found.minutesSaved() * beyond, found.avoidable().count() * beyond),
                found.costs().comebackMinutes())
            : String.format(
                Locale.ROOT,
                " (difference %.0f points, %.0f to %.0f).",
                100 * level.difference(),
                100 * limits.low(),
                100 * limits.high()));
  }

  /** Whether chance may explain all that looks avoidable, as far as it was judged. */
  public boolean chanceMayBeAll() {
    PairedShare level = found.chanceLevel().avoidable();
    return level.units() >= FEWEST_JUDGED && level.interval(LEVEL).low() <= 0;
  }

  /**
   * What stands above the avoidable comebacks that are told one by one: only where more look
   * avoidable than chance gives, they are said to be so.
   */
  public String worthALook(long shown) {
    String these = shown == 1 ? "This one is" : "These " + number(shown) + " are";
    return chanceMayBeAll()
        ? these + " worth a look; chance alone may give as many"
        : found.chanceLevel().avoidable().units() < FEWEST_JUDGED
            ? these + " worth a look; how much of it is chance cannot be told"
            : "What a foreman would say of the avoidable ones";
  }

  /** Hours, and money where the shop has told its rate. */
  String cost(double minutes, double comebacks) {
    return number(Math.round(minutes / 60))
        + " hours"
        + (found.costs().inMoney()
            ? String.format(
                Locale.ROOT, " (%,.0f in money)", found.costs().money(minutes, comebacks))
            : "");
  }

  /** The visits of a habit in words. */
  public String place(Habit.Place place) {
    return place.afterWork()
        ? "after \"" + work(place.id()) + "\""
        : place.id().isEmpty()
            ? "at visits without a recorded symptom"
            : "at visits with a complaint about " + place.id().replace('-', ' ');
  }

  private List<Saying> avoidable() {
    List<Saying> sayings = new ArrayList<>();
    long all = found.all().count();
    Cases unknown = requireNonNull(found.reasons().get(Reason.NOT_RECORDED));
    if (all > 0 && unknown.count() == all) {
      sayings.add(
          new Saying()
              .say("Nobody can tell: of ")
              .number(number(all) + " comebacks", "Reason: " + Reason.NOT_RECORDED.words(), unknown)
              .say(
                  " none says at both visits what was found, or not in words that were"
                      + " understood."));
      return sayings;
    }
    Saying first =
        new Saying()
            .number(
                found.avoidable().count() == 0 ? "None" : of(found.avoidable().count(), all),
                "Avoidable comebacks",
                found.avoidable())
            .say(
                found.avoidable().count() == 0
                    ? " of the comebacks looks avoidable"
                    : " of the comebacks look avoidable: what was known, or a check this program"
                        + " would have asked for, points to the cause, or a check at the hand-back"
                        + " shows it");
    if (unknown.count() > 0) {
      first
          .say("; ")
          .number(number(unknown.count()), "Reason: " + Reason.NOT_RECORDED.words(), unknown)
          .say(" do not say what was found, or not in words understood, and cannot be judged");
    }
    first.say(".");
    PairedShare level = found.chanceLevel().avoidable();
    if (level.units() < FEWEST_JUDGED) {
      sayings.add(first);
      sayings.add(new Saying().say("How much of it is chance cannot be told: too few returns."));
    } else {
      // Where chance may explain all, that comes before any count that looks like more.
      Saying chance = new Saying().say(chanceLevel(level));
      sayings.addAll(chanceMayBeAll() ? List.of(chance, first) : List.of(first, chance));
    }
    Findings.Wrong wrong = found.wrong();
    if (wrong.all().count() > 0) {
      sayings.add(
          new Saying()
              .say("Of the ")
              .number(number(wrong.all().count()), "Wrong cause treated", wrong.all())
              .say(
                  " with a wrong cause treated, what was known then pointed to the true one before all"
                      + " others in ")
              .number(
                  of(wrong.first().count(), wrong.all().count()),
                  "Wrong cause treated; the true one stood first",
                  wrong.first())
              .say(", among the first three in ")
              .number(
                  of(wrong.three().count(), wrong.all().count()),
                  "Wrong cause treated; the true one stood among the first three",
                  wrong.three())
              .say(", and the checks this program would have asked for lead to it in ")
              .number(
                  of(wrong.planned().count(), wrong.all().count()),
                  "Wrong cause treated; the checks asked for lead to the true one",
                  wrong.planned())
              .say("."));
    }
    if (!found.checks().isEmpty()) {
      Named check = found.checks().get(0);
      sayings.add(
          new Saying()
              .say("The check most often left out: \"" + symptom(check.id()) + "\", in ")
              .number(
                  number(check.cases().count()), "Left out: " + symptom(check.id()), check.cases())
              .say(" of them."));
    }
    return sayings;
  }

  /** What was seen of a pattern, and what would be usual. */
  public String sentence(Cluster cluster) {
    return String.format(
        Locale.ROOT,
        "%s (%s visits) there were %s returns%s %s. For brakes of the same age and complaint %.1f"
            + " would be usual: %.1f times as many; chance, adjusted for the %d groups and causes"
            + " looked at, %s.",
        capital(after(cluster)),
        number(cluster.visits()),
        number(cluster.returns()),
        cluster.cause().isEmpty() ? "" : " with " + cause(cluster.cause()),
        withinLong(),
        cluster.expected(),
        cluster.returns() / cluster.expected(),
        cluster.compared(),
        chance(cluster.adjusted()));
  }

  private static String after(Cluster cluster) {
    return switch (cluster.trait()) {
      case TECHNICIAN -> "after visits to technician " + cluster.value();
      case SEASON -> "after visits in " + cluster.value();
      default -> "after visits of " + EightDisciplines.spoken(cluster.trait(), cluster.value());
    };
  }

  private static String capital(String words) {
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  private List<Saying> patterns() {
    List<Saying> sayings = new ArrayList<>();
    Saying named = new Saying();
    for (int i = 0; i < found.clusters().size(); i++) {
      Cluster cluster = found.clusters().get(i);
      named
          .say(
              (i == 0 ? capital(after(cluster)) : "; " + after(cluster))
                  + (cluster.cause().isEmpty() ? " " : " with " + cause(cluster.cause()) + " "))
          .number(number(cluster.returns()) + " returns", title(cluster), cluster.cases())
          .say(String.format(Locale.ROOT, ", %.0f usual", cluster.expected()));
    }
    if (found.clusters().isEmpty()) {
      sayings.add(
          new Saying()
              .say(
                  tooFew()
                      ? "Too few visits were followed for long enough to look for a pattern."
                      : "No lot and no season has more returns than chance allows."));
    } else {
      sayings.add(
          named.say(". A pattern is a question, no verdict: of 100 named so, up to 5 are chance."));
    }
    sayings.add(sameWork().orElseGet(() -> new Saying().say(nobodyNamed())));
    return sayings;
  }

  /** What is said of technicians where nothing is shown of any of them: no codes, no rates. */
  public String nobodyNamed() {
    List<Standing> all = technicians();
    long told = all.stream().mapToLong(s -> s.count().trials()).sum();
    long compared = all.stream().mapToLong(s -> s.like().contrast().own().trials()).sum();
    long persons = all.stream().filter(s -> s.like().contrast().own().trials() > 0).count();
    if (all.isEmpty() || told < FEWEST_TOLD) {
      return "Technicians are not compared: too few visits name one.";
    }
    if (compared == 0) {
      long worked =
          found.brakeGroups().stream()
              .filter(comparison -> comparison.trait() == Trait.TECHNICIAN_AND_WORK)
              .flatMap(comparison -> comparison.standings().stream())
              .mapToLong(s -> s.count().trials())
              .sum();
      return "Technicians are not compared: "
          + (worked == 0
              ? "the works they did are not recorded."
              : "the work is on record of "
                  + number(worked)
                  + " of "
                  + number(told)
                  + " visits, and no two of them did the same.");
    }
    return String.format(
        Locale.ROOT,
        "%d technicians were compared on the same work, by %s of %s visits: no difference between"
            + " them is shown.",
        persons,
        number(compared),
        number(told));
  }

  /** The technicians on record; empty where there are fewer than two. */
  private List<Standing> technicians() {
    return found.brakeGroups().stream()
        .filter(comparison -> comparison.trait() == Trait.TECHNICIAN)
        .flatMap(comparison -> comparison.standings().stream())
        .toList();
  }

  /** Whether a difference from colleagues on the same work is shown of this person. */
  public boolean named(String code) {
    return !code.isEmpty()
        && found.brakeGroups().stream()
            .filter(comparison -> comparison.trait().ofPersons())
            .flatMap(comparison -> comparison.standings().stream())
            .anyMatch(
                s ->
                    s.like().verdict() != Verdict.NOT_SHOWN
                        && (s.name().equals(code) || s.name().startsWith(code + Trait.AND)));
  }

  /** What holds up of persons against their colleagues on the same work. */
  private Optional<Saying> sameWork() {
    Saying saying = new Saying();
    for (Groups.Comparison comparison : found.brakeGroups()) {
      for (Standing standing : comparison.standings()) {
        if (comparison.trait().ofPersons() && standing.like().verdict() != Verdict.NOT_SHOWN) {
          saying
              .say(
                  saying.parts().isEmpty()
                      ? "Against " + comparison.trait().likeWords() + ": "
                      : "; ")
              .say(group(comparison.trait(), standing.name()) + " had ")
              .number(
                  number(standing.like().contrast().own().events())
                      + " of "
                      + number(standing.like().contrast().own().trials()),
                  "By "
                      + comparison.trait().words()
                      + ": "
                      + group(comparison.trait(), standing.name()),
                  standing.cases())
              .say(
                  String.format(
                      Locale.ROOT,
                      " back, the others would have had %.0f",
                      standing.like().contrast().asOthers()));
        }
      }
    }
    return saying.parts().isEmpty()
        ? Optional.empty()
        : Optional.of(
            saying.say(
                String.format(
                    Locale.ROOT,
                    ". With the codes dealt out at random %d times, somebody would have been named"
                        + " %d times.",
                    found.persons().anyByChance().trials(),
                    found.persons().anyByChance().events())));
  }

  /** The title of a pattern. */
  public String title(Cluster cluster) {
    return "Pattern: "
        + EightDisciplines.spoken(cluster.trait(), cluster.value())
        + (cluster.cause().isEmpty() ? "" : ", " + cause(cluster.cause()));
  }

  private List<Saying> change() {
    List<Saying> sayings = new ArrayList<>();
    if (tooFew() && found.clusters().isEmpty()) {
      sayings.add(new Saying().say("Too few visits were followed to plead for any change."));
      return sayings;
    }
    for (Cluster cluster : found.clusters()) {
      sayings.add(
          new Saying()
              .say(
                  capital(EightDisciplines.spoken(cluster.trait(), cluster.value()))
                      + ": "
                      + cluster.eightDisciplines().containment()));
    }
    found.habits().stream()
        .filter(habit -> habit.netMinutes() > 0 && habit.caught().count() >= FEWEST_CAUGHT)
        .limit(2)
        .forEach(
            habit ->
                sayings.add(
                    new Saying()
                        .say(
                            "Make \""
                                + symptom(habit.check())
                                + "\" ("
                                + habit.checkMinutes()
                                + " min) a habit "
                                + place(habit.place())
                                + ": ")
                        .number(
                            number(habit.caught().count()) + " comebacks",
                            "A habit would catch: "
                                + symptom(habit.check())
                                + ", "
                                + place(habit.place()),
                            habit.caught())
                        .say(
                            String.format(
                                Locale.ROOT,
                                " would have been caught; %s more checks take %.1f h and save %.1f h, net"
                                    + " %.1f h%s.",
                                number(habit.checks()),
                                habit.costMinutes() / 60,
                                habit.gainMinutes() / 60,
                                habit.netMinutes() / 60,
                                chanceMayBeAll() ? "; but chance may explain all of it" : ""))));
    found.habits().stream()
        .filter(habit -> habit.netMinutes() > 0)
        .findFirst()
        .filter(habit -> sayings.isEmpty())
        .ifPresent(
            habit ->
                sayings.add(
                    new Saying()
                        .say(
                            String.format(
                                Locale.ROOT,
                                "Too little is seen to plead for a habit. The best, \"%s\" %s, would"
                                    + " save %.1f h, net %.1f h, but rests on ",
                                symptom(habit.check()),
                                place(habit.place()),
                                habit.gainMinutes() / 60,
                                habit.netMinutes() / 60))
                        .number(
                            number(habit.caught().count())
                                + (habit.caught().count() == 1 ? " comeback" : " comebacks"),
                            "A habit would catch: "
                                + symptom(habit.check())
                                + ", "
                                + place(habit.place()),
                            habit.caught())
                        .say(chanceMayBeAll() ? ", and chance may explain all of it." : ".")));
    if (!found.habits().isEmpty() && found.habits().get(0).netMinutes() <= 0) {
      Habit best = found.habits().get(0);
      sayings.add(
          new Saying()
              .say(
                  String.format(
                      Locale.ROOT,
                      "No check pays as a habit: the best, \"%s\" %s, takes %.1f h and saves %.1f h.",
                      symptom(best.check()),
                      place(best.place()),
                      best.costMinutes() / 60,
                      best.gainMinutes() / 60)));
    }
    String standing =
        found.brakeGroups().stream()
            .filter(c -> c.trait() == Trait.WORK || c.trait() == Trait.CAUSE)
            .flatMap(
                c ->
                    c.standings().stream()
                        .filter(s -> s.like().verdict() == Verdict.ABOVE_THE_OTHERS)
                        .sorted(Comparator.comparingDouble((Standing s) -> -s.shrunk().mean()))
                        .limit(3)
                        .map(
                            s ->
                                group(c.trait(), s.name())
                                    + " ("
                                    + rate(s.count())
                                    + ", all others "
                                    + rate(s.others())
                                    + ")"))
            .distinct()
            .collect(Collectors.joining("; "));
    if (!standing.isEmpty()) {
      sayings.add(
          new Saying()
              .say(
                  "Come back more often than other works by the same hands, whoever of them is left"
                      + " out: "
                      + standing
                      + ". Do the acceptance check twice there."));
    }
    if (sayings.isEmpty()) {
      sayings.add(new Saying().say("Nothing that these figures would show."));
    }
    return sayings;
  }

  /** What the proposed base rates do to what is said of brakes they were not learned from. */
  public static String learned(Learning learning) {
    long proposed = learning.rates().stream().filter(Learning.Rate::differs).count();
    return number(proposed)
        + (proposed == 1 ? " base rate differs" : " base rates differ")
        + " by more than chance"
        + (learning.before().statements() == 0
            ? "."
            : String.format(
                Locale.ROOT,
                ". On brakes kept out of the learning the mean squared error of the probabilities"
                    + " goes from %.5f to %.5f, the calibration error from %.5f to %.5f.",
                learning.before().brier(),
                learning.after().brier(),
                learning.before().expectedError(),
                learning.after().expectedError()));
  }

  /** What is said of a standing. */
  public static String verdict(Verdict verdict) {
    return switch (verdict) {
      case ABOVE_THE_OTHERS -> "more often";
      case BELOW_THE_OTHERS -> "less often";
      case NOT_SHOWN -> "no difference shown";
    };
  }

  /** What chance alone would give of verdicts. */
  public String check(String who, Check check) {
    return String.format(
        Locale.ROOT,
        "%s: of %d comparisons %d show a difference. With the names dealt out at random %d times"
            + " within the same work, so that nobody differed, %d of those times showed any"
            + " (%.2f differences on average).",
        who,
        check.tests(),
        check.verdicts(),
        check.anyByChance().trials(),
        check.anyByChance().events(),
        check.byChance());
  }

  /** Order and choice of what a table of groups shows: those that stand out, then the largest. */
  public static List<Integer> shown(Comparison comparison, int most) {
    List<Standing> standings = comparison.standings();
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < standings.size(); i++) {
      // Of a person nothing is shown unless a difference is.
      if (!comparison.trait().ofPersons()
          || standings.get(i).like().verdict() != Verdict.NOT_SHOWN) {
        order.add(i);
      }
    }
    order.sort(
        Comparator.comparing((Integer i) -> standings.get(i).like().verdict() == Verdict.NOT_SHOWN)
            .thenComparing(i -> -standings.get(i).count().trials())
            .thenComparing(i -> standings.get(i).name()));
    List<Integer> kept = new ArrayList<>(order.subList(0, Math.min(most, order.size())));
    kept.sort(Comparator.naturalOrder());
    return kept;
  }
}
