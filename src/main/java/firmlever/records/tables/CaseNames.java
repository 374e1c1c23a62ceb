package firmlever.records.tables;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFormat;
import firmlever.document.Fields;
import firmlever.document.Nearest;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What a mapping may name: the fields of a case file, and the words each of them may hold. */
public final class CaseNames {
  private static final Map<String, Kind> KINDS =
      Map.of("outcome.works", Kind.WORK, "outcome.causes", Kind.CAUSE);

  private final Map<String, Object> schema;
  private final TradeWords trade;

  public CaseNames(Vocabulary vocabulary) {
    this.schema = CaseFormat.schema(vocabulary);
    this.trade = TradeWords.of(vocabulary);
  }

  /** Adds a problem for each name of a mapping that case files do not know, once. */
  void check(Fields mapping, Problems problems) {
    mapping.inner("columns").object().members().values().forEach(node -> field(node, problems));
    mapping
        .object()
        .get("heard")
        .ifPresent(list -> ((Node.Array) list).items().forEach(node -> field(node, problems)));
    Fields values = mapping.inner("values");
    values
        .object()
        .members()
        .forEach(
            (field, words) -> {
              if (at(field).isEmpty()) {
                refuse(field, values.object().nameOf(field), problems);
              } else {
                Set<String> known = words(at(field).orElseThrow());
                Fields.of(words)
                    .object()
                    .members()
                    .values()
                    .forEach(word -> value(field, (Node.Text) word, known, problems));
              }
            });
  }

  private void field(Node node, Problems problems) {
    String field = ((Node.Text) node).value();
    if (at(field).isEmpty()) {
      refuse(field, node.place(), problems);
    }
  }

  private void refuse(String field, Node.Place place, Problems problems) {
    problems.add(
        place,
        "\"" + field + "\" is no field of a case file",
        Nearest.to(field, fields("", schema, new ArrayList<>()))
            .map(near -> "Maybe \"" + near + "\" was meant.")
            .orElse("Maybe one such as \"brake.id\", \"complaint\" or \"outcome.works\"."));
  }

  private void value(String field, Node.Text word, Set<String> known, Problems problems) {
    String said = word.value();
    Optional<Kind> kind = Optional.ofNullable(KINDS.get(field));
    if (known.isEmpty()
        || known.contains(said)
        || kind.filter(k -> trade.one(said, k, known).isPresent()).isPresent()) {
      return;
    }
    String other = field.equals("outcome.works") ? "outcome.causes" : "outcome.works";
    boolean elsewhere =
        kind.isPresent()
            && trade
                .one(said, requireNonNull(KINDS.get(other)), words(at(other).orElseThrow()))
                .isPresent();
    problems.add(
        word.place(),
        "\"" + said + "\" is no word for " + field,
        elsewhere
            ? "Maybe put it under values, " + other + "."
            : kind.map(k -> trade.maybe(said, k, known)).orElse(Nearest.maybe(said, known)));
  }

  /** The part of the schema for a field; empty where there is no such field. */
  @SuppressWarnings("unchecked")
  private Optional<Map<String, Object>> at(String field) {
    Map<String, Object> at = schema;
    for (String name : field.split("\\.")) {
      Optional<Map<String, Object>> inner = inner(at, name);
      if (inner.isEmpty()) {
        return Optional.empty();
      }
      at = inner.get();
    }
    return Optional.of(at);
  }

  @SuppressWarnings("unchecked")
  private static Optional<Map<String, Object>> inner(Map<String, Object> schema, String name) {
    if (schema.get("properties") instanceof Map<?, ?> properties && properties.containsKey(name)) {
      return Optional.of((Map<String, Object>) properties.get(name));
    }
    if (schema.get("propertyNames") instanceof Map<?, ?> names
        && names.get("enum") instanceof Collection<?> listed
        && listed.contains(name)) {
      return Optional.of((Map<String, Object>) requireNonNull(schema.get("additionalProperties")));
    }
    return either(schema).stream().flatMap(each -> inner(each, name).stream()).findFirst();
  }

  @SuppressWarnings("unchecked")
  private static List<Map<String, Object>> either(Map<String, Object> schema) {
    return (List<Map<String, Object>>) schema.getOrDefault("anyOf", List.of());
  }

  /** The words a field may hold; none where it may hold any. */
  @SuppressWarnings("unchecked")
  private static Set<String> words(Map<String, Object> schema) {
    Set<String> words = new LinkedHashSet<>();
    if (schema.get("enum") instanceof Collection<?> listed) {
      listed.forEach(word -> words.add(String.valueOf(word)));
    }
    if (schema.get("items") instanceof Map<?, ?> items) {
      words.addAll(words((Map<String, Object>) items));
    }
    return words;
  }

  /** The fields of a case file that have no fields of their own. */
  @SuppressWarnings("unchecked")
  private static List<String> fields(String before, Map<String, Object> schema, List<String> into) {
    if (schema.get("properties") instanceof Map<?, ?> properties) {
      properties.forEach(
          (name, inner) -> {
            into.add(before + name);
            fields(before + name + ".", (Map<String, Object>) inner, into);
          });
    }
    return into;
  }
}
