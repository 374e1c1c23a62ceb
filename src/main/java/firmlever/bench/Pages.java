package firmlever.bench;

import firmlever.web.Response;
import firmlever.web.Session;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.List;
import java.util.Optional;

/** Lays out the pages by templates that the build has turned into Java. */
final class Pages {
  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(null, ContentType.Html, null, "firmlever.bench.pages");
  private final Words words;
  private final String assets;

  /**
   * @param assets what tells the browser that style and script have changed
   */
  Pages(Words words, String assets) {
    this.words = words;
    this.assets = assets;
  }

  Words words() {
    return words;
  }

  View.Frame frame(Optional<Session> session, String title, List<String> problems) {
    return new View.Frame(words, session, title, assets, "", problems);
  }

  Response show(int status, String template, Object model) {
    StringOutput out = new StringOutput(16_000);
    engine.render(template + ".jte", model, out);
    return Response.page(status, out.toString());
  }

  /** A part of a page, to stand within a sheet made elsewhere. */
  String part(String template, Object model) {
    StringOutput out = new StringOutput(8_000);
    engine.render(template + ".jte", model, out);
    return out.toString();
  }
}
