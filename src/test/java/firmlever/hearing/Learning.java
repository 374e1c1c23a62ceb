package firmlever.hearing;

import de.bwaldvogel.liblinear.Feature;
import de.bwaldvogel.liblinear.FeatureNode;
import de.bwaldvogel.liblinear.Linear;
import de.bwaldvogel.liblinear.Model;
import de.bwaldvogel.liblinear.Parameter;
import de.bwaldvogel.liblinear.Problem;
import de.bwaldvogel.liblinear.SolverType;
import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Node;
import firmlever.hearing.Ear.Meaning;
import firmlever.hearing.Ear.Sign;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Language;
import firmlever.hearing.language.LanguageReader;
import firmlever.hearing.language.Signs;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import firmlever.hearing.language.Words;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * Learns the {@link Ear}s from complaints in which authors marked which words say what, from the
 * sayings, and from what the patterns hear rightly in the complaints they were written with. {@code
 * src/test/learn} runs it; the same data give the same bytes.
 */
public final class Learning {
  /** The inverse of how much weights are held down; of 1, 2 and 5 the best for authors left out. */
  private static final double COST = 1;

  private static final double TOLERANCE = 0.1;

  /** A meaning that is said less often is not learned. */
  private static final int LEAST_SAID = 6;

  /** A sign that stands in fewer windows is not learned. */
  private static final int LEAST_SEEN = 2;

  /** So many weights of a meaning are kept; with half of them less was heard. */
  private static final int MOST_WEIGHTS = 3000;

  /** A window says what is marked if it holds so much of the marked words ... */
  private static final double HELD = 0.7;

  /** ... and they are so much of it. */
  private static final double OF_WINDOW = 0.3;

  /** With less of them it says nothing of it; in between nobody knows. */
  private static final double TOUCHED = 0.25;

  /** As many as a byte can number: the most said. */
  private static final int MOST_MEANINGS = 256;

  private final String code;
  private final Vocabulary vocabulary = VocabularyReader.builtIn();
  private final Language language;
  private final List<Told> told = new ArrayList<>();

  private Learning(String code) {
    this.code = code;
    this.language = LanguageReader.read(code);
  }

  /** Some words, what they say, and what nobody knows whether they say. */
  private record Told(List<Word> words, List<Marked> marked, Set<String> open) {}

  /** A run of words and what it says: + there, - not there, ! done, with the id. */
  private record Marked(Window window, String says) {}

  private record Example(int[] signs, Set<String> says, Set<String> open) {}

  /**
   * Learns the languages and writes them into a folder.
   *
   * @param args the folder, then authors (the letters before the number of an id) to leave out
   */
  public static void main(String[] args) throws IOException, BadInput {
    Linear.disableDebugOutput();
    for (String code : Hearing.LANGUAGES) {
      byte[] ear = of(code, Set.of(Arrays.copyOfRange(args, 1, args.length)));
      Files.write(Path.of(args[0], Path.of(Ear.file(code)).getFileName().toString()), ear);
      System.out.println(code + ": " + ear.length + " bytes");
    }
  }

  private static byte[] of(String code, Set<String> leftOut) throws IOException, BadInput {
    Learning learning = new Learning(code);
    learning.readMarked(leftOut);
    learning.readComplaints();
    learning.readSayings();
    return learning.learned();
  }

  private static Path marked(String code) {
    return Path.of("cases", "hearing", "marked-" + code + ".jsonl");
  }

  private static List<Path> complaints() {
    return List.of("complaints", "complaints-2", "complaints-3", "complaints-4", "complaints-5")
        .stream()
        .map(name -> Path.of("cases", "hearing", name + ".jsonl"))
        .toList();
  }

  /** Digest of all that the ear of a language is learned from. */
  static String digest(String code) throws IOException {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.write(Files.readAllBytes(marked(code)));
    for (Path each : complaints()) {
      all.write(Files.readAllBytes(each));
    }
    Path vocabulary = Path.of("rules", "vocabulary", "hearing");
    all.write(Files.readAllBytes(vocabulary.resolve("sayings-" + code + ".json")));
    return Digest.sha256(all.toByteArray());
  }

  private void readMarked(Set<String> leftOut) throws IOException, BadInput {
    for (String line : Files.readAllLines(marked(code))) {
      Fields fields = Fields.of(DocumentReader.readText(line, code));
      if (leftOut.contains(fields.text("id").replaceAll("\\d+$", ""))) {
        continue;
      }
      String text = fields.text("complaint");
      List<Word> words = Words.of(text, language);
      List<Marked> marks = new ArrayList<>();
      Set<String> open = new LinkedHashSet<>();
      for (Node each : ((Node.Array) fields.object().get("said").orElseThrow()).items()) {
        List<String> parts =
            ((Node.Array) each).items().stream().map(n -> ((Node.Text) n).value()).toList();
        int start = text.indexOf(parts.get(0));
        String id = parts.get(1);
        if (parts.get(2).equals("?")) {
          open.add(id);
        } else {
          String sign = parts.get(2).equals("done") ? "!" : parts.get(2);
          within(words, start, start + parts.get(0).length())
              .ifPresent(window -> marks.add(new Marked(window, plain(sign, id))));
        }
      }
      told.add(new Told(words, marks, open));
    }
  }

  /** What the patterns hear rightly stands where they hear it; what they miss stands anywhere. */
  private void readComplaints() throws IOException, BadInput {
    Hearing patterns = Hearing.byPatternsAlone();
    for (Path file : complaints()) {
      for (Judged each : Judged.read(file)) {
        if (!each.language().equals(code)) {
          continue;
        }
        Set<String> wanted = new TreeSet<>();
        each.fields().texts("present").forEach(id -> wanted.add(plain("+", id)));
        each.fields().texts("absent").forEach(id -> wanted.add(plain("-", id)));
        Set<String> open = new LinkedHashSet<>(each.fields().texts("unsure"));
        open.addAll(each.later());
        Set<String> done = new LinkedHashSet<>();
        each.fields().objects("history").forEach(told -> done.add(Judged.id(told)));
        List<Word> words = Words.of(each.complaint(), language);
        List<Marked> marks = new ArrayList<>();
        Heard heard = each.hear(patterns);
        for (Finding finding : heard.findings()) {
          String says =
              plain(finding.certainty() == Certainty.PRESENT ? "+" : "-", finding.symptom());
          if (finding.certainty() != Certainty.UNSURE && wanted.remove(says)) {
            within(words, finding.start(), finding.end())
                .ifPresent(window -> marks.add(new Marked(window, says)));
          }
        }
        for (Heard.Told one : heard.history()) {
          if (done.remove(one.id())) {
            within(words, one.start(), one.end())
                .ifPresent(window -> marks.add(new Marked(window, "!" + one.id())));
          }
        }
        wanted.forEach(says -> open.add(says.substring(1)));
        open.addAll(done);
        told.add(new Told(words, marks, open));
      }
    }
  }

  private void readSayings() {
    Fields file = VocabularyReader.document(Likeness.file(code));
    for (Fields each : file.objects("sayings")) {
      String id = each.text("id");
      boolean symptom = vocabulary.symptomWords().contains(id);
      for (String saying : each.texts("says")) {
        List<Word> words = Words.of(saying, language);
        if (!words.isEmpty()) {
          Window whole = new Window(0, words.size());
          told.add(
              new Told(
                  words, List.of(new Marked(whole, plain(symptom ? "+" : "!", id))), Set.of()));
        }
      }
    }
  }

  private String plain(String sign, String id) {
    String of = vocabulary.opposites().get(id);
    return of == null ? sign + id : (sign.equals("+") ? "-" : "+") + of;
  }

  private static Optional<Window> within(List<Word> words, int start, int end) {
    int[] in =
        IntStream.range(0, words.size())
            .filter(at -> words.get(at).start() < end && words.get(at).end() > start)
            .toArray();
    return in.length == 0
        ? Optional.empty()
        : Optional.of(new Window(in[0], in[in.length - 1] + 1));
  }

  private List<Example> examples() {
    List<Example> examples = new ArrayList<>();
    for (Told each : told) {
      Set<Window> windows = new LinkedHashSet<>(Signs.windows(each.words));
      each.marked.forEach(mark -> windows.add(mark.window));
      for (Window window : windows) {
        Set<String> says = new TreeSet<>();
        Set<String> open = new TreeSet<>();
        for (Marked mark : each.marked) {
          int shared =
              Math.min(window.end(), mark.window.end())
                  - Math.max(window.first(), mark.window.first());
          double held = shared / (double) (mark.window.end() - mark.window.first());
          double ofWindow = shared / (double) (window.end() - window.first());
          if (held >= HELD && ofWindow >= OF_WINDOW) {
            says.add(mark.says);
          } else if (held > TOUCHED) {
            open.add(mark.says);
          }
          if (held > TOUCHED) {
            coarser(mark.says.substring(1)).forEach(id -> open.add(mark.says.charAt(0) + id));
          }
        }
        for (String id : each.open) {
          List.of("+", "-", "!").forEach(sign -> open.add(sign + id));
        }
        open.removeAll(says);
        examples.add(
            new Example(
                Signs.of(each.words.subList(window.first(), window.end()), language.lexicon()),
                says,
                open));
      }
    }
    return examples;
  }

  private Set<String> coarser(String id) {
    Set<String> coarser = new TreeSet<>();
    Deque<String> open = new ArrayDeque<>(List.of(id));
    while (!open.isEmpty()) {
      var symptom = vocabulary.symptoms().get(open.pop());
      if (symptom != null) {
        for (String each : symptom.kindOf()) {
          if (coarser.add(each)) {
            open.push(each);
          }
        }
      }
    }
    return coarser;
  }

  private Meaning meaning(String says) {
    String id = says.substring(1);
    Sign sign =
        switch (says.charAt(0)) {
          case '+' -> Sign.THERE;
          case '-' -> Sign.NOT_THERE;
          default -> vocabulary.events().containsKey(id) ? Sign.DONE_EVENT : Sign.DONE_WORK;
        };
    Optional<String> opposite =
        vocabulary.opposites().entrySet().stream()
            .filter(each -> each.getValue().equals(id))
            .map(Map.Entry::getKey)
            .findFirst();
    return new Meaning(sign, id, opposite, List.copyOf(coarser(id)));
  }

  private byte[] learned() throws IOException {
    List<Example> examples = examples();
    Map<String, Integer> said = new TreeMap<>();
    Map<Integer, Integer> seen = new HashMap<>();
    for (Example each : examples) {
      each.says.forEach(says -> said.merge(says, 1, Integer::sum));
      for (int sign : each.signs) {
        seen.merge(sign, 1, Integer::sum);
      }
    }
    List<String> meanings =
        said.entrySet().stream()
            .filter(each -> each.getValue() >= LEAST_SAID)
            .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
            .limit(MOST_MEANINGS)
            .map(Map.Entry::getKey)
            .sorted()
            .toList();
    int[] signs =
        seen.entrySet().stream()
            .filter(each -> each.getValue() >= LEAST_SEEN)
            .mapToInt(Map.Entry::getKey)
            .sorted()
            .toArray();
    Feature[][] rows = new Feature[examples.size()][];
    for (int at = 0; at < rows.length; at++) {
      rows[at] = row(examples.get(at).signs, signs);
    }
    System.out.println(
        code
            + ": "
            + rows.length
            + " windows, "
            + meanings.size()
            + " meanings, "
            + signs.length
            + " signs");
    double[][] weights = new double[meanings.size()][];
    IntStream.range(0, weights.length)
        .parallel()
        .forEach(at -> weights[at] = weights(meanings.get(at), examples, rows, signs.length));
    float[] bias = new float[weights.length];
    SortedMap<Integer, float[]> bySign = new TreeMap<>();
    for (int meaning = 0; meaning < weights.length; meaning++) {
      double[] of = weights[meaning];
      bias[meaning] = (float) of[signs.length];
      int at = meaning;
      IntStream.range(0, signs.length)
          .boxed()
          .sorted(Comparator.comparingDouble(sign -> -Math.abs(of[sign])))
          .limit(MOST_WEIGHTS)
          .forEach(
              sign ->
                  bySign.computeIfAbsent(signs[sign], s -> new float[weights.length])[at] =
                      (float) of[sign]);
    }
    return Ear.bytes(digest(code), meanings.stream().map(this::meaning).toList(), bias, bySign);
  }

  /** The signs as the solver wants them, with one that is always there. */
  private static Feature[] row(int[] found, int[] signs) {
    double share = Ear.share(found.length);
    List<Feature> row = new ArrayList<>();
    for (int sign : found) {
      int at = Arrays.binarySearch(signs, sign);
      if (at >= 0) {
        row.add(new FeatureNode(at + 1, share));
      }
    }
    row.add(new FeatureNode(signs.length + 1, 1));
    return row.toArray(Feature[]::new);
  }

  private static double[] weights(
      String meaning, List<Example> examples, Feature[][] rows, int signs) {
    BitSet used = new BitSet();
    for (int at = 0; at < rows.length; at++) {
      used.set(at, !examples.get(at).open.contains(meaning));
    }
    int[] at = used.stream().toArray();
    Problem problem = new Problem();
    problem.l = at.length;
    problem.n = signs + 1;
    problem.bias = 1;
    problem.x = IntStream.of(at).mapToObj(i -> rows[i]).toArray(Feature[][]::new);
    problem.y =
        IntStream.of(at)
            .mapToDouble(i -> examples.get(i).says.contains(meaning) ? 1 : -1)
            .toArray();
    Parameter parameter = new Parameter(SolverType.L2R_LR_DUAL, COST, TOLERANCE);
    parameter.setRandom(new Random(1));
    Model model = Linear.train(problem, parameter);
    // The solver speaks for the label it met first.
    double sense = model.getLabels()[0];
    return Arrays.stream(model.getFeatureWeights()).map(weight -> sense * weight).toArray();
  }
}
