package firmlever.bench;

import firmlever.store.JobStore;
import java.time.InstantSource;
import java.time.ZoneId;

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
}
