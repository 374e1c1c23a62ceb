package firmlever.hydraulics;

/** How well a figure is founded. */
public enum Standing {
  /** Seen in a standard, regulation, handbook or paper that is named beside it. */
  PUBLISHED,
  /** What the trade does; no publication is claimed. */
  COMMON_PRACTICE,
  /** Set down from memory; to be replaced when a source is seen. */
  FROM_MEMORY
}
