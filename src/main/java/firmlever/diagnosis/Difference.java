package firmlever.diagnosis;

import firmlever.diagnosis.Gist.Next;
import firmlever.diagnosis.Gist.Reason;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * In what two diagnoses of the same brake differ: the case was edited, or other rules judged it.
 * Ids and numbers, no words.
 *
 * @param ride whether it may be ridden
 * @param because reasons the verdict names: all findings, and of likely causes the first ones, so
 *     that a cause may be pushed out by another without being none
 * @param notLooked ids of the symptoms that must be looked for before it is cleared
 * @param next what can be done first
 * @param first the first cause before and the first cause now, each with both its chances; also
 *     where they are the same
 * @param causes the likely causes whose chance moved, and no fault found with them; what moved most
 *     stands first
 * @param findings what is known otherwise of a symptom
 * @param cautions ids of the cautions that apply
 */
public record Difference(
    Both<RideVerdict.Answer> ride,
    Change<Reason> because,
    Change<String> notLooked,
    Both<Optional<Next>> next,
    Both<Moved> first,
    List<Moved> causes,
    List<Known> findings,
    Change<String> cautions) {

  /** A cause is likely from this chance on: the first screen names it. */
  public static final double LIKELY = 0.1;

  /** A chance that moved by less than this is as it was. */
  public static final double WORTH_TELLING = 0.05;

  /** What was, and what is. */
  public record Both<T>(T before, T now) {
    boolean same() {
      return before.equals(now);
    }
  }

  /** What of a set is new, and what is gone. */
  public record Change<T>(List<T> added, List<T> gone) {
    public boolean none() {
      return added.isEmpty() && gone.isEmpty();
    }
  }

  /** The chance of a cause, or of no fault found; 0 where it is too small to be listed. */
  public record Moved(String id, double before, double now) {
    public Way way() {
      if (before < LIKELY && now >= LIKELY) {
        return Way.CAME;
      }
      return before >= LIKELY && now < LIKELY ? Way.WENT : Way.MOVED;
    }
  }

  /** Whether a cause became likely, is likely no more, or is likelier or less likely. */
  public enum Way {
    CAME,
    WENT,
    MOVED
  }

  /** Whether a symptom is there; empty where nobody knows. */
  public record Known(String symptom, Optional<Boolean> before, Optional<Boolean> now) {}

  /** How much it changes for the person who acts on the diagnosis, gravest first. */
  public enum Grade {
    RIDE,
    NEXT,
    FIRST,
    CAUTIONS,
    LESS,
    NONE
  }

  public static Difference of(Diagnosis before, Diagnosis now) {
    return between(Gist.of(before), Gist.of(now));
  }

  public static Difference between(Gist before, Gist now) {
    return new Difference(
        new Both<>(before.ride(), now.ride()),
        change(before.because(), now.because()),
        change(before.notLooked(), now.notLooked()),
        new Both<>(before.next(), now.next()),
        new Both<>(moved(before.first(), before, now), moved(now.first(), before, now)),
        causes(before, now),
        findings(before, now),
        change(before.cautions(), now.cautions()));
  }

  /** The same where other words tell already what is known otherwise of these symptoms. */
  public Difference withoutFindings(Set<String> told) {
    return new Difference(
        ride,
        because,
        notLooked,
        next,
        first,
        causes,
        findings.stream().filter(each -> !told.contains(each.symptom())).toList(),
        cautions);
  }

  private static <T> Change<T> change(Set<T> before, Set<T> now) {
    return new Change<>(
        now.stream().filter(each -> !before.contains(each)).toList(),
        before.stream().filter(each -> !now.contains(each)).toList());
  }

  private static Moved moved(String id, Gist before, Gist now) {
    return new Moved(id, before.chance(id), now.chance(id));
  }

  private static List<Moved> causes(Gist before, Gist now) {
    return either(now.chances().keySet(), before.chances().keySet()).stream()
        .map(id -> moved(id, before, now))
        .filter(each -> Math.max(each.before(), each.now()) >= LIKELY)
        .filter(each -> Math.abs(each.now() - each.before()) >= WORTH_TELLING)
        .sorted(
            Comparator.comparingDouble((Moved each) -> -Math.abs(each.now() - each.before()))
                .thenComparing(Moved::id))
        .toList();
  }

  private static List<Known> findings(Gist before, Gist now) {
    List<Known> findings = new ArrayList<>();
    for (String symptom : either(now.findings().keySet(), before.findings().keySet())) {
      Optional<Boolean> was = Optional.ofNullable(before.findings().get(symptom));
      Optional<Boolean> is = Optional.ofNullable(now.findings().get(symptom));
      if (!was.equals(is)) {
        findings.add(new Known(symptom, was, is));
      }
    }
    return List.copyOf(findings);
  }

  private static Set<String> either(Set<String> some, Set<String> others) {
    Set<String> all = new LinkedHashSet<>(some);
    all.addAll(others);
    return all;
  }

  /**
   * Ids of the symptoms that need no look any more though nothing is known of them that was not;
   * for all others the finding says it.
   */
  public List<String> noLongerAskedFor() {
    return notLooked.gone().stream()
        .filter(
            symptom ->
                findings.stream()
                    .noneMatch(known -> known.symptom().equals(symptom) && known.now().isPresent()))
        .toList();
  }

  /** Whether another step comes first; the same look may show more or less than it did. */
  public boolean nextDiffers() {
    return next.before().isPresent() && next.now().isPresent()
        ? !next.now().get().sameAs(next.before().get())
        : next.before().isPresent() || next.now().isPresent();
  }

  /** Whether another cause comes first. */
  public boolean firstDiffers() {
    return !first.before().id().equals(first.now().id());
  }

  /** The gravest of all that differs. */
  public Grade grade() {
    if (!ride.same()) {
      return Grade.RIDE;
    }
    if (nextDiffers()) {
      return Grade.NEXT;
    }
    if (firstDiffers()) {
      return Grade.FIRST;
    }
    if (!cautions.none()) {
      return Grade.CAUTIONS;
    }
    boolean same = because.none() && notLooked.none() && causes.isEmpty() && findings.isEmpty();
    return same ? Grade.NONE : Grade.LESS;
  }

  /** Whether the verdict is less strict than it was. */
  public boolean loosened() {
    return ride.now().compareTo(ride.before()) > 0;
  }
}
