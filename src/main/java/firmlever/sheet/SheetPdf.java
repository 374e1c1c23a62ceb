package firmlever.sheet;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PDFontSupplier;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/**
 * Prints an HTML page of ours to PDF. The fonts are embedded; nothing is fetched, and nothing of
 * the day or the machine gets in, so that equal pages give equal bytes.
 */
public final class SheetPdf {
  private SheetPdf() {}

  /** Free fonts under the SIL Open Font License 1.1, out of the library openpdf-fonts-extra. */
  private static final String FONTS = "/liberation/LiberationSans-";

  private static final String FAMILY = "Liberation Sans";

  /** So many letters that cannot be printed are named. */
  private static final int NAMED = 8;

  /** Prints the page; where the font lacks letters of it, the paper says so first. */
  public static byte[] of(String page) {
    XRLog.setLoggingEnabled(false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (TrueTypeFont regular = font("Regular");
        TrueTypeFont bold = font("Bold");
        TrueTypeFont italic = font("Italic")) {
      PDDocument document = new PDDocument();
      String html = page.replaceFirst("<body>", "<body>" + lacking(page, regular));
      PdfRendererBuilder builder = new PdfRendererBuilder();
      builder.useFastMode();
      builder.useUriResolver((base, uri) -> null);
      builder.usePDDocument(document);
      builder.useFont(embedded(document, regular), FAMILY, 400, FontStyle.NORMAL, true);
      builder.useFont(embedded(document, bold), FAMILY, 700, FontStyle.NORMAL, true);
      builder.useFont(embedded(document, italic), FAMILY, 400, FontStyle.ITALIC, true);
      builder.withHtmlContent(html, null);
      builder.withProducer("firmlever");
      builder.toStream(out);
      try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
        renderer.layout();
        renderer.createPDFWithoutClosing();
        document.getDocumentInformation().getCOSObject().removeItem(COSName.CREATION_DATE);
        document.getDocumentInformation().getCOSObject().removeItem(COSName.MOD_DATE);
        document.setDocumentId((long) html.hashCode());
        document.save(out);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  /** A font as a document takes it in: only the letters used, and only if any is. */
  private static PDFontSupplier embedded(PDDocument document, TrueTypeFont font)
      throws IOException {
    return new PDFontSupplier(PDType0Font.load(document, font, true));
  }

  /** A notice of the letters that the font lacks, and that are printed as {@code #}. */
  private static String lacking(String page, TrueTypeFont font) throws IOException {
    CmapLookup letters = font.getUnicodeCmapLookup();
    List<String> codes =
        page.codePoints()
            .filter(c -> c > ' ' && letters.getGlyphId(c) == 0)
            .distinct()
            .mapToObj(c -> String.format(Locale.ROOT, "U+%04X", c))
            .toList();
    return codes.isEmpty()
        ? ""
        : "<p class=\"notice\"><strong>Letters missing.</strong> This paper cannot print "
            + codes.stream().limit(NAMED).collect(Collectors.joining(", "))
            + (codes.size() > NAMED ? " and " + (codes.size() - NAMED) + " others" : "")
            + ", and shows # for each. The HTML and JSON of the same dossier show them.</p>\n";
  }

  /** Reads a font, without its ligatures: looking for them took a third of a paper's time. */
  private static TrueTypeFont font(String style) throws IOException {
    try (InputStream bytes = SheetPdf.class.getResourceAsStream(FONTS + style + ".ttf")) {
      if (bytes == null) {
        throw new IllegalStateException("the build lacks the font " + FONTS + style);
      }
      TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(bytes));
      font.setEnableGsub(false);
      return font;
    }
  }
}
