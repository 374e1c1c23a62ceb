package firmlever.cli.review;

import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Limit;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.hearing.Heard;
import firmlever.interview.NewCase;
import firmlever.records.CaseFolder;
import firmlever.records.Rejects;
import firmlever.records.tables.CaseNames;
import firmlever.records.tables.ColumnGuess;
import firmlever.records.tables.CsvMapping;
import firmlever.records.tables.Table;
import firmlever.records.tables.TableDays;
import firmlever.sheet.CsvRow;
import firmlever.sheet.Page;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Reads a shop's table, writes its mapping and its records, and tells what was lost. */
final class TableImport {
  private static final int SHOWN = 10;
  private static final int EXAMPLES = 6;

  /** So many complaints are too few to tell that a left-out column holds them. */
  private static final int FEW = 3;

  private static final Pattern TOTAL =
      Pattern.compile(
          "(?iu)(grand |sub)?totals?|total général|totaux|sums?|summe|gesamt(summe)?|somme");

  private final ImportOptions asked;
  private final PrintWriter results;
  private final Engine engine = Engine.start();
  private final JobText text = new JobText(engine);
  private final Rejects rejects = new Rejects();
  private final Map<String, Long> lost = new TreeMap<>();
  private final Map<String, Long> unreadWorks = new TreeMap<>();
  private final Map<String, Long> unreadCauses = new TreeMap<>();
  private final Map<String, Long> unheard = new TreeMap<>();
  private final List<Map<String, Object>> shown = new ArrayList<>();
  private final Map<String, Long> found = new TreeMap<>();
  private final List<Long> totals = new ArrayList<>();
  private final List<String> remarks = new ArrayList<>();
  private long records;
  private long complaints;
  private long heardComplaints;
  private long works;
  private long readWorks;
  private long causes;
  private long readCauses;

  /**
   * @param results where what was read and lost is told
   */
  TableImport(ImportOptions asked, PrintWriter results) {
    this.asked = asked;
    this.results = results;
  }

  int run() throws BadInput, IOException {
    Path path = CaseFolder.path(asked.file);
    if (!Files.isReadable(path) || Files.isDirectory(path)) {
      throw new BadInput(List.of(Problem.ofFile(asked.file, "there is no such file to read", "")));
    }
    String stem = asked.file.replaceFirst("\\.[A-Za-z]+$", "");
    String mappingFile = asked.mapping.isEmpty() ? stem + ".mapping.json" : asked.mapping;
    String recordsFile = asked.out.isEmpty() ? stem + ".records.ndjson" : asked.out;
    boolean given = WholeFile.mayExist(CaseFolder.path(mappingFile));
    Outputs outputs =
        new Outputs()
            .reading(given ? List.of(path, CaseFolder.path(mappingFile)) : List.of(path))
            .file(recordsFile)
            .file(asked.rejects);
    (given ? outputs : outputs.file(mappingFile)).check();
    Table table = Table.read(path, asked.file);
    ColumnGuess guess = new ColumnGuess(table, reading());
    CsvMapping mapping =
        given
            ? CsvMapping.read(
                CaseFolder.path(mappingFile), mappingFile, new CaseNames(engine.vocabulary()))
            : guess.mapping();
    checkColumns(table, mapping, mappingFile);
    TableDays days = new TableDays(table, mapping);
    StringBuilder out = new StringBuilder();
    long blank = 0;
    for (Table.Line row : table.rows()) {
      if (row.isBlank()) {
        blank++;
      } else {
        read(row, mapping, days).ifPresent(record -> out.append(oneLine(record)).append('\n'));
      }
    }
    if (!given) {
      write(mappingFile, mapping.text());
    }
    write(recordsFile, out.toString());
    if (rejects.count() > 0 || WholeFile.mayExist(Path.of(asked.rejects))) {
      StringBuilder listed = new StringBuilder(CsvRow.of("file", "line", "what", "reason"));
      rejects
          .listed()
          .forEach(r -> listed.append(CsvRow.of(r.file(), r.line(), r.kind().id(), r.reason())));
      write(asked.rejects, listed.toString());
    }
    tell(table, guess, mapping, given, mappingFile, recordsFile, blank);
    return records == 0 ? Exit.BAD_INPUT : rejects.count() == 0 ? Exit.DONE : Exit.FAILED;
  }

  private static void write(String name, String content) throws BadInput, IOException {
    WholeFile.write(Path.of(name), out -> out.write(content.getBytes(StandardCharsets.UTF_8)));
  }

  private static String oneLine(Map<String, Object> record) {
    // Line ends within texts are spelt out by JSON: those left part its members.
    return JsonText.of(record).replaceAll("\\R\\s*", " ");
  }

  private void checkColumns(Table table, CsvMapping mapping, String file) throws BadInput {
    List<Problem> problems = new ArrayList<>();
    for (String column : mapping.columns().keySet()) {
      if (!table.headings().contains(column)) {
        problems.add(
            Problem.ofFile(
                file,
                "the table has no column \"" + column + "\"",
                "Maybe one of: " + String.join(", ", table.headings())));
      }
    }
    for (String needed : List.of("opened", "brake.id")) {
      if (!mapping.columns().containsValue(needed)) {
        problems.add(
            Problem.ofFile(
                asked.file,
                "no column tells "
                    + (needed.equals("opened")
                        ? "the day a brake came in"
                        : "the code of the bike"),
                "Maybe write a mapping file with \"columns\": { \"HEADING\": \""
                    + needed
                    + "\" }; the headings are: "
                    + String.join(", ", table.headings())));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
  }

  private ColumnGuess.Reading reading() {
    return new ColumnGuess.Reading() {
      @Override
      public Optional<String> translated(String field, String cell) {
        return TableImport.this.translated(field, cell);
      }

      @Override
      public boolean complains(String cell) {
        return text.complains(cell);
      }

      @Override
      public boolean tellsWorks(String cell) {
        return !text.works(cell, Map.of()).ids().isEmpty();
      }
    };
  }

  /** A wheel or a fluid in the words of case files. */
  private Optional<String> translated(String field, String cell) {
    NewCase words = new NewCase(engine.vocabulary());
    String plain = cell.strip().toLowerCase(Locale.ROOT);
    try {
      if (field.equals("brake.fluid")) {
        return Optional.of(
            plain.matches("mo|min.*|oil|öl|oel|huile|mineral.*")
                ? "mineral-oil"
                : words.fluid(cell));
      }
      return Optional.of(
          plain.matches("v|vr|vorn.*|av|avant|front.*|fr|f")
              ? "front"
              : plain.matches("h|hr|hint.*|ar|arr.*|rear.*|rr|back|r")
                  ? "rear"
                  : words.wheel(cell));
    } catch (BadInput e) {
      return Optional.empty();
    }
  }

  private void lose(String what) {
    lost.merge(what, 1L, Long::sum);
  }

  /** The record of a row; empty where it is rejected. */
  private Optional<Map<String, Object>> read(Table.Line row, CsvMapping mapping, TableDays days) {
    if (row.extra() > 0) {
      rejects.add(asked.file, row.line(), "the row has " + row.extra() + " cells too many");
      return Optional.empty();
    }
    Map<String, Object> record = mapping.document(row.cells()::get);
    if (String.valueOf(inner(record, "brake").getOrDefault("id", "")).isBlank()) {
      if (isTotal(row)) {
        totals.add(row.line());
      } else {
        rejects.add(asked.file, row.line(), "the row tells no bike");
      }
      return Optional.empty();
    }
    Optional<String> wrongDay = days.refused(row);
    if (wrongDay.isPresent()) {
      rejects.add(asked.file, row.line(), wrongDay.get());
      return Optional.empty();
    }
    days.remark(row).ifPresent(remarks::add);
    named(record, mapping);
    brake(record, row);
    outcome(record, days);
    if (record.get("complaint") instanceof String words
        && words.length() > Limit.COMPLAINT_LETTERS.most()) {
      record.put("complaint", words.substring(0, Limit.COMPLAINT_LETTERS.most()));
      lose("complaints cut after " + Limit.COMPLAINT_LETTERS.most() + " letters");
    }
    record.putIfAbsent("symptoms", new LinkedHashMap<String, Object>());
    record.put("source", "imported from line " + row.line());
    try {
      CaseFile file =
          engine
              .reader()
              .read(DocumentReader.readText(JsonText.of(record), asked.file), asked.file);
      if (mapping.heard().contains("complaint")) {
        hear(file, record);
        engine.reader().read(DocumentReader.readText(JsonText.of(record), asked.file), asked.file);
      }
    } catch (BadInput e) {
      rejects.add(asked.file, row.line(), e);
      return Optional.empty();
    }
    records++;
    if (shown.size() < SHOWN) {
      shown.add(record);
    }
    return Optional.of(record);
  }

  private static boolean isTotal(Table.Line row) {
    return row.cells().values().stream()
        .filter(cell -> !cell.isBlank())
        .findFirst()
        .filter(cell -> TOTAL.matcher(cell.strip()).matches())
        .isPresent();
  }

  @SuppressWarnings("unchecked")
  private static Map<String, Object> inner(Map<String, Object> record, String name) {
    return (Map<String, Object>) record.computeIfAbsent(name, n -> new LinkedHashMap<>());
  }

  private static String code(Object said) {
    return String.valueOf(said)
        .strip()
        .toUpperCase(Locale.ROOT)
        .replaceAll("[^A-Z0-9._-]+", "-")
        .replaceAll("^[-._]+|-+$", "");
  }

  /** B 0417, b0417 and B-0417 are one bike; with its wheel it is one brake. */
  private void brake(Map<String, Object> record, Table.Line row) {
    Map<String, Object> brake = inner(record, "brake");
    String said = String.valueOf(brake.getOrDefault("id", ""));
    String id = code(said).replaceFirst("^([A-Z]+)[-_.]?(\\d+)", "$1-$2");
    if (!id.equals(said)) {
      lose("codes of bikes respelt, such as B 0417 as B-0417");
    }
    Object wheel = brake.get("position");
    if (wheel == null || wheel.equals("unknown")) {
      String named = NewCase.wheelOf(id);
      wheel = named.equals("unknown") ? wheelHeard(record) : named;
      brake.put("position", wheel);
    }
    if (wheel.equals("unknown")) {
      lose("rows that tell no wheel: front and rear of such a bike count as one brake");
    } else if (NewCase.wheelOf(id).equals("unknown")) {
      id += "-" + wheel;
    }
    brake.put("id", id);
    record.put("id", record.containsKey("id") ? code(record.get("id")) : "row-" + row.line());
  }

  private String wheelHeard(Map<String, Object> record) {
    return record.get("complaint") instanceof String words && !words.isBlank()
        ? switch (text.wheel(words)) {
          case FRONT -> "front";
          case REAR -> "rear";
          default -> "unknown";
        }
        : "unknown";
  }

  /** Words of works and causes as names. */
  private void named(Map<String, Object> record, CsvMapping mapping) {
    if (!(record.get("outcome") instanceof Map)) {
      return;
    }
    Map<String, Object> outcome = inner(record, "outcome");
    if (mapping.heard().contains("outcome.works") && outcome.get("works") instanceof String words) {
      JobText.Named read =
          text.works(words, mapping.values().getOrDefault("outcome.works", Map.of()));
      works++;
      readWorks += read.ids().isEmpty() ? 0 : 1;
      List<String> left = read.unread();
      if (!(outcome.get("causes") instanceof String)) {
        // Nothing else tells what was found: what is no work may.
        JobText.Named told =
            text.causes(
                String.join("; ", left), mapping.values().getOrDefault("outcome.causes", Map.of()));
        if (!told.ids().isEmpty()) {
          outcome.put("causes", told.ids());
        }
        left = told.unread();
      }
      left.forEach(
          part -> (text.tellsFound(part) ? found : unreadWorks).merge(part, 1L, Long::sum));
      outcome.put("works", read.ids());
      note(outcome, words, left);
    }
    if (mapping.heard().contains("outcome.causes")
        && outcome.get("causes") instanceof String words) {
      JobText.Named read =
          text.causes(words, mapping.values().getOrDefault("outcome.causes", Map.of()));
      causes++;
      readCauses += read.ids().isEmpty() ? 0 : 1;
      read.unread().forEach(part -> unreadCauses.merge(part, 1L, Long::sum));
      outcome.put("causes", read.ids());
      note(outcome, words, read.unread());
    }
  }

  /** What was not read stays in the record as words. */
  private static void note(Map<String, Object> outcome, String words, List<String> unread) {
    if (!unread.isEmpty()) {
      String before = outcome.get("confirmed") instanceof String had ? had + "; " : "";
      String all = before + words;
      outcome.put("confirmed", all.substring(0, Math.min(all.length(), 1000)));
    }
  }

  private void outcome(Map<String, Object> record, TableDays days) {
    if (record.get("outcome") instanceof Map) {
      Map<String, Object> outcome = inner(record, "outcome");
      // What cannot be read, or lies far off, has been remarked on with its line.
      if (outcome.get("closed") instanceof String day && !days.believed(day)) {
        outcome.remove("closed");
      }
      for (String field : List.of("by", "site")) {
        if (outcome.get(field) != null) {
          outcome.put(field, code(outcome.get(field)));
        }
      }
    }
  }

  private void hear(CaseFile file, Map<String, Object> record) {
    Optional<Heard> heard = text.heed(file, record);
    if (heard.isPresent()) {
      complaints++;
      if (inner(record, "symptoms").isEmpty()) {
        unheard.merge(file.complaint(), 1L, Long::sum);
      } else {
        heardComplaints++;
      }
    }
  }

  private void tell(
      Table table,
      ColumnGuess guess,
      CsvMapping mapping,
      boolean given,
      String mappingFile,
      String recordsFile,
      long blank) {
    Page page = new Page(Terminal.width(), Terminal.bold());
    page.heading("What the columns mean" + (given ? ", by " + mappingFile : ", as guessed"));
    mapping
        .columns()
        .forEach(
            (column, field) -> page.hanging("  ", column + " → " + field + example(table, column)));
    page.hanging(
        "  ",
        "days are written "
            + (mapping.dates().isEmpty()
                ? "2026-05-12"
                : mapping.dates().stream()
                    .map(CsvMapping::sample)
                    .collect(Collectors.joining(" or ")))
            + (ambiguous(table, mapping)
                ? " (12/05 could also be read the other way round: check it)"
                : ""));
    table.remarks().forEach(remark -> page.hanging("  ", remark));
    mapping
        .values()
        .forEach(
            (field, words) ->
                page.hanging(
                    "  ",
                    field
                        + ": "
                        + words.entrySet().stream()
                            .map(e -> "\"" + e.getKey() + "\" is " + e.getValue())
                            .collect(Collectors.joining(", "))));
    page.heading("The first rows, as read");
    shown.forEach(record -> page.hanging("  ", spoken(record)));
    page.heading("What is lost");
    List<String> unused =
        table.headings().stream().filter(h -> !mapping.columns().containsKey(h)).toList();
    page.hanging(
        "  ",
        unused.isEmpty() ? "no column is left out" : "left out: " + String.join(", ", unused));
    unused.forEach(column -> leftOut(page, guess, column));
    missing(page, mapping);
    share(page, "complaints", heardComplaints, complaints, unheard);
    share(page, "works", readWorks, works, unreadWorks);
    if (!found.isEmpty()) {
      page.hanging(
          "  ",
          "told among the works, and tell what was found: "
              + examples(found)
              + " (put them under values, outcome.causes, with the cause they mean)");
    }
    share(page, "causes", readCauses, causes, unreadCauses);
    text.choices()
        .forEach(
            (words, cause) ->
                page.hanging(
                    "  ",
                    "\""
                        + words
                        + "\" can mean several causes and was taken for the commonest, "
                        + cause
                        + "; say otherwise in the mapping, under values, outcome.causes"));
    lost.forEach((what, count) -> page.hanging("  ", what + ": " + count));
    remarks.stream().limit(SHOWN).forEach(remark -> page.hanging("  ", remark));
    if (remarks.size() > SHOWN) {
      page.hanging("  ", "and " + (remarks.size() - SHOWN) + " more such days");
    }
    page.heading("Rows");
    page.hanging(
        "  ",
        table.rows().size()
            + " rows read: "
            + records
            + " records, "
            + rejects.count()
            + " rejected, "
            + blank
            + " blank"
            + (totals.isEmpty()
                ? ""
                : totals.size() == 1
                    ? ", 1 a row of totals (line " + totals.get(0) + ")"
                    : ", " + totals.size() + " rows of totals"));
    rejects.listed().stream()
        .limit(SHOWN)
        .forEach(r -> page.hanging("  ", "line " + r.line() + ": " + r.reason()));
    if (rejects.count() > SHOWN) {
      page.hanging("  ", "all stand in " + asked.rejects);
    }
    page.blank();
    page.hanging(
        "",
        (given ? "Written: " : "Written: " + mappingFile + " (change it and run again) and ")
            + recordsFile
            + ". "
            + next(guess, mapping, unused, mappingFile, recordsFile));
    results.print(page);
  }

  /** A column that holds complaints or works and fills nothing is told. */
  private static void leftOut(Page page, ColumnGuess guess, String column) {
    ColumnGuess.Held held = guess.held(column);
    if (held.complains() && held.complaints() >= FEW) {
      page.hanging("  ", leftOut(column, held.complaints(), held, "are heard as complaints"));
    } else if (held.tellsWorks() && held.works() >= FEW) {
      page.hanging("  ", leftOut(column, held.works(), held, "tell works"));
    }
  }

  private static String leftOut(
      String column, long cells, ColumnGuess.Held held, String whatTheyDo) {
    return "\""
        + column
        + "\" was left out though "
        + cells
        + " of "
        + held.all()
        + " cells "
        + whatTheyDo;
  }

  /** What to do now: the review, or first mend a mapping that hears hardly any complaint. */
  private String next(
      ColumnGuess guess,
      CsvMapping mapping,
      List<String> unused,
      String mappingFile,
      String recordsFile) {
    Optional<String> better =
        unused.stream()
            .filter(h -> guess.held(h).complains() && guess.held(h).complaints() > heardComplaints)
            .max(Comparator.comparingLong(h -> guess.held(h).complaints()));
    String column =
        mapping.columns().entrySet().stream()
            .filter(e -> e.getValue().equals("complaint"))
            .map(Map.Entry::getKey)
            .findFirst()
            .orElse("");
    if (better.isEmpty() && (complaints == 0 || 2 * heardComplaints >= complaints)) {
      return "Now: ./firmlever review " + recordsFile + " --html review.html";
    }
    return "Before any review, mend "
        + mappingFile
        + ", under columns: "
        + (column.isEmpty()
            ? "no column fills complaint"
            : "\""
                + column
                + "\" fills complaint, and only "
                + heardComplaints
                + " of "
                + complaints
                + " cells are heard")
        + better
            .map(
                h ->
                    "; let \""
                        + h
                        + "\" fill it, where "
                        + guess.held(h).complaints()
                        + " of "
                        + guess.held(h).all()
                        + " are")
            .orElse("; let the column fill it that tells what the customers said")
        + ". Then run the import again.";
  }

  private static String example(Table table, String column) {
    return table.rows().stream()
        .map(row -> row.cells().get(column))
        .filter(cell -> !cell.isBlank())
        .findFirst()
        .map(cell -> " (such as \"" + cell + "\")")
        .orElse(" (empty)");
  }

  /** Whether every day of the table would also be a day with day and month changed about. */
  private static boolean ambiguous(Table table, CsvMapping mapping) {
    String first = mapping.dates().stream().findFirst().orElse("");
    if (!first.startsWith("d/M") && !first.startsWith("M/d")) {
      return false;
    }
    String turned = (first.startsWith("d/M") ? "M/d" : "d/M") + first.substring(3);
    return mapping.columns().entrySet().stream()
        .filter(e -> e.getValue().equals("opened"))
        .flatMap(e -> table.rows().stream().map(row -> row.cells().get(e.getKey())))
        .filter(cell -> !cell.isBlank())
        .allMatch(cell -> CsvMapping.day(cell, turned).isPresent());
  }

  private static void missing(Page page, CsvMapping mapping) {
    Map<String, String> worth = new LinkedHashMap<>();
    worth.put("complaint", "every return counts as related, and nothing could have been known");
    worth.put("outcome.causes", "why a brake came back is told only where the work column says it");
    worth.put("outcome.works", "works cannot be compared");
    worth.put("outcome.by", "nobody is compared");
    worth.put("outcome.closed", "a brake counts as given back on the day it came");
    worth.put(
        "brake.position", "the wheel is known only where the bike's code or complaint says it");
    worth.forEach(
        (field, loss) -> {
          if (!mapping.columns().containsValue(field)) {
            page.hanging("  ", "no column for " + field + ": " + loss);
          }
        });
  }

  private static void share(Page page, String what, long read, long all, Map<String, Long> unread) {
    if (all == 0) {
      return;
    }
    String examples = examples(unread);
    page.hanging(
        "  ",
        what
            + ": "
            + read
            + " of "
            + all
            + " understood"
            + (examples.isEmpty() ? "" : "; not read: " + examples)
            + (examples.isEmpty() || what.equals("complaints")
                ? ""
                : " (the mapping can say what they mean, under values, outcome." + what + ")"));
  }

  /** The commonest texts, with how often they come. */
  private static String examples(Map<String, Long> texts) {
    return texts.entrySet().stream()
        .sorted(
            Comparator.comparing((Map.Entry<String, Long> e) -> -e.getValue())
                .thenComparing(Map.Entry::getKey))
        .limit(EXAMPLES)
        .map(e -> "\"" + e.getKey() + "\"" + (e.getValue() > 1 ? " (" + e.getValue() + ")" : ""))
        .collect(Collectors.joining(", "));
  }

  private String named(@Nullable Object ids, String none) {
    String words =
        ids instanceof Collection<?> several
            ? several.stream()
                .map(id -> engine.rules().vocabulary().named(id.toString()).orElse(id.toString()))
                .collect(Collectors.joining(", "))
            : ids == null ? "" : ids.toString();
    return words.isEmpty() ? none : words;
  }

  private String spoken(Map<String, Object> record) {
    Map<String, Object> outcome =
        record.get("outcome") instanceof Map ? inner(record, "outcome") : Map.of();
    return record.get("id")
        + "  "
        + record.get("opened")
        + (outcome.containsKey("closed") ? " to " + outcome.get("closed") : "")
        + "  "
        + inner(record, "brake").get("id")
        + "  \""
        + record.getOrDefault("complaint", "")
        + "\"; heard: "
        + named(inner(record, "symptoms").keySet(), "nothing")
        + "; found: "
        + named(outcome.get("causes"), "not told")
        + "; done: "
        + named(outcome.get("works"), "not told")
        + (outcome.containsKey("by") ? " by " + outcome.get("by") : "");
  }
}
