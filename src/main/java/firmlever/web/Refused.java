package firmlever.web;

import firmlever.document.Limit;

/** A request is not let in; the message says why in words. */
final class Refused extends Exception {
  private static final long serialVersionUID = 1L;

  private final int status;

  Refused(int status, String why) {
    super(why);
    this.status = status;
  }

  static Refused tooMuch() {
    return new Refused(413, "That is more than a form holds. Shorten what was typed.");
  }

  static Refused tooLarge() {
    return new Refused(
        413,
        "A photo may have "
            + Limit.PHOTO_BYTES.most() / (1024 * 1024)
            + " MB at most. Set the camera to smaller pictures, and take it again.");
  }

  int status() {
    return status;
  }
}
