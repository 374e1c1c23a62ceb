package firmlever.cli;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.UnaryOperator;

/**
 * Hears the complaints of records that hold no finding, and counts them. Where findings are on
 * record, they say all. May be used by several threads.
 */
final class Listener implements UnaryOperator<CaseFile> {
  private final Engine engine;
  private final Listening listening;
  private final AtomicLong heard = new AtomicLong();
  private final AtomicLong unheard = new AtomicLong();

  Listener(Engine engine, Listening listening) {
    this.engine = engine;
    this.listening = listening;
  }

  @Override
  public CaseFile apply(CaseFile file) {
    boolean found = file.symptoms().values().stream().anyMatch(p -> p != Presence.NOT_CHECKED);
    if (found || file.complaint().isBlank()) {
      return file;
    }
    CaseFile heeded = listening.heed(engine, file).file();
    (heeded.symptoms().size() > file.symptoms().size() ? heard : unheard).incrementAndGet();
    return heeded;
  }

  /** Complaints that gave a finding. */
  long heard() {
    return heard.get();
  }

  /** Complaints that gave none. */
  long unheard() {
    return unheard.get();
  }
}
