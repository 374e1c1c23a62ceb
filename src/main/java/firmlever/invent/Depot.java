package firmlever.invent;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Consumer;

/**
 * The job records of an invented lakeside hire depot. Brakes age, faults arise, six technicians
 * treat them well or badly, and the brakes come back or do not. Three patterns are planted, drawn
 * by the seed: a lot whose caliper ports do not stay tight, a technician who bleeds everything, and
 * a season after which more brakes come back with one fault. The same seed gives the same records.
 */
public final class Depot {
  private static final LocalDate OPENED = LocalDate.of(2023, 1, 1);
  private static final LocalDate END = LocalDate.of(2025, 12, 31);
  private static final int LOTS = 12;
  private static final int TECHNICIANS = 6;

  /** How often a technician finds the cause; at a second visit they look harder. */
  private static final double FINDS = 0.9;

  /** Hire brakes are looked after: faults arise less often than the table says. */
  private static final double SELDOM = 0.3;

  private static final double FINDS_AGAIN = 0.96;
  private static final double BLEEDS_ANYWAY = 0.7;
  private static final double HOLDS = 0.96;
  private static final double HOLDS_IN_BAD_LOT = 0.45;
  private static final double BAD_LOT_TIMES = 4;
  private static final double SEASON_BRINGS = 0.12;
  private static final double BLEED_LEAVES_AIR = 0.03;
  private static final double PADS_LEFT_OUT = 0.02;
  private static final double NOTHING_FOUND = 0.03;
  private static final double NOT_WRITTEN_UP = 0.03;

  private final long seed;
  private final Planted planted;

  public Depot(long seed) {
    this.seed = seed;
    SplittableRandom random = new SplittableRandom(seed ^ 0x5ca1ab1eL);
    String lot = lot(random.nextInt(LOTS));
    String technician = "T" + (1 + random.nextInt(TECHNICIANS));
    int season = random.nextInt(4);
    this.planted = new Planted(lot, technician, SEASONS.get(season), SEASON_FAULTS.get(season));
  }

  /** Names of the seasons as the review names them. */
  private static final List<String> SEASONS =
      List.of(
          "winter (Dec to Feb)",
          "spring (Mar to May)",
          "summer (Jun to Aug)",
          "autumn (Sep to Nov)");

  private static final List<String> SEASON_FAULTS =
      List.of("sticky-piston", "caliper-misaligned", "bent-rotor", "contaminated-pads");

  /** What was planted: a lot, a technician, and a season with its fault. */
  public record Planted(String lot, String technician, String season, String seasonFault) {}

  public Planted planted() {
    return planted;
  }

  /** Why a brake was brought. */
  public enum Why {
    /** A fault arose. */
    AROSE,
    /** The visit before left the fault, or brought it in. */
    CARRIED_OVER,
    /** The planted season brought it. */
    SEASON
  }

  /**
   * A record with what nobody in the depot could know.
   *
   * @param line of JSON
   */
  public record Written(String line, Why why) {}

  /** Hands over so many records, one line of JSON each, brake by brake. */
  public void write(long jobs, Consumer<String> lines) {
    writeWithTruth(jobs, written -> lines.accept(written.line));
  }

  /** The same records, each with why the brake was brought. */
  public void writeWithTruth(long jobs, Consumer<Written> lines) {
    long[] left = {jobs};
    for (long brake = 0; left[0] > 0; brake++) {
      new Brake(brake)
          .visits(
              line -> {
                if (left[0] > 0) {
                  left[0]--;
                  lines.accept(line);
                }
              });
    }
  }

  private static String lot(int quarter) {
    return "H" + (21 + quarter / 4) + "-" + (1 + quarter % 4);
  }

  private static int season(LocalDate day) {
    return day.getMonthValue() % 12 / 3;
  }

  /** One brake from the day it was fitted to the end of the records. */
  private final class Brake {
    private final SplittableRandom random;
    private final String id;
    private final LocalDate fitted;
    private final String lot;
    private final String fluid;
    private final String reservoir;
    private final int pistons;
    private final String position;
    private final List<String> history = new ArrayList<>();
    private int visit;

    Brake(long number) {
      random = new SplittableRandom(seed * 0x9e3779b97f4a7c15L + number * 0xd1342543de82ef95L);
      position = number % 2 == 0 ? "rear" : "front";
      id = String.format(Locale.ROOT, "B-%04d-%s", number / 2 + 1, position);
      int quarter = random.nextInt(LOTS);
      lot = lot(quarter);
      fitted = LocalDate.of(2021 + quarter / 4, 1 + 3 * (quarter % 4), 1 + random.nextInt(28));
      fluid = random.nextInt(4) == 0 ? "dot-4" : "mineral-oil";
      reservoir = random.nextInt(3) == 0 ? "sealed" : "diaphragm";
      pistons = random.nextInt(3) == 0 ? 4 : 2;
    }

    void visits(Consumer<Written> lines) {
      LocalDate from = fitted.isBefore(OPENED) ? OPENED : fitted;
      double day = 0;
      Fault returning = null;
      Why returningWhy = Why.CARRIED_OVER;
      double returningIn = 0;
      while (true) {
        double age = (from.toEpochDay() + day - fitted.toEpochDay()) / 365.25;
        Fault fault;
        double wait;
        double total = Fault.ARISING.stream().mapToDouble(f -> rate(f, age)).sum();
        double arises = -Math.log(1 - random.nextDouble()) / total * 365.25;
        if (returning != null && returningIn <= arises) {
          fault = returning;
          wait = returningIn;
        } else {
          fault = arising(age, total);
          wait = arises;
        }
        day += Math.max(1, wait);
        LocalDate opened = from.plusDays((long) day);
        if (opened.isAfter(END)) {
          return;
        }
        boolean again = fault == returning;
        Why why = again ? returningWhy : Why.AROSE;
        returning = null;
        returningWhy = Why.CARRIED_OVER;
        LocalDate closed = opened.plusDays(random.nextInt(3));
        if (closed.isAfter(END)) {
          closed = END;
        }
        visit++;
        String technician = "T" + (1 + random.nextInt(TECHNICIANS));
        Job job = job(fault, technician, again);
        lines.accept(new Written(json(fault, job, technician, opened, closed), why));
        history.add(
            "{\"date\":\""
                + closed
                + "\",\"work\":\""
                + job.work
                + "\",\"by\":\""
                + technician
                + "\"}");
        day += closed.toEpochDay() - opened.toEpochDay();
        // What comes of it: at most one thing, the first that happens.
        if (!job.right && !job.nothing) {
          returning = fault;
          returningIn = 1 - 14 * Math.log(1 - random.nextDouble());
        } else if (!job.nothing && random.nextDouble() > holds(fault)) {
          returning = fault;
          returningIn = 2 - 30 * Math.log(1 - random.nextDouble());
        } else if (season(closed) == SEASONS.indexOf(planted.season)
            && random.nextDouble() < SEASON_BRINGS) {
          returning = Fault.named(planted.seasonFault);
          returningWhy = Why.SEASON;
          returningIn = 3 + random.nextInt(50);
        } else if (job.work.endsWith("bleed") && random.nextDouble() < BLEED_LEAVES_AIR) {
          returning = Fault.AIR_LEFT;
          returningIn = 1 - 10 * Math.log(1 - random.nextDouble());
        } else if (job.work.equals("replace-pads") && random.nextDouble() < PADS_LEFT_OUT) {
          returning = Fault.NOT_HOME;
          returningIn = 1 + random.nextInt(5);
        }
      }
    }

    private double rate(Fault fault, double age) {
      boolean bad = lot.equals(planted.lot) && fault.id().equals("caliper-port-weep");
      return SELDOM * fault.rate(age) * (bad ? BAD_LOT_TIMES : 1);
    }

    private double holds(Fault fault) {
      boolean bad = lot.equals(planted.lot) && fault.id().equals("caliper-port-weep");
      return bad ? HOLDS_IN_BAD_LOT : HOLDS;
    }

    private Fault arising(double age, double total) {
      double at = random.nextDouble() * total;
      for (Fault fault : Fault.ARISING) {
        at -= rate(fault, age);
        if (at < 0) {
          return fault;
        }
      }
      return Fault.ARISING.get(0);
    }

    /** What a technician made of it. */
    private record Job(String cause, String work, boolean right, boolean nothing) {}

    private Job job(Fault fault, String technician, boolean again) {
      if (!again && random.nextDouble() < NOTHING_FOUND) {
        return new Job("", "hand-back", false, true);
      }
      if (technician.equals(planted.technician) && random.nextDouble() < BLEEDS_ANYWAY) {
        boolean mends = fault.work().endsWith("bleed");
        return new Job(mends ? fault.id() : "air-at-lever", "full-bleed", mends, false);
      }
      if (random.nextDouble() < (again ? FINDS_AGAIN : FINDS)) {
        return new Job(fault.id(), fault.work(), true, false);
      }
      return new Job(fault.mistaken(), workOf(fault.mistaken()), false, false);
    }

    private String workOf(String cause) {
      return cause.equals("unbedded-or-glazed-pads") ? "bed-in-pads" : Fault.named(cause).work();
    }

    private String json(
        Fault fault, Job job, String technician, LocalDate opened, LocalDate closed) {
      Map<String, String> symptoms = new LinkedHashMap<>();
      String complaint = "";
      for (Fault.Shown shown : fault.felt()) {
        boolean present = random.nextDouble() < shown.share();
        if (present || random.nextDouble() < 0.5) {
          symptoms.put(shown.symptom(), present ? "present" : "absent");
        }
        complaint = present && complaint.isEmpty() ? shown.symptom() : complaint;
      }
      if (complaint.isEmpty()) {
        complaint = fault.felt().get(0).symptom();
        symptoms.put(complaint, "present");
      }
      if (job.right && random.nextDouble() < 0.9) {
        symptoms.put(fault.telling(), random.nextDouble() < 0.96 ? "present" : "absent");
      }
      // Things looked at in passing, and found all right.
      for (String other : List.of("lever-sinks", "thin-pads", "bent-rotor-seen", "reservoir-low")) {
        if (!other.equals(fault.telling()) && random.nextDouble() < 0.25) {
          symptoms.putIfAbsent(other, random.nextDouble() < 0.02 ? "present" : "absent");
        }
      }
      StringBuilder line = new StringBuilder(1000);
      line.append("{\"format\":\"firmlever-case/1\",\"id\":\"")
          .append(id)
          .append('-')
          .append(visit);
      line.append("\",\"opened\":\"").append(opened);
      line.append("\",\"brake\":{\"id\":\"").append(id);
      line.append("\",\"position\":\"").append(position);
      line.append("\",\"fluid\":\"").append(fluid);
      line.append("\",\"fitted\":\"").append(fitted);
      line.append("\",\"reservoir\":\"").append(reservoir);
      line.append("\",\"caliper\":{\"pistons\":").append(pistons);
      line.append("},\"lot\":\"").append(lot);
      line.append("\"},\"complaint\":\"").append(complaint.replace('-', ' '));
      line.append("\",\"symptoms\":{");
      symptoms.forEach(
          (symptom, presence) ->
              line.append('"').append(symptom).append("\":\"").append(presence).append("\","));
      line.setLength(line.length() - 1);
      line.append("},\"history\":[");
      int shown = Math.max(0, history.size() - 3);
      line.append(String.join(",", history.subList(shown, history.size())));
      if (fault.id().equals("air-at-lever") && random.nextDouble() < 0.6) {
        line.append(shown < history.size() ? "," : "")
            .append("{\"days-ago\":")
            .append(1 + random.nextInt(5))
            .append(",\"event\":\"turned-over\"}");
      }
      line.append("],");
      if (random.nextDouble() >= NOT_WRITTEN_UP) {
        line.append("\"outcome\":{\"causes\":[");
        line.append(job.cause.isEmpty() ? "" : '"' + job.cause + '"');
        line.append("],\"works\":[\"").append(job.work);
        line.append("\"],\"by\":\"").append(technician);
        line.append("\",\"closed\":\"").append(closed).append("\"},");
      }
      line.append("\"source\":\"invented: the lakeside hire depot, seed ").append(seed);
      return line.append("\"}").toString();
    }
  }
}
