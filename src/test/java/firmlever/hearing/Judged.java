package firmlever.hearing;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Node;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Person;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.language.Certainty;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/**
 * A complaint with what its author says a fair listener may take from it.
 *
 * @param later ids the vocabulary had not when the authors of its file wrote: they could neither
 *     say nor deny them
 */
public record Judged(Fields fields, Set<String> later) {
  /** Ids that came after the first files; of those a file names its authors knew. */
  private static final Set<String> LATER = Set.of("noise", "grabs", "pads-closed", "struck-hard");

  private static final Map<String, String> OPPOSITES = VocabularyReader.builtIn().opposites();

  /** The complaints of a file, one a line. */
  public static List<Judged> read(Path file) throws IOException, BadInput {
    List<Fields> all = new ArrayList<>();
    Set<String> later = new TreeSet<>(LATER);
    for (String line : Files.readAllLines(file)) {
      if (!line.isBlank()) {
        Fields complaint = Fields.of(DocumentReader.readText(line, file.toString()));
        complaint.texts("present").forEach(later::remove);
        complaint.texts("absent").forEach(later::remove);
        complaint.objects("history").forEach(told -> later.remove(id(told)));
        all.add(complaint);
      }
    }
    return all.stream().map(each -> new Judged(each, later)).toList();
  }

  public String id() {
    return fields.text("id");
  }

  public String language() {
    return fields.text("lang");
  }

  public String complaint() {
    return fields.text("complaint");
  }

  /** The work or event that is told. */
  static String id(Fields told) {
    return told.text(told.has("work") ? "work" : "event");
  }

  /** What is heard in it. */
  public Heard hear(Hearing hearing) {
    return hearing.hear(complaint(), fields.text("brake"), LocalDate.parse(fields.text("today")));
  }

  /**
   * Counts of what was heard rightly, wrongly and not.
   *
   * @param right present and absent symptoms heard as they should be
   * @param wrong those heard and not said
   * @param missed those said and not heard
   * @param done works and events heard that were told; then those not told, and those not heard
   * @param days times heard as told, of {@code done}
   * @param persons doers heard as told, of {@code told} persons
   * @param trapped complaints in which a tempting id was taken
   * @param words what went amiss, for people
   */
  public record Score(
      int complaints,
      int right,
      int wrong,
      int missed,
      int done,
      int notDone,
      int doneMissed,
      int days,
      int persons,
      int personsTold,
      int trapped,
      List<String> words) {
    /** Both together, without the words. */
    public Score plus(Score o) {
      return new Score(
          complaints + o.complaints,
          right + o.right,
          wrong + o.wrong,
          missed + o.missed,
          done + o.done,
          notDone + o.notDone,
          doneMissed + o.doneMissed,
          days + o.days,
          persons + o.persons,
          personsTold + o.personsTold,
          trapped + o.trapped,
          List.of());
    }

    /** Harmonic mean of precision and recall over symptoms, 0 to 1. */
    public double symptoms() {
      return balanced(right, wrong, missed);
    }

    /** The same over works and events. */
    public double history() {
      return balanced(done, notDone, doneMissed);
    }

    private static double balanced(int right, int wrong, int missed) {
      return right == 0 ? 0 : 2.0 * right / (2 * right + wrong + missed);
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%d complaints, symptoms precision %.2f recall %.2f F1 %.3f; history precision %.2f"
              + " recall %.2f F1 %.3f, days %d of %d, by whom %d of %d; trapped %d",
          complaints,
          right / (double) Math.max(1, right + wrong),
          right / (double) Math.max(1, right + missed),
          symptoms(),
          done / (double) Math.max(1, done + notDone),
          done / (double) Math.max(1, done + doneMissed),
          history(),
          days,
          done,
          persons,
          personsTold,
          trapped);
    }
  }

  /** To say that an opposite is there is to say that the symptom is not. */
  private static String plain(String sign, String id) {
    return OPPOSITES.containsKey(id)
        ? (sign.equals("+") ? "-" : "+") + OPPOSITES.get(id)
        : sign + id;
  }

  /** Compares what is heard with what may be. */
  public Score score(Hearing hearing) {
    Heard heard = hear(hearing);
    List<String> words = new ArrayList<>();
    Set<String> wanted = new TreeSet<>();
    fields.texts("present").forEach(id -> wanted.add(plain("+", id)));
    fields.texts("absent").forEach(id -> wanted.add(plain("-", id)));
    Set<String> open = new TreeSet<>(later);
    fields.texts("unsure").forEach(id -> open.add(OPPOSITES.getOrDefault(id, id)));
    Set<String> got = new TreeSet<>();
    for (Finding each : heard.findings()) {
      String symptom = OPPOSITES.getOrDefault(each.symptom(), each.symptom());
      if (each.certainty() != Certainty.UNSURE && !open.contains(symptom)) {
        String said = plain(each.certainty() == Certainty.PRESENT ? "+" : "-", each.symptom());
        got.add(said);
        if (!wanted.contains(said)) {
          words.add("wrong " + said + " in \"" + each.words() + "\"");
        }
      }
    }
    Set<String> right = new TreeSet<>(wanted);
    right.retainAll(got);
    wanted.stream().filter(w -> !right.contains(w)).forEach(w -> words.add("missed " + w));
    int done = 0;
    int days = 0;
    int persons = 0;
    int personsTold = 0;
    Set<String> told = new TreeSet<>();
    for (Fields each : fields.objects("history")) {
      String id = id(each);
      told.add(id);
      List<Told> same = heard.history().stream().filter(t -> t.id().equals(id)).toList();
      if (same.isEmpty()) {
        words.add("history missed " + id);
        continue;
      }
      done++;
      if (rightDay(each, same.get(0).daysAgo())) {
        days++;
      } else {
        words.add("history day of " + id + " heard as " + same.get(0).daysAgo());
      }
      if (said(each, "by")) {
        personsTold++;
        boolean shop = each.text("by").equals("shop");
        if (same.get(0).by() == (shop ? Person.SHOP : Person.OWNER)) {
          persons++;
        } else {
          words.add("history by of " + id + " heard as " + same.get(0).by());
        }
      }
    }
    int notDone = 0;
    for (Told each : heard.history()) {
      if (!told.contains(each.id()) && !later.contains(each.id())) {
        notDone++;
        words.add("history wrong " + each.id() + " in \"" + each.words() + "\"");
      }
    }
    Set<String> traps = new TreeSet<>(fields.texts("not"));
    Set<String> taken = new TreeSet<>();
    heard.findings().stream()
        .filter(f -> f.certainty() == Certainty.PRESENT)
        .forEach(f -> taken.add(f.symptom()));
    heard.history().forEach(t -> taken.add(t.id()));
    taken.retainAll(traps);
    taken.forEach(id -> words.add("TRAP " + id));
    return new Score(
        1,
        right.size(),
        got.size() - right.size(),
        wanted.size() - right.size(),
        done,
        notDone,
        fields.objects("history").size() - done,
        days,
        persons,
        personsTold,
        taken.isEmpty() ? 0 : 1,
        words);
  }

  /** Whether a field is there and not null. */
  private static boolean said(Fields fields, String name) {
    return fields.object().get(name).filter(n -> !(n instanceof Node.Null)).isPresent();
  }

  private static boolean rightDay(Fields told, OptionalInt heard) {
    if (!said(told, "days-ago")) {
      return heard.isEmpty();
    }
    return heard.isPresent() && Math.abs(heard.getAsInt() - told.whole("days-ago", 0)) <= 1;
  }
}
