package firmlever.comeback.visits;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;

/**
 * By what a visit can be put into a group. A visit that does not tell is in no group of that trait.
 */
public enum Trait {
  TECHNICIAN("technician", true),
  WORK("work done", false),
  TECHNICIAN_AND_WORK("technician and work", false),
  SITE("site", true),
  CAUSE("cause treated", false),
  LOT("lot of the brake", false),
  PARTS_LOT("lot of parts fitted in the year before", false),
  SEASON("season", true),
  FLUID("fluid", true),
  KIND("kind of brake", true),
  POSITION("wheel", true),
  AGE("age of the brake", true);

  /** Parts a technician from the work. */
  public static final String AND = " · ";

  private final String words;
  private final boolean timed;

  Trait(String words, boolean timed) {
    this.words = words;
    this.timed = timed;
  }

  /** The trait as a heading names it. */
  public String words() {
    return words;
  }

  /** Those among whose groups patterns are looked for. */
  public static final List<Trait> OF_PATTERNS = List.of(LOT, PARTS_LOT, TECHNICIAN, SEASON);

  /** Whether the time to the comeback is compared between its groups; they are few. */
  public boolean timed() {
    return timed;
  }

  /** Whether its groups are persons. */
  public boolean ofPersons() {
    return this == TECHNICIAN || this == TECHNICIAN_AND_WORK;
  }

  /** With what its groups are held against each other, in words. */
  public String likeWords() {
    return switch (this) {
      case TECHNICIAN, TECHNICIAN_AND_WORK ->
          "colleagues who did the same work on brakes of the same age, as far as the age is on record";
      case WORK ->
          "other works by the same hands on brakes of the same age, as far as these are on record";
      case CAUSE ->
          "other causes treated by the same hands on brakes of the same age, as far as these are on"
              + " record";
      case AGE, SEASON -> "others after the same work, as far as it is on record";
      default ->
          "others after the same work on brakes of the same age, as far as these are on record";
    };
  }

  /** Within which visits its groups are held against each other. */
  public Stratum stratum(Visit visit) {
    return switch (this) {
      case WORK, CAUSE -> new Stratum(visit.by(), "", age(visit));
      case AGE, SEASON -> new Stratum("", firstOf(visit.works()), "");
      default -> new Stratum("", firstOf(visit.works()), age(visit));
    };
  }

  /** The name in data files. */
  public String id() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }

  /** One value of a trait: the group of all visits that have it. */
  public record Group(Trait trait, String value) implements Comparable<Group> {
    @Override
    public int compareTo(Group other) {
      int byTrait = trait.compareTo(other.trait);
      return byTrait != 0 ? byTrait : value.compareTo(other.value);
    }
  }

  /** The groups this visit belongs to, at most one of each trait. */
  public static List<Group> groups(Visit visit) {
    List<Group> groups = new ArrayList<>();
    for (Trait trait : values()) {
      String value = trait.of(visit);
      if (!value.isEmpty()) {
        groups.add(new Group(trait, value));
      }
    }
    return groups;
  }

  private String of(Visit visit) {
    CaseFile.Brake brake = visit.file().brake();
    return switch (this) {
      case TECHNICIAN -> visit.by();
      case WORK -> firstOf(visit.works());
      case TECHNICIAN_AND_WORK ->
          visit.by().isEmpty() || visit.works().isEmpty()
              ? ""
              : visit.by() + AND + visit.works().get(0);
      case SITE -> visit.file().outcome().map(CaseFile.Outcome::site).orElse("");
      case CAUSE -> firstOf(visit.causes());
      case LOT -> brake.lot();
      case PARTS_LOT -> partsLot(visit.file());
      case SEASON -> season(visit.closed().getMonthValue());
      case FLUID -> brake.fluid().id();
      case KIND ->
          brake.caliperPistons() == 0
              ? ""
              : brake.caliperPistons()
                  + (brake.caliperPistons() == 1 ? " piston" : " pistons")
                  + (brake.reservoir().equals("unknown")
                      ? ""
                      : ", " + brake.reservoir() + " reservoir");
      case POSITION -> brake.position().equals("unknown") ? "" : brake.position();
      case AGE -> age(visit);
    };
  }

  private static String firstOf(List<String> ids) {
    return ids.isEmpty() ? "" : ids.get(0);
  }

  /** The lot of the parts fitted last within a year before. */
  private static String partsLot(CaseFile file) {
    String lot = "";
    int latest = 366;
    for (Entry entry : file.history()) {
      int daysAgo = entry.daysAgo().orElse(366);
      if (!entry.lot().isEmpty() && daysAgo < latest) {
        latest = daysAgo;
        lot = entry.lot();
      }
    }
    return lot;
  }

  /** Seasons of the northern hemisphere, by whole months. */
  static String season(int month) {
    return switch (month) {
      case 12, 1, 2 -> "winter (Dec to Feb)";
      case 3, 4, 5 -> "spring (Mar to May)";
      case 6, 7, 8 -> "summer (Jun to Aug)";
      default -> "autumn (Sep to Nov)";
    };
  }

  private static String age(Visit visit) {
    int years = halfYears(visit) / 2;
    return halfYears(visit) < 0
        ? ""
        : switch (years) {
          case 0 -> "under 1 year";
          case 1 -> "1 to 2 years";
          case 2, 3 -> "2 to 4 years";
          default -> "over 4 years";
        };
  }

  /** Age of the brake in half years, at most 12; -1 where it is not known. */
  public static int halfYears(Visit visit) {
    return visit
        .file()
        .brake()
        .fitted()
        .map(day -> (int) Math.min(12, ChronoUnit.MONTHS.between(day, visit.closed()) / 6))
        .orElse(-1);
  }
}
