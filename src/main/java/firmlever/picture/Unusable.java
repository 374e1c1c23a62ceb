package firmlever.picture;

/** What was handed over cannot be made a plain picture. */
public final class Unusable extends Exception {
  private static final long serialVersionUID = 1L;

  /** Why not. */
  public enum Why {
    /** By its first bytes it is neither JPEG nor PNG, whatever its name. */
    NO_PICTURE,
    /** More pixels, or a longer side, than may be; nothing of it was decoded. */
    TOO_LARGE,
    /** It ends too early, or is written in a way nobody reads here. */
    DAMAGED
  }

  private final Why why;

  Unusable(Why why) {
    super(why.name());
    this.why = why;
  }

  public Why why() {
    return why;
  }
}
