package firmlever.bench;

import firmlever.bench.job.Jobs;
import firmlever.bench.job.Reasoning;
import firmlever.bench.job.Verdicts;
import firmlever.store.JobStore;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;

/** What all pages work with. */
record Shop(
    JobStore store,
    Reasoning reasoning,
    Verdicts verdicts,
    Jobs jobs,
    Pages pages,
    InstantSource clock,
    ZoneId zone) {
  String say(String key, Object... values) {
    return pages.words().say(key, values);
  }

  /** A day, written as the language of the pages does. */
  String day(LocalDate day) {
    return DateTimeFormatter.ofPattern("d MMMM uuuu", pages.words().locale()).format(day);
  }
}
