package firmlever.bench;

import firmlever.store.JobStore;
import firmlever.store.SqliteStore;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A bench served for a test, with a clock that can be set. */
final class Served implements AutoCloseable {
  final JobStore store;
  final List<String> faults = new ArrayList<>();
  private final Bench bench;
  private volatile Instant now = Instant.parse("2026-05-12T08:00:00Z");

  Served(Path file) {
    this(SqliteStore.open(file), Optional.empty());
  }

  Served(JobStore store, Optional<String> keyDigest) {
    this.store = store;
    try {
      InstantSource clock = () -> now;
      bench =
          Bench.serve(
              () -> store,
              () -> Reasons.ALL,
              InetAddress.getLoopbackAddress(),
              0,
              List.of(),
              keyDigest,
              clock,
              ZoneOffset.UTC,
              faults::add);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  void setClock(String instant) {
    now = Instant.parse(instant);
  }

  int port() {
    return bench.port();
  }

  String address() {
    return "http://127.0.0.1:" + port();
  }

  @Override
  public void close() {
    bench.close();
    store.close();
  }
}
