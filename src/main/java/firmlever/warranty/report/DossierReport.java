package firmlever.warranty.report;

import firmlever.diagnosis.Difference.Grade;
import firmlever.diagnosis.report.DifferenceReport;
import firmlever.document.BadInput;
import firmlever.sheet.Page;
import firmlever.sheet.SheetHtml;
import firmlever.sheet.SheetPdf;
import firmlever.sheet.SheetText;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Dossier;
import firmlever.warranty.History;

/** A dossier of the warranty desk, in every form: the same words everywhere. */
public final class DossierReport {
  private final DossierSheet sheets;
  private final DossierJson json;
  private final ClaimLetter letters;
  private final DifferenceReport differences;
  private final Vocabulary vocabulary;

  public DossierReport(Vocabulary vocabulary) {
    this.sheets = new DossierSheet(vocabulary);
    this.json = new DossierJson();
    this.differences = new DifferenceReport(vocabulary);
    this.vocabulary = vocabulary;
    this.letters = new ClaimLetter(vocabulary);
  }

  /** What was signed of a claim, with the names its papers use. */
  public History history(String text, String name) throws BadInput {
    return History.read(text, name, vocabulary);
  }

  /** For a terminal. */
  public String text(Dossier dossier, int width, boolean bold) {
    return SheetText.of(sheets.of(dossier), width, bold);
  }

  /** One page of HTML that needs nothing but itself. */
  public String html(Dossier dossier) {
    return SheetHtml.of(sheets.of(dossier));
  }

  /** A4, black on white, fonts embedded. */
  public byte[] pdf(Dossier dossier) {
    return SheetPdf.of(html(dossier));
  }

  /** The letter to the claimant, as a page of HTML. */
  public String letter(Dossier dossier) {
    return SheetHtml.of(letters.letter(dossier));
  }

  /** The summary on one page, as a page of HTML. */
  public String summary(Dossier dossier) {
    return SheetHtml.of(letters.summary(dossier));
  }

  /** Any of these pages printed: A4, black on white, fonts embedded. */
  public static byte[] printed(String html) {
    return SheetPdf.of(html);
  }

  /** For programs, format {@code firmlever-dossier/2}. */
  public String json(Dossier dossier) {
    return json.of(dossier);
  }

  /** What an appeal finds changed in the diagnosis since the last decision; empty for nothing. */
  public String diagnosisSince(History history, Dossier dossier, int width) {
    return history
        .difference(dossier)
        .filter(each -> each.grade() != Grade.NONE)
        .map(
            each -> {
              Page page = new Page(width, false);
              page.hanging("- ", "the diagnosis has changed:");
              differences.text(each, width - 2).lines().forEach(line -> page.row("  " + line));
              return page.toString();
            })
        .orElse("");
  }
}
