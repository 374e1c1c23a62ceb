package firmlever.benchmark;

/** A program that does nothing: what Java alone takes to start and end. */
final class Nothing {
  private Nothing() {}

  public static void main(String[] args) {}
}
