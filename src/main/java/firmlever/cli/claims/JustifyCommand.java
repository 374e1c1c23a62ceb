package firmlever.cli.claims;

import static java.util.Objects.requireNonNull;

import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.PaperFolder;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.warranty.Desk;
import firmlever.warranty.Dossier;
import firmlever.warranty.Submitted;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import firmlever.warranty.report.ClaimSummary;
import firmlever.warranty.report.DossierReport;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Decides warranty claims, with the reasons both sides can check. */
@Command(
    name = "justify",
    description =
        "Decides warranty claims by a policy: outcome, clause, reasons, what would turn it.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every claim was decided or asked back",
      "1:with --out, some claim could not be read or is there twice; the others are done",
      "2:a case or the policy could not be read"
    },
    mixinStandardHelpOptions = true)
public final class JustifyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Parameters(
      arity = "0..*",
      paramLabel = "CASE",
      description =
          "case files, or folders of them (with --out); with --store, codes of jobs, and without any"
              + " all jobs that have a claim")
  private List<String> cases = List.of();

  @Option(
      names = "--store",
      paramLabel = "FILE",
      description = "take the claims out of the bench's store; decisions are kept there too")
  private @Nullable String store;

  @Option(names = "--policy", required = true, paramLabel = "P", description = "the policy file")
  private String policyFile;

  @Option(names = "--json", description = "print the dossier for programs")
  private boolean json;

  @Option(names = "--html", paramLabel = "F", description = "write the dossier of one case as HTML")
  private @Nullable String html;

  @Option(names = "--pdf", paramLabel = "F", description = "write the dossier of one case as PDF")
  private @Nullable String pdf;

  @Option(
      names = "--letter",
      paramLabel = "F",
      description = "write the letter to the claimant; as PDF where F ends in .pdf, else as HTML")
  private @Nullable String letter;

  @Option(
      names = "--summary",
      paramLabel = "F",
      description = "write the summary on one page, as HTML or PDF in the same way")
  private @Nullable String summary;

  @Mixin private Signing signing;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description =
          "write a dossier for each case and a summary, as CSV and JSON, into this folder")
  private @Nullable String folder;

  /** What a dossier is written as with {@code --out}. */
  private enum Form {
    json,
    html,
    pdf
  }

  @Option(
      names = "--as",
      paramLabel = "FORM",
      split = ",",
      defaultValue = "json,html",
      description =
          "with --out, what to write: ${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE})")
  private Set<Form> forms = new LinkedHashSet<>();

  /** What judges, put together, and the store the claims are taken out of, where they are. */
  private record Parts(
      Engine engine, Policy policy, Desk desk, DossierReport report, Optional<ClaimStore> claims) {
    Dossier judged(Path file) throws BadInput {
      String name = file.toString();
      boolean stored = claims.isPresent();
      return desk.judge(
          Submitted.read(
              engine.reader(),
              stored ? claims.get().bytes(name) : DocumentReader.bytes(file, name),
              name,
              stored ? claims.get().papers(name) : PaperFolder.of(file)),
          policy);
    }
  }

  @Override
  public Integer call() throws BadInput {
    if (store == null && cases.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "name case files, or the bench's store: --store FILE");
    }
    if (store == null) {
      return judge(CaseFolder.files(cases), Optional.empty());
    }
    try (ClaimStore opened = ClaimStore.open(CaseFolder.path(store))) {
      return judge(opened.jobs(cases), Optional.of(opened));
    }
  }

  private int judge(List<Path> files, Optional<ClaimStore> claims) throws BadInput {
    if (folder == null && files.size() != 1) {
      throw new ParameterException(
          spec.commandLine(), "several cases need --out DIR; " + files.size() + " were named");
    }
    if (folder != null
        && (json
            || html != null
            || pdf != null
            || letter != null
            || summary != null
            || signing.wanted())) {
      throw new ParameterException(
          spec.commandLine(),
          "--out writes files of its own, for many claims; what is written or signed of one claim"
              + " needs that claim alone");
    }
    signing.check(spec, store != null);
    List<Path> read = new ArrayList<>(List.of(CaseFolder.path(policyFile)));
    if (store == null) {
      read.addAll(files);
      for (String each : cases) {
        read.add(CaseFolder.path(each));
      }
    } else {
      read.add(CaseFolder.path(store));
    }
    new Outputs()
        .reading(read)
        .reading(shop)
        .file(html)
        .file(pdf)
        .file(letter)
        .file(summary)
        .file(signing.history())
        .folder(folder)
        .check();
    Engine engine = Engine.start(shop);
    Policy policy =
        new PolicyReader(engine.vocabulary())
            .read(DocumentReader.bytes(CaseFolder.path(policyFile), policyFile), policyFile);
    Parts parts =
        new Parts(
            engine,
            policy,
            new Desk(engine.rules(), WarrantyRules.builtIn()),
            new DossierReport(engine.vocabulary()),
            claims);
    return folder == null ? one(files.get(0), parts) : many(files, folder, parts);
  }

  private int one(Path file, Parts parts) throws BadInput {
    PrintWriter out = spec.commandLine().getOut();
    Dossier[] judged = new Dossier[1];
    List<Problem> problems =
        OneCase.problems(file.toString(), () -> judged[0] = parts.judged(file));
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
    Dossier dossier = judged[0];
    DossierReport report = parts.report();
    String signed = "";
    if (parts.claims().isPresent() || signing.wanted()) {
      Signing.Kept kept =
          parts.claims().isPresent()
              ? parts.claims().get().kept(file.toString())
              : signing.ofFile();
      Signing.Ready ready = signing.ready(dossier, kept, report);
      dossier = ready.dossier();
      signed = ready.told();
      // The papers name the signature, so it is kept before any of them is there.
      List<Paper> papers = papers(dossier, report);
      signing.keep(ready, kept);
      try {
        write(papers);
      } catch (BadInput e) {
        throw ready.history().isEmpty() ? e : signedWithoutPapers(e, kept.name());
      }
    } else {
      write(papers(dossier, report));
    }
    if (json) {
      out.println(report.json(dossier));
    } else {
      out.print(report.text(dossier, Terminal.width(), Terminal.bold()));
      out.print(signed);
    }
    return Exit.DONE;
  }

  /** Nobody must sign a second time because a paper could not be written. */
  private static BadInput signedWithoutPapers(BadInput e, String kept) {
    List<Problem> problems = new ArrayList<>(e.problems());
    problems.add(
        Problem.ofFile(
            kept, "the decision is signed and kept", "Ask for the papers again without --sign."));
    return new BadInput(problems);
  }

  /** A paper that is made, and where it goes. */
  private record Paper(Path file, byte[] content) {}

  /** All papers of one case that were asked for. */
  private List<Paper> papers(Dossier dossier, DossierReport report) throws BadInput {
    List<Paper> papers = new ArrayList<>();
    if (html != null) {
      papers.add(new Paper(CaseFolder.path(html), utf8(report.html(dossier))));
    }
    if (pdf != null) {
      papers.add(new Paper(CaseFolder.path(pdf), report.pdf(dossier)));
    }
    if (letter != null) {
      papers.add(paper(letter, report.letter(dossier)));
    }
    if (summary != null) {
      papers.add(paper(summary, report.summary(dossier)));
    }
    return papers;
  }

  private static Paper paper(String name, String page) throws BadInput {
    boolean printed = name.toLowerCase(Locale.ROOT).endsWith(".pdf");
    return new Paper(CaseFolder.path(name), printed ? DossierReport.printed(page) : utf8(page));
  }

  private static void write(List<Paper> papers) throws BadInput {
    for (Paper paper : papers) {
      WholeFile.write(paper.file(), paper.content());
    }
  }

  /** What became of one case of many: a line of the summary, or problems. */
  private record Done(String file, Optional<ClaimSummary.Line> line, List<Problem> problems) {}

  /** So many cases are in memory at once. */
  private static final int AT_ONCE = 200;

  private int many(List<Path> files, String folder, Parts parts) throws BadInput {
    Path target = CaseFolder.path(folder);
    try {
      Files.createDirectories(target);
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(folder, "cannot be made a folder: " + WholeFile.reason(e), "")));
    }
    requireEmpty(target, folder);
    Map<Path, String> names = names(files);
    List<ClaimSummary.Line> lines = new ArrayList<>();
    Map<String, List<Problem>> failed = new LinkedHashMap<>();
    for (int start = 0; start < files.size(); start += AT_ONCE) {
      List<Path> some = files.subList(start, Math.min(files.size(), start + AT_ONCE));
      for (Done each :
          some.parallelStream()
              .map(file -> done(target, file, requireNonNull(names.get(file)), parts))
              .toList()) {
        each.line().ifPresent(lines::add);
        if (!each.problems().isEmpty()) {
          failed.put(each.file(), each.problems());
        }
      }
    }
    tellTwice(lines, failed);
    ClaimSummary all =
        new ClaimSummary(parts.policy(), parts.engine().rules().digest(), lines, failed);
    WholeFile.write(target.resolve("summary.csv"), utf8(all.csv()));
    WholeFile.write(target.resolve("summary.json"), utf8(all.json() + "\n"));
    failed
        .values()
        .forEach(
            problems ->
                problems.forEach(problem -> spec.commandLine().getErr().println(problem.spoken())));
    spec.commandLine().getOut().println(all.counts());
    return failed.isEmpty() ? Exit.DONE : Exit.FAILED;
  }

  /** What another run left must not stand beside what this one writes. */
  private static void requireEmpty(Path target, String folder) throws BadInput {
    try (Stream<Path> there = Files.list(target)) {
      if (there.findAny().isPresent()) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    folder,
                    "is not empty: files of another run would be mixed with new ones",
                    "Maybe name a new folder, or empty this one.")));
      }
    } catch (IOException e) {
      throw new BadInput(
          List.of(Problem.ofFile(folder, "cannot be read: " + WholeFile.reason(e), "")));
    }
  }

  /** The same claim handed in twice, by its number or its content. */
  private static void tellTwice(List<ClaimSummary.Line> lines, Map<String, List<Problem>> failed) {
    Map<String, String> seen = new HashMap<>();
    for (ClaimSummary.Line line : lines) {
      for (String key : List.of("number " + line.number(), "content " + line.digest())) {
        String before = key.equals("number ") ? null : seen.putIfAbsent(key, line.file());
        if (before != null) {
          failed.putIfAbsent(
              line.file(),
              List.of(
                  Problem.ofFile(
                      line.file(),
                      "is the same claim as " + before + " (" + key + ")",
                      "Maybe leave one of them out.")));
        }
      }
    }
    lines.removeIf(line -> failed.containsKey(line.file()));
  }

  /** Decides one case of many and writes its dossier. */
  private Done done(Path target, Path file, String stem, Parts parts) {
    String name = file.toString();
    List<ClaimSummary.Line> line = new ArrayList<>();
    List<Problem> problems =
        OneCase.problems(
            name,
            () -> {
              Dossier judged = parts.judged(file);
              Dossier dossier =
                  parts.claims().isEmpty()
                      ? judged
                      : signing
                          .ready(judged, parts.claims().get().kept(name), parts.report())
                          .dossier();
              for (Form form : forms) {
                byte[] content =
                    switch (form) {
                      case json -> utf8(parts.report().json(dossier) + "\n");
                      case html -> utf8(parts.report().html(dossier));
                      case pdf -> parts.report().pdf(dossier);
                    };
                WholeFile.write(target.resolve(stem + "." + form), content);
              }
              line.add(ClaimSummary.Line.of(name, stem, dossier));
            });
    return new Done(name, line.stream().findFirst(), problems);
  }

  /** A name for each dossier: that of its case file, with a number where two files share one. */
  private static Map<Path, String> names(List<Path> files) {
    Map<Path, String> names = new HashMap<>();
    Set<String> taken = new HashSet<>(Set.of("summary"));
    for (Path file : files) {
      String stem = file.getFileName().toString().replaceFirst("\\.json$", "");
      String name = stem;
      for (int number = 2; !taken.add(name.toLowerCase(Locale.ROOT)); number++) {
        name = stem + "-" + number;
      }
      names.put(file, name);
    }
    return names;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
