package firmlever.diagnosis;

import firmlever.belief.Network;
import firmlever.belief.TooManySymptoms;
import firmlever.belief.Word;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.Fluid;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.plan.Shop;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.CheckKind;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What a repair costs by firmlever's plan, by bleeding always first, and by mending the likeliest
 * cause first, on brakes thrown from the whole rule base: brake and job record of a case on file,
 * faults and symptoms by the numbers the rules give for it, one or two symptoms told. All three
 * meet the same brakes with the same luck, and all know the same rules: what is found and what was
 * done in vain is written into the case, and the case is diagnosed anew. Prints figures, asserts
 * nothing.
 *
 * <p>Only firmlever looks and keeps to the hard rules; the others take any work at once, and none
 * twice. Where its plan has nothing left for a brake that is known not to be right, firmlever's
 * mechanic too mends the likeliest cause first. A work costs its minutes without the set-ups in
 * place, its parts and the acceptance check, by the figures of the standard shop; so do comebacks
 * and brakes given up. An acceptance check that fails shows which of the symptoms told are still
 * there and, where none is, one that is; what else was seen and the work may have changed is
 * unknown again.
 */
public final class RepairBenchmark {
  private RepairBenchmark() {}

  /** Brakes with more symptoms are thrown again: exact reckoning ends at 18. */
  private static final int MOST_PRESENT = 12;

  /** Nobody mends a cause less probable than this: the brake is given up. */
  private static final double WORTH_MENDING = 0.01;

  /**
   * What shows in so many sound brakes is no complaint, such as a lever that is firm at the end.
   */
  private static final double TOO_COMMON = 0.1;

  private static final int RESAMPLES = 2000;
  private static final double LEAST_SHARE = 0.25;
  private static final Shop SHOP = Shop.standard();
  private static final List<String> BLEEDS =
      List.of("lever-end-bleed", "full-bleed", "fluid-flush");

  /** A way of going about a repair: the id of the next check or work; empty for giving up. */
  private interface Policy {
    Optional<String> next(Job job);
  }

  /** Throws brakes and prints what they cost. */
  public static void print(PrintStream out, int brakes, long seed) throws BadInput, IOException {
    Map<String, Policy> policies = new LinkedHashMap<>();
    policies.put("firmlever's plan", RepairBenchmark::planned);
    policies.put("always bleed first", RepairBenchmark::bleedFirst);
    policies.put("likeliest cause first", RepairBenchmark::likeliestFirst);
    List<CaseFile> files = bare();
    Random random = new Random(seed);
    double[][] minutes = new double[policies.size()][brakes];
    Tally[] tallies = Stream.generate(Tally::new).limit(policies.size()).toArray(Tally[]::new);
    for (int k = 0; k < brakes; ) {
      Optional<Thrown> thrown = thrown(files.get(random.nextInt(files.size())), random);
      if (thrown.isEmpty()) {
        continue;
      }
      List<Job> jobs = new ArrayList<>();
      try {
        for (Policy policy : policies.values()) {
          jobs.add(new Job(thrown.get()));
          jobs.get(jobs.size() - 1).run(policy);
        }
      } catch (TooManySymptoms refused) {
        continue;
      }
      for (int p = 0; p < jobs.size(); p++) {
        minutes[p][k] = jobs.get(p).minutes;
        tallies[p].add(jobs.get(p));
      }
      k++;
    }
    out.printf(Locale.ROOT, "whole rule base, %d brakes, seed %d%n", brakes, seed);
    int p = 0;
    for (String name : policies.keySet()) {
      out.printf(Locale.ROOT, "  %-22s %s%n", name, tallies[p].spoken(minutes[p], brakes));
      p++;
    }
    p = 0;
    for (String name : policies.keySet()) {
      if (p > 0) {
        out.printf(Locale.ROOT, "  against %s: %s%n", name, saving(minutes[0], minutes[p], random));
      }
      p++;
    }
  }

  /** Saving in per cent of the sums, with the middle 95 of 100 resampled brakes. */
  private static String saving(double[] ours, double[] theirs, Random random) {
    double[] savings = new double[RESAMPLES];
    for (int r = 0; r < RESAMPLES; r++) {
      double sum = 0;
      double other = 0;
      for (int k = 0; k < ours.length; k++) {
        int pick = random.nextInt(ours.length);
        sum += ours[pick];
        other += theirs[pick];
      }
      savings[r] = 100 * (1 - sum / other);
    }
    Arrays.sort(savings);
    return String.format(
        Locale.ROOT,
        "saves %.1f %% (95 %% bootstrap interval %.1f to %.1f)",
        100 * (1 - Arrays.stream(ours).sum() / Arrays.stream(theirs).sum()),
        savings[(int) (0.025 * RESAMPLES)],
        savings[(int) (0.975 * RESAMPLES)]);
  }

  /** What is counted of all jobs of one policy. */
  private static final class Tally {
    int checks;
    int works;
    int comebacks;
    int givenUp;
    int planEnded;
    int overLeak;
    int overSeenLeak;
    int wrongFluid;
    int bled;

    void add(Job job) {
      checks += job.checked.size();
      works += job.done.size();
      comebacks += job.comeback ? 1 : 0;
      givenUp += job.givenUp ? 1 : 0;
      planEnded += job.planEnded ? 1 : 0;
      bled += BLEEDS.stream().anyMatch(job.done::contains) ? 1 : 0;
      overLeak += job.bledOverLeak ? 1 : 0;
      overSeenLeak += job.bledOverSeenLeak ? 1 : 0;
      wrongFluid += job.bledWrongFluid ? 1 : 0;
    }

    String spoken(double[] minutes, int brakes) {
      return String.format(
          Locale.ROOT,
          "mean %.1f min; %.1f checks, %.1f works a brake; comebacks %.1f %%, given up %.1f %%,"
              + " plan ended before %.1f %%; bled %.1f %%, over an open leak %.1f %% (one that was seen %.1f %%), over the wrong fluid %.1f %%",
          Arrays.stream(minutes).average().orElseThrow(),
          checks / (double) brakes,
          works / (double) brakes,
          100.0 * comebacks / brakes,
          100.0 * givenUp / brakes,
          100.0 * planEnded / brakes,
          100.0 * bled / brakes,
          100.0 * overLeak / brakes,
          100.0 * overSeenLeak / brakes,
          100.0 * wrongFluid / brakes);
    }
  }

  /**
   * A brake thrown.
   *
   * @param network the numbers it was thrown by; what is found and done may later rule causes in or
   *     out, so positions hold in this one only
   * @param causes positions of the causes present
   * @param shownBy by symptom, which of them show it; the bit after the last cause for its own
   *     background
   * @param luck what settles everything left to chance
   */
  private record Thrown(
      CaseFile file,
      Network network,
      BitSet causes,
      BitSet[] shownBy,
      List<String> told,
      long luck) {
    double chance(String of) {
      return new Random(luck * 31 + of.hashCode()).nextDouble();
    }
  }

  /** A repair under way. */
  private static final class Job {
    private final Thrown brake;
    private final BitSet left;
    private CaseFile file;
    private final Set<String> paid = new HashSet<>();
    private int acceptances;
    final Set<String> checked = new HashSet<>();
    final Set<String> done = new HashSet<>();
    double minutes;
    boolean comeback;
    boolean givenUp;
    boolean planEnded;
    boolean bledOverLeak;
    boolean bledOverSeenLeak;
    boolean bledWrongFluid;
    Belief belief;

    Job(Thrown brake) {
      this.brake = brake;
      this.left = (BitSet) brake.causes().clone();
      this.file = brake.file();
    }

    void run(Policy policy) {
      boolean over = false;
      while (!over) {
        belief = Bench.DIAGNOSTICIAN.belief(file);
        Optional<String> next = policy.next(this);
        if (next.isEmpty()) {
          givenUp = !left.isEmpty();
          minutes += givenUp ? SHOP.giveUpMinutes() : 0;
          over = true;
        } else if (Bench.VOCABULARY.symptoms().containsKey(next.get())) {
          check(Bench.VOCABULARY.symptoms().get(next.get()));
        } else {
          over = accepted(work(Bench.VOCABULARY.actions().get(next.get())));
        }
      }
    }

    /** Whether the check or work was not done yet. */
    boolean open(String step) {
      return !done.contains(step) && !checked.contains(step);
    }

    private boolean shows(int symptom) {
      BitSet by = (BitSet) brake.shownBy()[symptom].clone();
      BitSet able = (BitSet) left.clone();
      able.set(brake.network().causes().size());
      by.and(able);
      return !by.isEmpty();
    }

    private boolean shows(String symptom) {
      return shows(brake.network().symptoms().indexOf(symptom));
    }

    private void check(Symptom symptom) {
      checked.add(symptom.id());
      pay(symptom.minutes(), symptom.needs());
      double luck = brake.chance(symptom.id() + acceptances);
      boolean found =
          shows(symptom.id()) ? luck >= StepPlanner.MISSES : luck < StepPlanner.FALSE_ALARMS;
      file = file.with(symptom.id(), found ? Presence.PRESENT : Presence.ABSENT);
    }

    private void pay(int full, Set<String> needs) {
      double inPlace =
          needs.stream()
              .filter(paid::contains)
              .mapToDouble(need -> SHOP.setUpMinutes().getOrDefault(need, 0.0))
              .sum();
      minutes += Math.max(full - inPlace, full * LEAST_SHARE);
      paid.addAll(needs);
    }

    private Action work(Action action) {
      if (BLEEDS.contains(action.id())) {
        bledOverLeak |= shows("leak-found");
        bledWrongFluid |= shows("fluid-mismatch");
      }
      done.add(action.id());
      pay(action.minutes(), action.needs());
      minutes += parts(action);
      Map<String, Word> mends = belief.model().mends().getOrDefault(action.id(), Map.of());
      minutes += mends.isEmpty() ? 0 : SHOP.acceptanceMinutes();
      for (int cause : left.stream().toArray()) {
        String id = brake.network().causes().get(cause);
        Word strength = mends.get(id);
        if (strength != null && brake.chance(action.id() + id) < strength.probability()) {
          left.clear(cause);
        }
      }
      return action;
    }

    /** The acceptance check: whether the brake goes back, rightly or not. */
    private boolean accepted(Action action) {
      acceptances++;
      if (left.isEmpty()) {
        return true;
      }
      if (brake.chance("acceptance " + acceptances) < SHOP.acceptanceMisses()) {
        comeback = true;
        minutes += SHOP.comebackMinutes();
        return true;
      }
      failed(action);
      return false;
    }

    private void failed(Action action) {
      Network network = brake.network();
      Map<String, Word> mends = belief.model().mends().getOrDefault(action.id(), Map.of());
      Map<String, Presence> findings = new LinkedHashMap<>(file.symptoms());
      for (int j = 0; j < network.symptoms().size(); j++) {
        int symptom = j;
        String id = network.symptoms().get(j);
        boolean changed =
            mends.keySet().stream()
                .mapToInt(network.causes()::indexOf)
                .anyMatch(c -> c >= 0 && network.strength()[c][symptom] > 0);
        if (changed && findings.get(id) == Presence.PRESENT) {
          findings.remove(id);
          checked.remove(id);
        }
      }
      brake.told().forEach(t -> findings.put(t, shows(t) ? Presence.PRESENT : Presence.ABSENT));
      if (brake.told().stream().noneMatch(this::shows)) {
        IntStream.range(0, network.symptoms().size())
            .filter(this::shows)
            .mapToObj(j -> network.symptoms().get(j))
            .filter(id -> Bench.VOCABULARY.symptoms().get(id).canBeChecked())
            .findFirst()
            .ifPresent(id -> findings.put(id, Presence.PRESENT));
      }
      List<Entry> history = new ArrayList<>(file.history());
      if (!mends.isEmpty()) {
        history.add(
            new Entry(
                OptionalInt.of(0),
                action.id(),
                "",
                BLEEDS.contains(action.id()) ? file.brake().fluid() : Fluid.UNKNOWN,
                "T1",
                Double.NaN,
                action.parts(),
                "",
                "unchanged",
                Set.of(),
                ""));
      }
      file = caseOf(file, findings, history);
    }
  }

  /**
   * The first step of the plan that can be done and was not; with the plan at its end, as below.
   */
  private static Optional<String> planned(Job job) {
    Optional<String> first = Bench.DIAGNOSTICIAN.firstStep(job.belief).filter(job::open);
    if (first.isPresent()) {
      return first;
    }
    Optional<String> later =
        Bench.DIAGNOSTICIAN
            .diagnose(job.file, job.belief.model(), Options.WITHOUT_DRAWS)
            .next()
            .stream()
            .filter(Step::open)
            .map(Step::id)
            .filter(job::open)
            .findFirst();
    job.planEnded |= later.isEmpty();
    return later.or(() -> likeliestFirst(job));
  }

  private static Optional<String> bleedFirst(Job job) {
    return job.done.contains("full-bleed") ? likeliestFirst(job) : Optional.of("full-bleed");
  }

  /** The likeliest cause that has a work not yet done; of its works what mends most a minute. */
  private static Optional<String> likeliestFirst(Job job) {
    Network network = job.belief.model().network();
    double[] now = job.belief.posterior().posterior();
    List<Integer> causes =
        IntStream.range(0, now.length)
            .filter(i -> now[i] >= WORTH_MENDING)
            .boxed()
            .sorted((a, b) -> Double.compare(now[b], now[a]))
            .toList();
    boolean sound = causes.isEmpty() || job.belief.posterior().noFault() > now[causes.get(0)];
    if (sound && !job.done.contains(Diagnosis.HAND_BACK)) {
      return Optional.of(Diagnosis.HAND_BACK);
    }
    for (int cause : causes) {
      String id = network.causes().get(cause);
      Optional<String> best =
          job.belief.model().mends().entrySet().stream()
              .filter(e -> e.getValue().containsKey(id) && !job.done.contains(e.getKey()))
              .sorted(Map.Entry.comparingByKey())
              .max(
                  Comparator.comparingDouble(
                      e -> e.getValue().get(id).probability() / minutesAlone(e.getKey())))
              .map(Map.Entry::getKey);
      if (best.isPresent()) {
        return best;
      }
    }
    return Optional.empty();
  }

  private static double minutesAlone(String work) {
    Action action = Bench.VOCABULARY.actions().get(work);
    return action.minutes() + parts(action) + SHOP.acceptanceMinutes();
  }

  private static double parts(Action action) {
    return action.parts().stream()
        .mapToDouble(part -> SHOP.partMinutes().getOrDefault(part, SHOP.otherPartMinutes()))
        .sum();
  }

  private static Optional<Thrown> thrown(CaseFile file, Random random) {
    Network network = Bench.RULES.consult(file).network();
    BitSet causes = new BitSet();
    for (int i = 0; i < network.causes().size(); i++) {
      causes.set(i, random.nextDouble() < network.prior(i));
    }
    BitSet[] shownBy = new BitSet[network.symptoms().size()];
    for (int j = 0; j < shownBy.length; j++) {
      shownBy[j] = new BitSet();
      shownBy[j].set(network.causes().size(), random.nextDouble() < network.background()[j]);
      for (int i : causes.stream().toArray()) {
        shownBy[j].set(i, random.nextDouble() < network.strength()[i][j]);
      }
    }
    List<String> symptomIds = network.symptoms();
    Bench.VOCABULARY
        .coarser()
        .forEach(
            (fine, above) ->
                above.forEach(
                    coarse ->
                        shownBy[symptomIds.indexOf(coarse)].or(shownBy[symptomIds.indexOf(fine)])));
    int present = (int) Stream.of(shownBy).filter(by -> !by.isEmpty()).count();
    List<String> tellable = new ArrayList<>();
    for (int j = 0; j < shownBy.length; j++) {
      Symptom symptom = Bench.VOCABULARY.symptoms().get(network.symptoms().get(j));
      boolean tells = Set.of(CheckKind.ASK, CheckKind.FEEL).contains(symptom.kind());
      if (tells && network.background()[j] < TOO_COMMON && !shownBy[j].isEmpty()) {
        tellable.add(symptom.id());
      }
    }
    Collections.shuffle(tellable, random);
    List<String> told =
        List.copyOf(tellable.subList(0, Math.min(tellable.size(), 1 + random.nextInt(2))));
    long luck = random.nextLong();
    if (told.isEmpty() || present > MOST_PRESENT) {
      return Optional.empty(); // Nobody brings in a brake of which there is nothing to tell.
    }
    Map<String, Presence> symptoms = new LinkedHashMap<>();
    told.forEach(id -> symptoms.put(id, Presence.PRESENT));
    return Optional.of(
        new Thrown(caseOf(file, symptoms, file.history()), network, causes, shownBy, told, luck));
  }

  /** All cases on file without what was found: brake, use and job record. */
  private static List<CaseFile> bare() throws BadInput, IOException {
    List<CaseFile> files = new ArrayList<>();
    try (Stream<Path> paths = Files.walk(Path.of("cases"))) {
      for (Path path : paths.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        CaseFile file = Bench.READER.read(path, path.toString());
        files.add(caseOf(file, Map.of(), file.history()));
      }
    }
    return files;
  }

  private static CaseFile caseOf(
      CaseFile like, Map<String, Presence> symptoms, List<Entry> history) {
    return new CaseFile(
        like.id(),
        like.opened(),
        like.brake(),
        like.use(),
        "thrown from the rules",
        Set.of(),
        symptoms,
        Set.of(),
        Set.of(),
        CaseFile.Readings.NONE,
        history,
        Optional.empty(),
        "",
        "",
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
