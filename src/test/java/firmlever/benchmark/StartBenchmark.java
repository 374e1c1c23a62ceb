package firmlever.benchmark;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * From the start of {@code firmlever serve} to its first whole page, beside a Java that does
 * nothing, by turns in the same run. Arguments: how many times.
 */
public final class StartBenchmark {
  private StartBenchmark() {}

  public static void main(String[] args) throws Exception {
    int times = args.length > 0 ? Integer.parseInt(args[0]) : 10;
    Path folder = Files.createTempDirectory("start-benchmark");
    List<Double> bare = new ArrayList<>();
    List<Double> page = new ArrayList<>();
    firstPage(folder); // The launcher builds, and makes its archives of classes.
    for (int i = 0; i < times; i++) {
      bare.add(bare());
      page.add(firstPage(folder));
    }
    report("a Java that does nothing", bare);
    report("first page of serve", page);
    System.out.printf(Locale.ROOT, "ratio of the medians: %.1f%n", median(page) / median(bare));
  }

  private static void report(String what, List<Double> times) {
    System.out.printf(
        Locale.ROOT,
        "%-26s median %.0f ms, %.0f to %.0f%n",
        what,
        median(times),
        times.stream().mapToDouble(Double::doubleValue).min().orElseThrow(),
        times.stream().mapToDouble(Double::doubleValue).max().orElseThrow());
  }

  private static double median(List<Double> times) {
    return times.stream().sorted().toList().get(times.size() / 2);
  }

  private static double bare() throws IOException, InterruptedException {
    long start = System.nanoTime();
    new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:+UseSerialGC",
            "-cp",
            "target/test-classes",
            Nothing.class.getName())
        .inheritIO()
        .start()
        .waitFor();
    return (System.nanoTime() - start) / 1e6;
  }

  private static double firstPage(Path folder) throws IOException, InterruptedException {
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    long start = System.nanoTime();
    Process serve =
        new ProcessBuilder(
                "./firmlever",
                "serve",
                "--port",
                String.valueOf(port),
                "--store",
                folder.resolve("shop.db").toString())
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    try {
      while (!page(port)) {
        if (!serve.isAlive()) {
          throw new IllegalStateException("it ended: " + serve.exitValue());
        }
        Thread.sleep(5);
      }
      return (System.nanoTime() - start) / 1e6;
    } finally {
      serve.destroy();
      serve.waitFor();
    }
  }

  /** Whether a whole page came. */
  private static boolean page(int port) {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket
          .getOutputStream()
          .write(
              ("GET /sign-in HTTP/1.1\r\nHost: 127.0.0.1:" + port + "\r\nConnection: close\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return answer.startsWith("HTTP/1.1 200") && answer.contains("</html>");
    } catch (IOException e) {
      return false;
    }
  }
}
