package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.ThrowCurve;
import firmlever.diagnosis.report.CurveChart;
import firmlever.diagnosis.report.CurveReport;
import firmlever.document.BadInput;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import firmlever.vocabulary.VocabularyReader;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows throw against force: measured, modelled, and what if. */
@Command(
    name = "curve",
    description =
        "Lever throw against force: measured, modelled, and with some air, new pads or a soft hose.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:done", "2:the case could not be read or the drawing not be written"},
    mixinStandardHelpOptions = true)
final class CurveCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "CASE", description = "case file")
  private String file;

  @Option(names = "--json", description = "print the curves for programs")
  private boolean json;

  @Option(names = "--svg", paramLabel = "FILE", description = "also draw them into this file")
  private Optional<String> svg = Optional.empty();

  @Override
  public Integer call() throws BadInput {
    new Outputs().reading(List.of(CaseFolder.path(file))).file(svg.orElse("")).check();
    CaseReader reader = new CaseReader(VocabularyReader.builtIn());
    ThrowCurve curve = ThrowCurve.of(reader.read(CaseFolder.path(file), file));
    if (svg.isPresent()) {
      System.setProperty("java.awt.headless", "true"); // draws to a file, never to a screen
      String name = svg.orElseThrow();
      WholeFile.write(CaseFolder.path(name), CurveChart.svg(curve));
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(CurveReport.json(curve));
    } else {
      out.print(CurveReport.text(curve, Terminal.width(), Terminal.bold()));
    }
    return Exit.DONE;
  }
}
