package firmlever.web;

/**
 * Somebody who has signed in.
 *
 * @param token what the browser's cookie holds; never shown
 * @param formToken what every form of this session carries, so that no other page can send one
 * @param person code of who signed in
 * @param role what they may, as it was when they signed in
 */
public record Session(String token, String formToken, String person, Role role) {
  @Override
  public String toString() {
    return "session of " + person;
  }
}
