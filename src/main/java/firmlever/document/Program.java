package firmlever.document;

/** This program, as its papers name it. */
public final class Program {
  private Program() {}

  public static final String VERSION = "1.0";
}
