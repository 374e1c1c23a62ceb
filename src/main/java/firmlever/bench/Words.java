package firmlever.bench;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;

/** The words of the pages in one language; those of the vocabulary stand there. */
public final class Words {
  /** The languages there is a file for. */
  static final List<String> LANGUAGES = List.of("en", "de", "fr");

  private final Locale locale;
  private final Map<String, String> words;

  private Words(Locale locale, Map<String, String> words) {
    this.locale = locale;
    this.words = words;
  }

  /** The language days are written in. */
  Locale locale() {
    return locale;
  }

  /** The code of the language, such as {@code en}. */
  public String language() {
    return locale.getLanguage();
  }

  /** The words of a language for which there is a file, such as {@code en}. */
  static Words in(String language) {
    Properties properties = new Properties();
    try (InputStream in = Words.class.getResourceAsStream("words_" + language + ".properties")) {
      properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, String> words = new HashMap<>();
    properties.stringPropertyNames().forEach(key -> words.put(key, properties.getProperty(key)));
    return new Words(Locale.forLanguageTag(language), Map.copyOf(words));
  }

  Set<String> keys() {
    return words.keySet();
  }

  /**
   * The words of that name, with the values in place of {@code {0}}, {@code {1}} and so on.
   *
   * @throws IllegalArgumentException where there are none
   */
  String say(String key, Object... values) {
    String text = words.get(key);
    if (text == null) {
      throw new IllegalArgumentException("no words for " + key);
    }
    for (int i = 0; i < values.length; i++) {
      text = text.replace("{" + i + "}", String.valueOf(values[i]));
    }
    return text;
  }
}
