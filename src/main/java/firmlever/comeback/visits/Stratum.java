package firmlever.comeback.visits;

/**
 * What visits must have in common to be compared; a part that does not matter is empty.
 *
 * @param by code of who did the work
 * @param work the first work
 * @param age class of the brake's age
 */
public record Stratum(String by, String work, String age) implements Comparable<Stratum> {
  @Override
  public int compareTo(Stratum other) {
    int c = by.compareTo(other.by);
    c = c != 0 ? c : work.compareTo(other.work);
    return c != 0 ? c : age.compareTo(other.age);
  }
}
