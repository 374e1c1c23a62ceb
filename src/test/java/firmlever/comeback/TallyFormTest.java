package firmlever.comeback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.visits.Definition;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Packed;
import firmlever.invent.Depot;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A tally in bytes")
class TallyFormTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final BrakeReview REVIEW =
      new BrakeReview(
          new Diagnostician(RuleBase.builtIn(VOCABULARY)),
          VOCABULARY,
          new Definition(30, 90, LocalDate.of(2025, 12, 31)),
          new Costs(120, Double.NaN, 0));

  private static List<List<CaseFile>> brakes(int jobs, long seed) {
    Map<String, List<CaseFile>> brakes = new TreeMap<>();
    new Depot(seed)
        .write(
            jobs,
            line -> {
              try {
                CaseFile file = READER.read(DocumentReader.readText(line, "r"), "r");
                brakes.computeIfAbsent(file.brake().id(), b -> new ArrayList<>()).add(file);
              } catch (BadInput e) {
                throw new AssertionError(e);
              }
            });
    return new ArrayList<>(brakes.values());
  }

  private static byte[] bytes(Tally tally) {
    Packed.Writer out = new Packed.Writer();
    TallyForm.write(tally, out);
    return out.bytes();
  }

  private static Tally read(byte[] bytes) throws Packed.Broken {
    Packed.Reader in = new Packed.Reader(bytes);
    Tally tally = TallyForm.read(in);
    in.end();
    return tally;
  }

  /** Each brake reviewed by itself, as bytes, so that no tally is used twice. */
  private static List<byte[]> singly(List<List<CaseFile>> brakes) {
    List<byte[]> singly = new ArrayList<>();
    for (List<CaseFile> visits : brakes) {
      Tally tally = new Tally();
      REVIEW.review(visits, tally);
      singly.add(bytes(tally));
    }
    return singly;
  }

  @Test
  @DisplayName("is the same bytes after every split into parts and every tree of merging")
  void isTheSameForEveryTree() throws Packed.Broken {
    List<List<CaseFile>> brakes = brakes(400, 11);
    Tally whole = new Tally();
    brakes.forEach(visits -> REVIEW.review(visits, whole));
    byte[] expected = bytes(whole);
    List<byte[]> leaves = singly(brakes);
    for (long seed = 1; seed <= 6; seed++) {
      Random random = new Random(seed);
      List<Tally> open = new ArrayList<>();
      for (byte[] leaf : leaves) {
        open.add(read(leaf));
      }
      Collections.shuffle(open, random);
      while (open.size() > 1) {
        Tally into = open.remove(random.nextInt(open.size()));
        Tally from = open.remove(random.nextInt(open.size()));
        into.merge(from);
        // Some are sent on the way, others are not.
        open.add(random.nextInt(4) == 0 ? read(bytes(into)) : into);
      }
      assertThat(Arrays.equals(bytes(open.get(0)), expected)).as("tree of seed %d", seed).isTrue();
    }
    assertThat(whole.cases(Tally.ALL).count()).isGreaterThan(10);
  }

  @Test
  @DisplayName("tells another brake's visit by other bytes")
  void tellsADifference() {
    List<List<CaseFile>> brakes = brakes(200, 3);
    Tally all = new Tally();
    brakes.forEach(visits -> REVIEW.review(visits, all));
    Tally lacksOne = new Tally();
    brakes.subList(1, brakes.size()).forEach(visits -> REVIEW.review(visits, lacksOne));
    assertThat(bytes(lacksOne)).isNotEqualTo(bytes(all));
  }

  @Test
  @DisplayName("that is cut off anywhere, or goes on, is refused in words")
  void refusesWhatIsCutOff() {
    byte[] bytes = singly(brakes(30, 5)).get(0);
    Random random = new Random(7);
    for (int i = 0; i < 300; i++) {
      int length = random.nextInt(bytes.length);
      assertThatThrownBy(() -> read(Arrays.copyOf(bytes, length)))
          .isInstanceOf(Packed.Broken.class)
          .hasMessageContaining("at byte");
    }
    assertThatThrownBy(() -> read(Arrays.copyOf(bytes, bytes.length + 1)))
        .isInstanceOf(Packed.Broken.class);
  }

  @Test
  @DisplayName("with bytes changed anywhere gives a tally or a refusal, and nothing else")
  void survivesDamage() {
    byte[] bytes = singly(brakes(30, 5)).get(0);
    Random random = new Random(9);
    int refused = 0;
    for (int i = 0; i < 2000; i++) {
      byte[] damaged = bytes.clone();
      damaged[random.nextInt(damaged.length)] = (byte) random.nextInt();
      try {
        read(damaged);
      } catch (Packed.Broken e) {
        assertThat(e.getMessage()).isNotBlank();
        refused++;
      }
    }
    assertThat(refused).isPositive();
  }
}
