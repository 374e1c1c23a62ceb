package firmlever.store;

import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Jobs to put into a store. */
final class Contents {
  private Contents() {}

  static final LocalDate DAY = LocalDate.of(2026, 5, 12);
  static final Instant MORNING = Instant.parse("2026-05-12T08:00:00Z");

  static Content open(String id, String brake, String text) {
    return of(id, brake, DAY, State.OPEN, text);
  }

  static Content of(String id, String brake, LocalDate opened, State state, String text) {
    Optional<LocalDate> closed =
        state == State.HANDED_BACK ? Optional.of(opened) : Optional.empty();
    return new Content(
        new Heading(id, brake, opened, closed, state, "soft", List.of(), List.of()), text, "{}");
  }

  static Stamp by(String author, String what) {
    return new Stamp(MORNING, author, what);
  }
}
