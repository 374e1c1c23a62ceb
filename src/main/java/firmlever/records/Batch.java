package firmlever.records;

import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Limit;
import firmlever.document.Node;
import firmlever.document.Problem;
import firmlever.records.tables.CsvMapping;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.GZIPInputStream;

/**
 * Reads records out of files and folders, one after the other, and sorts them by brake: case files
 * ({@code .json}), one case a line ({@code .ndjson}), the same packed ({@code .ndjson.gz}), and
 * tables ({@code .csv}) with a mapping. What else lies in a folder is told and not read.
 */
public final class Batch {
  private static final List<String> ENDINGS =
      List.of(".json", ".ndjson", ".ndjson.gz", ".jsonl", ".jsonl.gz", ".csv", ".csv.gz");

  private final Spill spill;
  private final Rejects rejects;
  private final Optional<CsvMapping> mapping;
  private final List<String> files = new ArrayList<>();
  private long records;
  private final Reach reach;

  public Batch(Spill spill, Rejects rejects, CaseReader reader, Optional<CsvMapping> mapping) {
    this.reach = new Reach(reader);
    this.spill = spill;
    this.rejects = rejects;
    this.mapping = mapping;
  }

  /** All records read so far, those that will be rejected included. */
  public long records() {
    return records;
  }

  /** The name of the file at that position. */
  String file(int position) {
    return files.get(position);
  }

  /** How far the records reach. */
  public Reach reach() {
    return reach;
  }

  /** The files of records that are named, or lie below a folder that is named. */
  public static List<Path> paths(List<String> names) throws BadInput {
    for (String name : names) {
      if (!Files.isReadable(CaseFolder.path(name))) {
        throw new BadInput(List.of(Problem.ofFile(name, "there is no such file to read", "")));
      }
    }
    return CaseFolder.files(names, ENDINGS);
  }

  /** Tells of the files below these folders that are not read. */
  public static void tellUnread(List<String> names, Rejects rejects) throws BadInput {
    for (String name : names) {
      Path folder = CaseFolder.path(name);
      if (Files.isDirectory(folder)) {
        for (Path path : CaseFolder.below(folder, List.of(""))) {
          String lower = path.toString().toLowerCase(Locale.ROOT);
          if (ENDINGS.stream().noneMatch(lower::endsWith)) {
            rejects.add(
                path.toString(),
                1,
                Rejects.Kind.FILE_NOT_READ,
                "ends in none of " + String.join(", ", ENDINGS));
          }
        }
      }
    }
  }

  public static final String TABLE_WITHOUT_MAPPING =
      "is a table, and nothing says what its columns mean: see firmlever import";

  public static boolean isTable(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return lower.endsWith(".csv") || lower.endsWith(".csv.gz");
  }

  /** Whether it is a table as spreadsheets keep it. */
  public static boolean isWorkbook(String name) {
    return name.toLowerCase(Locale.ROOT).matches(".*\\.(xlsx|xlsm|xls|ods)");
  }

  /**
   * Reads these files.
   *
   * @param named as the user named them; a table that nobody named is told and left out
   */
  public void read(List<Path> paths, List<String> named) throws BadInput {
    for (Path path : paths) {
      String name = path.toString();
      String lower = name.toLowerCase(Locale.ROOT);
      files.add(name);
      if (isWorkbook(name)) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    name,
                    "is a workbook, and the review reads records only",
                    "Maybe turn it into records with \"firmlever import\" first.")));
      }
      if (isTable(name)) {
        if (mapping.isEmpty() && !named.contains(name)) {
          rejects.add(name, 1, Rejects.Kind.FILE_NOT_READ, TABLE_WITHOUT_MAPPING);
          continue;
        }
        if (mapping.isEmpty()) {
          throw new BadInput(
              List.of(
                  Problem.ofFile(
                      name,
                      "is a table, and nothing says what its columns mean",
                      "Maybe let \"firmlever import\" guess it, or give a mapping file with"
                          + " --mapping.")));
        }
        if (!mapping.get().heard().isEmpty()) {
          throw new BadInput(
              List.of(
                  Problem.ofFile(
                      name,
                      "has words to be heard, says its mapping",
                      "Maybe run \"firmlever import\" on it first.")));
        }
        readTable(path, name, lower);
      } else if (lower.endsWith(".json")) {
        readCase(path, name);
      } else {
        Lines.read(path, sink(name));
      }
    }
  }

  /** Reads one case that lies in no file of its own. */
  public void read(String name, byte[] text) {
    files.add(name);
    add(text, 1);
  }

  private void readCase(Path path, String name) {
    try {
      wholeCase(path, sink(name));
    } catch (IOException e) {
      reject(name, 1, "cannot be read: " + e.getMessage());
    }
  }

  /** Reads a file that is one case. */
  public static void wholeCase(Path path, Lines.Sink sink) throws IOException {
    try (InputStream in = Files.newInputStream(path)) {
      byte[] bytes = in.readNBytes(Limit.RECORD_BYTES.most() + 1);
      if (bytes.length > Limit.RECORD_BYTES.most()) {
        sink.bad("is longer than a million bytes; no case file is", 1);
      } else {
        sink.text(bytes, 1);
      }
    }
  }

  private void reject(String name, long line, String reason) {
    records++;
    rejects.add(name, line, reason);
  }

  private static InputStream open(Path path, String lower) throws IOException {
    InputStream in = new BufferedInputStream(Files.newInputStream(path), 1 << 16);
    return lower.endsWith(".gz") ? new BufferedInputStream(new GZIPInputStream(in), 1 << 16) : in;
  }

  private Lines.Sink sink(String name) {
    return new Lines.Sink() {
      @Override
      public void text(byte[] text, long line) {
        add(text, line);
      }

      @Override
      public void bad(String reason, long line) {
        reject(name, line, reason);
      }
    };
  }

  private void readTable(Path path, String name, String lower) {
    try (InputStream in = open(path, lower)) {
      mapping
          .orElseThrow()
          .read(
              in,
              (text, line) -> add(text.getBytes(StandardCharsets.UTF_8), line),
              (reason, line) -> reject(name, line, reason));
    } catch (IOException e) {
      reject(name, 1, "cannot be read: " + e.getMessage());
    }
  }

  private void add(byte[] text, long line) {
    records++;
    int file = files.size() - 1;
    try {
      Node node = DocumentReader.read(text, files.get(file));
      reach.add(node);
      String brake = Reach.brake(node);
      spill.add(Spill.partOf(brake), new Spill.Raw(file, line, brake, text));
    } catch (BadInput e) {
      rejects.add(files.get(file), line, e);
    }
  }
}
