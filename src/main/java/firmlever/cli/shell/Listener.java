package firmlever.cli.shell;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.UnaryOperator;

/**
 * Hears the complaints of records in which nobody looked for a finding, and counts them, with those
 * that were heard before, by the import. Where findings are on record, they say all. May be used by
 * several threads.
 */
public final class Listener implements UnaryOperator<CaseFile> {
  private final Engine engine;
  private final Listening listening;
  private final AtomicLong heard = new AtomicLong();
  private final AtomicLong unheard = new AtomicLong();

  public Listener(Engine engine, Listening listening) {
    this.engine = engine;
    this.listening = listening;
  }

  @Override
  public CaseFile apply(CaseFile file) {
    if (listening.codedOnly() || file.complaint().isBlank()) {
      return file;
    }
    List<String> findings =
        file.symptoms().entrySet().stream()
            .filter(each -> each.getValue() != Presence.NOT_CHECKED)
            .map(Map.Entry::getKey)
            .toList();
    if (!findings.isEmpty()) {
      // The import has listened already.
      if (file.onlyTold().containsAll(findings)) {
        heard.incrementAndGet();
      }
      return file;
    }
    CaseFile heeded = listening.heed(engine, file).file();
    (heeded.symptoms().size() > file.symptoms().size() ? heard : unheard).incrementAndGet();
    return heeded;
  }

  /** Complaints that gave a finding, here or when the record was made. */
  public long heard() {
    return heard.get();
  }

  /** Complaints that gave none. */
  public long unheard() {
    return unheard.get();
  }
}
