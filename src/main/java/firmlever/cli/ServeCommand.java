package firmlever.cli;

import firmlever.bench.Bench;
import firmlever.bench.job.ClaimDesk;
import firmlever.bench.job.Reasoning;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.PaperFolder;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.StoreOption;
import firmlever.cli.shell.WallClock;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCards;
import firmlever.records.CaseFolder;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.store.JobStore;
import firmlever.store.SqliteStore;
import firmlever.warranty.Desk;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import firmlever.web.ShopKey;
import java.io.IOException;
import java.io.PrintWriter;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The bench page: the jobs of a day on a tablet at the stand. */
@Command(
    name = "serve",
    description =
        "The bench page on this machine, for a browser at the stand; every job and all its changes"
            + " are kept in one file. Stop it with Ctrl-C.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:stopped", "2:the store cannot be opened, or the port is taken"},
    mixinStandardHelpOptions = true)
final class ServeCommand implements Callable<Integer> {
  private static final String KEY_SETTING = "shop-key";
  private static final int LONGEST_CLOSE_SECONDS = 10;

  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Mixin private StoreOption store;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "8417",
      description = "port to listen on (default: ${DEFAULT-VALUE})")
  private int port;

  @Option(
      names = "--lan",
      description =
          "let other machines of this network in; they need the shop's key, which is printed once."
              + " What is sent is not encrypted: use it in a network of your own only")
  private boolean lan;

  @Option(
      names = "--name",
      paramLabel = "HOST",
      description = "with --lan, a further name of this machine, such as shop.local")
  private List<String> names = List.of();

  @Option(names = "--new-key", description = "with --lan, make a new key; the old one ends")
  private boolean newKey;

  @Option(
      names = "--policy",
      paramLabel = "P",
      description = "policy by which the desk's page judges claims")
  private @Nullable String policyFile;

  @Override
  public Integer call() throws BadInput, InterruptedException {
    if (port < 0 || port > 65_535) {
      throw new BadInput(List.of(Problem.ofFile("--port", "must lie between 0 and 65535", "")));
    }
    System.setProperty(
        "java.awt.headless", "true"); // photos are read for no screen of this machine
    PrintWriter out = spec.commandLine().getOut();
    CountDownLatch stop = new CountDownLatch(1);
    CountDownLatch closed = new CountDownLatch(1);
    endsWith(stop, closed);
    try {
      serve(out, stop);
    } finally {
      closed.countDown();
    }
    return Exit.DONE;
  }

  private void serve(PrintWriter out, CountDownLatch stop) throws BadInput, InterruptedException {
    // What takes longest goes on beside: the store's engine is unpacked while the server starts.
    FutureTask<JobStore> opening = new FutureTask<>(() -> SqliteStore.open(store.file()));
    new Thread(opening, "opens the store").start();
    try {
      // What is wrong with a shop's own rules, or with its policy, is told before all else.
      Optional<Engine> own =
          shop.folder().isEmpty() && policyFile == null
              ? Optional.empty()
              : Optional.of(Engine.start(shop));
      Optional<Policy> policy =
          policyFile == null ? Optional.empty() : Optional.of(policy(policyFile, own));
      Optional<String> keyDigest = lan ? Optional.of(key(opened(opening), out)) : Optional.empty();
      Set<String> reached = lan ? reached() : Set.of();
      try (Bench bench =
          Bench.serve(
              () -> opened(opening),
              () -> reasoning(own.orElseGet(Engine::start), policy),
              lan ? InetAddress.getByName("0.0.0.0") : InetAddress.getLoopbackAddress(),
              port,
              List.copyOf(reached),
              keyDigest,
              WallClock.source(),
              WallClock.zone(),
              fault -> spec.commandLine().getErr().println("firmlever: " + fault))) {
        opened(opening);
        out.println("The bench is open: http://127.0.0.1:" + bench.port() + "/");
        reached.forEach(name -> out.println("  also: http://" + name + ":" + bench.port() + "/"));
        out.println("  jobs are kept in " + store.file().toAbsolutePath());
        out.flush();
        stop.await();
      }
    } catch (IOException e) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  "--port",
                  "cannot listen on port " + port + ": " + e.getMessage(),
                  "Maybe another firmlever serves there already; else try --port 0.")));
    } finally {
      closed(opening);
    }
  }

  /** The store, once it is open; what keeps it from that is thrown as it was. */
  private static JobStore opened(Future<JobStore> opening) {
    try {
      return opening.get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private static void closed(Future<JobStore> opening) {
    JobStore jobs;
    try {
      jobs = opened(opening);
    } catch (RuntimeException e) {
      return; // It never opened, and that was told.
    }
    jobs.close();
  }

  /** Tells when the process is asked to end, and holds its end up until all is closed. */
  private static void endsWith(CountDownLatch stop, CountDownLatch closed) {
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  stop.countDown();
                  try {
                    closed.await(LONGEST_CLOSE_SECONDS, TimeUnit.SECONDS);
                  } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                  }
                }));
  }

  private static Policy policy(String file, Optional<Engine> engine) throws BadInput {
    return new PolicyReader(engine.orElseThrow().vocabulary())
        .read(DocumentReader.bytes(CaseFolder.path(file), file), file);
  }

  private Reasoning reasoning(Engine engine, Optional<Policy> policy) {
    JobCards cards = new JobCards(engine.vocabulary(), JobCardRules.builtIn(engine.vocabulary()));
    return new Reasoning(
        engine.vocabulary(),
        engine.rules(),
        engine.reader(),
        engine.heeding(),
        engine.diagnostician(),
        cards,
        new Acceptor(engine.vocabulary(), engine.rules(), engine.diagnostician(), cards),
        policy.map(
            terms ->
                new ClaimDesk(
                    new Desk(engine.rules(), WarrantyRules.builtIn()),
                    terms,
                    PaperFolder.of(store.file()))));
  }

  /** The digest of the shop's key; a key made anew is printed, and kept nowhere. */
  private String key(JobStore jobs, PrintWriter out) {
    Optional<String> known = jobs.setting(KEY_SETTING);
    if (known.isPresent() && !newKey) {
      return known.get();
    }
    String key = ShopKey.make();
    String digest = ShopKey.digest(key);
    jobs.set(KEY_SETTING, digest);
    out.println("The shop's key, printed this once: " + key);
    return digest;
  }

  /** The names by which other machines may reach this one. */
  private Set<String> reached() throws IOException {
    Set<String> all = new LinkedHashSet<>(names);
    List<NetworkInterface> cards = new ArrayList<>();
    NetworkInterface.getNetworkInterfaces().asIterator().forEachRemaining(cards::add);
    for (NetworkInterface card : cards) {
      if (card.isUp() && !card.isLoopback()) {
        card.inetAddresses()
            .filter(Inet4Address.class::isInstance)
            .forEach(address -> all.add(address.getHostAddress()));
      }
    }
    return all;
  }
}
