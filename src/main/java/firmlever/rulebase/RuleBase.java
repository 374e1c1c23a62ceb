package firmlever.rulebase;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.document.BadInput;
import firmlever.document.Limit;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.text.RuleFault;
import firmlever.vocabulary.Vocabulary;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
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

  /**
   * The rules of triage compiled into this build: all but those of job cards and of the warranty
   * desk.
   */
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
      List<Model> models =
          EngineRules.builtInModels(EngineRules.WARRANTY.or(EngineRules.JOB_CARDS).negate());
      return new BuiltIn(
          KieBaseBuilder.createKieBaseFromModel(
              models.stream().map(Unconditional::leftOut).toList()),
          Unconditional.of(models));
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
    return Stream.concat(EngineRules.rulesOf(base).stream(), unconditional.infos().stream())
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
    Collector collector = new Collector(heard, recorded, file.onlyTold(), file.hinted());
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
      throw EngineRules.ruleFaultIn(e);
    } finally {
      session.dispose();
    }
    return collector.model(throwEstimate).at(file.brake().position());
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
