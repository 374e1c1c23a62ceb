package firmlever.warranty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import firmlever.document.BadInput;
import firmlever.document.JsonText;
import firmlever.document.Problem;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.PolicyFormat;
import firmlever.warranty.policy.PolicyReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A policy file")
class PolicyReaderTest {
  private static final String DEMO = Claims.text(Claims.POLICY_FILE);

  @Test
  @DisplayName("is read with its clauses from the highest priority down")
  void isReadInOrder() {
    assertThat(Claims.POLICY.id()).isEqualTo("lakeside-2026");
    assertThat(Claims.POLICY.clauses()).hasSize(26);
    assertThat(Claims.POLICY.clauses().get(0).id()).isEqualTo("1.1");
    assertThat(Claims.POLICY.clauses().get(24).kind()).isEqualTo(Clause.Kind.OTHERWISE);
    assertThat(Claims.POLICY.about("worn-pads").stream().map(Clause::id))
        .containsExactly("2.6", "4.1", "2.4", "8.1");
    assertThat(Claims.POLICY.digest()).hasSize(64);
  }

  /** What is changed in the demo policy, and what must be said of it, with its place. */
  @ParameterizedTest(name = "{0} -> {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "\"worn-pads\", \"thin-rotor\"], | \"worn-pad\", \"thin-rotor\"],"
            + " | /clauses/12/causes/0 | \"worn-pad\" is not a cause known here",
        "\"valid-until\": \"2027-12-31\" | \"valid-until\": \"2021-12-31\""
            + " | /valid-until | \"2021-12-31\" lies before the first day of the policy",
        "\"kind\": \"crash\" | \"kind\": \"crashes\""
            + " | /clauses/8/kind | \"crashes\" is not a kind of clause known here",
        "\"days\": 365 | \"day\": 365 | /clauses/9/days | \"days\" is missing",
        "\"id\": \"2.2\" | \"id\": \"2.1\" | /clauses/2/id | two clauses have the number \"2.1\"",
        "\"kind\": \"otherwise\" | \"kind\": \"wrong-fluid\", \"priority\": 1"
            + " | /clauses | 0 clauses of the kind \"otherwise\" stand here",
        "\"until-month\": 36 | \"until-month\": 24"
            + " | /clauses/23/until-month | goodwill that ends in month 24",
        "\"most-load\": \"160 kg\" | \"most-load\": \"160\""
            + " | /clauses/11/most-load | \"160\" stands here",
        "\"months\": 36 | \"months\": 30"
            + " | /clauses/2/text | the wording of clause \"2.2\" says 36 months,",
        "\"cap\": \"100.00 EUR\" | \"cap\": \"90.00 EUR\""
            + " | /clauses/23/text | the wording of clause \"7.1\" says 100.00 EUR,",
        "\"share\": \"50 %\" | \"share\": \"40 %\""
            + " | /clauses/23/text | the wording of clause \"7.1\" says 50 %,",
        "\"cap\": \"100.00 EUR\" | \"cap\": \"100.00\""
            + " | /clauses/23/cap | \"100.00\" has no currency",
        "\"outcome\": \"refuse\", \"days\": 90 | \"outcome\": \"refuse\", \"pays\": \"maker\", \"days\": 90"
            + " | /clauses/8/pays | clause \"3.2\" says refuse, paid by the maker;",
        "\"pays\": \"shop\", \"days\": 60 | \"pays\": \"claimant\", \"days\": 60"
            + " | /clauses/18/pays | clause \"6.1\" says cover, paid by the claimant;",
        "\"consider\": 0.5 | \"consider\": 5 | /consider | it must be a number from 0.05 to 0.95"
      })
  void isRefusedWithThePlace(String before, String after, String pointer, String message) {
    assertThat(DEMO).contains(before);
    assertThat(problemsOf(DEMO.replace(before, after)))
        .anySatisfy(
            problem -> {
              assertThat(problem.pointer()).isEqualTo(pointer);
              assertThat(problem.message()).contains(message);
              assertThat(problem.line()).isGreaterThan(1);
            });
  }

  private static List<Problem> problemsOf(String text) {
    BadInput bad =
        catchThrowableOfType(
            BadInput.class,
            () ->
                new PolicyReader(Claims.VOCABULARY)
                    .read(text.getBytes(StandardCharsets.UTF_8), "policy.json"));
    assertThat(bad).as("the policy is refused").isNotNull();
    return bad.problems();
  }

  @Test
  @DisplayName("is refused where two clauses of one priority say opposite things of one cause")
  void isRefusedWhereItContradictsItself() {
    // Wear of 4.1 at the priority of the periods: clause 2.4 covers pads, 4.1 refuses them.
    String text =
        DEMO.replace(
            "\"id\": \"4.1\", \"kind\": \"wear\", \"priority\": 60",
            "\"id\": \"4.1\", \"kind\": \"wear\", \"priority\": 40");
    Problem problem = problemsOf(text).get(0);
    assertThat(problem.pointer()).isEqualTo("/clauses/12/priority");
    assertThat(problem.spoken())
        .contains(
            "clause \"4.1\" (refuse, claimant) contradicts clause \"2.3\" (cover, maker): both have"
                + " priority 40 and speak of thin-rotor")
        .contains("Maybe give the one that goes first a higher priority.");
  }

  @Test
  @DisplayName("has a JSON Schema that takes the demo policy and refuses an unknown field")
  void hasASchema() {
    Schema schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(JsonText.of(PolicyFormat.schema(Claims.VOCABULARY)), InputFormat.JSON);
    assertThat(schema.validate(DEMO, InputFormat.JSON)).isEmpty();
    for (String wrong :
        List.of(
            DEMO.replace("\"days\": 365", "\"day\": 365"),
            DEMO.replace("\"crash\"", "\"crashes\""))) {
      assertThat(schema.validate(wrong, InputFormat.JSON)).isNotEmpty();
    }
  }
}
