package firmlever.comeback.report.page;

import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.report.Saying;

/** The first screen: six answers, and what stands below. */
final class AnswersPart {
  private final PageWriter page;
  private final ReviewAnswers words;

  AnswersPart(PageWriter page, ReviewAnswers words) {
    this.page = page;
    this.words = words;
  }

  void answers() {
    page.markup("<section class=\"answers\" aria-label=\"Six answers\">\n");
    for (ReviewAnswers.Answer answer : words.answers()) {
      page.markup("<article><h2>" + PageWriter.escaped(answer.question()) + "</h2>\n");
      answer.sayings().forEach(this::saying);
      if (!answer.more().isEmpty()) {
        page.fold("more");
        answer.more().forEach(this::saying);
        page.endFold();
      }
      page.markup("</article>\n");
    }
    page.endSection();
  }

  private void saying(Saying saying) {
    page.markup("<p>");
    for (Saying.Part part : saying.parts()) {
      page.markup(
          part.title().isEmpty()
              ? PageWriter.escaped(part.text())
              : page.link(part.text(), part.title(), part.cases()));
    }
    page.markup("</p>\n");
  }

  void contents() {
    page.markup("<nav aria-label=\"Contents\"><ul>");
    String[][] parts = {
      {"time", "Time to the comeback"},
      {"months", "Month by month"},
      {"causes", "True causes"},
      {"matrix", "Treated and found"},
      {"groups", "Groups"},
      {"patterns", "Patterns"},
      {"avoidable", "Avoidable comebacks"},
      {"diagnosis", "What could be known"},
      {"repeated", "Repeated returns"},
      {"definitions", "What the words mean"},
      {"cases", "Cases"}
    };
    for (String[] part : parts) {
      page.markup("<li><a href=\"#" + part[0] + "\">" + part[1] + "</a></li>");
    }
    page.markup("</ul></nav>\n");
  }
}
