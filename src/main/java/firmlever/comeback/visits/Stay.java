package firmlever.comeback.visits;

import java.util.List;

/**
 * What is on record of a visit.
 *
 * @param complaint in the customer's words; empty where nobody wrote it down
 * @param present symptoms found or told
 * @param works done
 */
public record Stay(String complaint, List<String> present, List<String> works) {}
