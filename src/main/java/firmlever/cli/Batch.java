package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.comeback.PlausibleDays;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Limit;
import firmlever.document.Node;
import firmlever.document.Problem;
import firmlever.document.Shape;
import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.GZIPInputStream;

/**
 * Reads records out of files and folders, one after the other, and sorts them by brake: case files
 * ({@code .json}), one case a line ({@code .ndjson}), the same packed ({@code .ndjson.gz}), and
 * tables ({@code .csv}) with a mapping. What else lies in a folder is told and not read.
 */
final class Batch {
  private static final List<String> ENDINGS =
      List.of(".json", ".ndjson", ".ndjson.gz", ".jsonl", ".jsonl.gz", ".csv", ".csv.gz");

  /** A brake that stays longer in the shop was not written down rightly, in days. */
  static final int LONGEST_STAY = 366;

  /** No code is as long; what is longer is rejected when the case is read. */
  private static final int LONGEST_ID = 1000;

  private final Spill spill;
  private final Rejects rejects;
  private final CaseReader reader;
  private final Optional<CsvMapping> mapping;
  private final List<String> files = new ArrayList<>();
  private long records;
  private final PlausibleDays days = new PlausibleDays();
  private final TreeMap<LocalDate, LocalDate> lastDays = new TreeMap<>();

  Batch(Spill spill, Rejects rejects, CaseReader reader, Optional<CsvMapping> mapping) {
    this.reader = reader;
    this.spill = spill;
    this.rejects = rejects;
    this.mapping = mapping;
  }

  /** All records read so far, those that will be rejected included. */
  long records() {
    return records;
  }

  /** The name of the file at that position. */
  String file(int position) {
    return files.get(position);
  }

  /** From when to when the records reach that are to be believed. */
  PlausibleDays.Range range() {
    return days.range();
  }

  /** The latest day any good record speaks of; {@code LocalDate.MIN} without any. */
  LocalDate end() {
    PlausibleDays.Range range = range();
    return lastDays.entrySet().stream()
        .filter(day -> range.contains(day.getKey()))
        .map(Map.Entry::getValue)
        .max(Comparator.naturalOrder())
        .orElse(LocalDate.MIN);
  }

  /** The files of records that are named, or lie below a folder that is named. */
  static List<Path> paths(List<String> names) throws BadInput {
    for (String name : names) {
      if (!Files.isReadable(CaseFolder.path(name))) {
        throw new BadInput(List.of(Problem.ofFile(name, "there is no such file to read", "")));
      }
    }
    return CaseFolder.files(names, ENDINGS);
  }

  /** Tells of the files below these folders that are not read. */
  void tellUnread(List<String> names) throws BadInput {
    for (String name : names) {
      Path folder = CaseFolder.path(name);
      if (Files.isDirectory(folder)) {
        for (Path path : CaseFolder.below(folder, List.of(""))) {
          String lower = path.toString().toLowerCase(Locale.ROOT);
          if (ENDINGS.stream().noneMatch(lower::endsWith)) {
            unread(path.toString(), "ends in none of " + String.join(", ", ENDINGS));
          }
        }
      }
    }
  }

  private void unread(String name, String reason) {
    rejects.add(name, 1, Rejects.Kind.FILE_NOT_READ, reason);
  }

  /**
   * Reads these files.
   *
   * @param named as the user named them; a table that nobody named is told and left out
   */
  void read(List<Path> paths, List<String> named) throws BadInput {
    for (Path path : paths) {
      String name = path.toString();
      String lower = name.toLowerCase(Locale.ROOT);
      files.add(name);
      if (lower.endsWith(".csv") || lower.endsWith(".csv.gz")) {
        if (mapping.isEmpty() && !named.contains(name)) {
          unread(name, "is a table, and nothing says what its columns mean: see firmlever import");
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
        readLines(path, name, lower);
      }
    }
  }

  /** Reads one case that lies in no file of its own. */
  void read(String name, byte[] text) {
    files.add(name);
    add(text, 1);
  }

  private void readCase(Path path, String name) {
    try (InputStream in = Files.newInputStream(path)) {
      byte[] bytes = in.readNBytes(Limit.RECORD_BYTES.most() + 1);
      if (bytes.length > Limit.RECORD_BYTES.most()) {
        reject(name, 1, "is longer than a million bytes; no case file is");
      } else {
        add(bytes, 1);
      }
    } catch (IOException e) {
      reject(name, 1, "cannot be read: " + e.getMessage());
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

  private void readLines(Path path, String name, String lower) {
    long line = 1;
    try (InputStream in = open(path, lower)) {
      ByteArrayOutputStream text = new ByteArrayOutputStream(2048);
      byte[] chunk = new byte[1 << 16];
      int filled;
      while ((filled = in.read(chunk)) >= 0) {
        int from = 0;
        for (int at = 0; at < filled; at++) {
          if (chunk[at] == '\n') {
            keep(text, chunk, from, at);
            take(text, name, line++);
            from = at + 1;
          }
        }
        keep(text, chunk, from, filled);
      }
      take(text, name, line);
    } catch (IOException e) {
      // A packed file that was cut off, or a disk that fails: what came before is good.
      reject(name, line, "cannot be read on: " + e.getMessage());
    }
  }

  /** Keeps no more of a line than shows that it is too long. */
  private static void keep(ByteArrayOutputStream text, byte[] chunk, int from, int to) {
    text.write(chunk, from, Math.min(to - from, Limit.RECORD_BYTES.most() + 1 - text.size()));
  }

  private void take(ByteArrayOutputStream text, String name, long line) {
    if (text.size() > Limit.RECORD_BYTES.most()) {
      reject(name, line, "is longer than a million bytes; no case is");
    } else if (text.size() > 0) {
      byte[] bytes = text.toByteArray();
      if (!blank(bytes)) {
        add(bytes, line);
      }
    }
    text.reset();
  }

  private static boolean blank(byte[] bytes) {
    for (byte each : bytes) {
      if (each > ' ' || each < 0) {
        return false;
      }
    }
    return true;
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
      opened(node).ifPresent(day -> seen(day, node));
      String brake = brake(node);
      spill.add(part(brake), new Spill.Raw(file, line, brake, text));
    } catch (BadInput e) {
      rejects.add(files.get(file), line, e);
    }
  }

  /** Only a record that adds a later day is read whole: most add none. */
  private void seen(LocalDate opened, Node node) {
    days.add(opened);
    LocalDate last =
        inner(node, "outcome")
            .flatMap(outcome -> text(outcome, "closed"))
            .flatMap(Shape::day)
            .filter(closed -> closed.isAfter(opened))
            .filter(closed -> closed.isBefore(opened.plusDays(LONGEST_STAY)))
            .orElse(opened);
    LocalDate known = lastDays.get(opened);
    if ((known == null || last.isAfter(known)) && isCase(node)) {
      lastDays.put(opened, last);
    }
  }

  private static Optional<Node> inner(Node node, String name) {
    return node instanceof Node.Object object ? object.get(name) : Optional.empty();
  }

  /** A record that will be rejected says nothing of how far the data reach. */
  private boolean isCase(Node node) {
    try {
      reader.read(node, "");
      return true;
    } catch (BadInput e) {
      return false;
    }
  }

  private static Optional<LocalDate> opened(Node node) {
    return text(node, "opened").flatMap(Shape::day);
  }

  private static String brake(Node node) {
    return node instanceof Node.Object object
        ? object
            .get("brake")
            .flatMap(brake -> text(brake, "id"))
            .filter(id -> id.length() <= LONGEST_ID)
            .orElse("")
        : "";
  }

  private static Optional<String> text(Node node, String name) {
    return node instanceof Node.Object object
        ? object
            .get(name)
            .filter(Node.Text.class::isInstance)
            .map(text -> ((Node.Text) text).value())
        : Optional.empty();
  }

  private static int part(String brake) {
    int hash = brake.hashCode() * 0x9e3779b9;
    return hash >>> 24;
  }
}
