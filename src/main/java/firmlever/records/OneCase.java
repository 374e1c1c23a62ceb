package firmlever.records;

import firmlever.belief.TooManySymptoms;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.rulebase.text.RuleFault;
import java.util.List;

/** What goes wrong in one case of many is a problem of that case, and the others go on. */
public final class OneCase {
  private OneCase() {}

  /** The refusal of one case, worded alike in all commands. */
  public static Problem refused(String file, TooManySymptoms e) {
    return Problem.ofFile(file, e.what(), e.maybe());
  }

  /** Work on one case of many. */
  public interface Work {
    void run() throws BadInput;
  }

  /** Does the work on one case; whatever goes wrong in it is a problem of that case alone. */
  public static List<Problem> problems(String file, Work work) {
    try {
      work.run();
      return List.of();
    } catch (BadInput e) {
      return e.problems();
    } catch (RunBroken e) {
      throw e;
    } catch (TooManySymptoms e) {
      return List.of(refused(file, e));
    } catch (RuleFault e) {
      return List.of(Problem.ofFile(file, String.valueOf(e.getMessage()), ""));
    } catch (RuntimeException | StackOverflowError e) {
      return List.of(
          Problem.ofFile(
              file,
              "firmlever has a fault of its own with it: " + first(e),
              "Maybe report it with this file."));
    }
  }

  /** The first line of what a failure says. */
  public static String first(Throwable e) {
    return String.valueOf(e instanceof IllegalStateException ? e.getMessage() : e)
        .lines()
        .findFirst()
        .orElse("");
  }
}
