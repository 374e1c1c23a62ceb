package firmlever.hearing.language;

/** Word classes the code itself asks for; a language file fills them. Its ordinal is the atom. */
public enum Grammar {
  /** Words that say too little to count as distance. */
  FILLER,
  /** Words that begin a new clause: but, although. */
  TURN,
  /** Words that end the reach of a denial and not the clause: and, then. */
  JOIN,
  /** Words that deny. */
  NOT,
  /** Words that deny together with a denial before them, and not alone: (ne) plus. */
  PLUS,
  /** An answer that affirms. */
  YES,
  /** Words that leave open whether it is so. */
  HEDGE,
  /** Words that announce a guess at the cause. */
  GUESS,
  /** Words that ask for a work, or say it is needed. */
  WISH,
  /** Words that tell what somebody else says. */
  REPORTED,
  /** Words by which the speaker does not believe it. */
  DISBELIEVED,
  /** Words that ask why something is so, and so say that it is. */
  PRESUPPOSED,
  /** Words that only tell when: after, since. */
  WHEN,
  /** Words that say something is over. */
  ENDED,
  /** The customer and people near him. */
  OWNER,
  /** A workshop and its people. */
  SHOP,
  /** Words of a sentence that does not say who did it: was bled. */
  PASSIVE,
  /** Parts of a bicycle that are no part of its brakes: saddle, chain. */
  ASIDE,
  /** Parts of a brake, and the brake itself. */
  PART,
  FRONT,
  REAR,
  /** Both wheels in one word. */
  EACH,
  /** Words that make a span of time lie behind us: ago. */
  AGO,
  /** Words that make a week or a Sunday the last one. */
  LAST,
  /** Words that make a day no single day: every. */
  EVERY,
  /** Verbs that begin a clause in which the speaker leaves himself out: bled it on Sunday. */
  DOING;

  public boolean in(Word word) {
    return word.is(ordinal());
  }
}
