package firmlever.hearing.language;

/** How a symptom was spoken of. */
public enum Certainty {
  PRESENT,
  ABSENT,
  /** Spoken of, and neither claimed nor denied for certain. */
  UNSURE
}
