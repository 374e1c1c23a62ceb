package firmlever.hearing.language;

/** Numbers of signs: the same for the same name wherever they are made. */
public final class SignNumber {
  private SignNumber() {}

  /** The number of a name, as far from that of the next name as any. */
  public static int of(char kind, String name) {
    int number = kind;
    for (int at = 0; at < name.length(); at++) {
      number = (number ^ name.charAt(at)) * 0x01000193;
    }
    return mixed(number);
  }

  // The last steps of MurmurHash3 (Austin Appleby, public domain): each bit moves half of all.
  private static int mixed(int number) {
    int mixed = (number ^ number >>> 16) * 0x85ebca6b;
    mixed = (mixed ^ mixed >>> 13) * 0xc2b2ae35;
    return mixed ^ mixed >>> 16;
  }
}
