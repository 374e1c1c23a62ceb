package firmlever.cli;

import firmlever.document.Program;
import firmlever.rulebase.RuleFiles;
import picocli.CommandLine.IVersionProvider;

/** What runs here: the program, the commit it was built from, and the rules in it. */
final class Version implements IVersionProvider {
  @Override
  public String[] getVersion() {
    String commit = System.getProperty("firmlever.commit", "");
    return new String[] {
      "firmlever " + Program.VERSION,
      "commit    " + (commit.isEmpty() ? "not known" : commit),
      "rules     " + RuleFiles.builtInDigest()
    };
  }
}
