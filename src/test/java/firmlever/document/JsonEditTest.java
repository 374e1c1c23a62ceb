package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("An edit of JSON text")
class JsonEditTest {
  @Test
  @DisplayName("changes one value and no other character")
  void changesOneValue() throws BadInput {
    String text = "{\n   \"b\" : [1,  2.50],\"a\":{ \"x\":\"old\" , \"y\" : 1e2 }\n}\n";
    assertThat(JsonEdit.set(text, List.of("a", "x"), "new"))
        .isEqualTo("{\n   \"b\" : [1,  2.50],\"a\":{ \"x\":\"new\" , \"y\" : 1e2 }\n}\n");
    assertThat(JsonEdit.set(text, List.of("b"), List.of("3 mm", "4 mm")))
        .isEqualTo(
            "{\n   \"b\" : [ \"3 mm\", \"4 mm\" ],\"a\":{ \"x\":\"old\" , \"y\" : 1e2 }\n}\n");
  }

  @Test
  @DisplayName("adds what is missing at the end of its object, laid out as its neighbours are")
  void addsWhatIsMissing() throws BadInput {
    assertThat(JsonEdit.set("{\n  \"a\": 1\n}\n", List.of("b"), true))
        .isEqualTo("{\n  \"a\": 1,\n  \"b\": true\n}\n");
    assertThat(JsonEdit.set("{\r\n\t\"a\": 1\r\n}", List.of("b", "c"), "d"))
        .isEqualTo("{\r\n\t\"a\": 1,\r\n\t\"b\": { \"c\": \"d\" }\r\n}");
    assertThat(JsonEdit.set("{ \"a\": { } }", List.of("a", "b"), "c"))
        .isEqualTo("{ \"a\": { \"b\": \"c\" } }");
    assertThat(JsonEdit.set("{\"a\":{\"b\":1}}", List.of("a", "c"), 2))
        .isEqualTo("{\"a\":{\"b\":1, \"c\": 2}}");
  }

  @Test
  @DisplayName("adds to the end of a list, and begins one that is not there")
  void addsToAList() throws BadInput {
    assertThat(JsonEdit.add("{ \"a\":[ 1,  2 ] }", "a", 3)).isEqualTo("{ \"a\":[ 1,  2, 3 ] }");
    assertThat(JsonEdit.add("{\"a\":[]}", "a", "x")).isEqualTo("{\"a\":[ \"x\" ]}");
    assertThat(JsonEdit.add("{\"b\":1}", "a", "x")).isEqualTo("{\"b\":1, \"a\": [ \"x\" ]}");
    assertThatThrownBy(() -> JsonEdit.add("{\"a\":1}", "a", 2))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("square brackets");
  }

  @Test
  @DisplayName("is not led astray by brackets, quotes and marks inside of texts")
  void readsTexts() throws BadInput {
    String text = "{\"a\": \"}] \\\" , \\\\\", \"b\": \"\u00e4\ud83d\udeb2{\", \"c\": \"x\"}";
    assertThat(JsonEdit.set(text, List.of("c"), "y\nz"))
        .isEqualTo("{\"a\": \"}] \\\" , \\\\\", \"b\": \"\u00e4\ud83d\udeb2{\", \"c\": \"y\\nz\"}");
    assertThat(JsonEdit.set(text, List.of("a"), 7)).startsWith("{\"a\": 7, \"b\"");
  }

  @Test
  @DisplayName("refuses what is no JSON, and a path through something that is no object")
  void refusesWhatItCannotDo() {
    assertThatThrownBy(() -> JsonEdit.set("{\"a\": ", List.of("a"), 1))
        .isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> JsonEdit.set("{\"a\": [1]}", List.of("a", "b"), 1))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("curly brackets");
  }

  @Test
  @DisplayName("puts any value at any place of any document, and keeps the rest (4000 edits)")
  void keepsTheRest() throws BadInput {
    Random random = new Random(20260512);
    String text = "{\n  \"k0\": { \"q\": [ { \"z\": null } , -1.5e-3 ] },\n  \"k1\": {}\n}";
    List<String> names = List.of("k0", "k1", "k2", "s", "t{", "u\"v");
    for (int round = 0; round < 4000; round++) {
      List<String> path = new ArrayList<>();
      for (int depth = 0; depth <= random.nextInt(3); depth++) {
        path.add(names.get(random.nextInt(names.size())));
      }
      String value = "v" + round;
      String edited;
      try {
        edited = JsonEdit.set(text, path, value);
      } catch (BadInput e) {
        continue; // A text stands in the way; nothing was changed.
      }
      Node node = DocumentReader.readText(edited, "edited");
      for (String name : path) {
        node = ((Node.Object) node).members().get(name);
      }
      assertThat(((Node.Text) node).value()).isEqualTo(value);
      if (!path.equals(List.of("k0"))) {
        assertThat(edited)
            .as("the first member, as it was laid out")
            .contains("{ \"z\": null } , -1.5e-3 ]");
        text = edited.length() > 3000 ? text : edited;
      }
    }
    assertThat(text.length()).isGreaterThan(100);
  }

  @Test
  @DisplayName("takes a member out with its comma, and leaves the rest as it is")
  void removes() throws BadInput {
    String text = "{\n  \"a\": { \"x\": 1 },\n  \"b\": [ 2, 3 ],\n  \"c\": \"}\"\n}\n";
    assertThat(JsonEdit.remove(text, List.of("a")))
        .isEqualTo("{\n  \"b\": [ 2, 3 ],\n  \"c\": \"}\"\n}\n");
    assertThat(JsonEdit.remove(text, List.of("b")))
        .isEqualTo("{\n  \"a\": { \"x\": 1 },\n  \"c\": \"}\"\n}\n");
    assertThat(JsonEdit.remove(text, List.of("c")))
        .isEqualTo("{\n  \"a\": { \"x\": 1 },\n  \"b\": [ 2, 3 ]\n}\n");
    assertThat(DocumentReader.readText(JsonEdit.remove(text, List.of("a", "x")), "a test"))
        .isInstanceOf(Node.Object.class);
    assertThat(JsonEdit.remove(text, List.of("a", "y"))).isEqualTo(text);
    assertThat(JsonEdit.remove(text, List.of("d", "y"))).isEqualTo(text);
    assertThatThrownBy(() -> JsonEdit.remove(text, List.of("b", "x"))).isInstanceOf(BadInput.class);
  }
}
