package firmlever.store;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Keeps the jobs of a shop. Nothing that was written is ever changed: each change is kept whole,
 * with its number, moment and author, and the last one is what the job is now. Any number of
 * threads may use it. What goes wrong in it is a {@link StoreFault}.
 */
public interface JobStore extends AutoCloseable {

  /** Where a job stands. */
  enum State {
    OPEN,
    /** It waits for a part, a customer, a day. */
    WAITING,
    /** It was judged and may not go back. */
    HELD,
    HANDED_BACK
  }

  /**
   * What one searches and lists jobs by.
   *
   * @param id code of the job, which is that of its case
   * @param brake code of the brake
   * @param title the complaint, shortened
   * @param causes ids of the causes found; empty while it is open
   * @param works ids of the works that mended it; empty while it is open
   * @param closed the day it went back
   */
  record Heading(
      String id,
      String brake,
      LocalDate opened,
      Optional<LocalDate> closed,
      State state,
      String title,
      List<String> causes,
      List<String> works) {}

  /**
   * All of a job at one time.
   *
   * @param caseText the case file, letter for letter
   * @param sheet what was done in the shop, as JSON text
   */
  record Content(Heading heading, String caseText, String sheet) {}

  /**
   * A job as it stands.
   *
   * @param version number of its last change, from 1
   */
  record Job(Content content, int version) {
    public Heading heading() {
      return content.heading();
    }
  }

  /**
   * Who changed a job, when, and what.
   *
   * @param author code of the technician
   * @param what in words
   */
  record Stamp(Instant moment, String author, String what) {}

  /** One change of a job, and what it was after it. */
  record Change(int number, Stamp stamp, String caseText, String sheet) {}

  /**
   * What was added to a job beside its case, such as a claim.
   *
   * @param number from 1, for each job
   * @param author code of who added it
   * @param kind what it is, in one word
   */
  record Paper(int number, Instant moment, String author, String kind, String content) {}

  /**
   * A photo of a job.
   *
   * @param number of the change that brought it in
   * @param stamp who attached it, and when
   * @param digest SHA-256 of the picture, in hexadecimal
   * @param bytes length of the picture
   * @param shows what it shows, in words; may be empty
   * @param struck why it counts no more; empty where it stands
   */
  record Photo(
      String job,
      int number,
      Stamp stamp,
      String digest,
      int bytes,
      String shows,
      Optional<String> struck) {}

  /** Somebody else changed the job in between, or took its code. */
  final class Changed extends Exception {
    private static final long serialVersionUID = 1L;

    public Changed(String id) {
      super(id);
    }
  }

  /**
   * Adds a job. It is on the disk when this returns.
   *
   * @throws Changed where a job of that code is there already
   */
  Job add(Content content, Stamp stamp) throws Changed;

  /**
   * Changes a job. It is on the disk when this returns.
   *
   * @param seen the version the change was made on
   * @throws Changed where the job has another version by now; nothing is written then
   */
  Job change(Content content, int seen, Stamp stamp) throws Changed;

  Optional<Job> job(String id);

  /** All changes of a job, in their order. */
  List<Change> changes(String id);

  /** The changes of a job after a version, in their order. */
  List<Change> changesAfter(String id, int version);

  /** All papers of a job, in their order. */
  List<Paper> papers(String id);

  /**
   * Adds a paper to a job, whatever its state. It is on the disk when this returns.
   *
   * @param paper with the number after the last one that was seen
   * @throws Changed where that number is taken by now; nothing is written then
   */
  void addPaper(String id, Paper paper) throws Changed;

  /**
   * Attaches a photo to a job, as a change of it. The picture is on the disk before the change is,
   * and both are when this returns.
   *
   * @param job as it was seen
   * @param jpeg the picture
   * @param shows what it shows, in words; may be empty
   * @throws Changed where the job has another version by now, or that picture already; nothing
   *     tells of it then
   */
  Job addPhoto(Job job, byte[] jpeg, String shows, Stamp stamp) throws Changed;

  /**
   * Strikes a photo out, as a change of the job. The picture stays where it is.
   *
   * @param job as it was seen
   * @param photo number of the change that brought it in
   * @throws Changed where the job has another version by now; nothing is written then
   */
  Job strikePhoto(Job job, int photo, String reason, Stamp stamp) throws Changed;

  /** The photos of a job, in their order, those struck out among them. */
  List<Photo> photos(String id);

  /** How many photos stand in each job of that brake that has any, by the code of the job. */
  Map<String, Integer> photosOfBrake(String brake);

  /**
   * The content of a photo.
   *
   * @throws StoreFault where its file is missing or is not what was attached
   */
  byte[] picture(Photo photo);

  /** The jobs of that very brake, the latest first. */
  List<Heading> ofBrake(String brake, int most);

  /** Jobs whose code or brake begins like this, capitals or not, the latest first. */
  List<Heading> search(String beginning, int most);

  /** The jobs in one state, the latest first. */
  List<Heading> in(State state, int most);

  /** The jobs handed back on that day. */
  List<Heading> handedBackOn(LocalDate day, int most);

  /** Every job, in the order of the codes. */
  void each(Consumer<Job> reader);

  Optional<String> setting(String name);

  void set(String name, String value);

  /**
   * Writes all of it into a new file, which is a store itself, and the photos beside that, while
   * others go on working.
   *
   * @throws StoreFault where something is there already, or a photo is missing or damaged; all
   *     others are copied then
   */
  void backup(Path file);

  @Override
  void close();
}
