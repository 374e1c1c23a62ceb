package firmlever.web;

/** What answers the requests that were let in. */
public interface App {
  Response answer(Request request);

  /**
   * The page for a request that was not let in, or failed.
   *
   * @param status of HTTP, 400 or above
   * @param why in words for whoever sits before the browser
   */
  Response refused(int status, String why);
}
