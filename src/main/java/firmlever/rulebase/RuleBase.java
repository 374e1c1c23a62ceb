package firmlever.rulebase;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.document.BadInput;
import firmlever.document.Limit;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.Facts.Finding;
import firmlever.vocabulary.Vocabulary;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.jspecify.annotations.Nullable;
import org.kie.api.KieBase;
import org.kie.api.definition.rule.Rule;
import org.kie.api.event.rule.BeforeMatchFiredEvent;
import org.kie.api.event.rule.DefaultAgendaEventListener;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.KieSessionsPool;
import org.kie.api.runtime.rule.AgendaFilter;

/**
 * The rules, ready to be asked by any number of threads. What one case says changes nothing for the
 * next.
 */
public final class RuleBase {
  /**
   * A consultation takes as long as so many visits to table entries ({@link
   * firmlever.belief.WorkBudget}). Measured on 2 slow, busy cores: 1.5 to 4 ms of processor.
   */
  public static final long CONSULTATION = 1_500_000;

  private static final String MODELS = "/META-INF/kie/firmlever/firmlever/drools-model";

  /** Clauses are matched in a session of their own, so that triage carries none of them. */
  static final Predicate<String> WARRANTY = name -> name.startsWith("firmlever.rules.warranty.");

  private final KieBase base;
  private final Unconditional unconditional;
  private final Collector always;
  private final KieSessionsPool sessions;
  private final Names names;
  private final String digest;
  private final Optional<Overlay> overlay;
  private final Map<String, String> sources;
  private final ThrowsRead throwsRead = new ThrowsRead();

  /** The rules of a base, each of which is matched in a session. */
  RuleBase(KieBase base, Vocabulary vocabulary, String digest) {
    this(new BuiltIn(base, new Unconditional(List.of())), vocabulary, digest, Optional.empty());
  }

  private RuleBase(
      BuiltIn builtIn, Vocabulary vocabulary, String digest, Optional<Overlay> overlay) {
    this.base = builtIn.base();
    this.unconditional = builtIn.unconditional();
    this.overlay = overlay;
    this.sessions = base.newKieSessionsPool(1);
    this.names = Names.of(vocabulary);
    this.always = unconditional.heard(names);
    this.digest = digest;
    this.sources =
        rules().stream()
            .collect(Collectors.toUnmodifiableMap(RuleInfo::name, RuleInfo::source, (a, b) -> a));
  }

  /** One rule: its name, the package (folder) it stands in and where its knowledge is from. */
  public record RuleInfo(String name, String packageName, String source) {}

  /** The rule base compiled into this build: all rules but those of job cards. */
  public static RuleBase builtIn(Vocabulary vocabulary) {
    return builtIn(() -> vocabulary);
  }

  /** The same; the vocabulary is read while the rules are made ready, which takes far longer. */
  public static RuleBase builtIn(Supplier<Vocabulary> vocabulary) {
    CompletableFuture<Vocabulary> reading = CompletableFuture.supplyAsync(vocabulary);
    BuiltIn builtIn = BuiltIn.load();
    return new RuleBase(builtIn, reading.join(), RuleFiles.builtInDigest(), Optional.empty());
  }

  /**
   * The built-in rules with a shop's own laid over them.
   *
   * @throws BadInput where the shop's rules cannot be used
   */
  public static RuleBase overlaid(Vocabulary vocabulary, Path folder) throws BadInput {
    BuiltIn builtIn = BuiltIn.load();
    Overlay overlay =
        Overlay.over(builtIn.base(), builtIn.unconditional().names(), vocabulary, folder);
    String digest = RuleFiles.sha256(RuleFiles.builtInDigest() + "\n" + overlay.digest());
    return new RuleBase(
        new BuiltIn(
            builtIn.base(),
            builtIn.unconditional().without(overlay.replaced()).without(overlay.switchedOff())),
        vocabulary,
        "sha256:" + digest,
        Optional.of(overlay));
  }

  /** The built rules of triage: those that are matched in a session, and the others. */
  private record BuiltIn(KieBase base, Unconditional unconditional) {
    static BuiltIn load() {
      List<Model> models = builtInModels(WARRANTY.or(JobCardRules.OURS).negate());
      return new BuiltIn(
          KieBaseBuilder.createKieBaseFromModel(
              models.stream().map(Unconditional::leftOut).toList()),
          Unconditional.of(models));
    }
  }

  /** The built models of the packages that {@code which} picks by class name. */
  static List<Model> builtInModels(Predicate<String> which) {
    List<Model> models = new ArrayList<>();
    for (String className : lines(MODELS)) {
      if (!className.startsWith("Drools-Model-Version") && which.test(className)) {
        models.add(model(className));
      }
    }
    return models;
  }

  private static Model model(String className) {
    try {
      return (Model) Class.forName(className).getDeclaredConstructor().newInstance();
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the build lacks its compiled rules: " + className, e);
    }
  }

  static List<String> lines(String resource) {
    InputStream in = RuleBase.class.getResourceAsStream(resource);
    if (in == null) {
      throw new IllegalStateException("the build lacks " + resource);
    }
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return reader.lines().map(String::strip).filter(line -> !line.isEmpty()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public Vocabulary vocabulary() {
    return names.vocabulary();
  }

  /** {@code sha256:} and the digest of all rule and vocabulary files in force. */
  public String digest() {
    return digest;
  }

  /** The shop's own rules, where there are any. */
  public Optional<Overlay> overlay() {
    return overlay;
  }

  /** All rules, by name. */
  public List<RuleInfo> rules() {
    return Stream.concat(rulesOf(base).stream(), unconditional.infos().stream())
        .sorted(Comparator.comparing(RuleInfo::name))
        .toList();
  }

  static List<RuleInfo> rulesOf(KieBase base) {
    return base.getKiePackages().stream()
        .flatMap(each -> each.getRules().stream())
        .map(rule -> new RuleInfo(rule.getName(), rule.getPackageName(), source(rule)))
        .sorted(Comparator.comparing(RuleInfo::name))
        .toList();
  }

  /** Lets the rules speak about a case. */
  public BrakeModel consult(CaseFile file) {
    return consult(file, Set.of());
  }

  /**
   * Lets the rules speak about a case as if the named rules did not exist.
   *
   * @throws RuleFault where a rule says what cannot be
   */
  public BrakeModel consult(CaseFile file, Set<String> withoutRules) {
    List<Finding> recorded = CaseFacts.recorded(file);
    Optional<ThrowEstimate> throwEstimate = throwsRead.of(file);
    Collector heard =
        withoutRules.isEmpty() ? always : unconditional.without(withoutRules).heard(names);
    Collector collector = new Collector(heard, recorded, file.onlyTold());
    KieSession session = sessions.newKieSession();
    try {
      session.addEventListener(new Speaker(collector, sources));
      session.setGlobal("model", collector);
      recorded.forEach(session::insert);
      names.kindFacts().forEach(session::insert);
      CaseFacts.others(file, throwEstimate, vocabulary()).forEach(session::insert);
      AgendaFilter filter =
          withoutRules.isEmpty()
              ? null
              : match -> !withoutRules.contains(match.getRule().getName());
      session.getAgenda().getAgendaGroup("readings").setFocus();
      if (session.fireAllRules(filter, Limit.FIRINGS.most()) >= Limit.FIRINGS.most()) {
        throw new RuleFault("", "the rules keep firing without end", "");
      }
    } catch (RuntimeException e) {
      throw ruleFaultIn(e);
    } finally {
      session.dispose();
    }
    return collector.model(throwEstimate);
  }

  /** The engine wraps what a consequence throws; people need what the rule did wrong. */
  static RuntimeException ruleFaultIn(RuntimeException thrown) {
    for (Throwable cause = thrown; cause != null; cause = cause.getCause()) {
      if (cause instanceof RuleFault fault) {
        return fault;
      }
    }
    return thrown;
  }

  static String source(Rule rule) {
    return source(rule.getMetaData().get("source"));
  }

  /** The text of what an annotation says. */
  static String source(@Nullable Object source) {
    // The engine keeps the quotes of an annotation when it compiles at run time, and not otherwise.
    String text = source == null ? "" : source.toString();
    return text.length() > 1 && text.startsWith("\"") ? text.substring(1, text.length() - 1) : text;
  }

  /** Tells the collector which rule is speaking. */
  private static final class Speaker extends DefaultAgendaEventListener {
    private final Collector collector;
    private final Map<String, String> sources;

    Speaker(Collector collector, Map<String, String> sources) {
      this.collector = collector;
      this.sources = sources;
    }

    @Override
    public void beforeMatchFired(BeforeMatchFiredEvent event) {
      String rule = event.getMatch().getRule().getName();
      collector.enter(rule, requireNonNull(sources.get(rule)));
    }
  }
}
