package firmlever.cli.shell;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/** The parts every command that reasons needs, put together. */
public record Engine(
    Vocabulary vocabulary,
    RuleBase rules,
    CaseReader reader,
    Heeding heeding,
    Diagnostician diagnostician) {
  private static final List<String> HELP = List.of("-h", "--help", "-V", "--version");

  private static final AtomicReference<@Nullable CompletableFuture<RuleBase>> AHEAD =
      new AtomicReference<>();

  /** Begins to read the built-in rules while the command line is read, where they will be asked. */
  public static void readAhead(List<String> args) {
    boolean others =
        args.stream().anyMatch(each -> each.startsWith("--rules") || HELP.contains(each));
    if (!others) {
      AHEAD.set(CompletableFuture.supplyAsync(Engine::builtIn));
    }
  }

  private static RuleBase builtIn() {
    return RuleBase.builtIn(VocabularyReader::builtIn);
  }

  public static Engine start() {
    return of(readRules(), new Hearing());
  }

  private static RuleBase readRules() {
    CompletableFuture<RuleBase> ahead = AHEAD.getAndSet(null);
    return ahead == null ? builtIn() : ahead.join();
  }

  /** With a shop's own rules laid over the built-in ones, where a folder of them is named. */
  public static Engine start(ShopRules shop) throws BadInput {
    return start(shop, new Hearing());
  }

  public static Engine start(ShopRules shop, Hearing hearing) throws BadInput {
    return start(shop.folder(), hearing);
  }

  /** With the rules of a folder laid over the built-in ones, where one is named. */
  public static Engine start(Optional<Path> rules) throws BadInput {
    return start(rules, new Hearing());
  }

  private static Engine start(Optional<Path> rules, Hearing hearing) throws BadInput {
    if (rules.isEmpty()) {
      return of(readRules(), hearing);
    }
    Vocabulary vocabulary = VocabularyReader.builtIn();
    return of(RuleBase.overlaid(vocabulary, rules.get()), hearing);
  }

  private static Engine of(RuleBase rules, Hearing hearing) {
    Vocabulary vocabulary = rules.vocabulary();
    return new Engine(
        vocabulary,
        rules,
        new CaseReader(vocabulary),
        new Heeding(vocabulary, hearing),
        new Diagnostician(rules));
  }
}
