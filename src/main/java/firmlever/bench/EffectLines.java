package firmlever.bench;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Known;
import firmlever.diagnosis.Difference.Moved;
import firmlever.diagnosis.Difference.Way;
import firmlever.diagnosis.Gist.Next;
import firmlever.diagnosis.Gist.Reason;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.report.DifferenceNames;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** In what two diagnoses differ, in the language of the pages: a line for each kind. */
final class EffectLines {
  /** So many of one kind are named, and the others counted. */
  private static final int NAMED = 3;

  private final Shop shop;
  private final DifferenceNames names;

  EffectLines(Shop shop) {
    this.shop = shop;
    this.names = new DifferenceNames(shop.reasoning().vocabulary());
  }

  /**
   * What differs, the gravest first; none where nothing does.
   *
   * @param entered ids of the symptoms that need not be told: somebody has just entered them
   */
  List<String> of(Difference d, Set<String> entered) {
    List<String> lines = new ArrayList<>();
    boolean turned = d.ride().before() != d.ride().now();
    if (turned) {
      String now = shop.say("ride." + d.ride().now().id());
      lines.add(shop.say("effect.ride", now, shop.say("ride." + d.ride().before().id())));
      named(d.because().added(), this::reason)
          .forEach(some -> lines.add(shop.say("effect.why", some)));
    }
    if (d.nextDiffers()) {
      String now = step(d.next().now(), d.next().before());
      lines.add(shop.say("effect.next", now, step(d.next().before(), d.next().now())));
    }
    if (d.firstDiffers()) {
      lines.add(shop.say("effect.first", moved(d.first().now()), moved(d.first().before())));
    }
    // What is new to mind is told whole.
    named(d.cautions().added(), names::caution, Integer.MAX_VALUE)
        .forEach(some -> lines.add(shop.say("effect.mind", some)));
    if (!turned) {
      reasons(d.because().added(), false)
          .forEach(some -> lines.add(shop.say("effect.because", some)));
      reasons(d.because().gone(), false)
          .forEach(some -> lines.add(shop.say("effect.no-because", some)));
    } else if (d.ride().now() != RideVerdict.Answer.STOP) {
      // A doubt that a stop takes the place of is still one, and is not told as gone.
      named(d.because().gone(), this::reason)
          .forEach(some -> lines.add(shop.say("effect.no-because", some)));
    }
    causes(lines, d);
    found(lines, d, entered);
    named(d.notLooked().added(), names::of)
        .forEach(some -> lines.add(shop.say("effect.look", some)));
    named(d.noLongerAskedFor(), names::of)
        .forEach(some -> lines.add(shop.say("effect.no-look", some)));
    if (!turned) {
      // Only the likeliest causes are named: who is not named any more may still be one.
      reasons(d.because().added(), true).forEach(some -> lines.add(shop.say("effect.named", some)));
      reasons(d.because().gone(), true)
          .forEach(some -> lines.add(shop.say("effect.not-named", some)));
    }
    named(d.cautions().gone(), names::caution)
        .forEach(some -> lines.add(shop.say("effect.no-mind", some)));
    return lines;
  }

  private String reason(Reason reason) {
    return names.of(reason.id());
  }

  private List<String> reasons(List<Reason> all, boolean causes) {
    return named(all.stream().filter(each -> each.isCause() == causes).toList(), this::reason);
  }

  private String step(Optional<Next> step, Optional<Next> other) {
    if (step.isEmpty()) {
      return shop.say("effect.no-step");
    }
    return step.get().id().equals(Diagnosis.HAND_BACK)
        ? shop.say("job.next-hand-back")
        : names.step(step.get(), other);
  }

  private void causes(List<String> lines, Difference d) {
    Moved first = d.first().now();
    Moved before = d.first().before();
    List<Moved> others =
        d.causes().stream()
            .filter(each -> !d.firstDiffers() || !Set.of(first, before).contains(each))
            .toList();
    named(ways(others, Way.CAME, true), this::moved)
        .forEach(some -> lines.add(shop.say("effect.came", some)));
    named(ways(others, Way.MOVED, true), this::moved)
        .forEach(some -> lines.add(shop.say("effect.up", some)));
    named(ways(others, Way.MOVED, false), this::moved)
        .forEach(some -> lines.add(shop.say("effect.down", some)));
    named(ways(others, Way.WENT, false), this::moved)
        .forEach(some -> lines.add(shop.say("effect.went", some)));
  }

  private static List<Moved> ways(List<Moved> some, Way way, boolean up) {
    return some.stream()
        .filter(each -> each.way() == way && each.now() > each.before() == up)
        .toList();
  }

  private String moved(Moved cause) {
    String name =
        cause.id().equals(Vocabulary.NO_FAULT_FOUND)
            ? shop.say("effect.no-fault")
            : names.of(cause.id());
    long before = Math.round(100 * cause.before());
    long now = Math.round(100 * cause.now());
    return before == now
        ? shop.say("effect.chance", name, now)
        : shop.say("effect.moved", name, before, now);
  }

  private void found(List<String> lines, Difference d, Set<String> entered) {
    List<Known> others =
        names.telling(d.findings()).stream()
            .filter(each -> !entered.contains(each.symptom()))
            .toList();
    named(
            others.stream().filter(each -> each.now().isPresent()).toList(),
            each -> names.finding(each.symptom(), each.now().get()))
        .forEach(some -> lines.add(shop.say("effect.found", some)));
    named(
            others.stream().filter(each -> each.now().isEmpty()).toList(),
            each -> names.of(each.symptom()))
        .forEach(some -> lines.add(shop.say("effect.unknown", some)));
  }

  private <T> List<String> named(List<T> all, Function<T, String> name) {
    return named(all, name, NAMED);
  }

  /** The first ones by name, the others counted; nothing where there are none. */
  private <T> List<String> named(List<T> all, Function<T, String> name, int most) {
    if (all.isEmpty()) {
      return List.of();
    }
    String some = all.stream().limit(most).map(name).collect(Collectors.joining(", "));
    return List.of(all.size() <= most ? some : shop.say("effect.more", some, all.size() - most));
  }
}
