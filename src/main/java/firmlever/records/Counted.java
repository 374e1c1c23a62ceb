package firmlever.records;

import firmlever.comeback.Tally;
import firmlever.comeback.TallyForm;
import firmlever.document.Packed;
import java.util.List;
import java.util.Map;

/** What was counted of a batch of records: all that conclusions are drawn from. Mergeable. */
public final class Counted {
  public final Tally tally;
  public final Rejects rejects;
  private long records;
  private long heard;
  private long unheard;

  public Counted() {
    this(new Tally(), new Rejects(), 0, 0, 0);
  }

  /**
   * Of records that were counted elsewhere.
   *
   * @param records all that were read, rejected ones included
   * @param heard complaints that gave a finding
   * @param unheard complaints that gave none
   */
  public Counted(Tally tally, Rejects rejects, long records, long heard, long unheard) {
    this.tally = tally;
    this.rejects = rejects;
    this.records = records;
    this.heard = heard;
    this.unheard = unheard;
  }

  public long records() {
    return records;
  }

  public long heard() {
    return heard;
  }

  public long unheard() {
    return unheard;
  }

  /** Takes in all of the other, of other brakes. */
  public void merge(Counted other) {
    tally.merge(other.tally);
    rejects.merge(other.rejects.counts(), other.rejects.listed());
    records += other.records;
    heard += other.heard;
    unheard += other.unheard;
  }

  /** What is written of the records beside their tally. */
  private record Beside(
      long records,
      long heard,
      long unheard,
      Map<Rejects.Kind, Long> rejected,
      List<Rejects.Reject> listed) {}

  /** What is written, in words. */
  static String shape() {
    return Packed.shape(Beside.class) + TallyForm.shape();
  }

  /**
   * Writes it all.
   *
   * @param quotes whether reasons may quote what stands in a rejected record
   */
  public void write(Packed.Writer out, boolean quotes) {
    out.record(
        new Beside(
            records,
            heard,
            unheard,
            rejects.counts(),
            rejects.listed().stream().map(each -> quotes ? each : each.withoutQuotes()).toList()));
    TallyForm.write(tally, out);
  }

  public static Counted read(Packed.Reader in) throws Packed.Broken {
    Beside beside = in.record(Beside.class);
    Rejects rejects = new Rejects();
    rejects.merge(beside.rejected, beside.listed);
    return new Counted(TallyForm.read(in), rejects, beside.records, beside.heard, beside.unheard);
  }
}
