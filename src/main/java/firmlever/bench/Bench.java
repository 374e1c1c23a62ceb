package firmlever.bench;

import firmlever.bench.job.Reasoning;
import firmlever.store.JobStore;
import firmlever.web.Sessions;
import firmlever.web.WebServer;
import java.io.IOException;
import java.net.InetAddress;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;

/** The bench as it is served: pages over a store, until it is closed. */
public final class Bench implements AutoCloseable {
  private final WebServer server;

  private Bench(WebServer server) {
    this.server = server;
  }

  /**
   * Starts to serve.
   *
   * @param store is asked for when it is needed first, and closed by nobody here
   * @param reasoning is asked once, while the first page is served already
   * @param address where to listen
   * @param port 0 for any that is free
   * @param names further names of this machine by which it may be opened
   * @param keyDigest digest of the key every tablet must know; empty where none is asked for
   * @param faults is told of faults of the program, a line each
   * @throws IOException where it cannot listen there
   */
  public static Bench serve(
      Supplier<JobStore> store,
      Supplier<Reasoning> reasoning,
      InetAddress address,
      int port,
      List<String> names,
      Optional<String> keyDigest,
      InstantSource clock,
      ZoneId zone,
      Consumer<String> faults)
      throws IOException {
    Sessions sessions = new Sessions(clock);
    BenchApp app = new BenchApp(store, reasoning, sessions, keyDigest, clock, zone);
    WebServer server = WebServer.start(address, port, names, sessions, app, faults);
    app.servedOn(server.port());
    return new Bench(server);
  }

  public int port() {
    return server.port();
  }

  @Override
  public void close() {
    server.close();
  }
}
