package firmlever.jobcard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A job card")
class JobCardsTest {
  private static final String SOFT =
      "'complaint':'soft','symptoms':{'spongy-lever':'present','leak-found-nowhere':'present'},";

  private static CaseFile soft(String brake) {
    return Bench.of(SOFT + "'brake':{'id':'B-0417-rear'," + brake + "}");
  }

  private static String words(JobCard card) {
    return card.sections().stream()
        .flatMap(section -> section.lines().stream())
        .map(line -> line.text() + " " + line.want())
        .collect(Collectors.joining("\n"));
  }

  private static final CaseFile HOWLS =
      Bench.of(
          "'complaint':'howls','symptoms':{'squeal':'present','weak-braking':'present'},"
              + "'history':[{'days-ago':3,'event':'oil-sprayed'}],"
              + "'brake':{'id':'B-0310-rear','position':'rear','fluid':'mineral-oil'}");

  @Test
  @DisplayName("is not written for work that is done riding a brake not to be ridden")
  void doesNotRideIt() {
    CaseFile weak =
        Bench.of(
            "'symptoms':{'weak-braking':'present','soft-when-hot':'present','fluid-on-pads':'absent'},"
                + "'brake':{'id':'B-0698-front','position':'front','fluid':'mineral-oil'},"
                + "'history':[{'days-ago':1,'work':'replace-pads'}]");
    assertThatThrownBy(() -> Bench.card(weak, "bed-in-pads"))
        .isInstanceOf(JobCards.NotNow.class)
        .hasMessageContaining("is done riding, and this brake is not to be ridden");
    assertThatThrownBy(() -> Bench.card(HOWLS, "bed-in-pads"))
        .hasMessageContaining("look for oil first");
  }

  @Test
  @DisplayName("begins with the work the plan begins with, or with none while that must wait")
  void putsNoOtherWorkBeforeTheFirst() {
    assertThatThrownBy(() -> Bench.card(HOWLS))
        .isInstanceOf(JobCards.NotNow.class)
        .hasMessageContaining(
            "no work may be done on this brake yet: first take wheel and pads out");
  }

  @Test
  @DisplayName("varies with wheel, hose, reservoir, pistons and fluid")
  void varies() throws JobCards.NotNow {
    String rear =
        words(
            Bench.card(
                soft("'position':'rear','fluid':'mineral-oil','reservoir':'diaphragm'"),
                "full-bleed"));
    assertThat(rear)
        .contains("raise the front of the bike", "high loop", "the diaphragm lies flat")
        .doesNotContain("DOT fluid strips", "in pairs", "sealed reservoir");
    String front =
        words(
            Bench.card(
                soft(
                    "'position':'front','fluid':'dot-5.1','reservoir':'sealed','caliper':{'pistons':4}"),
                "full-bleed"));
    assertThat(front)
        .contains(
            "Bar straight", "DOT 5.1", "DOT fluid strips paint", "in pairs", "sealed reservoir")
        .doesNotContain(
            "raise the front of the bike", "the diaphragm lies flat", "or syringe, a finger");
    assertThat(
            words(
                Bench.card(
                    soft("'position':'rear','fluid':'dot-4','hose':{'routing':'internal'}"),
                    "full-bleed")))
        .contains("inside the frame")
        .doesNotContain("unclip");
  }

  /**
   * Hose of 2 mm bore and 2000 mm: pi mL x 2 = 6.283; two pistons of 20 mm at their depth, passages
   * and reservoir as in the hydraulics' figures; then 0.95 V by plug flow, V ln 20 by mixed flow.
   */
  @Test
  @DisplayName("reckons the fluid of a flush from this brake's hose and caliper")
  void reckonsTheFluid() throws JobCards.NotNow {
    String small =
        words(
            Bench.card(
                soft(
                    "'position':'rear','fluid':'dot-4','hose':{'length':'2000 mm','bore':'2 mm'},"
                        + "'caliper':{'pistons':2,'bore':'20 mm'}"),
                "fluid-flush"));
    double area = 2 * Math.PI * 100;
    double ml = Math.PI * 2 + 1.5 + area * 2 / 1000 + 4;
    assertThat(small)
        .contains("holds about " + Math.round(ml) + " mL")
        .contains("takes " + (long) Math.ceil(0.95 * ml) + " mL if new drives old out")
        .contains("push " + (long) Math.ceil(Math.log(20) * ml) + " mL");
  }

  @Test
  @DisplayName("gives the maker's torque, what was last written down, or says what is needed")
  void givesTorques() throws JobCards.NotNow {
    JobCard card =
        Bench.card(
            Bench.of(
                SOFT
                    + "'brake':{'id':'B-0417-rear','fluid':'dot-4','maker-figures':{'port-torque':'4.5 N·m'}},"
                    + "'history':[{'days-ago':9,'work':'full-bleed','torque':'3.5 N·m'},"
                    + "{'days-ago':90,'work':'full-bleed','torque':'9 N·m'}]"),
            "full-bleed");
    assertThat(words(card))
        .contains(
            "Port screw at the lever 4.5 N·m, the maker's figure on record; last written down: 3.5 N·m")
        .contains("Lever clamp maker's figure needed")
        .doesNotContain("9 N·m");
  }

  @Test
  @DisplayName("is refused for a bleed with an open leak, and given with the mending before it")
  void refusesABleedWithALeak() throws JobCards.NotNow {
    CaseFile leaking =
        Bench.of(
            "'symptoms':{'spongy-lever':'present','weep-at-lever-port':'present'},"
                + "'brake':{'id':'B-0417-rear','fluid':'dot-4'}");
    assertThatThrownBy(() -> Bench.card(leaking, "full-bleed"))
        .isInstanceOf(JobCards.NotNow.class)
        .hasMessageContaining("full bleed must wait: the leak is mended before any bleed")
        .hasMessageContaining("reseal-lever-port");
    assertThatThrownBy(() -> Bench.card(leaking, "full-bleed", "reseal-lever-port"))
        .isInstanceOf(JobCards.NotNow.class);
    JobCard both = Bench.card(leaking, "reseal-lever-port", "full-bleed");
    assertThat(both.sections())
        .extracting(JobCard.Section::title)
        .containsSubsequence("The work: reseal the lever port", "The work: full bleed");
    List<String> ready = both.sections().get(0).lines().stream().map(Line::text).toList();
    assertThat(ready).doesNotHaveDuplicates();
    // The lever cannot be held firmly for a look at the leak once wheel and pads are out.
    assertThat(ready.toString())
        .containsSubsequence(
            "glasses and gloves", "Be sure of the place", "Wheel out", "Bleed block");
    assertThat(both.then()).isEmpty();
    assertThat(Bench.card(leaking, "reseal-lever-port", "fluid-flush").then()).isEmpty();
    assertThat(Bench.card(leaking, "reseal-lever-port").then())
        .extracting(JobCard.Then::action)
        .containsExactly("lever-end-bleed");
    assertThat(Bench.card(leaking).works()).startsWith("reseal-lever-port").hasSizeGreaterThan(1);
  }

  @Test
  @DisplayName("has a line for the torque of every hose fitting that the work opens")
  void asksForTheTorqueOfFittings() throws JobCards.NotNow {
    for (String work : List.of("renew-lever-seals", "renew-caliper-seals", "replace-lever")) {
      JobCard card =
          Bench.card(
              Bench.of(
                  "'symptoms':{'spongy-lever':'present'},'brake':{'id':'B-0417-rear','fluid':'dot-4'}"),
              work);
      assertThat(card.sections().toString())
          .as(work)
          .containsSubsequence("ose off", "new olive", "Hose fitting");
    }
  }

  @Test
  @DisplayName("lets a weeping caliper be replaced unlooked at, and its seals only after a look")
  void replacesACaliperUnlookedAt() throws JobCards.NotNow {
    CaseFile weeping =
        Bench.of(
            "'symptoms':{'weep-at-caliper-piston':'present','leak-found':'present'},"
                + "'brake':{'id':'B-0417-rear','fluid':'dot-4'}");
    assertThat(Bench.card(weeping, "replace-caliper").works()).contains("replace-caliper");
    assertThatThrownBy(() -> Bench.card(weeping, "renew-caliper-seals"))
        .hasMessageContaining("a chipped piston spoils a new seal");
  }

  @Test
  @DisplayName("is refused for what is forbidden here, or asked for too early, with a way on")
  void refusesWhatIsForbidden() {
    CaseFile thin =
        Bench.of(
            "'symptoms':{'thin-rotor-seen':'present'},'brake':{'id':'B-0417-rear','fluid':'dot-4'}");
    assertThatThrownBy(() -> Bench.card(thin, "true-rotor"))
        .hasMessageContaining("a rotor under its limit is replaced")
        .hasMessageContaining("Maybe run: firmlever triage");
    assertThatThrownBy(() -> Bench.card(soft("'position':'rear'"), "full-bleed"))
        .hasMessageContaining("must wait")
        .hasMessageContaining("Maybe check wrong kind of fluid now");
  }

  /** A brake of which it is told that it judders, and nothing that makes one judder is there. */
  private static CaseFile juddering(String shows) {
    return Bench.of(
        "'complaint':'It judders.','brake':{'id':'B-0698-front','fluid':'mineral-oil'},'symptoms':{"
            + shows
            + Stream.of(
                    "long-throw",
                    "lever-sinks",
                    "thin-pads",
                    "uneven-pads",
                    "glazed-pads",
                    "fluid-on-pads",
                    "bent-rotor-seen",
                    "thin-rotor-seen",
                    "loose-caliper-bolts",
                    "drag",
                    "grabs",
                    "leak-found")
                .filter(symptom -> !shows.contains(symptom))
                .map(symptom -> "'" + symptom + "':'absent'")
                .collect(Collectors.joining(","))
            + "}");
  }

  @Test
  @DisplayName(
      "of a hand-back is refused while the complaint is unexplained, with what to do first")
  void handsBackNoOpenComplaint() throws JobCards.NotNow {
    CaseFile open = juddering("");
    assertThatThrownBy(() -> Bench.heardCard(open, Diagnosis.HAND_BACK))
        .isInstanceOf(JobCards.NotNow.class)
        .hasMessageContaining("nothing likely explains the complaint: judder")
        .hasMessageContaining(
            Bench.DIAGNOSTICIAN
                .diagnose(Bench.HEEDING.heed(open), Diagnostician.Options.BARE)
                .firstStep()
                .map(step -> Bench.VOCABULARY.name(step.id()))
                .orElseThrow());
    assertThatThrownBy(() -> Bench.heardCard(open, "true-rotor", Diagnosis.HAND_BACK))
        .isInstanceOf(JobCards.NotNow.class);
    // The same findings of which nobody complains, and a complaint that what is found explains.
    assertThat(Bench.card(open, Diagnosis.HAND_BACK).works()).containsExactly(Diagnosis.HAND_BACK);
    CaseFile bent = juddering("'bent-rotor-seen':'present','rub-in-rhythm':'present',");
    assertThat(Bench.heardCard(bent, "true-rotor", Diagnosis.HAND_BACK).works()).hasSize(2);
  }

  @Test
  @DisplayName("of a hand-back is refused until somebody looked for what a complaint only may mean")
  void handsBackNothingGuessed() throws JobCards.NotNow {
    String doubted =
        "'complaint':'somebody said it squeals but I do not believe it',"
            + "'brake':{'id':'B-0698-front','fluid':'mineral-oil'},";
    assertThatThrownBy(
            () -> Bench.heardCard(Bench.of(doubted + "'symptoms':{}"), Diagnosis.HAND_BACK))
        .hasMessageContaining("nobody has looked for what the complaint may mean: squeal");
    CaseFile looked = Bench.of(doubted + "'symptoms':{'squeal':'absent'}");
    assertThat(Bench.heardCard(looked, Diagnosis.HAND_BACK).works())
        .containsExactly(Diagnosis.HAND_BACK);
  }

  @Test
  @DisplayName(
      "of a hand-back is refused where all that was understood is a work, or that all is well")
  void handsBackNothingHalfUnderstood() {
    for (String half : List.of("new pads were fitted", "it does not leak")) {
      CaseFile blind =
          Bench.of(
              "'complaint':'"
                  + half
                  + ", it behaves like my aunt on Tuesdays','symptoms':{},"
                  + "'brake':{'id':'B-0698-front','fluid':'mineral-oil'}");
      assertThatThrownBy(() -> Bench.heardCard(blind, Diagnosis.HAND_BACK))
          .as(half)
          .hasMessageContaining("nobody has understood");
    }
  }

  @Test
  @DisplayName("of a hand-back is refused where nobody has understood what the complaint is")
  void handsBackNothingUnderstood() {
    CaseFile blind =
        Bench.of(
            "'complaint':'it behaves like my aunt on Tuesdays','symptoms':{},"
                + "'brake':{'id':'B-0698-front','fluid':'mineral-oil'}");
    assertThatThrownBy(() -> Bench.heardCard(blind, Diagnosis.HAND_BACK))
        .hasMessageContaining("nobody has understood what the complaint is")
        .hasMessageContaining("Maybe first ");
  }

  @Test
  @DisplayName("ends with every acceptance check, with the figures of this brake")
  void endsWithAcceptance() throws JobCards.NotNow {
    JobCard card =
        Bench.card(
            Bench.of(
                "'symptoms':{'thin-pads':'present'},'brake':{'id':'B-0417-rear','fluid':'dot-4',"
                    + "'maker-figures':{'throw':'12 mm','pad-limit':'0.8 mm','rotor-limit':'1.55 mm'}}"),
            "replace-pads");
    assertThat(card.acceptance())
        .extracting(JobCard.Accept::want)
        .contains("at most 12 mm (maker)", "at least 0.8 mm (maker), dry")
        .anyMatch(
            want -> want.startsWith("at least 1.55 mm (maker); run-out at most 0.3 mm (usual"));
    assertThat(card.acceptance()).extracting(JobCard.Accept::id).contains("bedded", "dry", "hold");
    assertThat(words(card)).contains("Bed in on a level road");
  }

  @Test
  @DisplayName("has all checks on the stand before anybody rides, in each form it is printed in")
  void standBeforeRoad() throws JobCards.NotNow {
    CaseFile worn =
        Bench.of("'symptoms':{'thin-pads':'present'},'brake':{'id':'B-0417-rear','fluid':'dot-4'}");
    for (JobCard card :
        List.of(
            Bench.card(worn, "replace-pads"),
            Bench.card(juddering(""), "bed-in-pads"),
            Bench.card(juddering(""), "hand-back"))) {
      String road = card.works().contains("hand-back") ? "Short ride" : "Twenty times";
      if (card.works().contains("replace-pads")) {
        road = "Bed in on a level road";
      }
      for (String printed :
          List.of(
              new JobCardText(Bench.VOCABULARY, 1000, false).of(card),
              new JobCardHtml(Bench.VOCABULARY).of(card))) {
        assertThat(printed.toLowerCase(java.util.Locale.ROOT))
            .containsSubsequence(
                "lever throw",
                "60 s hold",
                "dry under pressure",
                "wheel spins free",
                "on the road",
                road.toLowerCase(java.util.Locale.ROOT),
                "short ride",
                "afterwards");
      }
      assertThat(card.acceptance(true)).extracting(JobCard.Accept::id).contains("ride");
      assertThat(card.acceptance(false))
          .extracting(JobCard.Accept::id)
          .contains("hold", "dry", "free")
          .doesNotContain("ride", "bedded");
    }
  }

  @Test
  @DisplayName("closes what stands open, bleeds, and only then holds it under pressure")
  void closesBleedsHolds() throws JobCards.NotNow {
    CaseFile open =
        Bench.of(
            "'symptoms':{'loose-or-open-screw':'present','no-resistance':'present','hose-end-out':'absent',"
                + "'broken-linkage':'absent','fluid-mismatch':'absent','leak-found-nowhere':'present'},"
                + "'brake':{'id':'B-0417-rear','fluid':'dot-4'}");
    JobCard alone = Bench.card(open, "close-port");
    assertThat(alone.then()).extracting(JobCard.Then::action).containsExactly("full-bleed");
    assertThat(alone.sections(Stage.CLOSE, Stage.CLOSE))
        .extracting(JobCard.Section::title)
        .containsExactly("Close up, only after what follows: full bleed");
    assertThat(alone.sections(Stage.CLOSE, Stage.CLOSE).get(0).lines()).allMatch(alone::waits);
    JobCard both = Bench.card(open, "close-port", "full-bleed");
    assertThat(words(both))
        .containsSubsequence(
            "before anybody touches the lever",
            "Hands off the lever",
            "then to its torque",
            "See it seated",
            "opened once more",
            "Last movement a push",
            "hold 60 s firmly")
        .doesNotContain("Be sure of the place");
    assertThat(both.sections(Stage.CLOSE, Stage.CLOSE).get(0).lines()).noneMatch(both::waits);
  }
}
