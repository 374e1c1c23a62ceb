package firmlever.rulebase;

/** One rule: its name, the package (folder) it stands in and where its knowledge is from. */
public record RuleInfo(String name, String packageName, String source) {}
