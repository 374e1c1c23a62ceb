package firmlever.diagnosis.report;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;

/** Brakes diagnosed before and after somebody has looked again at one to four places. */
final class Pairs {
  private Pairs() {}

  private static final int EVERY = 8;
  private static final int MOST_EDITS = 4;

  record Pair(Diagnosis before, Diagnosis now) {
    Pair swapped() {
      return new Pair(now, before);
    }
  }

  static final List<Pair> ALL = thrown(new Random(20261130));

  private static List<Pair> thrown(Random random) {
    List<String> symptoms =
        Bench.VOCABULARY.symptoms().values().stream()
            .filter(symptom -> symptom.canBeChecked())
            .map(symptom -> symptom.id())
            .toList();
    List<Pair> pairs = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("cases", "regression"))) {
      List<Path> cases = files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
      for (int i = 0; i < cases.size(); i += EVERY) {
        CaseFile before = Bench.READER.read(cases.get(i), cases.get(i).toString());
        CaseFile now = before;
        int edits = 1 + random.nextInt(MOST_EDITS);
        for (int each = 0; each < edits; each++) {
          Presence[] presences = Presence.values();
          now =
              now.with(
                  symptoms.get(random.nextInt(symptoms.size())),
                  presences[random.nextInt(presences.length)]);
        }
        try {
          pairs.add(new Pair(diagnosed(before), diagnosed(now)));
        } catch (TooManySymptoms e) {
          // What is too much for one answer is no diagnosis to compare.
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (BadInput e) {
      throw new IllegalStateException(e);
    }
    return List.copyOf(pairs);
  }

  private static Diagnosis diagnosed(CaseFile file) {
    return Bench.DIAGNOSTICIAN.diagnose(file, Options.BARE);
  }
}
