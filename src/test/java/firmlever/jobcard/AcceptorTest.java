package firmlever.jobcard;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.jobcard.Verdict.Checked;
import firmlever.jobcard.Verdict.Result;
import firmlever.vocabulary.Acceptance;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Acceptance")
class AcceptorTest {
  private static final String GOOD =
      "'symptoms':{'spongy-lever':'absent','leak-found-nowhere':'present','drag':'absent',"
          + "'weak-braking':'absent','loose-or-open-screw':'absent','fluid-on-pads':'absent'%s},"
          + "'readings':{'throw-firm':'8 mm','creep':'0.4 mm','pad-thickness':['2.1 mm','2.2 mm'],"
          + "'rotor-thickness':'1.8 mm','run-out':'0.1 mm'},";

  private static CaseFile after(String more, String history) {
    return Bench.of(
        GOOD.formatted(more)
            + "'brake':{'id':'B-0417-rear','fluid':'mineral-oil','maker-figures':{'throw':'10 mm'}},'history':["
            + history
            + "]");
  }

  private static final String BLEED = "{'days-ago':0,'work':'full-bleed','torque':'4 N·m'}";

  private static Result of(Verdict verdict, String check) {
    return verdict.checks().stream()
        .filter(each -> each.id().equals(check))
        .findFirst()
        .map(Checked::result)
        .orElseThrow();
  }

  @Test
  @DisplayName("hands back a brake that passes every check, and holds it if any one finding turns")
  void handsBack() {
    assertThat(Bench.accept(after("", BLEED)).handBack()).isTrue();
    for (Acceptance check : Acceptance.builtIn(Bench.VOCABULARY)) {
      for (String symptom : check.failsOn()) {
        if (recorded(symptom) || derived(symptom)) {
          continue;
        }
        Verdict verdict = Bench.accept(after(",'" + symptom + "':'present'", BLEED));
        assertThat(verdict.handBack()).as(symptom).isFalse();
        assertThat(of(verdict, check.id())).as(symptom).isEqualTo(Result.FAILED);
      }
    }
  }

  /** Whether the good brake is on record for it, by its id or by the name of its absence. */
  private static boolean recorded(String symptom) {
    return GOOD.contains("'" + symptom + "'")
        || Bench.VOCABULARY.symptoms().get(symptom).opposite().stream()
            .anyMatch(opposite -> GOOD.contains("'" + opposite.id() + "'"));
  }

  /** What the readings of the good brake decide; a finding against it is a contradiction. */
  private static boolean derived(String symptom) {
    return List.of("long-throw", "lever-sinks", "thin-pads", "thin-rotor-seen", "bent-rotor-seen")
        .contains(symptom);
  }

  @Test
  @DisplayName("holds while a check was not made, and says how to make it")
  void holdsWhatWasNotChecked() {
    Verdict verdict =
        Bench.accept(
            Bench.of(
                "'symptoms':{'firm-at-end':'present'},"
                    + "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'history':["
                    + BLEED
                    + "]"));
    assertThat(verdict.handBack()).isFalse();
    assertThat(of(verdict, "firm")).isEqualTo(Result.PASSED);
    assertThat(of(verdict, "dry")).isEqualTo(Result.NOT_MADE);
    assertThat(verdict.with(Result.FAILED)).isEmpty();
    assertThat(verdict.failed()).isEmpty();
    assertThat(verdict.next()).isEmpty();
    assertThat(verdict.with(Result.NOT_MADE)).allSatisfy(c -> assertThat(c.how()).isNotEmpty());
  }

  @Test
  @DisplayName("the throw passes among those of sound brakes of its kind, and fails beyond")
  void throwAmongSoundBrakes() {
    for (int mm = 8; mm <= 14; mm += 3) {
      assertThat(throwOf(mm)).as("%d mm", mm).isEqualTo(Result.PASSED);
    }
    assertThat(throwOf(30)).isEqualTo(Result.FAILED);
  }

  private static Result throwOf(int mm) {
    String firm = "'readings':{'throw-firm':{'value':'%d mm','force':'100 N'}},".formatted(mm);
    String brake = "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},";
    return of(Bench.accept(Bench.of(firm + brake + "'history':[" + BLEED + "]")), "throw");
  }

  @Test
  @DisplayName("asks for the torque of what was tightened, and for bedding-in after new pads")
  void asksForTorqueAndBedding() {
    Verdict bare = Bench.accept(after("", "{'days-ago':0,'work':'full-bleed'}"));
    assertThat(of(bare, "screws")).isEqualTo(Result.NOT_MADE);
    assertThat(bare.handBack()).isFalse();
    Verdict pads = Bench.accept(after("", "{'days-ago':0,'work':'replace-pads'}"));
    assertThat(of(pads, "bedded")).isEqualTo(Result.NOT_MADE);
    Verdict bedded =
        Bench.accept(
            after("", "{'days-ago':0,'work':'replace-pads'},{'days-ago':0,'work':'bed-in-pads'}"));
    assertThat(of(bedded, "bedded")).isEqualTo(Result.PASSED);
    assertThat(bedded.handBack()).isTrue();
  }

  @Test
  @DisplayName("holds a brake without any work of this visit, and one whose findings contradict")
  void holdsWithoutWork() {
    assertThat(
            Bench.accept(
                    after(
                        ",'rub-in-rhythm':'present','bent-rotor-seen':'present'",
                        "{'days-ago':40,'work':'full-bleed','torque':'4 N·m'}"))
                .holds())
        .anyMatch(hold -> hold.contains("\"days-ago\": 0"));
    Verdict torn = Bench.accept(after(",'long-throw':'present','short-throw':'present'", BLEED));
    assertThat(torn.handBack()).isFalse();
  }

  @Test
  @DisplayName("holds a brake that nobody worked on, as long as nothing explains its complaint")
  void holdsAnOpenComplaint() {
    assertThat(Bench.accept(juddering("")).holds())
        .containsExactly("nothing likely explains the complaint: judder");
  }

  @Test
  @DisplayName(
      "holds what the customer told of and no work of the visit mends; telling mends nothing")
  void holdsWhatWasLeftUndone() {
    assertThat(Bench.accept(juddering(BLEED)).holds())
        .containsExactly("nothing done today mends what the customer told of: judder");
    assertThat(Bench.accept(juddering("{'days-ago':0,'work':'lighter-braking-advice'}")).holds())
        .containsExactly("nothing done today mends what the customer told of: judder");
    assertThat(Bench.accept(juddering("{'days-ago':0,'work':'true-rotor'}")).holds()).isEmpty();
  }

  @Test
  @DisplayName("passes nothing that is not on record: neither a torque nor a true rotor")
  void passesWhatIsOnRecord() {
    Verdict untorqued = Bench.accept(after("", "{'days-ago':0,'work':'replace-pads'}"));
    assertThat(untorqued.checks())
        .filteredOn(each -> each.id().equals("screws"))
        .allSatisfy(each -> assertThat(each.why()).doesNotContain("torque"));
    CaseFile unspun =
        Bench.of(
            "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},"
                + "'readings':{'rotor-thickness':'1.8 mm'},'history':["
                + BLEED
                + "]");
    assertThat(of(Bench.accept(unspun), "rotor")).isEqualTo(Result.NOT_MADE);
  }

  /** A brake that is told to judder and shows nothing, after these works. */
  private static CaseFile juddering(String works) {
    return Bench.of(
        "'complaint':'It judders.','brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'symptoms':{"
            + Bench.VOCABULARY.symptoms().keySet().stream()
                .filter(id -> !id.equals("judder") && !Bench.VOCABULARY.opposites().containsKey(id))
                .map(id -> "'" + id + "':'absent'")
                .collect(Collectors.joining(","))
            + "},'history':["
            + works
            + "]");
  }

  @Test
  @DisplayName("takes a failure as evidence against what the work should have mended")
  void learnsFromFailure() {
    Verdict verdict =
        Bench.accept(
            Bench.of(
                "'symptoms':{'spongy-lever':'present','long-throw':'present','lever-sinks':'present',"
                    + "'leak-found-nowhere':'present'},"
                    + "'brake':{'id':'B-0417-rear','fluid':'mineral-oil','fitted':'2020-02-01'},"
                    + "'history':["
                    + BLEED
                    + "]"));
    assertThat(verdict.failed()).containsExactly("full-bleed");
    assertThat(verdict.shifts().get(0).cause()).isEqualTo("worn-lever-seal");
    assertThat(verdict.shifts().get(0).now()).isGreaterThan(verdict.shifts().get(0).before());
    assertThat(verdict.shifts())
        .filteredOn(shift -> shift.cause().equals("air-left-in-line"))
        .allSatisfy(shift -> assertThat(shift.now()).isLessThan(shift.before()));
    assertThat(verdict.next()).isNotEmpty();
    assertThat(verdict.next()).extracting(Diagnosis.Step::id).doesNotContain("hand-back");
  }
}
