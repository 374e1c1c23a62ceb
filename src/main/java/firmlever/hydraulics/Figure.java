package firmlever.hydraulics;

/**
 * One figure from outside, ready to print.
 *
 * @param id name of the figure, kebab-case
 * @param what what it measures
 * @param value its value or values, as text
 * @param unit unit of the value; "1" for a pure number
 * @param source where it stands, or what it rests on
 * @param standing how well it is founded
 * @param usedIn class that reckons with it
 */
public record Figure(
    String id,
    String what,
    String value,
    String unit,
    String source,
    Standing standing,
    String usedIn) {}
