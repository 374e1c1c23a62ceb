package firmlever.rulebase.warranty;

import firmlever.document.Limit;
import firmlever.rulebase.EngineRules;
import firmlever.rulebase.RuleInfo;
import firmlever.rulebase.text.RuleFault;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyFacts.Ruling;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
import org.kie.api.event.rule.BeforeMatchFiredEvent;
import org.kie.api.event.rule.DefaultAgendaEventListener;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.KieSessionsPool;

/**
 * The rules that match the clauses of a policy, ready to be asked. Holds no state between cases and
 * may be used by any number of threads.
 */
public final class WarrantyRules {

  private final KieBase base;
  private final KieSessionsPool sessions;

  private WarrantyRules(KieBase base) {
    this.base = base;
    this.sessions = base.newKieSessionsPool(1);
  }

  /** The warranty rules compiled into this build. */
  public static WarrantyRules builtIn() {
    return new WarrantyRules(
        KieBaseBuilder.createKieBaseFromModel(EngineRules.builtInModels(EngineRules.WARRANTY)));
  }

  /** All warranty rules, by name. */
  List<RuleInfo> rules() {
    return EngineRules.rulesOf(base);
  }

  /** Whether a clause holds. A later value outweighs an earlier one where rules say several. */
  public enum State {
    FAILS,
    OPEN,
    APPLIES
  }

  /**
   * All that the rules say of one clause before one cause.
   *
   * @param why the reasons for {@code state}, sorted
   * @param facts what it rests on, sorted
   * @param missing what it lacks, in the order of {@link Missing}
   */
  public record Finding(
      Ruling ruling,
      State state,
      List<String> why,
      List<String> facts,
      List<Missing> missing,
      List<String> rules) {}

  /** Lets the rules speak; one finding for each ruling any rule spoke of, in order of ruling. */
  public List<Finding> consult(Iterable<?> facts) {
    Notes notes = new Notes();
    KieSession session = sessions.newKieSession();
    try {
      session.addEventListener(notes);
      session.setGlobal("verdict", notes);
      facts.forEach(session::insert);
      if (session.fireAllRules(Limit.CLAUSE_FIRINGS.most()) >= Limit.CLAUSE_FIRINGS.most()) {
        throw new RuleFault("", "the warranty rules keep firing without end", "");
      }
    } catch (RuntimeException e) {
      throw EngineRules.ruleFaultIn(e);
    } finally {
      session.dispose();
    }
    return notes.findings();
  }

  /** Takes down what is said, so that nothing depends on the order of firing. */
  private static final class Notes extends DefaultAgendaEventListener implements Verdict {
    private final TreeMap<Ruling, Note> notes =
        new TreeMap<>(Comparator.comparing(Ruling::cause).thenComparing(Ruling::clause));
    private String rule = "";

    private static final class Note {
      private State state = State.FAILS;
      private final TreeSet<String> whys = new TreeSet<>();
      private final TreeSet<String> facts = new TreeSet<>();
      private final TreeSet<Missing> missing = new TreeSet<>();
      private final TreeSet<String> rules = new TreeSet<>();
    }

    @Override
    public void beforeMatchFired(BeforeMatchFiredEvent event) {
      rule = event.getMatch().getRule().getName();
    }

    @Override
    public void applies(Ruling ruling, String why, String... facts) {
      note(ruling, State.APPLIES, why).ifPresent(note -> note.facts.addAll(List.of(facts)));
    }

    @Override
    public void asks(Ruling ruling, Missing missing, String why) {
      note(ruling, State.APPLIES, why).ifPresent(note -> note.missing.add(missing));
    }

    @Override
    public void open(Ruling ruling, Missing missing, String why) {
      note(ruling, State.OPEN, why).ifPresent(note -> note.missing.add(missing));
    }

    @Override
    public void fails(Ruling ruling, String why) {
      note(ruling, State.FAILS, why);
    }

    /** The note to add to; empty where something of more weight was said already. */
    private Optional<Note> note(Ruling ruling, State state, String why) {
      Note note = notes.computeIfAbsent(ruling, r -> new Note());
      if (state.compareTo(note.state) < 0) {
        return Optional.empty();
      }
      if (state != note.state) {
        note.state = state;
        note.whys.clear();
        note.rules.clear();
        note.missing.clear();
      }
      note.whys.add(why);
      note.rules.add(rule);
      return Optional.of(note);
    }

    List<Finding> findings() {
      List<Finding> findings = new ArrayList<>();
      notes.forEach(
          (ruling, note) ->
              findings.add(
                  new Finding(
                      ruling,
                      note.state,
                      List.copyOf(note.whys),
                      List.copyOf(note.facts),
                      List.copyOf(note.missing),
                      List.copyOf(note.rules))));
      return findings;
    }
  }
}
