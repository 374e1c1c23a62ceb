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
    // One record of the third has a mistyped year.
    "werkstattbuch.csv, 148, 147, 1, 0",
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
    assertThat(review.code()).isZero();
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
            "31.12.2025 or 31.12.25",
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

  /** A table of so many days with three columns of words. */
  private static String year(String headings, int rows, String says, String did, String also) {
    StringBuilder text = new StringBuilder(headings).append('\n');
    for (int i = 0; i < rows; i++) {
      text.append(
          "%d/%d/25;B-%04d;%s;%s;%s\n".formatted(1 + i / 28, 1 + i % 28, i, says, did, also));
    }
    return text.toString();
  }

  private static String plain(Run run) {
    return (run.out() + run.err()).replaceAll("\\s+", " ");
  }

  @ParameterizedTest(name = "guesses complaints and works by their cells under the headings {0}")
  @CsvSource({"In;Bike;A;B;C", "In;Bike;Notes;C;Repairs", "In;Bike;Done today;Told;C"})
  void guessesWordsByContent(String headings) throws IOException {
    String[] names = headings.split(";");
    boolean worksFirst = names[2].startsWith("Done");
    String says = "rear lever is spongy";
    String did = "full bleed, fitted new pads and also cleaned rotor";
    Path table =
        table(
            "words.csv",
            worksFirst
                ? year(headings, 30, did, says, "paid")
                : year(headings, 30, "paid in cash", says, did),
            "UTF-8");
    String out = plain(importing(table));
    assertThat(out)
        .contains(
            names[3] + " → complaint", names[worksFirst ? 2 : 4] + " → outcome.works", "Now: ");
    assertThat(records("words").get(0)).contains("spongy-lever", "full-bleed", "clean-rotor");
  }

  @Test
  @DisplayName("says what to mend where the column of complaints was left out")
  void saysWhatToMend() throws IOException {
    Path table =
        table("swapped.csv", year("In;Bike;Says;Did;Pay", 30, "squeals", "bled", "cash"), "UTF-8");
    Files.writeString(
        folder.resolve("swapped.mapping.json"),
        """
        { "format": "firmlever-mapping/1", "separator": ";", "dates": ["M/d/uu"],
          "heard": ["complaint"],
          "columns": { "In": "opened", "Bike": "brake.id", "Did": "complaint" } }
        """);
    assertThat(plain(importing(table)))
        .contains(
            "\"Says\" was left out though 30 of 30 cells are heard as complaints",
            "\"Did\" fills complaint, and only 0 of 30 cells are heard; let \"Says\" fill it")
        .doesNotContain("Now: ");
  }

  @Test
  @DisplayName("names a day written unlike the others with its line, and what it would be")
  void namesSlips() throws IOException {
    Path table =
        table(
            "slips.csv",
            year("In;Bike;Says;Did;Out", 30, "squeals", "bled", "12/30/25")
                + """
                5.3.25;B-1;soft;bled;
                5-4-25;B-2;soft;bled;
                5/7/2025;B-3;soft;bled;5/8/25
                5/6/59;B-4;soft;bled;
                5/9/25;B-5;soft;bled;5.7.25
                5/9/25;B-6;soft;bled;soon
                May;B-7;soft;bled;
                Total;;;;412
                """,
            "UTF-8");
    Files.writeString(
        folder.resolve("slips.mapping.json"),
        """
        { "format": "firmlever-mapping/1", "separator": ";", "dates": ["M/d/uu", "M/d/uuuu"],
          "heard": ["complaint", "outcome.works"],
          "columns": { "In": "opened", "Bike": "brake.id", "Says": "complaint",
                       "Did": "outcome.works", "Out": "outcome.closed" } }
        """);
    Run given = importing(table);
    assertThat(plain(given)).contains("38 rows read");
    Files.delete(folder.resolve("slips.mapping.json"));
    Run run = importing(table);
    assertThat(run.code()).isEqualTo(1);
    assertThat(plain(run))
        .contains(
            "days are written 12/31/25 or 12/31/2025 ",
            "line 32: the day it came in \"5.3.25\" is written as 31.12.25; ",
            "others are written as 12/31/25 (read as they are it would be 2025-05-03): mend it",
            "line 33: the day it came in \"5-4-25\" is written as 31-12-25; ",
            "line 35: the day it came in \"5/6/59\" is read as 2059-05-06, more than a year",
            "line 36: the day it went back \"5.7.25\" is written as 31.12.25",
            "line 37: the day it went back \"soon\" is no day",
            "line 38: the day it came in \"May\" is no day",
            "1 a row of totals (line 39)",
            "33 records, 4 rejected");
    assertThat(records("slips"))
        .anyMatch(line -> line.contains("2025-05-07") && line.contains("2025-05-08"));
  }

  @Test
  @DisplayName("names both days where a brake went back before it came, and the one to look at")
  void namesBothDays() throws IOException {
    Path table =
        table(
            "days.csv",
            year("In;Bike;Says;Did;Out", 12, "squeals", "bled", "")
                + "6.5.25;B-1;soft;bled;5/8/25\n",
            "UTF-8");
    Files.writeString(
        folder.resolve("days.mapping.json"),
        """
        { "format": "firmlever-mapping/1", "separator": ";", "dates": ["M/d/uu", "M.d.uu"],
          "columns": { "In": "opened", "Bike": "brake.id", "Out": "outcome.closed",
                       "Says": "complaint" } }
        """);
    assertThat(plain(importing(table)))
        .contains(
            "line 14: it went back on 2025-05-08 (\"5/8/25\"), before it came in on 2025-06-05"
                + " (\"6.5.25\"): \"6.5.25\" is written as 31.12.25; the 12 others are written",
            "so look at that one first");
  }

  @Test
  @DisplayName("refuses a mapping that names what case files do not know, once and with its line")
  void refusesUnknownNames() throws IOException {
    Path table = table("names.csv", year("In;Bike;Says;Did;X", 9, "soft", "bled", ""), "UTF-8");
    Files.writeString(
        folder.resolve("names.mapping.json"),
        """
        { "format": "firmlever-mapping/1", "separator": ";", "dates": ["M/d/uu"],
          "heard": ["complaint"],
          "columns": { "In": "opened", "Bike": "brake.id", "Says": "complaint",
            "Did": "outcome.work" },
          "values": {
            "outcome.works": { "scuffed": "sanded", "swopped": "new pads",
              "air": "air-drawn-in" },
            "outcome.causes": { "soft": "air-in-lines" } } }
        """);
    Run run = importing(table);
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err().replaceAll("\\s+", " "))
        .contains(
            "names.mapping.json:4:",
            "\"outcome.work\" is no field of a case file Maybe \"outcome.works\" was meant.",
            "names.mapping.json:6:",
            "\"sanded\" is no word for outcome.works",
            "names.mapping.json:7:",
            "\"air-drawn-in\" is no word for outcome.works Maybe put it under values,"
                + " outcome.causes.",
            "names.mapping.json:8:",
            "\"air-in-lines\" is no word for outcome.causes Maybe")
        .doesNotContain("new pads");
  }

  @Test
  @DisplayName("takes a work for no cause, and what tells a fault among works for one")
  void takesNoWorkForACause() throws IOException {
    Path table =
        table(
            "works.csv",
            """
            opened,bike,complaint,work
            2025-01-07,B-1,drags,new pads and rotor
            2025-01-08,B-2,rattles,pads fitted with spring
            2025-01-09,B-3,squeals,"Beläge verölt, neue Beläge"
            2025-01-10,B-4,drags after new pads,"piston grippé, pistons nettoyés"
            2025-01-11,B-5,squeals,"new pads, pads were oily"
            """,
            "UTF-8");
    String out = plain(importing(table));
    assertThat(records("works").subList(0, 2)).noneMatch(line -> line.contains("causes"));
    assertThat(records("works").get(2)).contains("contaminated-pads", "replace-pads");
    assertThat(records("works").get(3)).contains("seized-piston").doesNotContain("owner");
    assertThat(out)
        .contains("tell what was found: \"pads were oily\" (put them under values, outcome.causes");
  }
}
