package firmlever.vocabulary;

import static java.util.Objects.requireNonNull;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * Every name the rule base, the cases and the outputs may use, with what it means. Orders are those
 * of the vocabulary files and serve wherever an order must not depend on anything else.
 */
public record Vocabulary(
    Map<String, Symptom> symptoms,
    Map<String, Look> looks,
    Map<String, Cause> causes,
    Map<String, Action> actions,
    Map<String, Term> works,
    Map<String, Term> events,
    Map<String, Term> circumstances,
    Map<String, Term> parts,
    Map<String, Term> outcomes,
    Map<String, Caution> cautions,
    Map<Does, Set<String>> does) {

  /** What a work does that rules and reckonings ask for. */
  public enum Does {
    /** Opens the hydraulic system, so that air can get in. */
    OPENS,
    /** Exchanges or renews the fluid in the line. */
    BLEEDS,
    /** Puts fluid in, and does nothing else. */
    FILLS,
    /** Leaves fresh fluid in the whole brake. */
    RENEWS,
    /** Is work on a hose or one of its ends. */
    ON_HOSE;

    /** As it stands in the vocabulary files. */
    String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  // The entry of an id that is known to be here; where it may not be, the maps above are asked.

  public Symptom symptom(String id) {
    return known(symptoms, id);
  }

  public Look look(String id) {
    return known(looks, id);
  }

  public Cause cause(String id) {
    return known(causes, id);
  }

  public Action action(String id) {
    return known(actions, id);
  }

  public Term work(String id) {
    return known(works, id);
  }

  public Term event(String id) {
    return known(events, id);
  }

  public Term circumstance(String id) {
    return known(circumstances, id);
  }

  public Term part(String id) {
    return known(parts, id);
  }

  public Term outcome(String id) {
    return known(outcomes, id);
  }

  public Caution caution(String id) {
    return known(cautions, id);
  }

  /** What was done by who did that work, or what happened by that event; empty for neither. */
  public Optional<String> done(String id) {
    return Optional.ofNullable(actions.get(id))
        .map(Action::done)
        .or(() -> Optional.ofNullable(works.get(id)).map(Term::done))
        .or(() -> Optional.ofNullable(events.get(id)).map(Term::done))
        .filter(done -> !done.isEmpty());
  }

  private static <T> T known(Map<String, T> entries, String id) {
    return requireNonNull(entries.get(id), id);
  }

  /** Ids of the actions, and of the works told of, that do this. */
  public Set<String> worksThat(Does does) {
    return requireNonNull(this.does.get(does));
  }

  /** What such a work does; nothing for a work that is not known. */
  public Set<Does> doneBy(String work) {
    Set<Does> done = EnumSet.noneOf(Does.class);
    does.forEach(
        (each, works) -> {
          if (works.contains(work)) {
            done.add(each);
          }
        });
    return done;
  }

  /** The outcome that no known cause is present; spoken of like a cause, and not one. */
  public static final String NO_FAULT_FOUND = "no-fault-found";

  /** The look that finds where a brake leaks. */
  public static final String LEAK_TRACING = "leak-tracing";

  /** How one finds out whether a symptom is there. */
  public enum CheckKind {
    ASK,
    FEEL,
    LOOK,
    MEASURE,
    /** Only told, and too coarse to look for: one looks for its kinds. */
    TOLD,
    /** It shows itself only while work is done, so it cannot be asked for as a check. */
    WORK
  }

  /**
   * Anything seen, felt or measured that may point to a fault (ISO 13372).
   *
   * @param check how to find out
   * @param minutes a mechanic's time to find out, set-up included
   * @param toldFalsely how often a rider without it says it is there, 0 to 1
   * @param overlooked how often a mechanic who looks overlooks it, 0 to 1
   * @param needs set-ups the check shares with other steps, such as {@code wheel-out}
   * @param look the look that shows it together with the others of that look, for the same minutes;
   *     empty where it takes a look of its own
   * @param height how high the place lies on the brake, from 1: what leaks there runs down to what
   *     lies lower; 0 for what is no place
   * @param presupposes other symptoms one of which must be present, or there is nothing to look at
   * @param kindOf coarser symptoms that are there whenever this one is
   * @param opposite how its absence is called where that has a name of its own
   * @param denied how its absence is said where "no" before the name is not good English; empty
   *     otherwise
   */
  public record Symptom(
      String id,
      String name,
      String group,
      String definition,
      String check,
      int minutes,
      CheckKind kind,
      double toldFalsely,
      double overlooked,
      String look,
      int height,
      Set<String> needs,
      Set<String> presupposes,
      Set<String> kindOf,
      Optional<Opposite> opposite,
      String denied) {
    /** Its name, or how its absence is said in plain words. */
    public String said(boolean present) {
      return present
          ? name
          : opposite.map(Opposite::name).orElse(denied.isEmpty() ? "no " + name : denied);
    }

    /** Whether its name denies something, so that to deny it would be a double negative. */
    public boolean namesAnAbsence() {
      return name.startsWith("no ") || name.contains(" not ");
    }

    /** Whether the symptom can be looked for before any work is done. */
    public boolean canBeChecked() {
      return kind != CheckKind.WORK && kind != CheckKind.TOLD;
    }

    /** Whether one look shows it together with the other, or it is that other. */
    public boolean isSeenWith(Symptom other) {
      return equals(other) || !look.isEmpty() && look.equals(other.look) && presupposes.isEmpty();
    }

    /** Whether it takes a test ride to look for it. */
    public boolean isRidden() {
      return needs.contains("ride");
    }
  }

  /** One look at one place, which shows several symptoms for the same minutes. */
  public record Look(String id, String name, String check) {}

  /**
   * The absence of a symptom, where people say that and not the symptom: "firm at the end" for no
   * hard stop. A case file may use either id.
   */
  public record Opposite(String id, String name) {}

  /**
   * A fault in the brake that explains symptoms.
   *
   * @param part what would be claimed for it
   * @param hazards ids of the {@link HazardKind}s in which it endangers the rider
   */
  public record Cause(
      String id, String name, String group, String part, List<String> hazards, String definition) {}

  /**
   * A work one can be told to do now.
   *
   * @param done what one did who did it: "renewed the lever seals"
   */
  public record Action(
      String id,
      String name,
      String group,
      String definition,
      int minutes,
      Set<String> needs,
      List<String> parts,
      String done) {}

  /**
   * A name used in job records.
   *
   * @param done of a work, what one did who did it: "shortened the hose"; of an event, what
   *     happened: "the bike crashed"; empty for anything else
   */
  public record Term(String id, String name, String definition, String done) {}

  /** A caution with the sentence that is printed, and the few words for a first screen. */
  public record Caution(String id, String text, String inShort) {}

  /** The symptoms that are named by their absence too, by the id of the absence. */
  public Map<String, String> opposites() {
    Map<String, String> opposites = new LinkedHashMap<>();
    symptoms
        .values()
        .forEach(each -> each.opposite().ifPresent(o -> opposites.put(o.id(), each.id())));
    return opposites;
  }

  /** What a case file may say is present or absent: the symptoms and the opposites of some. */
  public Set<String> symptomWords() {
    Set<String> words = new LinkedHashSet<>(symptoms.keySet());
    words.addAll(opposites().keySet());
    return words;
  }

  /** Per symptom that is a kind of others, all that are coarser, over any number of steps. */
  public Map<String, Set<String>> coarser() {
    Map<String, Set<String>> coarser = new LinkedHashMap<>();
    for (String fine : symptoms.keySet()) {
      Set<String> above = new LinkedHashSet<>();
      addCoarser(fine, above);
      if (!above.isEmpty()) {
        coarser.put(fine, above);
      }
    }
    return coarser;
  }

  /** These symptoms, each followed by those of its kinds that are not among them. */
  List<String> withKinds(List<String> some) {
    Map<String, Set<String>> coarser = coarser();
    Set<String> all = new LinkedHashSet<>(some);
    coarser.forEach(
        (fine, above) -> {
          if (above.stream().anyMatch(some::contains)) {
            all.add(fine);
          }
        });
    return List.copyOf(all);
  }

  /** Of these symptoms those that none of the others is a kind of. */
  public List<String> finest(List<String> some) {
    Map<String, Set<String>> coarser = coarser();
    return some.stream()
        .filter(
            each -> some.stream().noneMatch(o -> coarser.getOrDefault(o, Set.of()).contains(each)))
        .toList();
  }

  private void addCoarser(String symptom, Set<String> above) {
    for (String coarse : symptom(symptom).kindOf()) {
      if (above.add(coarse)) {
        addCoarser(coarse, above);
      }
    }
  }

  /** How to look for a symptom: as for all that its look shows, or for it alone. */
  public String howTo(String symptom) {
    Symptom sought = symptom(symptom);
    return sought.look().isEmpty() ? sought.check() : look(sought.look()).check();
  }

  /**
   * What to do to look for a symptom, in a few words.
   *
   * @param several whether more is looked for than the symptom
   */
  public String lookFor(String symptom, boolean several) {
    Symptom sought = symptom(symptom);
    if (several || sought.look().equals(LEAK_TRACING)) {
      return look(sought.look()).name();
    }
    return switch (sought.kind()) {
      case ASK -> "ask the rider: " + sought.name() + "?";
      case FEEL -> "feel for: " + sought.name();
      case MEASURE -> "measure: " + sought.name();
      case LOOK, TOLD, WORK -> "look for: " + sought.name();
    };
  }

  /** The same in the middle of a sentence, as a question: {@code uneven pistons?} */
  public String inQuestion(String symptom) {
    Symptom sought = symptom(symptom);
    return sought.look().equals(LEAK_TRACING)
        ? look(sought.look()).name()
        : sought.name() + (sought.kind() == CheckKind.ASK ? "? (ask the rider)" : "?");
  }

  /** Ids of all works a job record may name: the actions, and those only records speak of. */
  public Set<String> recordedWorks() {
    Set<String> all = new java.util.LinkedHashSet<>(actions.keySet());
    all.addAll(works.keySet());
    return Collections.unmodifiableSet(all);
  }

  /**
   * The name of a symptom, cause, action, work or event; no two of them share an id.
   *
   * @throws IllegalArgumentException where there is none of that id
   */
  public String name(String id) {
    return named(id)
        .orElseThrow(() -> new IllegalArgumentException("nothing here has the id " + id));
  }

  /** The same; empty where there is none of that id. */
  public Optional<String> named(String id) {
    if (symptoms.containsKey(id)) {
      return Optional.of(symptom(id).name());
    }
    if (causes.containsKey(id)) {
      return Optional.of(cause(id).name());
    }
    if (actions.containsKey(id)) {
      return Optional.of(action(id).name());
    }
    return Optional.ofNullable(works.containsKey(id) ? works.get(id) : events.get(id))
        .map(Term::name);
  }

  /** Every id of every kind, and the groups of actions: all names a rule may put in quotes. */
  public Set<String> allIds() {
    Set<String> all = new java.util.LinkedHashSet<>();
    for (Map<String, ?> kind :
        List.of(
            symptoms, causes, actions, works, events, circumstances, parts, outcomes, cautions)) {
      all.addAll(kind.keySet());
    }
    all.addAll(opposites().keySet());
    actions.values().forEach(action -> all.add(action.group()));
    return all;
  }

  /**
   * Ids of all actions of that group, or the one action of that id; empty when neither is known.
   */
  public List<String> actionsOf(String actionOrGroup) {
    if (actions.containsKey(actionOrGroup)) {
      return List.of(actionOrGroup);
    }
    return actions.values().stream()
        .filter(action -> action.group().equals(actionOrGroup))
        .map(Action::id)
        .toList();
  }

  /** Puts entries into a map by id that keeps their order. */
  static <T> Map<String, T> byId(Collection<T> entries, Function<T, String> id) {
    Map<String, T> map = new LinkedHashMap<>();
    // Rules name ids in literals, which are interned: then a look-up need not compare letters.
    entries.forEach(entry -> map.put(id.apply(entry).intern(), entry));
    return Collections.unmodifiableMap(map);
  }
}
