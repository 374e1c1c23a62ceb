package firmlever.sheet;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
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
    String html = page.replaceFirst("<body>", "<body>" + lacking(page));
    XRLog.setLoggingEnabled(false);
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useFastMode();
    builder.useUriResolver((base, uri) -> null);
    builder.useFont(() -> font("Regular"), FAMILY, 400, FontStyle.NORMAL, true);
    builder.useFont(() -> font("Bold"), FAMILY, 700, FontStyle.NORMAL, true);
    builder.useFont(() -> font("Italic"), FAMILY, 400, FontStyle.ITALIC, true);
    builder.withHtmlContent(html, null);
    builder.withProducer("firmlever");
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    builder.toStream(out);
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
      renderer.layout();
      renderer.createPDFWithoutClosing();
      PDDocument document = renderer.getPdfDocument();
      document.getDocumentInformation().getCOSObject().removeItem(COSName.CREATION_DATE);
      document.getDocumentInformation().getCOSObject().removeItem(COSName.MOD_DATE);
      document.setDocumentId((long) html.hashCode());
      document.save(out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A notice of the letters that the font lacks, and that are printed as {@code #}. */
  private static String lacking(String page) {
    List<String> codes;
    try (TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(font("Regular")))) {
      CmapLookup letters = font.getUnicodeCmapLookup();
      codes =
          page.codePoints()
              .filter(c -> c > ' ' && letters.getGlyphId(c) == 0)
              .distinct()
              .mapToObj(c -> String.format(Locale.ROOT, "U+%04X", c))
              .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return codes.isEmpty()
        ? ""
        : "<p class=\"notice\"><strong>Letters missing.</strong> This paper cannot print "
            + codes.stream().limit(NAMED).collect(Collectors.joining(", "))
            + (codes.size() > NAMED ? " and " + (codes.size() - NAMED) + " others" : "")
            + ", and shows # for each. The HTML and JSON of the same dossier show them.</p>\n";
  }

  private static InputStream font(String style) {
    InputStream font = SheetPdf.class.getResourceAsStream(FONTS + style + ".ttf");
    if (font == null) {
      throw new IllegalStateException("the build lacks the font " + FONTS + style);
    }
    return font;
  }
}
