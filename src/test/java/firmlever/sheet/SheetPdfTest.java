package firmlever.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A paper as PDF")
class SheetPdfTest {
  /** Reads a paper back, and notes how far to the right any letter of it stands. */
  private static final class Read extends PDFTextStripper {
    private float right;

    @Override
    protected void processTextPosition(TextPosition letter) {
      right = Math.max(right, letter.getXDirAdj() + letter.getWidthDirAdj());
      super.processTextPosition(letter);
    }
  }

  private static String text(Sheet sheet, Read read) throws IOException {
    try (PDDocument document = Loader.loadPDF(SheetPdf.of(SheetHtml.of(sheet)))) {
      return read.getText(document).replaceAll("\\s+", " ");
    }
  }

  @Test
  @DisplayName("says which letters it cannot print")
  void saysWhatItCannotPrint() throws IOException {
    String lacking = text(new Sheet("Claim").say("دراجة and 刹车, hose"), new Read());
    assertThat(lacking).contains("Letters missing", "U+0631", "U+5239", "HTML and JSON");
    String plain = text(new Sheet("Claim").say("Bremsbeläge, śruba, тормоз, φρένο"), new Read());
    assertThat(plain).doesNotContain("missing", "#").contains("śruba", "тормоз");
  }

  @Test
  @DisplayName("breaks a word that is longer than its line")
  void breaksLongWords() throws IOException {
    String word = "spongy".repeat(100);
    Sheet sheet =
        new Sheet("Claim")
            .say(word)
            .notice("Mind", word)
            .items(List.of(word))
            .table("Words", List.of("a", "b"), List.of(List.of("x", word)));
    Read read = new Read();
    assertThat(text(sheet, read).replace(" ", "")).contains(word + "Mind", word);
    assertThat(read.right).isLessThan(PDRectangle.A4.getWidth());
  }
}
