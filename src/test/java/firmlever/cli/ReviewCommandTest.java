package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.invent.Depot;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The review")
class ReviewCommandTest {
  @TempDir Path folder;

  private Path file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private Run review(Object... args) {
    List<String> all = new ArrayList<>(List.of("review"));
    Arrays.stream(args).map(Object::toString).forEach(all::add);
    all.addAll(List.of("--rejects", folder.resolve("rejects.csv").toString()));
    return Run.of(all.toArray(String[]::new));
  }

  private static List<String> records(int jobs, long seed) {
    List<String> lines = new ArrayList<>();
    new Depot(seed).write(jobs, lines::add);
    return lines;
  }

  @Test
  @DisplayName("is the same for any number of threads, any order of records and any packing")
  void isTheSameInAnyOrder() throws IOException {
    List<String> lines = records(500, 5);
    Path plain = file("a.ndjson", String.join("\n", lines));
    Collections.shuffle(lines, new Random(3));
    Path first = file("z.ndjson", String.join("\r\n", lines.subList(0, 240)) + "\n\n");
    Path packed = folder.resolve("b.ndjson.gz");
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(packed))) {
      out.write(String.join("\n", lines.subList(240, 500)).getBytes(StandardCharsets.UTF_8));
    }
    Path html = folder.resolve("one.html");
    Path again = folder.resolve("two.html");
    Run one =
        review(
            plain,
            "--json",
            "--backtest",
            "--threads",
            1,
            "--html",
            html,
            "--csv",
            folder.resolve("t1"));
    Run two =
        review(
            first,
            packed,
            "--json",
            "--backtest",
            "--threads",
            3,
            "--html",
            again,
            "--csv",
            folder.resolve("t2"));
    assertThat(one.code()).isZero();
    assertThat(two.out()).isEqualTo(one.out());
    assertThat(Files.readString(again)).isEqualTo(Files.readString(html));
    for (String table : List.of("comebacks.csv", "groups.csv", "patterns.csv", "months.csv")) {
      assertThat(folder.resolve("t2").resolve(table))
          .hasSameTextualContentAs(folder.resolve("t1").resolve(table));
    }
    assertThat(Files.readString(html))
        .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
        .doesNotContain("<script", "http://www.w3.org/1999/xhtml", "src=");
  }

  @Test
  @DisplayName("counts and lists what it cannot use, and goes on with the rest")
  void listsWhatItCannotUse() throws IOException {
    List<String> lines = records(60, 8);
    String good = lines.get(0);
    lines.add(3, "{\"format\":\"firmlever-case/1\",\"id\":\"cut off");
    lines.add(7, "");
    lines.add(9, good.replace("\"symptoms\"", "\"simptoms\""));
    lines.add(good);
    Path mixed = file("mixed.ndjson", String.join("\n", lines));
    Path cut = folder.resolve("cut.ndjson.gz");
    byte[] packed;
    try (var bytes = new java.io.ByteArrayOutputStream()) {
      try (OutputStream out = new GZIPOutputStream(bytes)) {
        out.write(String.join("\n", records(40, 9)).getBytes(StandardCharsets.UTF_8));
      }
      packed = bytes.toByteArray();
    }
    Files.write(cut, Arrays.copyOf(packed, packed.length / 2));
    Run run = review(mixed, cut, "--json");
    assertThat(run.code()).isEqualTo(1);
    List<String> rejects = Files.readAllLines(folder.resolve("rejects.csv"));
    assertThat(rejects.get(0)).isEqualTo("file,line,what,reason");
    assertThat(rejects)
        .anySatisfy(line -> assertThat(line).contains("mixed.ndjson,4,"))
        .anySatisfy(line -> assertThat(line).contains("mixed.ndjson,10,", "simptoms", "symptoms"))
        .anySatisfy(line -> assertThat(line).contains("there twice"))
        .anySatisfy(line -> assertThat(line).contains("cut.ndjson.gz", "cannot be read on"));
    int read = number(run.out(), "records");
    assertThat(number(run.out(), "rejected")).isEqualTo(rejects.size() - 1);
    assertThat(number(run.out(), "visits")).isEqualTo(read - rejects.size() + 1);
  }

  private static int number(String json, String name) {
    var matcher = java.util.regex.Pattern.compile("\"" + name + "\" : (\\d+)").matcher(json);
    assertThat(matcher.find()).isTrue();
    return Integer.parseInt(matcher.group(1));
  }

  @Test
  @DisplayName("--until is what a hand would have cut out of the records that evening")
  void untilIsATrueCut() throws IOException {
    List<String> all = records(500, 4);
    String day =
        all.stream()
            .filter(line -> line.contains("\"closed\""))
            .filter(line -> !field(line, "closed").equals(field(line, "opened")))
            .map(line -> field(line, "opened"))
            .sorted()
            .skip(200)
            .findFirst()
            .orElseThrow();
    List<String> cut = new ArrayList<>();
    for (String line : all) {
      if (field(line, "opened").compareTo(day) <= 0) {
        boolean stillHere = line.contains("\"closed\"") && field(line, "closed").compareTo(day) > 0;
        cut.add(stillHere ? line.replaceFirst("\"outcome\":\\{[^}]*\\},", "") : line);
      }
    }
    assertThat(cut).hasSizeBetween(200, 480);
    assertThat(all.containsAll(cut)).as("no brake was in the shop that evening").isFalse();
    Run until = review(file("all.ndjson", String.join("\n", all)), "--json", "--until", day);
    assertThat(until.code()).isZero();
    assertThat(number(until.out(), "skipped")).isEqualTo(all.size() - cut.size());
    Run hand = review(file("cut.ndjson", String.join("\n", cut)), "--json", "--until", day);
    String counts = "\"(records|skipped|remarks)\" : \\d+";
    assertThat(until.out().replaceAll(counts, "")).isEqualTo(hand.out().replaceAll(counts, ""));
  }

  private static String field(String line, String name) {
    return line.replaceFirst(".*\"" + name + "\":\"([^\"]*)\".*", "$1");
  }

  @Test
  @DisplayName("accounts for every record and every file, and believes no mistyped year")
  void accountsForEverything() throws IOException {
    List<String> lines = records(60, 8);
    String good = lines.get(20);
    lines.set(
        20,
        good.replace(field(good, "opened"), "2052-01-01")
            .replaceFirst("\"outcome\":\\{[^}]*\\},", ""));
    Path inside = Files.createDirectory(folder.resolve("in"));
    Files.writeString(inside.resolve("a.jsonl"), String.join("\n", lines));
    Files.writeString(inside.resolve("b.csv"), "a,b\n1,2\n");
    Files.writeString(inside.resolve("notes.txt"), "buy pads\n");
    Run run = review(inside, "--json");
    assertThat(run.code()).isEqualTo(1);
    assertThat(number(run.out(), "records")).isEqualTo(60);
    assertThat(number(run.out(), "rejected")).isEqualTo(1);
    assertThat(number(run.out(), "visits")).isEqualTo(59);
    assertThat(number(run.out(), "files-not-read")).isEqualTo(2);
    assertThat(run.out()).doesNotContain("2052");
    assertThat(Files.readAllLines(folder.resolve("rejects.csv")))
        .anySatisfy(line -> assertThat(line).contains("a.jsonl,21,rejected,", "2052-01-01"))
        .anySatisfy(line -> assertThat(line).contains("b.csv", "file-not-read", "import"))
        .anySatisfy(line -> assertThat(line).contains("notes.txt", "file-not-read"));
  }

  @Test
  @DisplayName("hears the complaint of a record without a finding, unless told not to")
  void hearsComplaints() throws IOException {
    String job =
        "{\"format\":\"firmlever-case/1\",\"id\":\"%s\",\"opened\":\"%s\",\"brake\":{\"id\":\"B-1\",\"fluid\":\"mineral-oil\"},\"complaint\":\"%s\"%s}";
    String found = ",\"symptoms\":{\"squeal\":\"present\"}";
    Path records =
        file(
            "words.ndjson",
            String.join(
                "\n",
                job.formatted("J1", "2026-01-05", "lever feels spongy", ""),
                job.formatted("J2", "2026-01-15", "the brake squeals loudly", ""),
                job.formatted("J3", "2026-02-15", "see the other sheet", ""),
                job.formatted("J4", "2026-05-15", "lever feels spongy", found)));
    Run heard = review(records, "--json");
    assertThat(number(heard.out(), "complaints-heard")).isEqualTo(2);
    assertThat(number(heard.out(), "complaints-not-understood")).isEqualTo(1);
    // Spongy, then a squeal: another kind. The third was not understood: related on both sides.
    assertThat(number(heard.out(), "comebacks")).isEqualTo(2);
    Run coded = review(records, "--json", "--coded-only");
    assertThat(number(coded.out(), "complaints-heard")).isZero();
    assertThat(number(coded.out(), "comebacks")).isEqualTo(3);
    Run text = review(records);
    assertThat(text.out().replaceAll("\\s+", " "))
        .contains("the complaint was read instead, and understood in 2");
    assertThat(review(records, "--coded-only").out()).doesNotContain("read instead");
    String told = found + ",\"only-told\":[\"squeal\"]";
    Path imported =
        file("told.ndjson", job.formatted("J5", "2026-01-05", "it squeals like a pig", told));
    assertThat(number(review(imported, "--json").out(), "complaints-heard")).isEqualTo(1);
  }

  /** Of four technicians with 15 brakes each, those of T4 come back but for three. */
  private static List<String> brakesOfFour(String works) {
    String visit =
        "{\"format\":\"firmlever-case/1\",\"id\":\"%s\",\"opened\":\"%s\",\"brake\":{\"id\":\"B-%d\",\"fluid\":\"mineral-oil\"},\"complaint\":\"lever feels spongy\",\"outcome\":{%s\"by\":\"%s\",\"closed\":\"%s\"}}";
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      String by = "T" + (1 + i % 4);
      String day = "2026-01-%02d".formatted(1 + i % 28);
      lines.add(visit.formatted("V" + i, day, i, works, by, day));
      if (by.equals("T4") && i > 12) {
        String back = LocalDate.parse(day).plusDays(14).toString();
        lines.add(visit.formatted("W" + i, back, i, works, "T" + (1 + i % 3), back));
      }
    }
    lines.add(visit.formatted("END", "2026-08-30", 99, works, "T1", "2026-08-30"));
    return lines;
  }

  @Test
  @DisplayName("compares persons only where their works are on record, and else names nobody")
  void namesNobodyWithoutWorks() throws IOException {
    Path page = folder.resolve("page.html");
    Path without = file("without.ndjson", String.join("\n", brakesOfFour("")));
    String text = review(without, "--html", page).out().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("Technicians are not compared: the works they did are not recorded.")
        .doesNotContain("T4");
    assertThat(Files.readString(page))
        .contains("the works they did are not recorded")
        .doesNotContainPattern("\\bT[1-4]\\b");
    Path with = file("with.ndjson", String.join("\n", brakesOfFour("\"works\":[\"full-bleed\"],")));
    String named = review(with, "--html", page).out().replaceAll("\\s+", " ");
    assertThat(named).contains("same work", "T4 had 12 of 15 back");
    // Of the others nothing is shown: nothing stands there of them.
    assertThat(Files.readString(page)).contains(">T4<").doesNotContainPattern("\\bT[1-3]\\b");
    assertThat(review(with, "--json").out()).contains("\"group\" : \"T2\"");
  }

  @Test
  @DisplayName("shows no person's figures where the same work shows no difference")
  void showsNoRatesWithoutADifference() throws IOException {
    Path page = folder.resolve("page.html");
    List<String> alike = brakesOfFour("\"works\":[\"full-bleed\"],");
    alike.removeIf(line -> line.contains("\"W"));
    String text =
        review(file("alike.ndjson", String.join("\n", alike)), "--html", page)
            .out()
            .replaceAll("\\s+", " ");
    assertThat(text)
        .contains("4 technicians were compared on the same work", "no difference between them");
    assertThat(Files.readString(page))
        .contains("4 technicians were compared")
        .doesNotContainPattern("\\bT[1-4]\\b");
  }

  @Test
  @DisplayName("says why fewer may be back in the longer window, and its default end is true")
  void saysWhyFewerAreBackLater() throws IOException {
    List<String> lines = brakesOfFour("");
    // Followed for 43 days: the short window is whole, the long one is not.
    lines.removeIf(line -> line.contains("2026-08-30"));
    lines.add(
        lines
            .get(0)
            .replace("V0", "END")
            .replace("B-0", "B-99")
            .replace("\"opened\":\"2026-01-01\"", "\"opened\":\"2026-03-10\"")
            .replace("\"closed\":\"2026-01-01\"", "\"closed\":\"2026-04-05\""));
    Path records = file("short.ndjson", String.join("\n", lines));
    String text = review(records).out().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("to 2026-04-05", "followed so long count, fewer than for the shorter time");
    assertThat(Run.of("review", "--help").out().replaceAll("\\s+", " "))
        .contains("latest day a record speaks of, opened or given back");
  }

  @Test
  @DisplayName("says of a year what it shows in words that a manager can read")
  void speaksPlainly() throws IOException {
    Path page = folder.resolve("page.html");
    Path records = file("a.ndjson", String.join("\n", records(700, 2)));
    review(records, "--html", page);
    assertThat(Files.readString(page))
        .contains("How the trend was reckoned: Laplace test", "likely rate (95 %)")
        .doesNotContain("drawn in", "Drawn-in", "plan leads to", "shuffle", "verdicts on persons");
  }

  @Test
  @DisplayName("tells what a change did, and refuses one without a day")
  void tellsOfAChange() throws IOException {
    Path records = file("a.ndjson", String.join("\n", records(300, 6)));
    Run run = review(records, "--change", "2024-06-01=new bleed kit");
    assertThat(run.out().replaceAll("\\s+", " "))
        .contains("New bleed kit (2024-06-01): in the 180 days since", "within the same work");
    Run bad = review(records, "--change", "new bleed kit");
    assertThat(bad.code()).isEqualTo(2);
    assertThat(bad.err()).contains("--change", "2026-03-01=");
  }

  @Test
  @DisplayName("says so where nothing can be used")
  void saysSoWhereNothingCanBeUsed() throws IOException {
    Run run = review(file("none.ndjson", "no\nrecord\n"));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).isEmpty();
    assertThat(run.err()).contains("None of 2 records");
    assertThat(review(folder.resolve("missing.ndjson")).code()).isEqualTo(2);
    assertThat(review(file("t.csv", "a,b\n1,2\n")).err()).contains("--mapping");
    assertThat(review(file("x.ndjson", "{}"), "--days", "90,30").code()).isEqualTo(2);
  }

  @Test
  @DisplayName("reads a table with a mapping")
  void readsATable() throws IOException {
    Path mapping =
        file(
            "mapping.json",
            """
            { "format": "firmlever-mapping/1", "separator": ";", "list-separator": "+",
              "columns": { "Job": "id", "In": "opened", "Bike": "brake.id", "Words": "complaint",
                           "Fault": "outcome.causes", "Done": "outcome.works", "Who": "outcome.by",
                           "Oil": "brake.fluid" },
              "values": { "brake.fluid": { "MO": "mineral-oil" },
                          "outcome.works": { "bleed": "full-bleed" } } }
            """);
    Path table =
        file(
            "jobs.csv",
            """
            Job;In;Bike;Words;Fault;Done;Who;Oil
            J1;2026-01-05;B-1;"soft; goes to the bar";air-at-lever;bleed;T4;MO
            J2;2026-01-15;B-1;soft;air-at-lever+low-fluid;bleed;T5;MO
            J3;2026-01-32;B-2;soft;low-fluid;bleed;T5;MO
            J4;2026-05-01;B-3
            """);
    Run run = review(table, "--mapping", mapping, "--json");
    assertThat(run.code()).isEqualTo(1);
    assertThat(number(run.out(), "visits")).isEqualTo(2);
    assertThat(number(run.out(), "comebacks")).isEqualTo(1);
    assertThat(Files.readAllLines(folder.resolve("rejects.csv")))
        .anySatisfy(line -> assertThat(line).contains("jobs.csv,4,", "2026-01-32"))
        .anySatisfy(line -> assertThat(line).contains("jobs.csv,5,", "3 cells"));
  }

  @Test
  @DisplayName("says of a workbook that the import must read it first")
  void saysWhatReadsAWorkbook() {
    Run run = review(Path.of("cases", "samples", "cahier-atelier.xlsx"));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err())
        .contains("cahier-atelier.xlsx: is a workbook", "\"firmlever import\" first")
        .doesNotContain("UTF-8");
  }

  @Test
  @DisplayName("proposes base rates as rules that can be laid over the built-in ones")
  void proposesBaseRates() throws IOException {
    Path records = file("a.ndjson", String.join("\n", records(700, 2)));
    Path proposed = folder.resolve("proposed");
    Run run = review(records, "--propose", proposed, "--cases", "cases/demo", "--json");
    assertThat(run.code()).isZero();
    assertThat(Files.readString(proposed.resolve("READ-ME-FIRST.txt")))
        .contains("Nothing here is in force", "kept out of the learning");
    String rule = Files.readString(proposed.resolve("causes/air-at-lever.drl"));
    assertThat(rule)
        .contains(
            "package firmlever.rules.causes",
            "own closed cases",
            "model.possible( \"air-at-lever\", ");
    Run triage =
        Run.of(
            "triage",
            "cases/demo/soft-after-the-car-roof.json",
            "--why",
            "--draws",
            "0",
            "--rules",
            proposed.toString());
    assertThat(triage.err()).isEmpty();
    assertThat(triage.code()).isZero();
    assertThat(triage.out()).contains("replaced");
  }

  @Test
  @DisplayName("has invented records that are marked as such and the same for the same seed")
  void inventsTheSame() {
    Run one = Run.of("invent", "--jobs", "30", "--seed", "6");
    assertThat(one.code()).isZero();
    assertThat(one.out().lines()).hasSize(30).allMatch(line -> line.contains("\"invented: "));
    assertThat(Run.of("invent", "--jobs", "30", "--seed", "6").out()).isEqualTo(one.out());
    assertThat(Run.of("invent", "--jobs", "30", "--seed", "7").out()).isNotEqualTo(one.out());
    assertThat(Run.of("invent", "--jobs", "0").code()).isEqualTo(2);
  }

  @Test
  @DisplayName("finds the planted patterns and no others")
  void findsThePlanted() throws IOException {
    Path records = file("a.ndjson", String.join("\n", records(9000, 7)));
    String json = review(records, "--json").out();
    Depot.Planted planted = new Depot(7).planted();
    String patterns = json.substring(json.indexOf("\"patterns\""));
    assertThat(patterns)
        .contains(
            "\"value\" : \"" + planted.lot() + "\"",
            "\"value\" : \"" + planted.technician() + "\"",
            "\"value\" : \"" + planted.season() + "\"");
    assertThat(patterns.split("\"8d\"", -1)).hasSize(4);
  }

  @Test
  @DisplayName("tells counts only where a handful of visits could be followed")
  void tellsCountsOfAHandful() throws IOException {
    List<String> lines = records(400, 9);
    Path page = folder.resolve("page.html");
    // The first visits of a year, and its last day: so few, and all of them followed.
    List<String> few = new ArrayList<>(lines.subList(0, 8));
    String text =
        review(file("few.ndjson", String.join("\n", few)), "--until", "2026-12-31", "--html", page)
            .out()
            .replaceAll("\\s+", " ");
    String answers = text.substring(0, text.indexOf("Figures show where to look"));
    assertThat(answers)
        .containsPattern(
            "\\d of \\d visits? came back within 30 days; only visits followed so long count: too few")
        .contains("Too few visits were followed to say.", "to look for a pattern.")
        .doesNotContain("Of 100 visits", "No lot and no season", "interval", "steady shops")
        .doesNotContainPattern("\\d %");
    assertThat(Files.readString(page)).contains("rest on too few to say anything");
    Path many = file("many.ndjson", String.join("\n", lines));
    assertThat(review(many).out()).contains("Of 100 visits, about").doesNotContain("handful");
  }

  @Test
  @DisplayName("accuses nobody where chance explains what looks avoidable, and blames no curve")
  void accusesNobodyByChance() throws IOException {
    Path year = folder.resolve("year.ndjson");
    Path page = folder.resolve("page.html");
    Run.of(
        "import",
        Path.of("cases", "samples", "lakeside-workshop-book.csv").toString(),
        "--out",
        year.toString(),
        "--mapping",
        folder.resolve("mapping.json").toString());
    String text = review(year, "--html", page).out().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("Chance may explain all that looks avoidable here.")
        .containsPattern("These \\d+ are worth a look; chance alone may give as many")
        .contains(" did not come back within 30 days.")
        .doesNotContain("What a foreman would say", "first go");
    String html = Files.readString(page);
    assertThat(html)
        .contains("chance alone may give as many", "the curve does not say why")
        .doesNotContain("What a foreman would say", "work that was not right");
    // One figure for the long time, or a word on why there are two.
    String words = html.replaceAll("<[^>]+>", " ").replaceAll("\\s+", " ");
    Matcher curve = Pattern.compile(" 90 ([0-9.]+) [0-9.]+ to ").matcher(words);
    Matcher plain = Pattern.compile("Within 90 days it is ([0-9.]+) %").matcher(text);
    assertThat(curve.find()).isTrue();
    assertThat(plain.find()).isTrue();
    if (!curve.group(1).equals(plain.group(1))) {
      assertThat(text)
          .contains("The curve of the time to the comeback says " + curve.group(1) + " %, since");
    }
  }
}
