package firmlever.records;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Tally;
import firmlever.comeback.visits.Comeback;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Limit;
import firmlever.document.Problem;
import firmlever.records.tables.PlausibleDays;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Takes records brake by brake, leaves out those that cannot be used, and reviews the others into a
 * tally. For one thread; what it needs may be shared by many.
 */
public final class BrakeRecords {
  /** What reads and reviews, and what happens with it. */
  public interface Reviewed {
    /** One brake was reviewed. */
    void brake(List<CaseFile> visits, List<Comeback> comebacks);
  }

  /**
   * A record as it was read.
   *
   * @param file name of its file
   * @param line from 1
   * @param reason why it is none; empty where its text says what it is
   */
  public record Told(String file, long line, byte[] text, String reason) {
    Told(String file, long line, byte[] text) {
      this(file, line, text, "");
    }
  }

  private record Read(Told told, CaseFile file) {}

  private final CaseReader reader;
  private final UnaryOperator<CaseFile> listen;
  private final BrakeReview review;
  private final PlausibleDays.Range range;
  private final LocalDate end;
  private final Rejects rejects;
  private final Tally tally;
  private final Reviewed reviewed;

  private final List<Told> open = new ArrayList<>();
  private String brake = "";
  private boolean tooMany;

  /**
   * @param range the days that are believed
   * @param end the last day of the data
   * @param tally that is filled
   */
  public BrakeRecords(
      CaseReader reader,
      UnaryOperator<CaseFile> listen,
      BrakeReview review,
      PlausibleDays.Range range,
      LocalDate end,
      Rejects rejects,
      Tally tally,
      Reviewed reviewed) {
    this.reader = reader;
    this.listen = listen;
    this.review = review;
    this.range = range;
    this.end = end;
    this.rejects = rejects;
    this.tally = tally;
    this.reviewed = reviewed;
  }

  /** Takes a record; those of one brake follow each other, in any order. */
  public void add(String id, Told told) {
    if (!told.reason.isEmpty()) {
      reject(told, told.reason);
      return;
    }
    if (!id.equals(brake) || id.isEmpty()) {
      end();
      brake = id;
    }
    open.add(told);
    // Weekly visits over nine years (from memory); histories grow with the square of their number.
    if (tooMany || open.size() > Limit.BRAKE_RECORDS.most()) {
      tooMany = true;
      open.forEach(
          each ->
              reject(
                  each,
                  "more than "
                      + Limit.BRAKE_RECORDS.most()
                      + " records have this brake's code: it must stand for many brakes"));
      open.clear();
    }
  }

  /** Ends the last brake. */
  public void end() {
    if (!open.isEmpty()) {
      // One brake at a time: all others are held as bytes only.
      review(remarked(once(dated(read(open)))));
    }
    open.clear();
    tooMany = false;
  }

  /** Reviews one brake; a record that cannot be reviewed is rejected alone. */
  private void review(List<Read> visits) {
    if (visits.isEmpty()) {
      return;
    }
    try {
      List<CaseFile> files = visits.stream().map(Read::file).toList();
      reviewed.brake(files, review.review(files, tally));
    } catch (RuntimeException | StackOverflowError e) {
      List<Read> good = visits.stream().filter(this::canBeReviewed).toList();
      if (good.size() < visits.size()) {
        review(good);
        return;
      }
      visits.forEach(
          visit -> reject(visit.told, "cannot be reviewed with the others of its brake"));
    }
  }

  private boolean canBeReviewed(Read visit) {
    List<Problem> problems =
        OneCase.problems(visit.told.file, () -> review.review(List.of(visit.file), new Tally()));
    if (problems.isEmpty()) {
      return true;
    }
    rejects.add(visit.told.file, visit.told.line, new BadInput(problems));
    return false;
  }

  private void reject(Told record, String reason) {
    rejects.add(record.file, record.line, reason);
  }

  private List<Read> read(List<Told> records) {
    List<Read> read = new ArrayList<>();
    for (Told told : records) {
      try {
        read.add(
            new Read(
                told,
                listen.apply(reader.read(DocumentReader.read(told.text, told.file), told.file))));
      } catch (BadInput e) {
        rejects.add(told.file, told.line, e);
      }
    }
    return read;
  }

  /** The cases whose days can be believed and lie within the data. */
  private List<Read> dated(List<Read> records) {
    List<Read> good = new ArrayList<>();
    for (Read record : records) {
      LocalDate opened = record.file.opened();
      LocalDate closed = closed(record.file);
      if (!range.contains(opened)) {
        reject(
            record.told, "opened on " + opened + ", more than a year away from nearly all others");
      } else if (closed.isAfter(opened.plusDays(Reach.LONGEST_STAY))) {
        reject(
            record.told,
            "opened on " + opened + " and closed on " + closed + ", over a year later");
      } else if (opened.isAfter(end)) {
        remark(record, Rejects.Kind.SKIPPED, "opened after " + end);
      } else {
        good.add(record);
      }
    }
    return good;
  }

  private static LocalDate closed(CaseFile file) {
    return file.outcome().flatMap(CaseFile.Outcome::closed).orElse(file.opened());
  }

  /** The same cases; tells of those that overlap or were not finished. */
  private List<Read> remarked(List<Read> records) {
    List<Read> byTime = new ArrayList<>(records);
    byTime.sort(Comparator.comparing((Read r) -> r.file.opened()).thenComparing(r -> r.file.id()));
    LocalDate back = LocalDate.MIN;
    for (Read record : byTime) {
      LocalDate closed = closed(record.file);
      if (record.file.opened().isBefore(back)) {
        remark(
            record,
            Rejects.Kind.REVIEWED_WITH_REMARK,
            "opened before this brake had gone back on "
                + back
                + ": reviewed, and not counted as coming back from that visit");
      }
      if (closed.isAfter(end)) {
        remark(
            record,
            Rejects.Kind.REVIEWED_WITH_REMARK,
            "went back on " + closed + ", after " + end + ": taken as still here");
      }
      back = closed.isAfter(back) ? closed : back;
    }
    return records;
  }

  private void remark(Read record, Rejects.Kind kind, String reason) {
    rejects.add(record.told.file, record.told.line, kind, reason);
  }

  /** The cases without those told twice; which of two stays depends on what they say. */
  private List<Read> once(List<Read> records) {
    records.sort(
        Comparator.comparing((Read r) -> r.file.id())
            .thenComparing(r -> r.told.text, Arrays::compare)
            .thenComparing(r -> r.told.file)
            .thenComparing(r -> r.told.line));
    List<Read> cases = new ArrayList<>();
    String last = "";
    for (Read record : records) {
      if (record.file.id().equals(last)) {
        reject(record.told, "case " + last + " of this brake is there twice");
      } else {
        cases.add(record);
        last = record.file.id();
      }
    }
    return cases;
  }
}
