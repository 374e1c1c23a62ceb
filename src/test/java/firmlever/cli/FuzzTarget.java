package firmlever.cli;

import firmlever.bench.Requests;
import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.report.JsonReport;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonEdit;
import firmlever.document.JsonText;
import firmlever.hearing.Guesses;
import firmlever.hearing.Heard;
import firmlever.hearing.Hearing;
import firmlever.hearing.Recounting;
import firmlever.records.tables.CaseNames;
import firmlever.records.tables.ColumnGuess;
import firmlever.records.tables.CsvMapping;
import firmlever.records.tables.Table;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.text.RuleFault;
import firmlever.rulebase.text.RuleReader;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.warranty.Desk;
import firmlever.warranty.Submitted;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;

/**
 * What reads bytes from outside. Each takes them or refuses them as documented, whatever they are;
 * anything else is a find. {@code src/test/fuzz} feeds it what a fuzzing engine makes up, {@link
 * FuzzSeedsTest} what good files and earlier finds hold.
 */
enum FuzzTarget {
  /** A case file, and where it is one, its diagnosis. */
  CASE {
    @Override
    void take(byte[] bytes) throws BadInput {
      CaseFile file =
          ENGINE.reader().read(DocumentReader.read(MALFORMED_CASES.of(bytes), "case"), "case");
      JsonReport.of(
          ENGINE.diagnostician().diagnose(ENGINE.heeding().heed(file).file(), Options.BARE));
    }

    @Override
    List<byte[]> seeds() {
      return with(edits(), files("cases/demo", ".json"));
    }
  },
  /** A case file in which one value is changed. */
  EDIT {
    @Override
    void take(byte[] bytes) throws BadInput {
      String text = new String(bytes, StandardCharsets.UTF_8);
      String changed = JsonEdit.set(text, List.of("symptoms", "squeal"), "present");
      DocumentReader.readText(JsonEdit.add(changed, "history", "x"), "changed");
      DocumentReader.readText(JsonEdit.remove(changed, List.of("symptoms", "squeal")), "removed");
    }

    @Override
    List<byte[]> seeds() {
      return CASE.seeds();
    }
  },
  /** A policy, and a claim judged by it. */
  POLICY {
    @Override
    void take(byte[] bytes) throws BadInput {
      Policy policy =
          new PolicyReader(ENGINE.vocabulary()).read(MALFORMED_POLICIES.of(bytes), "policy");
      DESK.judge(claim(files("cases/claims", "pads-worn-down.json").get(0)), policy);
    }

    @Override
    List<byte[]> seeds() {
      return with(edits(), files("rules/policies", ".json"));
    }
  },
  /** A claim, judged by the demo policy. */
  CLAIM {
    @Override
    void take(byte[] bytes) throws BadInput {
      Policy policy =
          new PolicyReader(ENGINE.vocabulary())
              .read(files("rules/policies", ".json").get(0), "policy");
      DESK.judge(claim(MALFORMED_CLAIMS.of(bytes)), policy);
    }

    @Override
    List<byte[]> seeds() {
      return with(edits(), files("cases/claims", ".json"));
    }
  },
  /** What a customer says, and what a mechanic says was done. */
  COMPLAINT {
    @Override
    void take(byte[] bytes) {
      String text = new String(bytes, StandardCharsets.UTF_8);
      LocalDate today = LocalDate.of(2026, 5, 12);
      Heard heard = HEARING.hear(text, "front", today);
      GUESSES.of(heard, id -> true);
      try {
        new Recounting(ENGINE.vocabulary()).entries(text, today);
      } catch (BadInput e) {
        // Most texts tell of no work.
      }
    }

    @Override
    List<byte[]> seeds() {
      List<byte[]> seeds = new ArrayList<>();
      for (byte[] file : files("cases/hearing", "complaints.jsonl")) {
        new String(file, StandardCharsets.UTF_8)
            .lines()
            .map(line -> line.replaceAll(".*\"complaint\": ?\"((?:[^\"\\\\]|\\\\.)*)\".*", "$1"))
            .forEach(each -> seeds.add(each.getBytes(StandardCharsets.UTF_8)));
      }
      return seeds;
    }
  },
  /** Rules of a shop, read for the rule book. */
  RULES {
    @Override
    void take(byte[] bytes) {
      try {
        RuleReader.read("shop.drl", new String(bytes, StandardCharsets.UTF_8));
      } catch (RuleFault e) {
        // Refused with place and reason.
      }
    }

    @Override
    List<byte[]> seeds() {
      return files("rules/causes", "air-at-lever.drl");
    }
  },
  /** A table for the import; its mapping is guessed. */
  TABLE {
    @Override
    void take(byte[] bytes) throws BadInput {
      importing("table.csv", bytes);
    }

    @Override
    List<byte[]> seeds() {
      List<byte[]> seeds = new ArrayList<>();
      for (byte[] each : files("cases/samples", ".csv")) {
        seeds.add(Arrays.copyOf(each, Math.min(each.length, 2000)));
      }
      return seeds;
    }
  },
  /** A workbook for the import. */
  WORKBOOK {
    @Override
    void take(byte[] bytes) throws BadInput {
      importing("table.xlsx", bytes);
    }

    @Override
    List<byte[]> seeds() {
      return files("cases/samples", ".xlsx");
    }
  },
  /** A mapping for the import of a table. */
  MAPPING {
    @Override
    void take(byte[] bytes) throws BadInput {
      Path path = write("table.mapping.json", MALFORMED_MAPPINGS.of(bytes));
      CsvMapping mapping = CsvMapping.read(path, "mapping", new CaseNames(ENGINE.vocabulary()));
      records(Table.read(write("table.csv", TABLE.seeds().get(0)), "table.csv"), mapping);
    }

    @Override
    List<byte[]> seeds() {
      return with(edits(), List.of(MAPPING_SEED.getBytes(StandardCharsets.UTF_8)));
    }
  },
  /** Records for the review. */
  RECORDS {
    @Override
    void take(byte[] bytes) {
      reviewing("records.ndjson", bytes);
    }

    @Override
    List<byte[]> seeds() {
      return List.of(
          Run.of("invent", "--jobs", "6", "--seed", "3").out().getBytes(StandardCharsets.UTF_8));
    }
  },
  /** Packed records for the review. */
  PACKED {
    @Override
    void take(byte[] bytes) {
      reviewing("records.ndjson.gz", bytes);
    }

    @Override
    List<byte[]> seeds() {
      try (ByteArrayOutputStream bytes = new ByteArrayOutputStream();
          GZIPOutputStream packed = new GZIPOutputStream(bytes)) {
        packed.write(RECORDS.seeds().get(0));
        packed.finish();
        return List.of(bytes.toByteArray());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  },
  /** The tally of another shop. */
  TALLY {
    @Override
    void take(byte[] bytes) {
      Path tally = write("shop.tally", bytes);
      documented("review", "--merge", tally.toString(), "--rejects", FOLDER + "/rejects.csv");
    }

    @Override
    List<byte[]> seeds() {
      Path records = write("records.ndjson", RECORDS.seeds().get(0));
      Run.of(
          "review",
          records.toString(),
          "--until",
          "2026-06-30",
          "--tally-out",
          FOLDER + "/seed.tally",
          "--rejects",
          FOLDER + "/rejects.csv");
      return files(FOLDER.toString(), "seed.tally");
    }
  },
  /** A store somebody else wrote. */
  STORE {
    @Override
    void take(byte[] bytes) {
      Path store = write("shop.db", bytes);
      documented(
          "review", "--store", store.toString(), "--bench", "--rejects", FOLDER + "/rejects.csv");
    }

    @Override
    List<byte[]> seeds() {
      gone("shop.db");
      Run.of("store", "--store", FOLDER + "/shop.db", "import", "cases/demo/nothing-wrong.json");
      return files(FOLDER.toString(), "shop.db");
    }
  },
  /** Addresses and forms sent to the bench. */
  BENCH {
    @Override
    void take(byte[] bytes) {
      REQUESTS.answer(bytes);
    }

    @Override
    List<byte[]> seeds() {
      String job = Requests.JOB;
      return Stream.of(
              "/\n\n/search?q=B-0\n\n/brakes/B-0340-rear\n\n/new\n",
              "/new\nbrake=B-1&wheel=rear&fluid=dot-4&complaint=soft+since+Monday&record=bled",
              job + "/places/lever\nanswer=gritty-lever%3Dpresent\n\n" + job + "/why",
              job + "/work\nwork=full-bleed&do=start\n\n" + job + "/work\ndo=done\n",
              job + "/acceptance\ndo=check&tick=a&value-1=2&what-1=x&says-1=y\n",
              job + "/hand-back\nreason=by+hand&do=hand-back\n\n" + job + "/log\n",
              job + "/claim\npaper=0&part=lever-seals&holder=x&price-lever-seals=12.50\n",
              job + "/claim\npaper=1&do=sign&decided=granted&reason=x\n\n" + job + "/dossier\n",
              job + "/case.json\n\n" + job + "/diagnosis.json\n\n" + job + "/card\n\n/review\n",
              "/sign-in\ncode=T3&own-key=x&next=%2Fnew\n\n/sign-out\n\n",
              job + "\nheard=soft&answer=spongy-lever%3Dyes&found=weep&throw-firm-force=20\n")
          .map(text -> text.getBytes(StandardCharsets.UTF_8))
          .toList();
    }
  },
  /** A shop's own rules, compiled and laid over the built-in ones; seconds for each. */
  OVERLAY {
    @Override
    void take(byte[] bytes) throws BadInput {
      try {
        RuleBase.overlaid(ENGINE.vocabulary(), write("overlay/shop.drl", bytes).getParent());
      } catch (RuleFault e) {
        // Refused with place and reason.
      }
    }

    @Override
    List<byte[]> seeds() {
      return files("rules/causes", "bent-rotor.drl");
    }

    @Override
    int spoilt() {
      return 2;
    }
  };

  private static final String MAPPING_SEED =
      "{\"format\":\"firmlever-mapping/1\",\"separator\":\";\",\"list-separator\":\",\",\"dates\":[\"d.M.uuuu\"],"
          + "\"heard\":[\"complaint\"],\"columns\":{\"Datum\":\"opened\",\"Rad\":\"brake.id\"},"
          + "\"values\":{\"brake.position\":{\"vorne\":\"front\"}}}";

  private static final Engine ENGINE = Engine.start();
  private static final Hearing HEARING = new Hearing();
  private static final Guesses GUESSES = new Guesses();
  private static final Desk DESK = new Desk(ENGINE.rules(), WarrantyRules.builtIn());
  private static final Path FOLDER = folder();
  private static final Requests REQUESTS = new Requests(FOLDER);
  private static final Malformed MALFORMED_CASES = new Malformed(files("cases/demo", ".json"));
  private static final Malformed MALFORMED_CLAIMS = new Malformed(files("cases/claims", ".json"));
  private static final Malformed MALFORMED_POLICIES =
      new Malformed(files("rules/policies", ".json"));
  private static final Malformed MALFORMED_MAPPINGS =
      new Malformed(List.of(MAPPING_SEED.getBytes(StandardCharsets.UTF_8)));

  /**
   * Takes the bytes.
   *
   * @throws BadInput where they are refused with place and reason: that is documented
   */
  abstract void take(byte[] bytes) throws BadInput;

  /** Bytes to begin with. */
  abstract List<byte[]> seeds();

  /** How many spoilt seeds the tests try; fewer where each takes long. */
  int spoilt() {
    return 40;
  }

  String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  private static Submitted claim(byte[] bytes) throws BadInput {
    return Submitted.read(
        ENGINE.reader(),
        bytes,
        "claim",
        file -> {
          throw new Submitted.Unreadable("it is not there");
        });
  }

  private static final ColumnGuess.Reading NOTHING_READ =
      new ColumnGuess.Reading() {
        @Override
        public Optional<String> translated(String field, String cell) {
          return Optional.empty();
        }

        @Override
        public boolean complains(String cell) {
          return false;
        }

        @Override
        public boolean tellsWorks(String cell) {
          return false;
        }
      };

  private static void importing(String name, byte[] bytes) throws BadInput {
    Table table = Table.read(write(name, bytes), name);
    records(table, new ColumnGuess(table, NOTHING_READ).mapping());
  }

  /** The rows as the import hands them to the reader of cases. */
  private static void records(Table table, CsvMapping mapping) {
    if (!table.headings().containsAll(mapping.columns().keySet())) {
      return;
    }
    for (Table.Line row : table.rows()) {
      String record = JsonText.of(mapping.document(row.cells()::get));
      try {
        ENGINE.reader().read(DocumentReader.readText(record, "row"), "row");
      } catch (BadInput e) {
        // One row that is refused.
      }
    }
  }

  private static void reviewing(String name, byte[] bytes) {
    documented(
        "review",
        write(name, bytes).toString(),
        "--threads",
        "1",
        "--rejects",
        FOLDER + "/rejects.csv");
  }

  /** A run that ends as the command's help says: done, failed or refused, and never in a fault. */
  private static void documented(String... args) {
    Run run = Run.of(args);
    if (run.code() > Exit.BAD_INPUT
        || run.code() < 0
        || run.err().contains("fault of its own")
        || run.out().contains("fault of its own")) {
      throw new AssertionError("exit code " + run.code() + "\n" + run.err());
    }
  }

  private static Path write(String name, byte[] bytes) {
    try {
      Path file = FOLDER.resolve(name);
      Files.createDirectories(file.getParent());
      return Files.write(file, bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void gone(String name) {
    try {
      Files.deleteIfExists(FOLDER.resolve(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Path folder() {
    try {
      Path folder = Files.createTempDirectory("firmlever-fuzz");
      folder.toFile().deleteOnExit();
      return folder;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Bytes that make {@link Malformed} edit a good document. */
  private static List<byte[]> edits() {
    byte[] some = new byte[64];
    some[0] = Malformed.EDITS;
    for (int at = 1; at < some.length; at++) {
      some[at] = (byte) (at * 37);
    }
    return List.of(some);
  }

  private static List<byte[]> files(String folder, String end) {
    try (Stream<Path> files = Files.list(Path.of(folder))) {
      List<byte[]> read = new ArrayList<>();
      for (Path file : files.filter(f -> f.toString().endsWith(end)).sorted().toList()) {
        read.add(Files.readAllBytes(file));
      }
      return read;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<byte[]> with(List<byte[]> some, List<byte[]> more) {
    return Stream.concat(some.stream(), more.stream()).toList();
  }
}
