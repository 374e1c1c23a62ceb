package firmlever.web;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import firmlever.document.Limit;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/** Listens, lets the guard look at each request, and sends back what the app answers. */
public final class WebServer implements AutoCloseable {
  /** Answers worked out at once: each is work for a processor; one more waits for the disk. */
  private static final int WORKERS = Runtime.getRuntime().availableProcessors() + 1;

  /** Threads that read and send: half-sent requests hold these, and not those that think. */
  private static final int HANDS = 64;

  /** Forms with a file in them that are in memory at once: one is worked on, one read. */
  private static final int FILES = 2;

  /** So long one more waits; what waits for long is cut off unread, and its sender told nothing. */
  private static final int SECONDS_FOR_A_FILE = 4;

  private static final int SECONDS_TO_FINISH = 3;

  private final HttpServer server;
  private final ExecutorService workers;

  private WebServer(HttpServer server, ExecutorService workers) {
    this.server = server;
    this.workers = workers;
  }

  /** The name of the cookie of a server on that port: browsers share cookies between ports. */
  public static String cookie(int port) {
    return "firmlever-" + port;
  }

  /**
   * Starts to listen.
   *
   * @param port 0 for any that is free
   * @param names further names of this machine by which it may be opened, without port
   * @param faults is told of faults of the program, a line each
   * @throws IOException where it cannot listen there
   */
  public static WebServer start(
      InetAddress address,
      int port,
      List<String> names,
      Sessions sessions,
      App app,
      Consumer<String> faults)
      throws IOException {
    // In seconds, whatever the documentation of the Java module says; tried with 17 and 25.
    setUnlessSet("sun.net.httpserver.maxReqTime", String.valueOf(Limit.REQUEST_SECONDS.most()));
    setUnlessSet("sun.net.httpserver.maxRspTime", String.valueOf(Limit.REQUEST_SECONDS.most()));
    // Otherwise the head of an answer waits 40 ms for the browser's word before its body follows.
    setUnlessSet("sun.net.httpserver.nodelay", "true");
    HttpServer server = HttpServer.create(new InetSocketAddress(address, port), 0);
    ExecutorService workers = Executors.newFixedThreadPool(HANDS);
    Semaphore thinking = new Semaphore(WORKERS, true);
    Semaphore files = new Semaphore(FILES, true);
    Semaphore unpacking = new Semaphore(1, true);
    int bound = server.getAddress().getPort();
    Set<String> hosts = new LinkedHashSet<>();
    for (String name : List.of("127.0.0.1", "localhost", "[::1]")) {
      hosts.add(name + ":" + bound);
    }
    names.forEach(name -> hosts.add(name + ":" + bound));
    Guard guard = new Guard(hosts, sessions, cookie(bound));
    server.createContext(
        "/", exchange -> answer(exchange, guard, app, thinking, files, unpacking, faults));
    server.setExecutor(workers);
    server.start();
    return new WebServer(server, workers);
  }

  private static void setUnlessSet(String property, String value) {
    if (System.getProperty(property) == null) {
      System.setProperty(property, value);
    }
  }

  public int port() {
    return server.getAddress().getPort();
  }

  private static void answer(
      HttpExchange exchange,
      Guard guard,
      App app,
      Semaphore thinking,
      Semaphore files,
      Semaphore unpacking,
      Consumer<String> faults) {
    boolean large = guard.bringsFile(exchange);
    boolean room = large && taken(files);
    try (exchange) {
      Response response;
      try {
        if (large && !room) {
          throw guard.busy(exchange);
        }
        Request request = guard.admit(exchange);
        // What comes in a file takes long and much memory: one at a time, and no tap waits for it.
        Semaphore turn = large ? unpacking : thinking;
        turn.acquireUninterruptibly();
        try {
          response = app.answer(request);
        } finally {
          turn.release();
        }
      } catch (Refused e) {
        response = app.refused(e.status(), String.valueOf(e.getMessage()));
      } catch (RuntimeException | StackOverflowError e) {
        faults.accept(String.valueOf(e).lines().findFirst().orElse(""));
        response =
            app.refused(
                500, "firmlever has a fault of its own. What was saved before is still there.");
      }
      send(exchange, response);
    } catch (IOException e) {
      // The browser has gone; nobody is left to be told.
    } finally {
      if (room) {
        files.release();
      }
    }
  }

  private static boolean taken(Semaphore files) {
    try {
      return files.tryAcquire(SECONDS_FOR_A_FILE, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  private static void send(HttpExchange exchange, Response response) throws IOException {
    Guard.harden(exchange.getResponseHeaders());
    exchange.getResponseHeaders().set("Content-Type", response.type());
    response.headers().forEach(exchange.getResponseHeaders()::set);
    boolean bare = exchange.getRequestMethod().equals("HEAD") || response.body().length == 0;
    exchange.sendResponseHeaders(response.status(), bare ? -1 : response.body().length);
    if (!bare) {
      try (OutputStream out = exchange.getResponseBody()) {
        out.write(response.body());
      }
    }
  }

  /** Stops: what is being answered is answered, and nothing new is let in. */
  @Override
  public void close() {
    server.stop(1);
    workers.shutdown();
    try {
      if (!workers.awaitTermination(SECONDS_TO_FINISH, TimeUnit.SECONDS)) {
        workers.shutdownNow();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
