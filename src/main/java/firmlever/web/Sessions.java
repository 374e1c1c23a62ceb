package firmlever.web;

import firmlever.document.Limit;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** Who is signed in, in memory: after a restart everybody signs in again. */
public final class Sessions {
  /** A working day, after which a tablet left alone is signed out. */
  private static final Duration IDLE = Duration.ofHours(12);

  private static final int TOKEN_BYTES = 32;

  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();
  private final Map<String, Used> sessions = new LinkedHashMap<>(16, 0.75f, true);

  private record Used(Session session, Instant last) {}

  public Sessions(InstantSource clock) {
    this.clock = clock;
  }

  /** Signs a person in. */
  public synchronized Session start(String person, Role role) {
    Session session = new Session(token(), token(), person, role);
    sessions.put(session.token(), new Used(session, clock.instant()));
    if (sessions.size() > Limit.SESSIONS.most()) {
      sessions.remove(sessions.keySet().iterator().next());
    }
    return session;
  }

  /** The session of a token, if there is one that was used within the last hours. */
  public synchronized Optional<Session> of(String token) {
    Used used = sessions.get(token);
    if (used == null) {
      return Optional.empty();
    }
    Instant now = clock.instant();
    if (Duration.between(used.last(), now).compareTo(IDLE) > 0) {
      sessions.remove(token);
      return Optional.empty();
    }
    sessions.put(token, new Used(used.session(), now));
    return Optional.of(used.session());
  }

  /** Signs a session out. */
  public synchronized void end(Session session) {
    sessions.remove(session.token());
  }

  private String token() {
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }
}
