package firmlever.cli.review;

import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Listener;
import firmlever.cli.shell.Listening;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Costs;
import firmlever.comeback.Tally;
import firmlever.comeback.report.ReviewTables;
import firmlever.comeback.visits.Definition;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Node;
import firmlever.document.Packed;
import firmlever.document.Problem;
import firmlever.records.Batch;
import firmlever.records.BrakeRecords;
import firmlever.records.Counted;
import firmlever.records.Lines;
import firmlever.records.Reach;
import firmlever.records.Rejects;
import firmlever.records.RunBroken;
import firmlever.records.Spill;
import firmlever.records.tables.PlausibleDays;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.NoSuchElementException;
import java.util.Optional;

/**
 * The review cut into steps for an engine that runs them on other machines: the reach of a piece of
 * a file, its records with the place of their brake, the review of brakes that follow each other.
 * What is handed about is text and bytes; how it is handed about is the engine's business.
 */
public final class Elsewhere {
  private final Settings settings;
  private final List<String> files;
  private final Engine engine;

  /** The engine gave up; the message says why, in words for its user. */
  public static final class Failed extends RunBroken {
    private static final long serialVersionUID = 1L;

    public Failed(String message, Throwable cause) {
      super(message, cause);
    }
  }

  /** An engine that reads and reviews records on other machines. */
  public interface Machines {
    /**
     * Reviews all records.
     *
     * @param settings what every machine must know
     * @param files that hold the records, in the order of their positions
     */
    Result review(Settings settings, List<String> files) throws BadInput, IOException;
  }

  /**
   * What every machine must know.
   *
   * @param until the last day of the data; empty for the last day of which the records tell
   * @param rules folder of the shop's own rules; empty for none
   * @param persons whether codes of persons are kept
   * @param rows whether the rows of the table of all comebacks are asked for
   */
  public record Settings(
      int shortDays,
      int longDays,
      String until,
      int comebackMinutes,
      boolean codedOnly,
      String rules,
      boolean persons,
      boolean rows)
      implements Serializable {}

  /**
   * What came of it.
   *
   * @param counted all that was counted, as {@link Reviewing#counted} and {@link #merge} give it
   * @param rows writes the rows of all comebacks, in the order of the brakes' places
   */
  public record Result(byte[] counted, LocalDate end, Rows rows) {}

  /** Writes rows as they come. */
  public interface Rows {
    void to(OutputStream out) throws IOException;
  }

  /**
   * A piece of a file: the lines that begin in it.
   *
   * @param file position of the file
   * @param from its first byte
   * @param to the byte after its last
   */
  public record Piece(int file, long from, long to) implements Serializable {}

  /** Days that are believed, and the last day of the data. */
  public record Days(LocalDate first, LocalDate last, LocalDate end) implements Serializable {}

  /**
   * A record on its way.
   *
   * @param place of its brake among all: records of one brake share it, and it is in the order of
   *     text
   */
  public record Sent(String place, byte[] packed) {}

  /**
   * Starts what a machine needs; takes a second, and may be used by all its threads.
   *
   * @throws BadInput where the shop's own rules cannot be used here
   */
  public Elsewhere(Settings settings, List<String> files) throws BadInput {
    this.settings = settings;
    this.files = files;
    this.engine =
        Engine.start(Optional.of(settings.rules).filter(each -> !each.isEmpty()).map(Path::of));
  }

  /** How many lines begin in the piece, and how far its records reach, packed. */
  public record Scanned(long lines, byte[] reach) implements Serializable {}

  /** Looks at a piece for the first time. */
  public Scanned scan(Piece piece) {
    Reach reach = new Reach(engine.reader());
    long lines =
        lines(
            piece,
            new Lines.Sink() {
              @Override
              public void text(byte[] text, long line) {
                node(text, piece).ifPresent(reach::add);
              }

              @Override
              public void bad(String reason, long line) {
                // It is told when its record is taken.
              }
            });
    return new Scanned(lines, reach.packed());
  }

  private Optional<Node> node(byte[] text, Piece piece) {
    try {
      return Optional.of(DocumentReader.read(text, files.get(piece.file)));
    } catch (BadInput e) {
      return Optional.empty();
    }
  }

  /** The days of all pieces together. */
  public static Days days(Settings settings, List<byte[]> reaches) {
    Reach all = new Reach();
    for (byte[] each : reaches) {
      try {
        all.merge(each);
      } catch (Packed.Broken e) {
        throw new IllegalStateException("what a machine sent is broken: " + e.getMessage(), e);
      }
    }
    PlausibleDays.Range range = all.range();
    return new Days(
        range.first(),
        range.last(),
        settings.until.isEmpty() ? all.end() : LocalDate.parse(settings.until));
  }

  /**
   * The records of a piece, read as they are asked for.
   *
   * @param before lines of the file before the piece
   */
  public Iterator<Sent> records(Piece piece, long before) {
    Deque<Sent> read = new ArrayDeque<>();
    Lines.Sink sink =
        new Lines.Sink() {
          @Override
          public void text(byte[] text, long line) {
            // What is no record goes to the brake without a code, and is rejected there.
            String brake = node(text, piece).map(Reach::brake).orElse("");
            read.add(new Sent(Spill.place(brake), packed(piece.file, before + line, text, "")));
          }

          @Override
          public void bad(String reason, long line) {
            read.add(
                new Sent(Spill.place(""), packed(piece.file, before + line, new byte[0], reason)));
          }
        };
    Path path = readable(piece);
    if (isOneCase(path)) {
      oneCase(path, sink);
      return read.iterator();
    }
    Lines lines = new Lines(path, piece.from, piece.to, sink);
    return new Iterator<>() {
      @Override
      public boolean hasNext() {
        while (read.isEmpty() && lines.more()) {
          // Some bytes further there may be a whole line.
        }
        if (read.isEmpty()) {
          lines.close();
        }
        return !read.isEmpty();
      }

      @Override
      public Sent next() {
        if (!hasNext()) {
          throw new NoSuchElementException();
        }
        return read.remove();
      }
    };
  }

  private static byte[] packed(int file, long line, byte[] text, String reason) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(text.length + 32);
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      out.writeInt(file);
      out.writeLong(line);
      out.writeUTF(reason);
      out.write(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private long lines(Piece piece, Lines.Sink sink) {
    Path path = readable(piece);
    if (!isOneCase(path)) {
      return Lines.read(path, piece.from, piece.to, sink);
    }
    oneCase(path, sink);
    return 1;
  }

  /** A machine that does not see the files must end the run, not reject them. */
  private Path readable(Piece piece) {
    Path path = Path.of(files.get(piece.file));
    if (!Files.isReadable(path)) {
      throw new IllegalStateException(
          path + " cannot be read on every machine: all of them must see it under this name");
    }
    return path;
  }

  private static boolean isOneCase(Path path) {
    return path.toString().toLowerCase(Locale.ROOT).endsWith(".json");
  }

  private static void oneCase(Path path, Lines.Sink sink) {
    try {
      Batch.wholeCase(path, sink);
    } catch (IOException e) {
      sink.bad("cannot be read: " + e.getMessage(), 1);
    }
  }

  /** Reviews brakes, each with all its records, one after the other. For one thread. */
  public Reviewing reviewing(Days days) {
    return new Reviewing(days);
  }

  /** A review under way. */
  public final class Reviewing {
    private final Rejects rejects = new Rejects();
    private final Tally tally = new Tally();
    private final Listener listener;
    private final BrakeRecords brakes;
    private final StringBuilder rows = new StringBuilder();
    private long records;

    private Reviewing(Days days) {
      listener = new Listener(engine, Listening.codedOnly(settings.codedOnly));
      Definition definition = new Definition(settings.shortDays, settings.longDays, days.end);
      brakes =
          new BrakeRecords(
              engine.reader(),
              file -> listener.apply(settings.persons ? file : file.withoutPersons()),
              new BrakeReview(
                  engine.diagnostician(),
                  engine.vocabulary(),
                  definition,
                  // Money is told at the end, of minutes: it plays no part before.
                  new Costs(settings.comebackMinutes, Double.NaN, 0)),
              new PlausibleDays.Range(days.first, days.last),
              days.end,
              rejects,
              tally,
              (visits, comebacks) -> {
                if (settings.rows) {
                  comebacks.forEach(c -> rows.append(ReviewTables.comeback(c)));
                }
              });
    }

    /** Takes a record as {@link #records} gave it; those of one place follow each other. */
    public void add(String place, byte[] packed) {
      try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(packed))) {
        String file = files.get(in.readInt());
        long line = in.readLong();
        String reason = in.readUTF();
        records++;
        brakes.add(
            place.substring(Spill.place("").length()),
            new BrakeRecords.Told(file, line, in.readAllBytes(), reason));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    /** How many bytes of rows wait to be taken, about. */
    public int waiting() {
      return rows.length();
    }

    /** The rows since they were last taken. */
    public byte[] takeRows() {
      byte[] taken = rows.toString().getBytes(StandardCharsets.UTF_8);
      rows.setLength(0);
      return taken;
    }

    /** Ends the last brake. */
    public void end() {
      brakes.end();
    }

    /** All that was counted. */
    public byte[] counted() {
      return packed(new Counted(tally, rejects, records, listener.heard(), listener.unheard()));
    }
  }

  /** Both together. */
  public static byte[] merge(byte[] one, byte[] other) {
    Counted sum = counted(one);
    sum.merge(counted(other));
    return packed(sum);
  }

  private static byte[] packed(Counted counted) {
    Packed.Writer out = new Packed.Writer();
    counted.write(out, true);
    return out.bytes();
  }

  static Counted counted(byte[] packed) {
    try {
      Packed.Reader in = new Packed.Reader(packed);
      Counted counted = Counted.read(in);
      in.end();
      return counted;
    } catch (Packed.Broken e) {
      throw new IllegalStateException("what a machine sent is broken: " + e.getMessage(), e);
    }
  }

  /** The files that machines can read, of those that are named or lie below a named folder. */
  static List<String> files(List<Path> paths, List<String> named, Rejects rejects) throws BadInput {
    List<String> files = new ArrayList<>();
    for (Path path : paths) {
      String name = path.toString();
      if (!Batch.isTable(name) && !Batch.isWorkbook(name)) {
        files.add(name);
      } else if (named.contains(name)) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    name,
                    "is a table, and many machines read records only",
                    "Maybe turn it into records with \"firmlever import\" first.")));
      } else {
        rejects.add(name, 1, Rejects.Kind.FILE_NOT_READ, Batch.TABLE_WITHOUT_MAPPING);
      }
    }
    return files;
  }

  /** Size of a file in bytes; 0 where it cannot be told. */
  public static long size(String file) {
    try {
      return Files.size(Path.of(file));
    } catch (IOException e) {
      return 0;
    }
  }
}
