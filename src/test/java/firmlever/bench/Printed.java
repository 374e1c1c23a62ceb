package firmlever.bench;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What a command prints, run as a process of its own, as people run it. */
final class Printed {
  private Printed() {}

  static String by(String... arguments) throws IOException, InterruptedException {
    return typing("", arguments);
  }

  /** The same, with what is typed into it. */
  static String typing(String typed, String... arguments) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-Dfile.encoding=UTF-8",
                "-Dsun.stdout.encoding=UTF-8",
                "-cp",
                System.getProperty("java.class.path"),
                "firmlever.cli.Main"));
    command.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    try (OutputStream in = process.getOutputStream()) {
      in.write(typed.getBytes(StandardCharsets.UTF_8));
    }
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return out;
  }
}
