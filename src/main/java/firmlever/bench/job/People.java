package firmlever.bench.job;

import firmlever.store.JobStore;
import firmlever.web.Role;
import firmlever.web.ShopKey;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Which codes have a role and a key of their own. A code without one signs in as a mechanic, and
 * proves nothing by it.
 */
public final class People {
  /** How the codes of persons are written. */
  public static final Pattern CODE = Pattern.compile("[A-Z]{1,3}[0-9]{1,4}");

  private static final String SETTING = "person-";

  private final JobStore store;

  public People(JobStore store) {
    this.store = store;
  }

  /**
   * Somebody with a key of their own.
   *
   * @param keyDigest digest of that key
   */
  public record Person(Role role, String keyDigest) {}

  public Optional<Person> of(String code) {
    return store
        .setting(SETTING + code)
        .filter(kept -> !kept.isEmpty())
        .map(kept -> kept.split(" "))
        .map(parts -> new Person(Role.of(parts[0]).orElseThrow(), parts[1]));
  }

  /** Gives a code a role and a new key, which is kept as its digest only. */
  public String enrol(String code, Role role) {
    String key = ShopKey.make();
    store.set(SETTING + code, role.id() + " " + ShopKey.digest(key));
    return key;
  }

  /** Takes role and key from a code. */
  public void dismiss(String code) {
    store.set(SETTING + code, "");
  }
}
