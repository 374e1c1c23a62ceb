package firmlever.web;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpContext;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpPrincipal;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.util.Set;

/** The guard and the app behind it, without a network between. */
public final class Unplugged {
  /** The only name it answers to. */
  public static final String HOST = "127.0.0.1:1";

  private Unplugged() {}

  /**
   * What {@link WebServer} would answer; a fault of the program comes through as it is.
   *
   * @param headers a header of HTTP each, {@code Name: value}
   */
  public static Response answer(
      App app, Sessions sessions, String method, URI address, Iterable<String> headers, byte[] body)
      throws IOException {
    Asked asked = new Asked(method, address, body);
    for (String each : headers) {
      String[] pair = each.split(": ", 2);
      asked.headers.add(pair[0], pair[1]);
    }
    try {
      Response response =
          app.answer(new Guard(Set.of(HOST), sessions, WebServer.cookie(1)).admit(asked));
      // Refuses what no header may hold.
      response.headers().forEach(new Headers()::set);
      return response;
    } catch (Refused e) {
      return app.refused(e.status(), e.getMessage());
    }
  }

  private static final class Asked extends HttpExchange {
    private final Headers headers = new Headers();
    private final String method;
    private final URI address;
    private final byte[] body;

    private Asked(String method, URI address, byte[] body) {
      this.method = method;
      this.address = address;
      this.body = body;
    }

    @Override
    public Headers getRequestHeaders() {
      return headers;
    }

    @Override
    public URI getRequestURI() {
      return address;
    }

    @Override
    public String getRequestMethod() {
      return method;
    }

    @Override
    public InputStream getRequestBody() {
      return new ByteArrayInputStream(body);
    }

    @Override
    public InetSocketAddress getRemoteAddress() {
      return new InetSocketAddress(InetAddress.getLoopbackAddress(), 2);
    }

    @Override
    public Headers getResponseHeaders() {
      throw new UnsupportedOperationException();
    }

    @Override
    public HttpContext getHttpContext() {
      throw new UnsupportedOperationException();
    }

    @Override
    public void close() {}

    @Override
    public OutputStream getResponseBody() {
      throw new UnsupportedOperationException();
    }

    @Override
    public void sendResponseHeaders(int code, long length) {
      throw new UnsupportedOperationException();
    }

    @Override
    public int getResponseCode() {
      throw new UnsupportedOperationException();
    }

    @Override
    public InetSocketAddress getLocalAddress() {
      throw new UnsupportedOperationException();
    }

    @Override
    public String getProtocol() {
      return "HTTP/1.1";
    }

    @Override
    public Object getAttribute(String name) {
      return null;
    }

    @Override
    public void setAttribute(String name, Object value) {
      throw new UnsupportedOperationException();
    }

    @Override
    public void setStreams(InputStream in, OutputStream out) {
      throw new UnsupportedOperationException();
    }

    @Override
    public HttpPrincipal getPrincipal() {
      return null;
    }
  }
}
