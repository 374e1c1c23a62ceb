package firmlever.cluster;

import firmlever.cli.Main;
import firmlever.cli.review.Elsewhere;
import firmlever.cli.review.Elsewhere.Days;
import firmlever.cli.review.Elsewhere.Piece;
import firmlever.cli.review.Elsewhere.Result;
import firmlever.cli.review.Elsewhere.Reviewing;
import firmlever.cli.review.Elsewhere.Scanned;
import firmlever.cli.review.Elsewhere.Sent;
import firmlever.cli.review.Elsewhere.Settings;
import firmlever.document.BadInput;
import java.io.IOException;
import java.io.OutputStream;
import java.io.Serializable;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.NoSuchElementException;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.spark.Partitioner;
import org.apache.spark.SparkConf;
import org.apache.spark.SparkException;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.storage.StorageLevel;
import org.jspecify.annotations.Nullable;
import scala.Tuple2;

/**
 * Runs {@code firmlever review} on many machines: same arguments, same results to the last byte.
 * Where it runs is said by {@code -Dspark.master=...} and all other settings of the engine in the
 * same way.
 *
 * <ol>
 *   <li>Files are cut into pieces; one pass counts their lines and tells how far the records reach,
 *       since what "not back yet" means hangs on the last day of all.
 *   <li>Records go to the partition of their brake, sorted by brake: a partition is read as it
 *       comes, one brake at a time, and never held.
 *   <li>Each partition is reviewed into a tally; its rows of the table of all comebacks are kept on
 *       the disks of the machines until they are fetched, one partition after the other.
 *   <li>Tallies are merged in a tree; conclusions are drawn once, where the command was given.
 * </ol>
 */
public final class ClusterReview implements Elsewhere.Machines {
  /** Bytes of a file that one task reads; a setting of the engine, named like its own. */
  private static final String PIECE = "spark.firmlever.pieceBytes";

  /** Partitions of the brakes; each needs the memory of one tally. */
  private static final String PARTITIONS = "spark.firmlever.partitions";

  private static final int ROWS_AT_ONCE = 1 << 20;

  ClusterReview() {}

  /** Runs the review and ends the process with its exit code. */
  public static void main(String[] args) {
    System.exit(Main.review(new ClusterReview(), args));
  }

  @Override
  public Result review(Settings settings, List<String> files) throws IOException {
    SparkConf conf =
        new SparkConf()
            .setAppName("firmlever review")
            .setIfMissing("spark.master", "local[*]")
            .setIfMissing("spark.ui.enabled", "false")
            .setIfMissing("spark.ui.showConsoleProgress", "true")
            // Tallies come back one a partition; the limit of the engine is set for small answers.
            .setIfMissing("spark.driver.maxResultSize", "0");
    if (!conf.get("spark.master").startsWith("local[")) {
      conf.setIfMissing("spark.jars", String.join(",", ownJars()));
      // A machine with a full disk fails fast, so it would be given the same task again and again.
      conf.setIfMissing("spark.excludeOnFailure.enabled", "true");
    }
    JavaSparkContext spark = new JavaSparkContext(conf);
    try {
      return new Job(spark, settings, List.copyOf(files)).run();
    } catch (RuntimeException e) {
      boolean lost = spark.sc().isStopped();
      spark.stop();
      throw failed(e, lost, conf.get("spark.master"));
    } catch (Exception e) {
      spark.stop();
      throw failed(e, false, conf.get("spark.master"));
    }
  }

  /** Spark throws its checked exception undeclared, and others where its context has ended. */
  private static RuntimeException failed(Exception e, boolean lost, String master) {
    if (lost) {
      return new Elsewhere.Failed(
          "The engine at "
              + master
              + " was lost, or could not be reached.\n    Maybe start its master, or look at what"
              + " the engine told above.",
          e);
    }
    if (e instanceof SparkException || e.getCause() instanceof SparkException) {
      return new Elsewhere.Failed(
          "The engine gave up: " + String.valueOf(e.getMessage()).lines().findFirst().orElse(""),
          e);
    }
    return e instanceof RuntimeException known ? known : new IllegalStateException(e);
  }

  /** This program and its libraries, which the engine lays on every machine. */
  private static List<String> ownJars() throws IOException {
    Path jar =
        Path.of(
            URI.create(
                Elsewhere.class.getProtectionDomain().getCodeSource().getLocation().toString()));
    List<String> jars = new ArrayList<>();
    jars.add(jar.toString());
    Path libraries = jar.resolveSibling("lib");
    if (Files.isDirectory(libraries)) {
      try (Stream<Path> all = Files.list(libraries)) {
        all.map(Path::toString)
            .filter(name -> name.endsWith(".jar") && !name.contains("slf4j"))
            .sorted()
            .forEach(jars::add);
      }
    }
    return jars;
  }

  /** One run. */
  private static final class Job {
    private final JavaSparkContext spark;
    private final Settings settings;
    private final List<String> files;

    Job(JavaSparkContext spark, Settings settings, List<String> files) {
      this.spark = spark;
      this.settings = settings;
      this.files = files;
    }

    Result run() {
      Broadcast<Machine> machine = spark.broadcast(new Machine(settings, files));
      List<Piece> pieces = pieces(spark.sc().conf().getSizeAsBytes(PIECE, "16m"));
      List<Tuple2<Piece, Scanned>> scanned =
          pieces.isEmpty()
              ? List.of()
              : spark
                  .parallelize(pieces, pieces.size())
                  .map(piece -> new Tuple2<>(piece, machine.value().steps().scan(piece)))
                  .collect();
      Days days =
          Elsewhere.days(settings, scanned.stream().map(each -> each._2().reach()).toList());
      List<Tuple2<Piece, Long>> numbered = numbered(scanned);
      int partitions =
          spark
              .sc()
              .conf()
              .getInt(PARTITIONS, Math.max(8 * spark.defaultParallelism(), pieces.size()));
      JavaPairRDD<String, byte[]> records =
          spark
              .parallelize(numbered, Math.max(1, numbered.size()))
              .mapPartitionsToPair(
                  some -> new Sending(machine.value().steps(), some))
              .repartitionAndSortWithinPartitions(new ByPlace(partitions));
      JavaRDD<byte[]> reviewed =
          records
              .mapPartitions(
                  sorted -> new Reviewed(machine.value().steps().reviewing(days), sorted))
              .persist(StorageLevel.DISK_ONLY());
      byte[] counted =
          reviewed
              .filter(each -> each[0] == Reviewed.COUNTED)
              .map(Reviewed::content)
              .treeReduce(Elsewhere::merge);
      return new Result(counted, days.end(), out -> writeRows(reviewed, out));
    }

    private void writeRows(JavaRDD<byte[]> reviewed, OutputStream out) throws IOException {
      Iterator<byte[]> rows =
          reviewed
              .filter(each -> each[0] == Reviewed.ROWS)
              .map(Reviewed::content)
              .toLocalIterator();
      while (rows.hasNext()) {
        out.write(rows.next());
      }
    }

    /** Files in pieces; a packed file and a file of one case are one piece each. */
    private List<Piece> pieces(long size) {
      List<Piece> pieces = new ArrayList<>();
      for (int i = 0; i < files.size(); i++) {
        String lower = files.get(i).toLowerCase(Locale.ROOT);
        long bytes = Elsewhere.size(files.get(i));
        if (lower.endsWith(".gz") || lower.endsWith(".json") || bytes <= size) {
          pieces.add(new Piece(i, 0, Long.MAX_VALUE));
          continue;
        }
        for (long from = 0; from < bytes; from += size) {
          pieces.add(new Piece(i, from, from + size < bytes ? from + size : Long.MAX_VALUE));
        }
      }
      return pieces;
    }

    /** The pieces with the lines of their file before them. */
    private static List<Tuple2<Piece, Long>> numbered(List<Tuple2<Piece, Scanned>> scanned) {
      var lines = new TreeMap<Integer, Long>();
      List<Tuple2<Piece, Long>> numbered = new ArrayList<>();
      for (Tuple2<Piece, Scanned> each : scanned) {
        long before = lines.getOrDefault(each._1().file(), 0L);
        numbered.add(new Tuple2<>(each._1(), before));
        lines.put(each._1().file(), before + each._2().lines());
      }
      return numbered;
    }
  }

  /** What a machine needs; made once in each of its processes. */
  static final class Machine implements Serializable {
    private static final long serialVersionUID = 1L;

    private final Settings settings;
    private final ArrayList<String> files;
    private transient @Nullable Elsewhere steps;

    Machine(Settings settings, List<String> files) {
      this.settings = settings;
      this.files = new ArrayList<>(files);
    }

    synchronized Elsewhere steps() {
      if (steps == null) {
        try {
          steps = new Elsewhere(settings, files);
        } catch (BadInput e) {
          throw new IllegalStateException(e.getMessage(), e);
        }
      }
      return steps;
    }
  }

  /** The records of pieces, read as they are asked for. */
  private static final class Sending implements Iterator<Tuple2<String, byte[]>> {
    private final Elsewhere steps;
    private final Iterator<Tuple2<Piece, Long>> pieces;
    private Iterator<Sent> records = Collections.emptyIterator();

    Sending(Elsewhere steps, Iterator<Tuple2<Piece, Long>> pieces) {
      this.steps = steps;
      this.pieces = pieces;
    }

    @Override
    public boolean hasNext() {
      while (!records.hasNext() && pieces.hasNext()) {
        Tuple2<Piece, Long> piece = pieces.next();
        records = steps.records(piece._1(), piece._2());
      }
      return records.hasNext();
    }

    @Override
    public Tuple2<String, byte[]> next() {
      if (!hasNext()) {
        throw new NoSuchElementException();
      }
      Sent sent = records.next();
      return new Tuple2<>(sent.place(), sent.packed());
    }
  }

  /** Brakes by the first 32 bits of their place: partitions follow each other as places do. */
  static final class ByPlace extends Partitioner {
    private static final long serialVersionUID = 1L;

    private final int partitions;

    ByPlace(int partitions) {
      this.partitions = partitions;
    }

    @Override
    public int numPartitions() {
      return partitions;
    }

    @Override
    public int getPartition(Object key) {
      long place = Long.parseLong(((String) key).substring(0, 8), 16);
      return (int) (place * partitions >>> 32);
    }
  }

  /** A partition as it is reviewed: rows as they come, and at last what was counted. */
  static final class Reviewed implements Iterator<byte[]> {
    static final byte ROWS = 0;
    static final byte COUNTED = 1;

    private final Reviewing reviewing;
    private final Iterator<Tuple2<String, byte[]>> records;
    private boolean counted;

    Reviewed(Reviewing reviewing, Iterator<Tuple2<String, byte[]>> records) {
      this.reviewing = reviewing;
      this.records = records;
    }

    @Override
    public boolean hasNext() {
      return !counted;
    }

    @Override
    public byte[] next() {
      while (records.hasNext() && reviewing.waiting() < ROWS_AT_ONCE) {
        Tuple2<String, byte[]> record = records.next();
        reviewing.add(record._1(), record._2());
      }
      if (!records.hasNext()) {
        reviewing.end();
        if (reviewing.waiting() == 0) {
          counted = true;
          return marked(COUNTED, reviewing.counted());
        }
      }
      return marked(ROWS, reviewing.takeRows());
    }

    private static byte[] marked(byte mark, byte[] content) {
      byte[] marked = new byte[content.length + 1];
      marked[0] = mark;
      System.arraycopy(content, 0, marked, 1, content.length);
      return marked;
    }

    static byte[] content(byte[] marked) {
      return Arrays.copyOfRange(marked, 1, marked.length);
    }
  }
}
