package firmlever.rulebase.jobcard;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.CaseFacts;
import firmlever.rulebase.EngineRules;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.CardFacts.Filling;
import firmlever.rulebase.jobcard.CardFacts.Limits;
import firmlever.rulebase.jobcard.CardFacts.Ordered;
import firmlever.rulebase.jobcard.CardFacts.Route;
import firmlever.rulebase.jobcard.CardFacts.Torques;
import firmlever.rulebase.text.RuleFault;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Does;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
import org.kie.api.event.rule.BeforeMatchFiredEvent;
import org.kie.api.event.rule.DefaultAgendaEventListener;
import org.kie.api.runtime.KieSession;

/**
 * The rules that write job cards, a rule base of their own: no diagnosis fires them. Holds no state
 * between cards and may be used by any number of threads.
 */
public final class JobCardRules {

  private final KieBase base;
  private final Vocabulary vocabulary;

  private JobCardRules(KieBase base, Vocabulary vocabulary) {
    this.base = base;
    this.vocabulary = vocabulary;
  }

  /** What a line of a card is. */
  public enum Kind {
    /** Something to do. */
    STEP,
    /** A value to write down; {@code want} is what it must be. */
    VALUE,
    /** A torque to write down, likewise. */
    TORQUE,
    /** A caution; {@code text} is its sentence. */
    MIND
  }

  /** One line of a card, with the rule that put it there. */
  public record Line(
      Stage stage, int place, Kind kind, String text, String want, String rule, String source) {}

  /** What the rules say of one work: its lines in order, and the works that must follow, why. */
  public record Said(List<Line> lines, Map<String, String> then) {}

  /** The job card rules compiled into this build. */
  public static JobCardRules builtIn(Vocabulary vocabulary) {
    return new JobCardRules(
        KieBaseBuilder.createKieBaseFromModel(EngineRules.builtInModels(EngineRules.JOB_CARDS)),
        vocabulary);
  }

  /** Names of all job card rules. */
  List<String> names() {
    return base.getKiePackages().stream()
        .flatMap(each -> each.getRules().stream())
        .map(rule -> rule.getName())
        .sorted()
        .toList();
  }

  /**
   * Lets the rules write the lines of one work on this brake.
   *
   * @param earlier ids of the works that are done before it
   * @throws RuleFault where a rule names what the vocabulary does not know
   */
  public Said write(
      CaseFile file,
      BrakeModel model,
      Action action,
      Set<String> earlier,
      Filling filling,
      Torques torques,
      Limits limits) {
    Writer writer = new Writer(vocabulary);
    KieSession session = base.newKieSession();
    try {
      session.addEventListener(
          new DefaultAgendaEventListener() {
            @Override
            public void beforeMatchFired(BeforeMatchFiredEvent event) {
              writer.rule = event.getMatch().getRule().getName();
              writer.source = EngineRules.source(event.getMatch().getRule());
            }
          });
      session.setGlobal("card", writer);
      CaseFacts.others(file, Optional.empty(), vocabulary).forEach(session::insert);
      model
          .findings()
          .values()
          .forEach(known -> session.insert(new Finding(known.symptom(), known.present())));
      session.insert(
          new Ordered(
              action.id(),
              action.group(),
              action.needs(),
              vocabulary.worksThat(Does.OPENS).contains(action.id()),
              earlier));
      session.insert(new Route(file.brake().routing()));
      session.insert(filling);
      session.insert(torques);
      session.insert(limits);
      session.fireAllRules();
      return new Said(List.copyOf(writer.lines), Map.copyOf(writer.then));
    } finally {
      session.dispose();
    }
  }

  /** Takes down the lines; the same line said twice stands once. */
  private static final class Writer implements Card {
    private final Vocabulary vocabulary;
    private final TreeSet<Line> lines =
        new TreeSet<>(
            Comparator.comparing(Line::stage)
                .thenComparingInt(Line::place)
                .thenComparing(Line::kind)
                .thenComparing(Line::text)
                .thenComparing(Line::want));
    private final TreeMap<String, String> then = new TreeMap<>();
    private String rule = "";
    private String source = "";

    Writer(Vocabulary vocabulary) {
      this.vocabulary = vocabulary;
    }

    @Override
    public void step(Stage stage, int place, String text) {
      lines.add(new Line(stage, place, Kind.STEP, text, "", rule, source));
    }

    @Override
    public void value(Stage stage, int place, String what, String want) {
      lines.add(new Line(stage, place, Kind.VALUE, what, want, rule, source));
    }

    @Override
    public void torque(Stage stage, int place, String what, String want) {
      lines.add(new Line(stage, place, Kind.TORQUE, what, want, rule, source));
    }

    @Override
    public void mind(Stage stage, int place, String caution) {
      Vocabulary.Caution known = vocabulary.cautions().get(caution);
      if (known == null) {
        throw new RuleFault(rule, "\"" + caution + "\" is no caution", "");
      }
      lines.add(new Line(stage, place, Kind.MIND, known.text(), caution, rule, source));
    }

    @Override
    public void then(String action, String why) {
      if (!vocabulary.actions().containsKey(action)) {
        throw new RuleFault(rule, "\"" + action + "\" is no action", "");
      }
      then.put(action, why);
    }
  }
}
