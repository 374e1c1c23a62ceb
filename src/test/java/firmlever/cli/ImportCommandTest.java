package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The import of a shop's table")
class ImportCommandTest {
  @TempDir Path folder;

  private Run importing(Path table) {
    return Run.of(
        "import", table.toString(), "--rejects", folder.resolve("rejects.csv").toString());
  }

  private Path table(String name, String text, String letters) throws IOException {
    return Files.write(folder.resolve(name), text.getBytes(Charset.forName(letters)));
  }

  private List<String> records(String stem) throws IOException {
    return Files.readAllLines(folder.resolve(stem + ".records.ndjson"));
  }

  @ParameterizedTest(name = "reads a year of {0}, and the review reads what it writes")
  @CsvSource({
    "lakeside-workshop-book.csv, 170, 169, 0, 1",
    "lakeside-messy-week.csv, 12, 7, 4, 1",
    "werkstattbuch.csv, 148, 148, 0, 0",
    "cahier-atelier.xlsx, 139, 139, 0, 0"
  })
  void readsAYear(String sample, int rows, int records, int rejected, int blank)
      throws IOException {
    Path table = Files.copy(Path.of("cases", "samples", sample), folder.resolve(sample));
    Run run = importing(table);
    assertThat(run.code()).isEqualTo(rejected == 0 ? 0 : 1);
    assertThat(run.out().replaceAll("\\s+", " "))
        .contains(
            rows
                + " rows read: "
                + records
                + " records, "
                + rejected
                + " rejected, "
                + blank
                + " blank");
    String stem = sample.replaceFirst("\\..*", "");
    List<String> lines = records(stem);
    assertThat(lines).hasSize(records);
    // Most complaints of a shop say something that triage understands too.
    assertThat(lines.stream().filter(line -> line.contains("\"only-told\"")).count())
        .isGreaterThan(records * 8L / 10);
    Run review =
        Run.of(
            "review",
            folder.resolve(stem + ".records.ndjson").toString(),
            "--json",
            "--rejects",
            folder.resolve("review-rejects.csv").toString());
    // One record of the second table has a mistyped year.
    assertThat(review.code()).isEqualTo(sample.equals("werkstattbuch.csv") ? 1 : 0);
    assertThat(review.out()).containsPattern("\"comebacks\" : [1-9]").doesNotContain("\"2052");
  }

  @Test
  @DisplayName("tells a wheel and a day by what a column holds, and a row without a bike")
  void guessesByContent() throws IOException {
    Path table =
        table(
            "rad.csv",
            """
            Datum;Fahrrad;Bremse;zurück;Kundenangabe;Maßnahme;Wer
            04.01.25;Rad 111;vorne;06.01.25;quietscht;neue Beläge;M1
            05.01.25;;hinten;06.01.25;quietscht;neue Beläge;M2
            06.01.25;Rad 123;hinten;07.01.25;Hebel schwammig;entlüftet;M2
            """,
            "windows-1252");
    Run run = importing(table);
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.out()).contains("Bremse → brake.position", "zurück → outcome.closed");
    assertThat(run.out()).contains("line 3: the row tells no bike");
    assertThat(records("rad"))
        .hasSize(2)
        .allMatch(line -> line.contains("\"works\"") && line.contains("\"closed\""))
        .anyMatch(line -> line.contains("RAD-123-rear"));
  }

  @Test
  @DisplayName("guesses columns, days, letters and codes, and shows them")
  void guesses() throws IOException {
    Path table =
        table(
            "jobs.csv",
            """
            Auftrag;Annahme;Rad;Laufrad;Beanstandung;Arbeit;Mechaniker;Preis
            7;03.04.2025;b 0417;VR;Hebel schwammig;Entlüften;t3;12
            8;5.4.25;B-0417;HR;quietscht;neue Beläge;T4;
            9;31.02.2025;B-0418;HR;quietscht;neue Beläge;T4;

            """,
            "windows-1252");
    Run run = importing(table);
    assertThat(run.code()).isEqualTo(1);
    String out = run.out().replaceAll("\\s+", " ");
    assertThat(out)
        .contains(
            "Annahme → opened",
            "Mechaniker → outcome.by",
            "d.M.uuuu or d.M.uu",
            "Windows-1252",
            "semicolons",
            "left out: Preis",
            "no column for outcome.causes");
    assertThat(records("jobs")).hasSize(2);
    assertThat(records("jobs").get(0))
        .contains(
            "\"opened\" : \"2025-04-03\"",
            "\"id\" : \"B-0417-front\"",
            "\"spongy-lever\" : \"present\"",
            "\"full-bleed\"",
            "\"by\" : \"T3\"");
    assertThat(records("jobs").get(1)).contains("2025-04-05", "B-0417-rear", "replace-pads");
    assertThat(Files.readAllLines(folder.resolve("rejects.csv")).get(1))
        .contains("jobs.csv,4,rejected,", "31.02.2025");
  }

  @Test
  @DisplayName("uses a mapping that is there, with the shop's own words")
  void usesTheMapping() throws IOException {
    Path table =
        table(
            "book.csv", "A,B,C,D\n2025-03-04,X1,gone soft,special\n2025-03-05,X2,soft,\n", "UTF-8");
    Path mapping = folder.resolve("book.mapping.json");
    Files.writeString(
        mapping,
        """
        { "format": "firmlever-mapping/1", "heard": ["complaint", "outcome.works"],
          "columns": { "A": "opened", "B": "brake.id", "C": "complaint", "D": "outcome.works" },
          "values": { "outcome.works": { "special": "replace-hose" } } }
        """);
    Run again = importing(table);
    assertThat(again.code()).isZero();
    assertThat(records("book").get(0)).contains("replace-hose", "X-1");
    Files.writeString(mapping, Files.readString(mapping).replace("\"B\":", "\"Bike\":"));
    Run wrong = importing(table);
    assertThat(wrong.code()).isEqualTo(2);
    assertThat(wrong.err()).contains("no column \"Bike\"", "A, B, C, D");
  }

  @Test
  @DisplayName("reads lines of JSON, and days with the month first where only that fits")
  void readsLinesOfJson() throws IOException {
    Path table =
        table(
            "log.jsonl",
            """
            {"ticket":"1","received":"03/25/2025","bike":{"code":"B-7"},"problem":"rear brake squeals"}
            {"ticket":"2","received":"04/02/2025","bike":{"code":"B-7"},"problem":"rear brake squeals again"}
            """,
            "UTF-8");
    assertThat(importing(table).code()).isZero();
    assertThat(records("log").get(1))
        .contains("\"opened\" : \"2025-04-02\"", "\"id\" : \"B-7-rear\"", "\"squeal\"");
  }

  @Test
  @DisplayName("says what it needs where it finds no day or no bike, or no table at all")
  void saysWhatItNeeds() throws IOException {
    Run none = importing(table("odd.csv", "a,b\nred,blue\ngreen,white\n", "UTF-8"));
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).contains("no column tells the day", "the code of the bike", "a, b");
    assertThat(importing(table("empty.csv", "", "UTF-8")).code()).isEqualTo(2);
    assertThat(importing(table("no.xlsx", "no sheet", "UTF-8")).code()).isEqualTo(2);
    assertThat(importing(folder.resolve("missing.csv")).code()).isEqualTo(2);
  }
}
