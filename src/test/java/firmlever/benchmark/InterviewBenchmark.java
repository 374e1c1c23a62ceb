package firmlever.benchmark;

import firmlever.belief.Network;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.document.BadInput;
import firmlever.interview.Asking;
import firmlever.interview.Asking.Asked;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.UnaryOperator;

/**
 * How many questions the interview asks, against a fixed check-list.
 *
 * <p>Brakes are thrown from the model itself: causes by their odds, symptoms by what the causes
 * show. The customer tells one or two of the symptoms he can tell of; all questions are answered
 * with the truth. The fixed list asks the vocabulary in its order, leaving out what is known
 * already, until its first cause (or no fault) is as probable as the interview's was at its end, or
 * until it has asked all. Prints figures, asserts nothing. Arguments: number of brakes, seed.
 */
public final class InterviewBenchmark {
  private InterviewBenchmark() {}

  /** Brakes with more symptoms are thrown again: exact reckoning ends at 18. */
  private static final int MOST_PRESENT = 16;

  /** Prints the report. */
  public static void main(String[] args) throws BadInput {
    int brakes = args.length > 0 ? Integer.parseInt(args[0]) : 100;
    Random random = new Random(args.length > 1 ? Long.parseLong(args[1]) : 1);
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    List<Integer> asked = new ArrayList<>();
    List<Integer> listed = new ArrayList<>();
    int reached = 0;
    int right = 0;
    int listRight = 0;
    double minutes = 0;
    double listMinutes = 0;
    List<Double> answerMs = new ArrayList<>();
    while (asked.size() < brakes) {
      String fluid = List.of("mineral-oil", "dot-4", "dot-5.1").get(random.nextInt(3));
      String brake =
          "'brake':{'id':'B-0417-rear','position':'rear','fluid':'" + fluid + "'},'symptoms':{";
      Network network = Bench.RULES.consult(Bench.of("'complaint':'odd'," + brake + "}")).network();
      boolean[] there = causes(network, random);
      Map<String, Boolean> truth = symptoms(network, there, random);
      List<String> told = told(truth, random);
      long present = truth.values().stream().filter(each -> each).count();
      if (told.isEmpty() || present > MOST_PRESENT) {
        continue; // Nobody brings in a brake of which there is nothing to tell.
      }
      StringBuilder symptoms = new StringBuilder();
      told.forEach(
          t -> symptoms.append(symptoms.isEmpty() ? "" : ",").append("'" + t + "':'present'"));
      String start = Bench.text(brake + symptoms + "}");
      UnaryOperator<String> answer = id -> truth.get(id) ? "present" : "absent";
      Asked interview = Asking.interview(start, answer);
      double certainty = Asking.certainty(interview.diagnosis());
      minutes += interview.minutes();
      right += rightly(network, there, interview.diagnosis()) ? 1 : 0;
      asked.add(interview.questions().size());
      interview.nanos().forEach(nanos -> answerMs.add(nanos / 1e6));
      Asked list =
          Asking.fixedList(start, answer, certainty, Math.min(1, interview.questions().size()));
      listMinutes += list.minutes();
      reached += list.ended() ? 1 : 0;
      listRight += rightly(network, there, list.diagnosis()) ? 1 : 0;
      listed.add(list.questions().size());
    }
    double mean = mean(asked);
    double listMean = mean(listed);
    answerMs.sort(Double::compare);
    out.println(
        String.format(
            Locale.ROOT,
            "%d brakes: the interview asks %.1f questions a brake (%.1f min), the fixed list %.1f"
                + " (%.1f min) for the same certainty: a share of %.2f (target 0.50)",
            brakes,
            mean,
            minutes / brakes,
            listMean,
            listMinutes / brakes,
            mean / listMean));
    out.println(
        String.format(
            Locale.ROOT,
            "the first cause is there in %.0f %% (fixed list %.0f %%); the list reached the"
                + " certainty in %.0f %%; most questions of one interview: %d; median answer %.0f ms",
            100.0 * right / brakes,
            100.0 * listRight / brakes,
            100.0 * reached / brakes,
            asked.stream().mapToInt(Integer::intValue).max().orElse(0),
            answerMs.isEmpty() ? 0 : answerMs.get(answerMs.size() / 2)));
  }

  private static boolean[] causes(Network network, Random random) {
    boolean[] there = new boolean[network.causes().size()];
    for (int i = 0; i < there.length; i++) {
      there[i] = random.nextDouble() < network.prior(i);
    }
    return there;
  }

  private static Map<String, Boolean> symptoms(Network network, boolean[] there, Random random) {
    Map<String, Boolean> truth = new HashMap<>();
    for (int j = 0; j < network.symptoms().size(); j++) {
      double absent = 1 - network.background()[j];
      for (int i = 0; i < there.length; i++) {
        absent *= there[i] ? 1 - network.strength()[i][j] : 1;
      }
      truth.put(network.symptoms().get(j), random.nextDouble() >= absent);
    }
    return truth;
  }

  /** One or two of what a customer can tell of without tools. */
  private static List<String> told(Map<String, Boolean> truth, Random random) {
    List<String> candidates = new ArrayList<>();
    for (Symptom symptom : Bench.VOCABULARY.symptoms().values()) {
      boolean customers = List.of("lever-feel", "braking").contains(symptom.group());
      if (customers && symptom.canBeChecked() && truth.get(symptom.id())) {
        candidates.add(symptom.id());
      }
    }
    java.util.Collections.shuffle(candidates, random);
    return candidates.subList(0, Math.min(candidates.size(), 1 + random.nextInt(2)));
  }

  private static boolean rightly(Network network, boolean[] there, Diagnosis d) {
    int first = network.causes().indexOf(d.first());
    return first < 0 ? !anyOf(there) : there[first];
  }

  private static boolean anyOf(boolean[] there) {
    for (boolean each : there) {
      if (each) {
        return true;
      }
    }
    return false;
  }

  private static double mean(List<Integer> counts) {
    return Arrays.stream(counts.toArray(Integer[]::new)).mapToInt(i -> i).average().orElse(0);
  }
}
