package firmlever.document;

import java.util.Locale;

/**
 * How large, deep and many things may be: every limit a user can meet, in one place. What goes
 * beyond is refused in words, cut and told, or left out and told; never taken in silence.
 */
public enum Limit {
  FILE_BYTES(64 * 1024 * 1024, "bytes", "a case, a policy or a table; beyond: refused"),
  NESTING(60, "levels", "brackets within brackets in JSON; beyond: refused"),
  TEXT_LETTERS(1_000_000, "letters", "one text in JSON; beyond: refused"),
  NUMBER_DIGITS(400, "digits", "one number in JSON; beyond: refused"),
  HISTORY(1000, "entries", "the history of a case; beyond: refused"),
  COMPLAINT_LETTERS(2000, "letters", "the complaint of a case; beyond: refused, by import cut"),
  NOTE_LETTERS(1000, "letters", "a note, a source, a reason in a case; beyond: refused"),
  HEARD_LETTERS(20_000, "letters", "what is listened to of one text; beyond: not heard, and told"),
  RECORD_BYTES(
      1_000_000, "bytes", "one case of many, a line or a file, unpacked; beyond: rejected alone"),
  BRAKE_RECORDS(
      500,
      "records",
      "under one brake's code in a review; beyond: all rejected, it stands for many"),
  PAGE_ROWS(
      500,
      "rows",
      "one table on the page of a review; beyond: left out and told, --csv writes all"),
  TABLE_ROWS(500_000, "rows", "a table for import; beyond: refused"),
  TABLE_UNPACKED_BYTES(256 * 1024 * 1024, "bytes", "an .xlsx, unpacked; beyond: refused"),
  PAPER_BYTES(50_000_000, "bytes", "a paper handed in with a claim; beyond: not read, and told"),
  DRAWS(100_000, "draws", "redrawn models (--draws); beyond: refused"),
  ANSWER_WORK(
      400_000_000,
      "visits",
      "table entries visited for one answer, some 0.6 s of a processor; beyond: refused with what to"
          + " leave out, searches end early and say so"),
  FIRINGS(20_000, "firings", "rules about one case; beyond: the rules run in a circle"),
  CLAUSE_FIRINGS(100_000, "firings", "rules about one claim; beyond: the same"),
  FORM_BYTES(256 * 1024, "bytes", "a form sent to the bench; beyond: refused (413)"),
  FORM_FIELDS(2000, "fields", "in such a form; beyond: refused (413)"),
  ADDRESS_LETTERS(2000, "letters", "an address asked of the bench; beyond: refused (414)"),
  REQUEST_SECONDS(10, "seconds", "a request to the bench may take to arrive; beyond: cut off"),
  PHOTO_BYTES(
      12 * 1024 * 1024,
      "bytes",
      "a photo sent to the bench, as its camera made it; beyond: refused"),
  PHOTO_PIXELS(50_000_000, "pixels", "in such a photo; beyond: refused before it is decoded"),
  PHOTO_SIDE(20_000, "pixels", "along one side of it; beyond: the same"),
  PHOTO_LETTERS(200, "letters", "what such a photo shows, in words; beyond: refused"),
  JOB_PHOTOS(40, "photos", "attached to one job, those struck out counted; beyond: refused"),
  SESSIONS(500, "people", "signed in at once; beyond: the longest idle is signed out");

  private final int most;
  private final String unit;
  private final String what;

  Limit(int most, String unit, String what) {
    this.most = most;
    this.unit = unit;
    this.what = what;
  }

  /** The most there may be, in its unit. */
  public int most() {
    return most;
  }

  /** A line each: number, unit, of what, and what comes of more. */
  public static String table() {
    StringBuilder lines = new StringBuilder();
    for (Limit each : values()) {
      lines.append(String.format(Locale.ROOT, "%,13d %-8s %s%n", each.most, each.unit, each.what));
    }
    return lines.toString();
  }
}
