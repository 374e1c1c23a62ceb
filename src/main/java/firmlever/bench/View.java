package firmlever.bench;

import firmlever.diagnosis.report.FirstScreen;
import firmlever.web.Role;
import firmlever.web.Session;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the templates are given: words and numbers, ready to be shown, and nothing to think about.
 */
public final class View {
  private View() {}

  /**
   * What every page has.
   *
   * @param assets what tells the browser that style and script have changed
   * @param query what was searched for last
   * @param problems what is wrong with what was typed, in sentences
   */
  public record Frame(
      Words words,
      Optional<Session> session,
      String title,
      String assets,
      String query,
      List<String> problems) {
    public String formToken() {
      return session.map(Session::formToken).orElse("");
    }

    public String say(String key, Object... values) {
      return words.say(key, values);
    }

    /** Whether whoever is signed in has that role, or one above it; the pages are guarded anew. */
    public boolean may(String role) {
      return session.filter(s -> s.role().covers(Role.of(role).orElseThrow())).isPresent();
    }

    Frame with(List<String> others) {
      return new Frame(words, session, title, assets, query, others);
    }
  }

  /** One choice of several. */
  public record Choice(String id, String name, boolean chosen) {}

  /** A job in a list. */
  public record Row(
      String id,
      String brake,
      String title,
      String state,
      String when,
      String found,
      String done) {}

  public record Group(String title, List<Row> rows) {}

  public record Day(Frame f, String heading, List<Group> groups, int most) {}

  public record Search(Frame f, List<Row> rows) {}

  /**
   * A job on the time line of its brake.
   *
   * @param gap days since it was handed back before, in words; empty for the first
   * @param photos how many photos it has
   */
  public record Visit(Row row, String gap, int photos) {}

  public record Brake(Frame f, String code, List<Visit> visits) {}

  public record NewJob(
      Frame f, Map<String, String> typed, List<Choice> wheels, List<Choice> fluids, int known) {
    public String typed(String name) {
      return typed.getOrDefault(name, "");
    }
  }

  public record SignIn(Frame f, boolean key, boolean ownKey, String code, String next) {}

  public record Failure(Frame f, String why) {}

  public record Field(String name, String value) {}

  /**
   * What somebody else did meanwhile, and what the later of two had tapped or typed.
   *
   * @param fields what was sent, to be sent again on the version as it is now
   */
  public record Clash(List<String> since, String action, List<Field> fields) {}

  /**
   * What the last entry changed of the verdict.
   *
   * @param words what was entered, and by whom
   * @param lines what differs most; none where nothing does
   * @param rest what differs beside it
   */
  public record Effect(String words, List<String> lines, List<String> rest) {}

  /** A link to another job, with what it is. */
  public record Link(String id, String words) {}

  /**
   * What every page of a job has.
   *
   * @param ride id of the verdict; empty where there is none
   * @param lines the first screen, as the command prints it
   * @param effect what the last entry changed of it; empty where it was no entry into the case
   * @param refusal why there is no verdict
   * @param worked whether works of this visit are done that the verdict does not know of
   */
  public record Job(
      Frame f,
      String id,
      String brakeCode,
      String brake,
      int version,
      String tab,
      String state,
      boolean closed,
      boolean worked,
      String banner,
      String ride,
      List<FirstScreen.Line> lines,
      Optional<Effect> effect,
      String refusal,
      Optional<Link> cameBack,
      Optional<Clash> clash) {

    public String say(String key, Object... values) {
      return f.say(key, values);
    }

    public String path(String more) {
      return "/jobs/" + id + more;
    }
  }

  /** Something heard, to be confirmed. */
  public record Heard(String item, String words, String means) {}

  /** Words nobody understood, with what may have been meant. */
  public record Unheard(String words, List<Heard> guesses) {}

  /** The step at hand. */
  public record Next(String name, String minutes, String why, String link, String button) {}

  /** A place with how much of it was looked at. */
  public record PlaceRow(String id, String name, int looked, int all, int there, boolean next) {}

  /**
   * A photo of a job.
   *
   * @param digest of the picture, by which forms call it
   * @param position in its job, from 1
   * @param number the same in words
   * @param by who attached it, and when
   * @param struck why it counts no more; empty where it stands
   */
  public record Photo(
      String address,
      String digest,
      int position,
      String number,
      String shows,
      String by,
      String struck) {}

  /**
   * The photos of a job.
   *
   * @param full whether no more can be attached
   * @param most so many may be
   * @param megabytes the largest there may be
   * @param letters the most that may be said of one
   * @param typed what was said of one that could not be taken
   */
  public record Photos(
      List<Photo> all, boolean full, int most, int megabytes, int letters, String typed) {}

  public record Overview(
      Job job,
      String complaint,
      String opened,
      List<Heard> heard,
      List<Unheard> guessed,
      String unheard,
      boolean nothingHeard,
      List<String> record,
      String typed,
      Optional<Next> next,
      List<PlaceRow> places,
      Photos photos) {}

  /**
   * Something that may be found.
   *
   * @param answer {@code present}, {@code absent}, or empty where nobody has looked
   * @param told whether only the customer says so
   */
  public record Item(
      String id, String name, String meaning, String answer, boolean told, boolean next) {}

  /** What one look shows. */
  public record Look(String name, String how, List<Item> items) {}

  public record Reading(String name, String label, String value) {}

  public record Place(
      Job job,
      String id,
      String name,
      List<Look> looks,
      List<Reading> readings,
      String hint,
      PlaceRow following,
      List<PlaceRow> places) {}

  /**
   * One weight as a bar.
   *
   * @param x left end of the bar, from 0 to 200; the line of no weight is at 100
   * @param width from 0 to 100
   */
  public record Bar(
      String name, String weight, String detail, double x, double width, boolean up) {}

  public record Cause(
      String id, String name, String chance, String meaning, List<Bar> bars, Bar sum) {}

  public record Why(Job job, List<Cause> causes, List<String> others, String noFault) {}

  /** A work that can be chosen. */
  public record Work(String id, String name, String minutes, String why, boolean blocked) {}

  /**
   * A line of the card.
   *
   * @param kind {@code step}, {@code value}, {@code torque} or {@code mind}
   * @param number position in the whole card
   */
  public record Line(
      int number, String kind, String text, String want, boolean ticked, String value) {}

  public record Section(int number, String title, List<Line> lines) {}

  public record Card(
      String work,
      String name,
      String minutes,
      List<String> notes,
      List<Section> sections,
      List<Choice> fluids,
      List<Choice> parts,
      List<String> after) {}

  public record WorkPage(
      Job job,
      Optional<Card> card,
      List<Work> offered,
      List<Choice> all,
      List<String> done,
      List<String> vain) {}

  /**
   * An acceptance check.
   *
   * @param result {@code passed}, {@code failed} or {@code not-made}
   * @param tapped whether it was tapped as passed
   */
  public record Check(
      String id,
      String name,
      String want,
      String how,
      String result,
      String why,
      boolean tapped,
      List<Choice> failures) {}

  public record Acceptance(
      Job job,
      List<Check> checks,
      List<Item> again,
      List<Reading> readings,
      List<String> holds,
      boolean handBack,
      List<Choice> found,
      boolean vain,
      Map<String, String> typed) {
    public String typed(String name) {
      return typed.getOrDefault(name, "");
    }
  }

  /** A line of what is claimed: a work or a part, and what it costs. */
  public record Cost(int number, List<Choice> whats, String minutes, String price) {}

  /** One outcome of a claim, with what it rests on. */
  public record Matter(
      String result, String about, String clause, String why, List<String> sends) {}

  /**
   * @param signs whether whoever is signed in may sign
   * @param signers codes of those who may
   * @param photos those of the job that are, or may be, handed in
   * @param refusal why there is no recommendation; empty where there is one
   * @param decisions what was signed, the first one first
   * @param changes what has changed since the last decision
   * @param differs in what the diagnosis differs from that of then
   * @param paper number of the last paper
   */
  public record Claim(
      Job job,
      boolean signs,
      String signers,
      List<Choice> parts,
      List<Choice> holders,
      List<Cost> costs,
      List<Field> evidence,
      List<Photo> photos,
      String refusal,
      List<Matter> matters,
      List<String> decisions,
      List<String> changes,
      List<String> differs,
      int paper,
      Map<String, String> typed) {
    public String typed(String name) {
      return typed.getOrDefault(name, "");
    }
  }

  /**
   * The head of a printed sheet.
   *
   * @param places all places, those of the works marked as the next
   * @param marked their names, in words
   * @param address of the brake's page
   * @param code the same as a picture, a path within {@code code.size()} units
   */
  public record PaperHead(
      Job job, List<PlaceRow> places, String marked, String brake, String address, Code code) {}

  public record HandBack(
      PaperHead head,
      String complaint,
      List<String> found,
      List<String> done,
      List<String> passed,
      List<String> readings,
      String signed,
      List<String> cautions) {}

  public record Entry(int number, String when, String who, String what, boolean clock) {}

  public record Log(Job job, List<Entry> entries) {}
}
