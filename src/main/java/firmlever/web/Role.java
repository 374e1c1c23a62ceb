package firmlever.web;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** What somebody may see and do; each role may all that those before it may. */
public enum Role {
  MECHANIC,
  DESK,
  OWNER;

  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The role of that name, if there is one. */
  public static Optional<Role> of(String id) {
    return Stream.of(values()).filter(role -> role.id().equals(id)).findFirst();
  }

  /** Whether this role may do what is kept for the other. */
  public boolean covers(Role other) {
    return compareTo(other) >= 0;
  }
}
