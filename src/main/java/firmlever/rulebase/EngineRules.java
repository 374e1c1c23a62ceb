package firmlever.rulebase;

import firmlever.rulebase.text.RuleFault;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import org.drools.model.Model;
import org.jspecify.annotations.Nullable;
import org.kie.api.KieBase;
import org.kie.api.definition.rule.Rule;

/** The compiled rules of this build, and what the engine tells of them. */
public final class EngineRules {
  private EngineRules() {}

  private static final String MODELS = "/META-INF/kie/firmlever/firmlever/drools-model";

  /** Clauses are matched in a session of their own, so that triage carries none of them. */
  public static final Predicate<String> WARRANTY =
      name -> name.startsWith("firmlever.rules.warranty.");

  /** Those of job cards likewise. */
  public static final Predicate<String> JOB_CARDS =
      name -> name.startsWith("firmlever.rules.jobcard.");

  /** The built models of the packages that {@code which} picks by class name. */
  public static List<Model> builtInModels(Predicate<String> which) {
    List<Model> models = new ArrayList<>();
    for (String className : RuleFiles.lines(MODELS)) {
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

  public static List<RuleInfo> rulesOf(KieBase base) {
    return base.getKiePackages().stream()
        .flatMap(each -> each.getRules().stream())
        .map(rule -> new RuleInfo(rule.getName(), rule.getPackageName(), source(rule)))
        .sorted(Comparator.comparing(RuleInfo::name))
        .toList();
  }

  /** The engine wraps what a consequence throws; people need what the rule did wrong. */
  public static RuntimeException ruleFaultIn(RuntimeException thrown) {
    for (Throwable cause = thrown; cause != null; cause = cause.getCause()) {
      if (cause instanceof RuleFault fault) {
        return fault;
      }
    }
    return thrown;
  }

  public static String source(Rule rule) {
    return source(rule.getMetaData().get("source"));
  }

  /** The text of what an annotation says. */
  public static String source(@Nullable Object source) {
    // The engine keeps the quotes of an annotation when it compiles at run time, and not otherwise.
    String text = source == null ? "" : source.toString();
    return text.length() > 1 && text.startsWith("\"") ? text.substring(1, text.length() - 1) : text;
  }
}
