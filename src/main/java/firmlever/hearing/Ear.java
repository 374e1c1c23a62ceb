package firmlever.hearing;

import firmlever.hearing.language.Lexicon;
import firmlever.hearing.language.Pattern;
import firmlever.hearing.language.Signs;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Predicate;

/**
 * Hears by practice what {@link Pattern}s do not foresee: for each meaning, how much each sign of a
 * run of words speaks for it, learned (logistic regression, each meaning against all else) from
 * complaints in which their authors marked which words say what. {@code src/test/learn} writes it.
 */
final class Ear {
  static final int FORM = 1;

  /** Weights are those of a run of so many signs. */
  private static final double USUAL = 16;

  private final String digest;
  private final List<Meaning> meanings;
  private final float[] bias;
  private final int[] signs;

  /** Where the weights of each sign begin, and where those of the last end. */
  private final int[] from;

  private final byte[] ofMeaning;
  private final byte[] weights;
  private final float scale;

  private Ear(
      String digest,
      List<Meaning> meanings,
      float[] bias,
      int[] signs,
      int[] from,
      byte[] ofMeaning,
      byte[] weights,
      float scale) {
    this.digest = digest;
    this.meanings = meanings;
    this.bias = bias;
    this.signs = signs;
    this.from = from;
    this.ofMeaning = ofMeaning;
    this.weights = weights;
    this.scale = scale;
  }

  /** What may be said of a symptom, or of something done. */
  enum Sign {
    THERE,
    NOT_THERE,
    DONE_WORK,
    DONE_EVENT
  }

  /**
   * Something that may be said.
   *
   * @param id of the symptom, work or event
   * @param opposite the id of a symptom that is there when this one is not, where it has a name
   * @param coarser symptoms that are said with it
   */
  record Meaning(Sign sign, String id, Optional<String> opposite, List<String> coarser) {
    private boolean leaks() {
      return sign == Sign.THERE && Leaks.is(id);
    }

    private static Meaning of(String line) {
      String[] parts = line.split(" ", -1);
      return new Meaning(
          Sign.valueOf(parts[0]),
          parts[1],
          Optional.of(parts[2]).filter(name -> !name.isEmpty()),
          parts[3].isEmpty() ? List.of() : List.of(parts[3].split(",")));
    }

    private String line() {
      return String.join(" ", sign.name(), id, opposite.orElse(""), String.join(",", coarser));
    }
  }

  /**
   * A meaning in the words that speak for it most.
   *
   * @param logit of the chance that they say it
   */
  record Likely(Meaning meaning, double logit, Window window) {}

  /** Digest of what it was learned from. */
  String digest() {
    return digest;
  }

  /** What the sum of weights is multiplied by: the fewer signs, the more each says. */
  static double share(int signs) {
    return Math.sqrt(USUAL / Math.max(1, signs));
  }

  /**
   * Every meaning where it is likeliest; of equals where it is said first and shortest. What fewer
   * clauses say clearly is said in these, even where one beside them makes it likelier.
   *
   * @param clear logit above which something is clearly said
   * @param deniesLeak whether words deny a leak: no leak is heard in them
   */
  List<Likely> hear(List<Word> words, Lexicon lexicon, double clear, Predicate<Window> deniesLeak) {
    double[] best = new double[meanings.size()];
    Arrays.fill(best, Double.NEGATIVE_INFINITY);
    Window[] where = new Window[meanings.size()];
    int[] clauses = new int[meanings.size()];
    for (Window window : Signs.windows(words)) {
      double[] logits = logits(Signs.of(words.subList(window.first(), window.end()), lexicon));
      boolean dry = deniesLeak.test(window);
      int wide = words.get(window.end() - 1).clause() - words.get(window.first()).clause();
      for (int meaning = 0; meaning < best.length; meaning++) {
        boolean narrower = wide < clauses[meaning] && logits[meaning] > clear;
        boolean wider = wide > clauses[meaning] && best[meaning] > clear;
        if ((narrower || logits[meaning] > best[meaning] && !wider)
            && !(dry && meanings.get(meaning).leaks())) {
          best[meaning] = logits[meaning];
          where[meaning] = window;
          clauses[meaning] = wide;
        }
      }
    }
    List<Likely> likely = new ArrayList<>();
    for (int meaning = 0; meaning < best.length; meaning++) {
      if (where[meaning] != null) {
        likely.add(new Likely(meanings.get(meaning), best[meaning], where[meaning]));
      }
    }
    return likely;
  }

  private double[] logits(int[] found) {
    int[] sums = new int[bias.length];
    for (int sign : found) {
      int at = Arrays.binarySearch(signs, sign);
      if (at >= 0) {
        for (int i = from[at]; i < from[at + 1]; i++) {
          sums[ofMeaning[i] & 0xff] += weights[i];
        }
      }
    }
    double share = scale * share(found.length);
    double[] logits = new double[sums.length];
    for (int i = 0; i < logits.length; i++) {
      logits[i] = bias[i] + share * sums[i];
    }
    return logits;
  }

  static String file(String code) {
    return "/rules/vocabulary/hearing/ear-" + code + ".bin";
  }

  /** The ear of a language out of this build. */
  static Ear of(String code) {
    try (InputStream in = Ear.class.getResourceAsStream(file(code))) {
      if (in == null) {
        throw new IllegalStateException("the build lacks " + file(code));
      }
      return read(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Ear read(byte[] bytes) {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    int form = in.getInt();
    if (form != FORM) {
      throw new IllegalStateException("an ear of form " + form + ", and this build reads " + FORM);
    }
    byte[] lines = new byte[in.getInt()];
    in.get(lines);
    String[] all = new String(lines, StandardCharsets.US_ASCII).split("\n");
    List<Meaning> meanings = Arrays.stream(all).skip(1).map(Meaning::of).toList();
    float scale = in.getFloat();
    float[] bias = new float[meanings.size()];
    in.asFloatBuffer().get(bias);
    in.position(in.position() + Float.BYTES * bias.length);
    int[] signs = new int[in.getInt()];
    in.asIntBuffer().get(signs);
    in.position(in.position() + Integer.BYTES * signs.length);
    int[] from = new int[signs.length + 1];
    for (int i = 0; i < signs.length; i++) {
      from[i + 1] = from[i] + (in.get() & 0xff);
    }
    byte[] ofMeaning = new byte[from[signs.length]];
    byte[] weights = new byte[ofMeaning.length];
    in.get(ofMeaning).get(weights);
    return new Ear(all[0], meanings, bias, signs, from, ofMeaning, weights, scale);
  }

  /**
   * An ear as {@link #read} reads it. Weights are kept to one part in 127 of the largest.
   *
   * @param digest of what it was learned from
   * @param weights of each meaning, by sign
   */
  static byte[] bytes(
      String digest, List<Meaning> meanings, float[] bias, SortedMap<Integer, float[]> weights) {
    float largest = 0;
    for (float[] row : weights.values()) {
      for (float each : row) {
        largest = Math.max(largest, Math.abs(each));
      }
    }
    float scale = largest / Byte.MAX_VALUE;
    ByteArrayOutputStream counts = new ByteArrayOutputStream();
    ByteArrayOutputStream ofMeaning = new ByteArrayOutputStream();
    ByteArrayOutputStream values = new ByteArrayOutputStream();
    List<Integer> signs = new ArrayList<>();
    for (Map.Entry<Integer, float[]> each : weights.entrySet()) {
      int count = 0;
      for (int meaning = 0; meaning < each.getValue().length; meaning++) {
        int value = Math.round(each.getValue()[meaning] / scale);
        if (value != 0) {
          ofMeaning.write(meaning);
          values.write(value);
          count++;
        }
      }
      if (count > 0) {
        signs.add(each.getKey());
        counts.write(count);
      }
    }
    StringBuilder lines = new StringBuilder(digest).append('\n');
    meanings.forEach(each -> lines.append(each.line()).append('\n'));
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      out.writeInt(FORM);
      out.writeInt(lines.length());
      out.writeBytes(lines.toString());
      out.writeFloat(scale);
      for (float each : bias) {
        out.writeFloat(each);
      }
      out.writeInt(signs.size());
      for (int each : signs) {
        out.writeInt(each);
      }
      counts.writeTo(out);
      ofMeaning.writeTo(out);
      values.writeTo(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }
}
