package firmlever.web;

/** A request is not let in; the message says why in words. */
final class Refused extends Exception {
  private static final long serialVersionUID = 1L;

  private final int status;

  Refused(int status, String why) {
    super(why);
    this.status = status;
  }

  int status() {
    return status;
  }
}
