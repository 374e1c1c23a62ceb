package firmlever.comeback;

import firmlever.comeback.visits.Trait;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Cause;
import java.util.List;
import java.util.Locale;

/**
 * The skeleton of an 8D report for one pattern: what the figures can fill in, and what people must
 * find out. The team (D1) and its thanks (D8) are people's own.
 *
 * @param problem D2: what is seen, where, how much
 * @param containment D3: what keeps riders safe meanwhile
 * @param rootCauses D4: candidates to look into, no verdicts
 * @param escapePoint D4: the check that should have caught it
 * @param corrective D5 and D6: what to try, and how to see that it works
 * @param preventive D7: what keeps it from coming again
 */
public record EightDisciplines(
    String problem,
    String containment,
    List<String> rootCauses,
    String escapePoint,
    String corrective,
    String preventive) {

  static EightDisciplines of(Clusters.Found found, List<String> commonest, Vocabulary vocabulary) {
    String cause = found.cause().isEmpty() ? "" : nameOf(found.cause(), vocabulary);
    String with =
        cause.isEmpty()
            ? ", most often with "
                + String.join(
                    ", ", commonest.stream().limit(3).map(id -> nameOf(id, vocabulary)).toList())
            : " with " + cause;
    String problem =
        String.format(
            Locale.ROOT,
            "After %d visits of %s, %d returns%s; %.1f would be usual for brakes of the same age"
                + " and complaint.",
            found.visits(),
            spoken(found.trait(), found.value()),
            found.returns(),
            with,
            found.expected());
    String part = found.cause().isEmpty() ? "" : partOf(found.cause(), vocabulary);
    return switch (found.trait()) {
      case LOT, PARTS_LOT ->
          new EightDisciplines(
              problem,
              "List every brake of this lot in use; look for "
                  + (cause.isEmpty() ? "these causes" : cause)
                  + " at its next visit, and hold back unused stock of the lot.",
              List.of(
                  "the " + (part.isEmpty() ? "part" : part) + " of this lot itself",
                  "how the lot was stored, fitted or filled",
                  "a use that only these bikes have"),
              "At the first visit nobody asked which lot it was: the repair was judged alone.",
              "Put one sample of the lot beside a sound one and measure; change the part, not the"
                  + " fluid. It works when this lot comes back no more than others for 90 days.",
              "Ask for the lot at the desk; tell the maker with this list.");
      case TECHNICIAN ->
          new EightDisciplines(
              problem,
              "A second pair of eyes on this technician's brakes before they go back, for a month.",
              List.of(
                  "the same work whatever the complaint, before anything was looked for",
                  "too little time, a tool or a kit that is not right",
                  "harder brakes than the others get: the comparison allows for age and complaint,"
                      + " and for nothing else"),
              "The check that would have told is named beside each case below.",
              "Go through five of the cases together, first the findings, then the work. It works"
                  + " when the rate meets that of the others for 90 days.",
              "No bleed is booked without a finding that speaks for air.");
      default ->
          new EightDisciplines(
              problem,
              "In this season look for "
                  + (cause.isEmpty() ? "these causes" : cause)
                  + " on every brake that comes in, whatever it came for.",
              List.of(
                  "weather: wet, salt, frost or heat",
                  "how the bikes are kept, washed or ridden then",
                  "people: holidays, helpers, haste"),
              "The acceptance check looks for what was mended, not for what the season brings.",
              "Add the check to the acceptance for these months. It works when next year's season"
                  + " shows no more than the other months.",
              "A service before the season starts.");
    };
  }

  /** The group as a sentence names it. */
  public static String spoken(Trait trait, String value) {
    return switch (trait) {
      case LOT -> "brakes of lot " + value;
      case PARTS_LOT -> "brakes with parts of lot " + value;
      case TECHNICIAN -> "technician " + value;
      default -> value;
    };
  }

  private static String nameOf(String cause, Vocabulary vocabulary) {
    Cause known = vocabulary.causes().get(cause);
    return known == null ? "no cause on record" : known.name();
  }

  private static String partOf(String cause, Vocabulary vocabulary) {
    Cause known = vocabulary.causes().get(cause);
    return known == null ? "" : known.part();
  }
}
