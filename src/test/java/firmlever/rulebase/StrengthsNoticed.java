package firmlever.rulebase;

import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Word;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Expectations;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BiPredicate;

/**
 * How many of the strengths that the rules state, cause by symptom, somebody would notice were they
 * gone or one word off: by the table of beliefs, and by the expectations of the case files alone.
 * Run as a program it prints both.
 */
final class StrengthsNoticed {
  private StrengthsNoticed() {}

  /**
   * What was counted.
   *
   * @param moves ways of moving a strength by one word, up or down
   * @param unnoticed what nobody would notice, each in words
   */
  record Figures(
      int strengths, int removedNoticed, int moves, int movedNoticed, List<String> unnoticed) {}

  /** A strength the rules state. */
  private record Strength(String cause, String symptom, Word word) {}

  /** How many changes of strengths the table of beliefs shows. */
  static Figures in(Map<String, BrakeModel> models) {
    Map<String, String> before = new LinkedHashMap<>();
    models.forEach((name, model) -> before.put(name, BeliefTable.said(model)));
    return count(
        models,
        (name, changed) ->
            !BeliefTable.said(changed, models.get(name).observations()).equals(before.get(name)));
  }

  private static Figures count(
      Map<String, BrakeModel> models, BiPredicate<String, Network> noticed) {
    int removed = 0;
    int moves = 0;
    int moved = 0;
    List<String> unnoticed = new ArrayList<>();
    List<Strength> strengths = strengths(models);
    for (Strength each : strengths) {
      if (noticed(models, each, 0, noticed)) {
        removed++;
      } else {
        unnoticed.add(each + " removed");
      }
      for (int step : new int[] {-1, 1}) {
        int to = each.word().ordinal() + step;
        if (to < 0 || to >= Word.values().length) {
          continue;
        }
        moves++;
        double times = Word.values()[to].probability() / each.word().probability();
        if (noticed(models, each, times, noticed)) {
          moved++;
        } else {
          unnoticed.add(each + " to " + Word.values()[to].spoken());
        }
      }
    }
    return new Figures(strengths.size(), removed, moves, moved, unnoticed);
  }

  /** Each once; where the brake decides which word holds, with the first that was met. */
  private static List<Strength> strengths(Map<String, BrakeModel> models) {
    Map<String, Strength> found = new TreeMap<>();
    models
        .values()
        .forEach(
            model ->
                model
                    .links()
                    .forEach(
                        (cause, links) ->
                            links.forEach(
                                (symptom, link) ->
                                    found.putIfAbsent(
                                        cause + " " + symptom,
                                        new Strength(cause, symptom, link.word())))));
    return List.copyOf(found.values());
  }

  private static boolean noticed(
      Map<String, BrakeModel> models,
      Strength strength,
      double times,
      BiPredicate<String, Network> noticed) {
    for (Map.Entry<String, BrakeModel> each : models.entrySet()) {
      BrakeModel model = each.getValue();
      Network network = model.network();
      int i = network.causes().indexOf(strength.cause());
      int j = network.symptoms().indexOf(strength.symptom());
      boolean bears =
          i >= 0
              && network.strength()[i][j] > 0
              && model.observations().stream().map(Observation::symptom).anyMatch(s -> s == j);
      if (bears && noticed.test(each.getKey(), changed(network, i, j, times))) {
        return true;
      }
    }
    return false;
  }

  private static Network changed(Network network, int cause, int symptom, double times) {
    double[][] strength = network.strength().clone();
    strength[cause] = strength[cause].clone();
    strength[cause][symptom] = Math.min(0.995, strength[cause][symptom] * times);
    return new Network(
        network.causes(),
        network.priorLogOdds(),
        network.symptoms(),
        network.background(),
        strength);
  }

  public static void main(String[] args) {
    print("table of beliefs", in(BeliefTable.models()));
    Map<String, CaseFile> files = new LinkedHashMap<>();
    Map<String, BrakeModel> models = new LinkedHashMap<>();
    for (CaseFile file : Cases.all()) {
      file.expectation()
          .ifPresent(
              expected -> {
                files.put(file.id(), file);
                models.put(file.id(), Cases.RULES.consult(file));
              });
    }
    Diagnostician diagnostician = new Diagnostician(Cases.RULES);
    Map<String, List<String>> before = new LinkedHashMap<>();
    models.forEach(
        (name, model) -> before.put(name, missed(diagnostician, files.get(name), model)));
    print(
        "expectations of case files",
        count(
            models,
            (name, network) ->
                !missed(diagnostician, files.get(name), models.get(name).with(network))
                    .equals(before.get(name))));
  }

  private static List<String> missed(Diagnostician diagnostician, CaseFile file, BrakeModel model) {
    return Expectations.missed(
        file.expectation().orElseThrow(),
        diagnostician.diagnose(file, model, Diagnostician.Options.BARE));
  }

  private static void print(String by, Figures figures) {
    System.out.printf(
        "%s: %d of %d strengths noticed where they are gone, %d of %d moves by one word%n",
        by, figures.removedNoticed(), figures.strengths(), figures.movedNoticed(), figures.moves());
    figures.unnoticed().stream().limit(20).forEach(each -> System.out.println("  not: " + each));
  }
}
