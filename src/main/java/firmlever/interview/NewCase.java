package firmlever.interview;

import firmlever.casefile.CaseFormat;
import firmlever.document.BadInput;
import firmlever.document.CalendarDay;
import firmlever.document.Limit;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.document.SpokenDay;
import firmlever.hearing.Recounting;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Turns five answers, in the words people use, into a case as files hold it. */
public final class NewCase {
  private static final List<String> WHEELS = List.of("front", "rear", "unknown");
  private static final Map<String, String> WHEEL_WORDS =
      Map.of("f", "front", "fore", "front", "r", "rear", "back", "rear", "?", "unknown");
  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,79}");

  private final Recounting recounting;

  public NewCase(Vocabulary vocabulary) {
    this.recounting = new Recounting(vocabulary);
  }

  /** The code of a brake. */
  public String brake(String answer) throws BadInput {
    if (!CODE.matcher(answer).matches()) {
      String guess = answer.strip().replaceAll("[^A-Za-z0-9._-]+", "-").replaceAll("^[-._]+", "");
      throw refused(
          answer,
          "must be a code of at most 80 letters, digits, points, hyphens or underscores",
          CODE.matcher(guess).matches() ? "Maybe \"" + guess + "\" was meant." : "");
    }
    return answer;
  }

  /**
   * The day a brake came in.
   *
   * @param today empty where it is not known: then only a day told with its year is
   */
  public static LocalDate day(String answer, Optional<LocalDate> today) throws BadInput {
    return today
        .flatMap(day -> SpokenDay.of(answer, day))
        .or(() -> SpokenDay.alone(answer))
        .filter(day -> CalendarDay.of(day.toString()).isPresent())
        .orElseThrow(
            () ->
                refused(
                    answer,
                    "is no day that can be told for certain",
                    "Maybe write it as in 12 May 2026."));
  }

  /** The wheel: {@code front}, {@code rear} or {@code unknown}. */
  public String wheel(String answer) throws BadInput {
    String plain = Nearest.plain(answer);
    String wheel = WHEEL_WORDS.getOrDefault(plain, plain.replaceFirst("-(wheel|brake)$", ""));
    if (!WHEELS.contains(wheel)) {
      throw refused(answer, "is not a wheel known here", Nearest.maybe(answer, WHEELS));
    }
    return wheel;
  }

  /** The id of a fluid. */
  public String fluid(String answer) throws BadInput {
    return recounting.fluid(answer);
  }

  public String complaint(String answer) throws BadInput {
    if (answer.codePointCount(0, answer.length()) > Limit.COMPLAINT_LETTERS.most()) {
      throw refused(
          "the complaint",
          "must be at most " + Limit.COMPLAINT_LETTERS.most() + " characters long",
          "");
    }
    return answer;
  }

  /** What was done: entries of a history. */
  public List<Map<String, Object>> done(String answer, LocalDate opened) throws BadInput {
    return recounting.entries(answer, opened);
  }

  /** The case with all answers, in the order of fields that case files have. */
  public static Map<String, Object> with(
      LocalDate opened,
      String brake,
      String wheel,
      String fluid,
      String complaint,
      List<Map<String, Object>> history) {
    Map<String, Object> file = new LinkedHashMap<>();
    file.put("format", CaseFormat.FORMAT);
    String day = "-" + opened;
    file.put("id", brake.substring(0, Math.min(brake.length(), 80 - day.length())) + day);
    file.put("opened", opened.toString());
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("id", brake);
    about.put("position", wheel);
    about.put("fluid", fluid);
    file.put("brake", about);
    if (!complaint.isEmpty()) {
      file.put("complaint", complaint);
    }
    file.put("symptoms", Map.of());
    if (!history.isEmpty()) {
      file.put("history", history);
    }
    return file;
  }

  /** The wheel that a code of a brake names, else unknown. */
  public static String wheelOf(String brake) {
    String small = brake.toLowerCase(Locale.ROOT);
    boolean front = small.contains("front");
    boolean rear = small.contains("rear");
    return front == rear ? "unknown" : front ? "front" : "rear";
  }

  private static BadInput refused(String answer, String why, String maybe) {
    return new BadInput(List.of(Problem.ofFile("\"" + answer + "\"", why, maybe)));
  }
}
