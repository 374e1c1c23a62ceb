package firmlever.sheet;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.knowm.xchart.internal.chartpart.Chart;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Writes a chart as SVG text, with a title and a description for those who cannot see it. */
public final class SvgPicture {
  private SvgPicture() {}

  private static final String SVG = "http://www.w3.org/2000/svg";

  public static String of(Chart<?, ?> chart, String title, String description) {
    Document document = emptyDocument();
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
    context.setComment(" drawn by firmlever ");
    JoinedLines graphics = new JoinedLines(context);
    int width = chart.getWidth();
    int height = chart.getHeight();
    graphics.setSVGCanvasSize(new java.awt.Dimension(width, height));
    chart.paint(graphics, width, height);
    graphics.close();
    Element root = graphics.getRoot();
    root.setAttributeNS(null, "viewBox", "0 0 " + width + " " + height);
    root.setAttributeNS(null, "role", "img");
    Element words = document.createElementNS(SVG, "desc");
    words.setTextContent(description);
    root.insertBefore(words, root.getFirstChild());
    Element name = document.createElementNS(SVG, "title");
    name.setTextContent(title);
    root.insertBefore(name, words);
    StringWriter text = new StringWriter();
    try {
      graphics.stream(root, text, false, false);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static Document emptyDocument() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(SVG, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("every Java has an XML parser", e);
    }
  }
}
