package firmlever.rulebase;

import firmlever.rulebase.Facts.Brake;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.drools.model.Condition;
import org.drools.model.Consequence;
import org.drools.model.Global;
import org.drools.model.Pattern;
import org.drools.model.Rule;
import org.drools.model.SingleConstraint;
import org.drools.model.consequences.NamedConsequenceImpl;
import org.drools.model.impl.ModelImpl;

/**
 * The rules that ask for nothing but that there is a brake. They say the same of every case, so
 * they are heard once and need no session: nine of ten rules that speak in a usual case are such.
 */
record Unconditional(List<Rule> rules) {

  /** Those of the models. */
  static Unconditional of(List<org.drools.model.Model> models) {
    return new Unconditional(
        models.stream()
            .flatMap(model -> model.getRules().stream())
            .filter(Unconditional::is)
            .toList());
  }

  /** The model without its rules that are unconditional. */
  static org.drools.model.Model leftOut(org.drools.model.Model model) {
    ModelImpl others =
        new ModelImpl(model.getName())
            .withRules(model.getRules().stream().filter(rule -> !is(rule)).toList())
            .withGlobals(model.getGlobals())
            .withQueries(model.getQueries());
    model.getTypeMetaDatas().forEach(others::addTypeMetaData);
    return others;
  }

  /** Whether the rule says the same of every case, and says it to the model alone. */
  private static boolean is(Rule rule) {
    List<Condition> asked = rule.getView().getSubConditions();
    Consequence says = rule.getDefaultConsequence();
    return asked.size() == 2
        && asked.get(0) instanceof Pattern<?> pattern
        && asked.get(1) instanceof NamedConsequenceImpl
        && pattern.getPatternVariable().getType() == Brake.class
        && pattern.getConstraint() == SingleConstraint.TRUE
        && pattern.getBindings().isEmpty()
        && rule.getConsequences().size() == 1
        && rule.getAttribute(Rule.Attribute.AGENDA_GROUP)
            .equals(Rule.Attribute.AGENDA_GROUP.getDefaultValue())
        && !says.isUsingDrools()
        && says.getVariables().length == 1
        && says.getVariables()[0] instanceof Global<?> global
        && global.getType() == Model.class;
  }

  /** The same without the rules of these names. */
  Unconditional without(Set<String> names) {
    return new Unconditional(
        rules.stream().filter(rule -> !names.contains(rule.getName())).toList());
  }

  Set<String> names() {
    return rules.stream().map(Rule::getName).collect(Collectors.toUnmodifiableSet());
  }

  List<RuleInfo> infos() {
    return rules.stream()
        .map(rule -> new RuleInfo(rule.getName(), rule.getPackage(), source(rule)))
        .toList();
  }

  private static String source(Rule rule) {
    return EngineRules.source(rule.getMetaData("source"));
  }

  /** What they say, of whatever case. */
  Collector heard(Names names) {
    Collector collector = new Collector(names, List.of(), Set.of(), Set.of());
    for (Rule rule : rules) {
      collector.enter(rule.getName(), source(rule));
      try {
        rule.getDefaultConsequence().getBlock().execute(collector);
      } catch (RuntimeException e) {
        throw e;
      } catch (Exception e) {
        throw new IllegalStateException("rule \"" + rule.getName() + "\" fails", e);
      }
    }
    return collector;
  }
}
