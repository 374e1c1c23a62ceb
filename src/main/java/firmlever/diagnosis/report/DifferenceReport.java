package firmlever.diagnosis.report;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Both;
import firmlever.diagnosis.Difference.Change;
import firmlever.diagnosis.Difference.Grade;
import firmlever.diagnosis.Difference.Known;
import firmlever.diagnosis.Difference.Moved;
import firmlever.diagnosis.Difference.Way;
import firmlever.diagnosis.Gist.Next;
import firmlever.diagnosis.Gist.Reason;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.report.FirstScreen.Line;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * In what two diagnoses of a brake differ, in the words of the first screen and under its leads:
 * whether it may be ridden first.
 */
public final class DifferenceReport {
  /** The most lines below the heading at 80 columns, unless more cautions are new than usual. */
  static final int LINES = 11;

  /** So many of one kind are named, and the others counted. */
  private static final int NAMED = 4;

  private static final int NAMED_IN_SHORT = 2;

  /** How many are named of each kind. */
  private record Named(int reasons, int findings, int causes) {
    /**
     * Fewer, the findings first: they are in the case for all to read; at the end causes that only
     * moved are counted. Empty where none go.
     */
    Optional<Named> fewer() {
      if (findings > 1) {
        return Optional.of(new Named(reasons, findings - 1, causes));
      }
      if (causes > 1) {
        return Optional.of(new Named(reasons, findings, causes - 1));
      }
      if (reasons > 1) {
        return Optional.of(new Named(reasons - 1, findings, causes));
      }
      return causes > 0 ? Optional.of(new Named(reasons, findings, 0)) : Optional.empty();
    }
  }

  private final DifferenceNames names;

  public DifferenceReport(Vocabulary vocabulary) {
    this.names = new DifferenceNames(vocabulary);
  }

  /** What differs, line by line, below a heading. */
  public String text(String heading, Difference d, int width, boolean bold) {
    return new Page(width, bold).heading(heading).toString() + text(d, width);
  }

  /** The same without a heading. */
  public String text(Difference d, int width) {
    Optional<Named> named = Optional.of(new Named(NAMED, NAMED, NAMED));
    String text = "";
    while (named.isPresent()) {
      Page page = new Page(width, false);
      lines(d, named.get()).forEach(line -> page.hanging(lead(line), line.words()));
      text = page.toString();
      named = text.lines().count() > LINES ? named.get().fewer() : Optional.empty();
    }
    return text;
  }

  private static String lead(Line line) {
    return String.format(Locale.ROOT, "%-7s", line.lead());
  }

  private List<Line> lines(Difference d, Named named) {
    List<Line> lines = new ArrayList<>();
    lines.add(new Line("Ride", ride(d, named.reasons())));
    if (d.grade() == Grade.NONE) {
      lines.add(new Line("", "findings, likely causes, next step and cautions are the same too"));
    }
    add(lines, "Found", found(names.telling(d.findings()), named.findings()));
    add(lines, "Wrong", wrong(d, named.causes()));
    add(lines, "Now", d.nextDiffers() ? next(d.next()) : "");
    add(lines, "Mind", cautions(d.cautions(), NAMED));
    return lines;
  }

  private static void add(List<Line> lines, String lead, String words) {
    if (!words.isEmpty()) {
      lines.add(new Line(lead, words));
    }
  }

  /**
   * What differs in one sentence, the gravest first: where verdict, step or first cause do, these
   * and the cautions that are gone; nothing where all is the same.
   */
  String inShort(Difference d) {
    List<String> words = new ArrayList<>();
    if (d.ride().before() != d.ride().now()) {
      words.add("ride: " + was(verdict(d.ride().now()), verdict(d.ride().before())));
    }
    if (d.nextDiffers()) {
      words.add("now: " + next(d.next()));
    }
    if (d.firstDiffers()) {
      words.add("first: " + was(cause(d.first().now().id()), cause(d.first().before().id())));
    }
    boolean less = words.isEmpty();
    if (less ? !d.cautions().none() : !d.cautions().gone().isEmpty()) {
      words.add("mind: " + cautions(d.cautions(), NAMED));
    }
    if (less && d.because().added().size() + d.because().gone().size() > 0) {
      words.add("ride: " + ride(d, NAMED_IN_SHORT));
    }
    if (less) {
      said(words, "chances", d.causes(), this::moved, NAMED_IN_SHORT);
    }
    if (words.isEmpty()) {
      lines(d, new Named(NAMED_IN_SHORT, NAMED_IN_SHORT, NAMED_IN_SHORT))
          .forEach(line -> words.add(line.lead().toLowerCase(Locale.ROOT) + ": " + line.words()));
    }
    return String.join("; ", words);
  }

  // Whether it may be ridden

  private static String verdict(RideVerdict.Answer word) {
    return switch (word) {
      case STOP -> "NO";
      case NOT_CLEARED -> "not cleared";
      case FINE -> "yes";
    };
  }

  private static String asBefore(RideVerdict.Answer word) {
    return verdict(word) + ", as before";
  }

  private static String was(String now, String before) {
    return now + " (was: " + before + ")";
  }

  private String ride(Difference d, int named) {
    Both<RideVerdict.Answer> ride = d.ride();
    boolean same = ride.before() == ride.now();
    List<String> words = new ArrayList<>();
    words.add(same ? asBefore(ride.now()) : was(verdict(ride.now()), verdict(ride.before())));
    List<Reason> added = d.because().added();
    List<Reason> gone = d.because().gone();
    if (same) {
      reasons(words, "also because of", added, false, named);
      reasons(words, "no longer because of", gone, false, named);
      // Only the likeliest causes are named: who is not named any more may still be one.
      reasons(words, "now also named", added, true, named);
      reasons(words, "no longer named", gone, true, named);
    } else {
      said(words, "because of", added, reason -> names.of(reason.id()), named);
      // A doubt that a stop takes the place of is still one.
      if (ride.now() != RideVerdict.Answer.STOP) {
        said(words, "no longer because of", gone, reason -> names.of(reason.id()), named);
      }
    }
    said(words, "nobody has ruled out", d.notLooked().added(), names::of, named);
    said(words, "no longer asked for", d.noLongerAskedFor(), names::of, named);
    return String.join("; ", words);
  }

  private void reasons(
      List<String> words, String lead, List<Reason> all, boolean causes, int named) {
    said(
        words,
        lead,
        all.stream().filter(each -> each.isCause() == causes).toList(),
        reason -> names.of(reason.id()),
        named);
  }

  // What is known, and what is wrong

  private String found(List<Known> findings, int named) {
    List<String> words = new ArrayList<>();
    said(words, "new", only(findings, known -> known.before().isEmpty()), this::now, named);
    said(
        words,
        "now the other way",
        only(findings, known -> known.before().isPresent() && known.now().isPresent()),
        this::now,
        named);
    said(
        words,
        "no longer known",
        only(findings, known -> known.now().isEmpty()),
        known -> names.of(known.symptom()),
        named);
    return String.join("; ", words);
  }

  /** Those of that kind, what is there before what is not. */
  private static List<Known> only(List<Known> findings, Predicate<Known> kind) {
    List<Known> some = new ArrayList<>(findings.stream().filter(kind).toList());
    some.sort((a, b) -> Boolean.compare(b.now().orElse(false), a.now().orElse(false)));
    return some;
  }

  private String now(Known known) {
    return names.finding(known.symptom(), known.now().orElseThrow());
  }

  private String wrong(Difference d, int named) {
    Moved first = d.first().now();
    Moved before = d.first().before();
    List<Moved> others =
        d.causes().stream()
            .filter(each -> !each.id().equals(first.id()) && !each.id().equals(before.id()))
            .toList();
    List<String> words = new ArrayList<>();
    if (d.firstDiffers()) {
      words.add("first now " + moved(first) + ", was: " + moved(before));
    } else if (d.causes().contains(first)) {
      words.add("first as before: " + moved(first));
    }
    said(words, "now likely", ways(others, Way.CAME, true), this::moved, Math.max(1, named));
    said(words, "likelier", ways(others, Way.MOVED, true), this::moved, named);
    said(words, "less likely", ways(others, Way.MOVED, false), this::moved, named);
    said(words, "no longer likely", ways(others, Way.WENT, false), this::moved, Math.max(1, named));
    return String.join("; ", words);
  }

  private static List<Moved> ways(List<Moved> some, Way way, boolean up) {
    return some.stream()
        .filter(each -> each.way() == way && each.now() > each.before() == up)
        .toList();
  }

  private String moved(Moved cause) {
    long before = inHundred(cause.before());
    long now = inHundred(cause.now());
    return cause(cause.id())
        + (before == now ? " (" : " (from " + before + " to ")
        + now
        + " in 100)";
  }

  private String cause(String id) {
    return id.equals(Vocabulary.NO_FAULT_FOUND) ? "no fault at all" : names.of(id);
  }

  private static long inHundred(double chance) {
    return Math.round(100 * chance);
  }

  // What to do, and what to mind meanwhile

  private String next(Both<Optional<Next>> next) {
    return was(step(next.now(), next.before()), step(next.before(), next.now()));
  }

  private String step(Optional<Next> step, Optional<Next> other) {
    if (step.isEmpty()) {
      return "nothing known here is worth its minutes";
    }
    return step.get().id().equals(Diagnosis.HAND_BACK)
        ? "the acceptance checks, and hand it back if all pass"
        : names.step(step.get(), other);
  }

  private String cautions(Change<String> cautions, int named) {
    List<String> words = new ArrayList<>();
    // What is new to mind is told whole.
    said(words, "also", cautions.added(), names::caution, Integer.MAX_VALUE);
    said(words, "no longer", cautions.gone(), names::caution, named);
    return String.join("; ", words);
  }

  /** Adds what there is of one kind: the first ones by name, the others counted. */
  private static <T> void said(
      List<String> words, String lead, List<T> all, Function<T, String> name, int named) {
    if (all.isEmpty()) {
      return;
    }
    if (named == 0) {
      words.add(all.size() + " " + lead);
      return;
    }
    int shown = Math.min(named, all.size());
    String names = all.stream().limit(shown).map(name).collect(Collectors.joining(", "));
    int more = all.size() - shown;
    words.add(lead + ": " + names + (more == 0 ? "" : " and " + more + " more"));
  }
}
