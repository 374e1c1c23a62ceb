package firmlever.diagnosis.report;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.report.Pairs.Pair;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Held against what {@code triage --json} prints of the two diagnoses, both read by a parser that
 * is not ours, so that nothing here is worked out by the code it checks.
 */
@DisplayName("The difference of two diagnoses")
class DifferenceTest {
  private static final JsonMapper MAPPER = new JsonMapper();

  /** What is rounded to six decimals may lie on the other side of a limit. */
  private static final double ROUNDED = 1.5e-6;

  private static final double LIKELY = 0.1;
  private static final double MOVED = 0.05;

  private static JsonNode read(String json) {
    return MAPPER.readTree(json);
  }

  private static JsonNode difference(Pair pair) {
    return read(DifferenceJson.of(pair.before(), pair.now()));
  }

  private static Set<String> texts(JsonNode list) {
    return list.valueStream()
        .map(JsonNode::asString)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> minus(Set<String> some, Set<String> others) {
    Set<String> left = new TreeSet<>(some);
    left.removeAll(others);
    return left;
  }

  @Test
  @DisplayName("of a diagnosis with itself is empty")
  void withItselfIsEmpty() {
    for (Pair pair : Pairs.ALL) {
      JsonNode d = difference(new Pair(pair.now(), pair.now()));
      assertThat(d.path("gravest").asString()).isEqualTo("none");
      for (String change :
          List.of(
              "/ride/because/added",
              "/ride/because/gone",
              "/ride/not-looked/added",
              "/ride/not-looked/gone",
              "/causes",
              "/findings",
              "/cautions/added",
              "/cautions/gone")) {
        assertThat(d.at(change).isArray()).as(change).isTrue();
        assertThat(d.at(change).size()).as(change).isZero();
      }
      for (String both : List.of("/ride", "/next", "/first")) {
        assertThat(d.at(both + "/before")).isEqualTo(d.at(both + "/now"));
      }
    }
  }

  @Test
  @DisplayName("is turned round where the two are swapped")
  void isTurnedRound() {
    for (Pair pair : Pairs.ALL) {
      JsonNode d = difference(pair);
      JsonNode swapped = difference(pair.swapped());
      for (String both : List.of("/ride", "/next", "/first")) {
        assertThat(swapped.at(both + "/before")).isEqualTo(d.at(both + "/now"));
        assertThat(swapped.at(both + "/now")).isEqualTo(d.at(both + "/before"));
      }
      for (String change : List.of("/ride/because", "/ride/not-looked", "/cautions")) {
        assertThat(set(swapped.at(change + "/added"))).isEqualTo(set(d.at(change + "/gone")));
        assertThat(set(swapped.at(change + "/gone"))).isEqualTo(set(d.at(change + "/added")));
      }
      assertThat(swapped.path("gravest")).isEqualTo(d.path("gravest"));
      for (String list : List.of("causes", "findings")) {
        Set<String> there = new HashSet<>();
        d.path(list).valueStream().forEach(each -> there.add(each(each, "before", "now")));
        Set<String> back = new HashSet<>();
        swapped.path(list).valueStream().forEach(each -> back.add(each(each, "now", "before")));
        assertThat(back).isEqualTo(there);
      }
    }
  }

  private static Set<JsonNode> set(JsonNode list) {
    return list.valueStream().collect(Collectors.toSet());
  }

  private static String each(JsonNode item, String from, String to) {
    String way = item.path("way").asString("");
    boolean turned = from.equals("now");
    return item.path("id").asString("")
        + item.path("symptom").asString("")
        + item.path(from)
        + item.path(to)
        + (turned && way.equals("came") ? "went" : turned && way.equals("went") ? "came" : way);
  }

  @Test
  @DisplayName("tells of verdict, step, findings and cautions what is true, and all of it")
  void tellsWhatIsTrue() {
    int ridden = 0;
    int stepped = 0;
    int turned = 0;
    for (Pair pair : Pairs.ALL) {
      JsonNode before = read(JsonReport.of(pair.before()));
      JsonNode now = read(JsonReport.of(pair.now()));
      JsonNode d = difference(pair);
      assertThat(d.at("/ride/before")).isEqualTo(before.at("/ride/verdict"));
      assertThat(d.at("/ride/now")).isEqualTo(now.at("/ride/verdict"));
      changed(d.at("/ride/because"), reasons(before), reasons(now));
      changed(
          d.at("/ride/not-looked"),
          texts(before.at("/ride/not-looked")),
          texts(now.at("/ride/not-looked")));
      changed(d.path("cautions"), texts(before.path("cautions")), texts(now.path("cautions")));
      assertThat(d.at("/next/before").asString()).isEqualTo(step(before));
      assertThat(d.at("/next/now").asString()).isEqualTo(step(now));
      Map<String, String> findings = new TreeMap<>();
      for (JsonNode each : d.path("findings").valueStream().toList()) {
        findings.put(
            each.path("symptom").asString(),
            each.path("before").asString() + each.path("now").asString());
      }
      assertThat(findings).isEqualTo(findings(pair));
      ridden += d.at("/ride/before").equals(d.at("/ride/now")) ? 0 : 1;
      stepped += step(before).equals(step(now)) ? 0 : 1;
      turned += findings.containsValue("presentabsent") ? 1 : 0;
    }
    assertThat(List.of(ridden, stepped, turned)).allMatch(seen -> seen > 0);
  }

  private static void changed(JsonNode change, Set<String> before, Set<String> now) {
    assertThat(names(change.path("added"))).isEqualTo(minus(now, before));
    assertThat(names(change.path("gone"))).isEqualTo(minus(before, now));
  }

  private static Set<String> names(JsonNode list) {
    return list.valueStream()
        .map(each -> each.isString() ? each.asString() : reason(each))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> reasons(JsonNode diagnosis) {
    return diagnosis
        .at("/ride/because")
        .valueStream()
        .map(DifferenceTest::reason)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static String reason(JsonNode each) {
    return each.path("cause").asString("") + "/" + each.path("symptom").asString("");
  }

  private static JsonNode firstStep(JsonNode diagnosis) {
    return diagnosis
        .path("next")
        .valueStream()
        .filter(
            step -> step.path("blocked-by").isEmpty() && !step.path("forbidden").asBoolean(false))
        .findFirst()
        .orElse(MAPPER.createObjectNode());
  }

  private static String step(JsonNode diagnosis) {
    return firstStep(diagnosis).path("id").asString("");
  }

  /** No output tells findings as such; they are in the diagnosis itself. */
  private static Map<String, String> findings(Pair pair) {
    Map<String, String> differing = new TreeMap<>();
    Set<String> all = new TreeSet<>(pair.before().findings().keySet());
    all.addAll(pair.now().findings().keySet());
    for (String symptom : all) {
      String was = presence(pair.before(), symptom);
      String is = presence(pair.now(), symptom);
      if (!was.equals(is)) {
        differing.put(symptom, was + is);
      }
    }
    return differing;
  }

  private static String presence(Diagnosis d, String symptom) {
    Boolean there = d.findings().get(symptom);
    return there == null ? "not-known" : there ? "present" : "absent";
  }

  private static Map<String, Double> chances(JsonNode diagnosis) {
    Map<String, Double> chances = new TreeMap<>();
    for (JsonNode cause : diagnosis.path("causes").valueStream().toList()) {
      chances.put(cause.path("id").asString(), cause.path("probability").asDouble());
    }
    chances.put("no-fault-found", diagnosis.path("no-fault-found").asDouble());
    return chances;
  }

  @Test
  @DisplayName("tells each likely cause that moved by one in twenty, and none that did not")
  void tellsTheCauses() {
    Set<String> ways = new TreeSet<>();
    for (Pair pair : Pairs.ALL) {
      Map<String, Double> before = chances(read(JsonReport.of(pair.before())));
      Map<String, Double> now = chances(read(JsonReport.of(pair.now())));
      JsonNode d = difference(pair);
      Set<String> told = new TreeSet<>();
      double last = 1;
      for (JsonNode each : d.path("causes").valueStream().toList()) {
        String id = each.path("id").asString();
        double was = before.getOrDefault(id, 0.0);
        double is = now.getOrDefault(id, 0.0);
        assertThat(each.path("before").asDouble()).isEqualTo(was);
        assertThat(each.path("now").asDouble()).isEqualTo(is);
        assertThat(Math.abs(is - was)).isGreaterThan(MOVED - ROUNDED).isLessThan(last + ROUNDED);
        assertThat(Math.max(is, was)).isGreaterThan(LIKELY - ROUNDED);
        String way = is < LIKELY ? "went" : was < LIKELY ? "came" : "moved";
        assertThat(each.path("way").asString()).isEqualTo(way);
        last = Math.abs(is - was);
        assertThat(told.add(id)).isTrue();
        ways.add(way);
      }
      Set<String> all = new TreeSet<>(before.keySet());
      all.addAll(now.keySet());
      for (String id : minus(all, told)) {
        double was = before.getOrDefault(id, 0.0);
        double is = now.getOrDefault(id, 0.0);
        assertThat(Math.abs(is - was) < MOVED + ROUNDED || Math.max(is, was) < LIKELY + ROUNDED)
            .as(id + " " + was + " " + is)
            .isTrue();
      }
    }
    assertThat(ways).containsExactly("came", "moved", "went");
  }

  @Test
  @DisplayName("is as grave as the gravest of it: ride verdict, next step, first cause, cautions")
  void isAsGraveAsTheGravest() {
    Set<firmlever.diagnosis.Difference.Grade> seen =
        EnumSet.noneOf(firmlever.diagnosis.Difference.Grade.class);
    for (Pair pair : Pairs.ALL) {
      JsonNode before = read(JsonReport.of(pair.before()));
      JsonNode now = read(JsonReport.of(pair.now()));
      JsonNode d = difference(pair);
      Map<String, Double> was = chances(before);
      Map<String, Double> is = chances(now);
      assertThat(d.at("/first/before").asString()).isEqualTo(first(before, was));
      assertThat(d.at("/first/now").asString()).isEqualTo(first(now, is));
      Set<String> looks = new TreeSet<>(texts(firstStep(before).path("looks")));
      looks.retainAll(texts(firstStep(now).path("looks")));
      String grade;
      if (!before.at("/ride/verdict").equals(now.at("/ride/verdict"))) {
        grade = "ride";
      } else if (!step(before).equals(step(now)) && looks.isEmpty()) {
        grade = "next";
      } else if (!first(before, was).equals(first(now, is))) {
        grade = "first";
      } else if (!texts(before.path("cautions")).equals(texts(now.path("cautions")))) {
        grade = "cautions";
      } else {
        boolean same =
            reasons(before).equals(reasons(now))
                && before.at("/ride/not-looked").equals(now.at("/ride/not-looked"))
                && d.path("causes").isEmpty()
                && findings(pair).isEmpty();
        grade = same ? "none" : "less";
      }
      assertThat(d.path("gravest").asString()).isEqualTo(grade);
      seen.add(firmlever.diagnosis.Difference.of(pair.before(), pair.now()).grade());
    }
    assertThat(seen).hasSizeGreaterThan(4);
  }

  private static String first(JsonNode diagnosis, Map<String, Double> chances) {
    JsonNode causes = diagnosis.path("causes");
    boolean none =
        causes.isEmpty()
            || chances.get("no-fault-found") > causes.path(0).path("probability").asDouble();
    return none ? "no-fault-found" : causes.path(0).path("id").asString();
  }
}
