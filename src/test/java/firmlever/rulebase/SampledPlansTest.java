package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.belief.Network;
import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.Concluded;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.rulebase.Facts.KindOf;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * No bleed over a leak or the wrong fluid, no hand-back on stop-ride, no check with nothing to look
 * at: on brakes thrown from the rule base itself.
 */
class SampledPlansTest {
  private static final int BRAKES = 10_000;
  private static final double TOLD = 0.25;

  /** What is there in a finer kind is there in the coarse: a brake is never spongy and firm. */
  private static final Map<String, Set<String>> COARSER = Cases.VOCABULARY.coarser();

  /** Every way in which a leak is seen: the coarse finding and all its kinds. */
  private static final Set<String> LEAKS =
      Stream.concat(
              Stream.of("leak-found"),
              Names.kindFacts(Cases.VOCABULARY).stream()
                  .filter(kind -> kind.coarse().equals("leak-found"))
                  .map(KindOf::fine))
          .collect(Collectors.toSet());

  private static final Set<String> RIDDEN =
      Cases.VOCABULARY.symptoms().values().stream()
          .filter(symptom -> symptom.needs().contains("ride"))
          .map(Symptom::id)
          .collect(Collectors.toSet());

  private static final Set<String> BLEEDS = Set.of("lever-end-bleed", "full-bleed", "fluid-flush");

  @Test
  void noneOfTenThousandBrakesIsTreatedAsItMustNotBe() {
    Diagnostician diagnostician = new Diagnostician(Cases.RULES);
    List<CaseFile> files = Cases.all();
    List<Network> networks = files.stream().map(f -> Cases.RULES.consult(f).network()).toList();
    Random random = new Random(20261125);
    int weeping = 0;
    int presupposing = 0;
    for (int round = 0; round < BRAKES; round++) {
      int pick = random.nextInt(files.size());
      CaseFile brake = thrown(files.get(pick), networks.get(pick), random);
      Diagnosis d;
      try {
        // What a look leads to is found by diagnosing anew: dear, so not every brake is asked for
        // it.
        Options options = round % 10 == 0 ? Options.WITHOUT_DRAWS : Options.BARE;
        d = diagnostician.diagnose(brake, options);
      } catch (TooManySymptoms refused) {
        continue;
      }
      Set<String> open =
          d.next().stream().filter(Step::open).map(Step::id).collect(Collectors.toSet());
      Set<String> present = present(brake, d);
      boolean leakSeen = LEAKS.stream().anyMatch(present::contains);
      boolean leakTold = present.contains("fluid-lost");
      // Said so, or every place looked at and dry.
      boolean dry =
          brake.symptoms().get("leak-found") == Presence.ABSENT
              || d.concluded().stream()
                  .anyMatch(each -> each.symptom().equals("leak-found") && !each.present());
      if (leakSeen || leakTold && !dry) {
        weeping++;
        assertThat(d.stopRide()).as("%s", brake.symptoms()).isTrue();
        assertThat(open).as("%s", brake.symptoms()).doesNotContainAnyElementsOf(BLEEDS);
      }
      if (d.stopRide()) {
        assertThat(d.firstStep().map(Step::id).orElse(""))
            .as("%s", brake.symptoms())
            .isNotEqualTo(Diagnosis.HAND_BACK);
      }
      for (Step step : d.next()) {
        Symptom check = Cases.VOCABULARY.symptoms().get(step.id());
        if (check != null && d.stopRide()) {
          assertThat(check.needs())
              .as("%s on %s", step.id(), brake.symptoms())
              .doesNotContain("ride");
        }
        if (d.stopRide()) {
          assertThat(step.outcomes())
              .as("%s on %s", step.id(), brake.symptoms())
              .noneMatch(outcome -> outcome.next().filter(RIDDEN::contains).isPresent());
        }
        if (check != null && !check.presupposes().isEmpty()) {
          presupposing++;
          Set<String> there = step == d.next().get(0) ? present : presentAfterFirst(present, d);
          assertThat(there)
              .as("%s on %s", step.id(), brake.symptoms())
              .containsAnyElementsOf(check.presupposes());
        }
      }
      if (brake.symptoms().get("fluid-mismatch") == Presence.PRESENT) {
        assertThat(open).as("%s", brake.symptoms()).doesNotContainAnyElementsOf(BLEEDS);
      }
    }
    assertThat(weeping).isGreaterThan(BRAKES / 50);
    assertThat(presupposing).isPositive();
  }

  private static Set<String> present(CaseFile brake, Diagnosis d) {
    Set<String> present = new HashSet<>();
    brake
        .symptoms()
        .forEach(
            (id, presence) -> present.addAll(presence == Presence.PRESENT ? Set.of(id) : Set.of()));
    d.concluded().stream().filter(Concluded::present).map(Concluded::symptom).forEach(present::add);
    return present;
  }

  /** What follows the first look is planned for what that look most likely finds. */
  private static Set<String> presentAfterFirst(Set<String> present, Diagnosis d) {
    Set<String> there = new HashSet<>(present);
    d.next().get(0).outcomes().stream()
        .max(Comparator.comparingDouble(Outcome::probability))
        .map(Outcome::symptom)
        .filter(found -> !found.isEmpty())
        .ifPresent(
            found -> {
              there.add(found);
              there.addAll(COARSER.getOrDefault(found, Set.of()));
            });
    return there;
  }

  private static CaseFile thrown(CaseFile like, Network network, Random random) {
    double[] absent = new double[network.symptoms().size()];
    for (int j = 0; j < absent.length; j++) {
      absent[j] = 1 - network.background()[j];
    }
    for (int i = 0; i < network.causes().size(); i++) {
      if (random.nextDouble() < network.prior(i)) {
        for (int j = 0; j < absent.length; j++) {
          absent[j] *= 1 - network.strength()[i][j];
        }
      }
    }
    Set<String> there = new HashSet<>();
    for (int j = 0; j < absent.length; j++) {
      if (random.nextDouble() >= absent[j]) {
        String symptom = network.symptoms().get(j);
        there.add(symptom);
        there.addAll(COARSER.getOrDefault(symptom, Set.of()));
      }
    }
    Map<String, Presence> symptoms = new LinkedHashMap<>();
    for (String symptom : network.symptoms()) {
      if (random.nextDouble() < TOLD) {
        symptoms.put(symptom, there.contains(symptom) ? Presence.PRESENT : Presence.ABSENT);
      }
    }
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
        like.history(),
        Optional.empty(),
        "",
        "",
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
