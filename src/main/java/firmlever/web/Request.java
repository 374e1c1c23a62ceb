package firmlever.web;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a browser asks for, after the guard has let it in.
 *
 * @param post whether it wants something changed
 * @param path its segments, decoded; none for the front page
 * @param query what stands after the question mark
 * @param form what was typed and tapped
 * @param files the content of files sent in, by the name of the field; only from who is signed in
 * @param from the address it comes from
 * @param host the name and port by which it was opened, one of our own
 * @param languages codes of the languages the browser asks for, the dearest first
 */
public record Request(
    boolean post,
    List<String> path,
    Map<String, List<String>> query,
    Map<String, List<String>> form,
    Map<String, byte[]> files,
    Optional<Session> session,
    String from,
    String host,
    List<String> languages) {

  /** The field of that name, without blanks around it; empty where there is none. */
  public String field(String name) {
    return all(name).stream().findFirst().orElse("").strip();
  }

  /** All fields of that name. */
  public List<String> all(String name) {
    return form.getOrDefault(name, List.of());
  }

  /** The first value of that name after the question mark; empty where there is none. */
  public String asked(String name) {
    return query.getOrDefault(name, List.of("")).get(0).strip();
  }

  /** The segment at that position; empty where there is none. */
  public String segment(int at) {
    return at < path.size() ? path.get(at) : "";
  }
}
