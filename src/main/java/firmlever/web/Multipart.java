package firmlever.web;

import firmlever.document.Limit;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A form with files in it, as browsers send it (RFC 7578, of RFC 2046 what browsers use). Whatever
 * is written otherwise is refused. Names of files are read by nobody.
 *
 * @param fields what was typed, by the name of the field
 * @param files the content of files, by the name of the field; where none was chosen, none
 */
record Multipart(Map<String, List<String>> fields, Map<String, byte[]> files) {
  /** What browsers choose, within what the standard allows. */
  private static final Pattern TYPE =
      Pattern.compile(
          "multipart/form-data\\s*;\\s*boundary=(?:\"([0-9A-Za-z'()+_,./:=?-]{1,70})\""
              + "|([0-9A-Za-z'()+_./-]{1,70}))",
          Pattern.CASE_INSENSITIVE);

  /** Browsers write quotation marks within names as %22. */
  private static final Pattern DISPOSITION =
      Pattern.compile(
          "content-disposition: *form-data; *name=\"([^\"]*)\"(; *filename=\"[^\"]*\")?",
          Pattern.CASE_INSENSITIVE);

  private static final int MOST_HEAD_BYTES = 2000;
  private static final byte[] LINE_END = {'\r', '\n'};
  private static final byte[] HEAD_END = {'\r', '\n', '\r', '\n'};
  private static final byte[] LAST = {'-', '-'};

  /** The boundary a content type names, if it is that of such a form. */
  static Optional<String> boundary(String type) {
    Matcher matcher = TYPE.matcher(type);
    return matcher.matches()
        ? Optional.of(matcher.group(1) == null ? matcher.group(2) : matcher.group(1))
        : Optional.empty();
  }

  /**
   * Takes a form apart.
   *
   * @throws Refused with 400 where it is not written as browsers do, 413 where it holds more than
   *     {@link Limit#FORM_FIELDS}, {@link Limit#FORM_BYTES} or {@link Limit#PHOTO_BYTES}
   */
  static Multipart read(byte[] body, String boundary) throws Refused {
    byte[] line = ("\r\n--" + boundary).getBytes(StandardCharsets.US_ASCII);
    Map<String, List<String>> fields = new LinkedHashMap<>();
    Map<String, byte[]> files = new LinkedHashMap<>();
    // The first one has no line before it.
    int at = line.length - LINE_END.length;
    if (!matches(body, 0, Arrays.copyOfRange(line, LINE_END.length, line.length))) {
      throw odd();
    }
    int count = 0;
    int typed = 0;
    while (!matches(body, at, LAST)) {
      if (!matches(body, at, LINE_END)) {
        throw odd();
      }
      int head = at + LINE_END.length;
      int content = find(body, head, Math.min(body.length, head + MOST_HEAD_BYTES), HEAD_END);
      int end = content < 0 ? -1 : find(body, content + HEAD_END.length, body.length, line);
      if (end < 0) {
        throw odd();
      }
      Matcher about = disposition(new String(body, head, content - head, StandardCharsets.UTF_8));
      content += HEAD_END.length;
      if (++count > Limit.FORM_FIELDS.most()) {
        throw Refused.tooMuch();
      }
      if (about.group(2) == null) {
        typed += end - content;
        if (typed > Limit.FORM_BYTES.most()) {
          throw Refused.tooMuch();
        }
        fields
            .computeIfAbsent(about.group(1), name -> new ArrayList<>())
            .add(new String(body, content, end - content, StandardCharsets.UTF_8));
      } else if (end > content) {
        if (end - content > Limit.PHOTO_BYTES.most()) {
          throw Refused.tooLarge();
        }
        if (files.put(about.group(1), Arrays.copyOfRange(body, content, end)) != null) {
          throw new Refused(400, "Send one photo at a time.");
        }
      }
      at = end + line.length;
    }
    return new Multipart(fields, files);
  }

  private static Matcher disposition(String head) throws Refused {
    for (String line : head.split("\r\n")) {
      Matcher matcher = DISPOSITION.matcher(line);
      if (matcher.matches()) {
        return matcher;
      }
    }
    throw odd();
  }

  private static Refused odd() {
    return new Refused(400, "The form is not written as browsers do.");
  }

  private static boolean matches(byte[] body, int at, byte[] what) {
    return body.length - at >= what.length
        && Arrays.equals(body, at, at + what.length, what, 0, what.length);
  }

  /** Where those bytes begin between two places; -1 where they do not. */
  private static int find(byte[] body, int from, int to, byte[] what) {
    for (int at = from; at <= to - what.length; at++) {
      if (body[at] == what[0] && matches(body, at, what)) {
        return at;
      }
    }
    return -1;
  }
}
