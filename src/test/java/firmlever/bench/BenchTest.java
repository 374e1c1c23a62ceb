package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.bench.job.Verdicts;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.hearing.NotUnderstood;
import firmlever.store.JobStore;
import firmlever.store.JobStore.State;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The bench, without scripts")
class BenchTest {
  private static final String JOB = "/jobs/B-0417-rear-2026-05-12";

  @TempDir private Path folder;
  private Served served;
  private Visitor mechanic;

  @BeforeEach
  void open() {
    served = new Served(folder.resolve("shop.db"));
    mechanic = new Visitor(served, "T3");
  }

  @AfterEach
  void close() {
    served.close();
    assertThat(served.faults).isEmpty();
  }

  private void takeIn(String complaint) {
    mechanic.takesIn(complaint);
    assertThat(mechanic.status()).isEqualTo(200);
  }

  private CaseFile file() throws BadInput {
    String text = served.store.job(JOB.substring(6)).orElseThrow().content().caseText();
    return Reasons.ALL.reader().read(DocumentReader.readText(text, "a test"), "a test");
  }

  private State state() {
    return served.store.job(JOB.substring(6)).orElseThrow().heading().state();
  }

  private void tap(String place, String symptom, String answer) {
    mechanic.go(JOB + "/places/" + place);
    mechanic.send(JOB + "/places/" + place, "answer", symptom + "=" + answer);
  }

  /** Goes through the card as the page shows it: all that can be done now ticked and filled. */
  private void work(String action, String fluid) {
    mechanic.go(JOB + "/work");
    mechanic.send(JOB + "/work", "do", "start", "work", action);
    assertThat(mechanic.status()).as(mechanic.text()).isEqualTo(200);
    java.util.ArrayList<String> form = new java.util.ArrayList<>();
    // What waits for the bleed that follows, or for the checks on the stand, is left open.
    String now =
        mechanic
            .html()
            .replaceAll(
                "(?s)<fieldset[^>]*><legend>(On the road|Close up, only after)[^<]*</legend>.*?</fieldset>",
                "");
    Matcher ticks = Pattern.compile("name=\"tick\" value=\"(\\d+)\"").matcher(now);
    while (ticks.find()) {
      form.addAll(List.of("tick", ticks.group(1)));
    }
    Matcher blanks = Pattern.compile("name=\"(value-\\d+)\"").matcher(now);
    while (blanks.find()) {
      form.addAll(List.of(blanks.group(1), "5"));
    }
    form.addAll(List.of("do", "done", "fluid", fluid));
    mechanic.send(JOB + "/work", form.toArray(String[]::new));
    assertThat(mechanic.path()).as(mechanic.text()).endsWith("/acceptance");
  }

  private void passAllChecks() {
    mechanic.go(JOB + "/acceptance");
    Matcher checks = Pattern.compile("value=\"(check:[a-z-]+:passed)\"").matcher(mechanic.html());
    List<String> all = checks.results().map(each -> each.group(1)).toList();
    assertThat(all).hasSizeGreaterThan(7);
    for (String each : all) {
      mechanic.send(JOB + "/acceptance", "do", each);
    }
    Matcher again = Pattern.compile("value=\"(again:[a-z-]+:absent)\"").matcher(mechanic.html());
    for (String each : again.results().map(found -> found.group(1)).toList()) {
      mechanic.send(JOB + "/acceptance", "do", each);
    }
  }

  @Test
  @DisplayName(
      "offers what may have been meant by words nobody understood, and notes what is tapped")
  void offersWhatMayBeMeant() throws BadInput {
    takeIn(NotUnderstood.saying("lever-sinks"));
    mechanic.go(JOB);
    assertThat(mechanic.text()).contains("Was one of these meant?", "lever sinks");
    assertThat(file().symptoms()).isEmpty();
    mechanic.send(JOB, "heard", "symptom=lever-sinks=present", "so", "yes");
    assertThat(file().symptoms()).containsOnly(Map.entry("lever-sinks", Presence.PRESENT));
  }

  @Test
  @DisplayName("tells on every page of the job what the last entry changed, in each language")
  void tellsWhatTheLastEntryChanged() {
    takeIn("squeals");
    assertThat(mechanic.html()).doesNotContain("id=\"effect\"");
    tap("caliper", "body-crack", "present");
    assertThat(mechanic.text())
        .contains("What \"cracked body: there\" changed (T3, 12 May 08:00)")
        .contains("Do not ride (before: Not cleared)");
    mechanic.go(JOB + "/why");
    assertThat(mechanic.html()).containsOnlyOnce("id=\"effect\"");
    mechanic.speaking("de").go(JOB);
    assertThat(mechanic.text()).contains("Nicht fahren (vorher: Nicht freigegeben)");
    mechanic.speaking("fr").go(JOB);
    assertThat(mechanic.text()).contains("Ne pas rouler (avant : Pas encore autorisé)");
    mechanic.speaking("en");
    tap("caliper", "body-crack", "absent");
    assertThat(mechanic.text()).contains("Not cleared (before: Do not ride)");
    // What leaves the case as it was has changed nothing of the verdict, and nothing is said.
    mechanic.go(JOB);
    mechanic.send(JOB, "wait", "a part");
    assertThat(mechanic.html()).doesNotContain("id=\"effect\"");
  }

  @Test
  @DisplayName("says so where the last entry changed nothing of the verdict")
  void saysThatNothingChanged() {
    takeIn("squeals");
    mechanic.go(JOB);
    mechanic.send(JOB, "record", "new pads yesterday, myself");
    mechanic.send(JOB, "record", "new pads yesterday, myself");
    assertThat(mechanic.text()).contains("the verdict is as before (T3, 12 May 08:00)");
  }

  @Test
  @DisplayName(
      "leads from the customer's words to a signed hand-back, and the next job knows of it")
  void leadsToAHandBack() throws Exception {
    takeIn("goes soft, fine again after pumping");
    assertThat(mechanic.text()).contains("pumps up").contains("Do not ride");
    mechanic.send(JOB, "heard", "symptom=pumps-up=present", "so", "yes");
    mechanic.send(JOB, "heard", "symptom=spongy-lever=present", "so", "yes");
    assertThat(file().symptoms())
        .containsEntry("pumps-up", Presence.PRESENT)
        .containsEntry("spongy-lever", Presence.PRESENT);
    tap("hose", "leak-found", "absent");
    work("lever-end-bleed", "mineral-oil");
    assertThat(mechanic.text()).doesNotContain("It goes back");
    passAllChecks();
    assertThat(mechanic.text()).contains("It goes back");
    mechanic.send(JOB + "/acceptance", "do", "hand-back", "code", "T4", "found", "air-at-lever");
    assertThat(mechanic.text()).contains("Sign with the code you are signed in with (T3)");
    assertThat(state()).isEqualTo(State.OPEN);
    mechanic.send(JOB + "/acceptance", "do", "hand-back", "code", "t3", "found", "air-at-lever");
    assertThat(mechanic.text()).contains("Handed back on 12 May 2026, signed by T3");
    assertThat(mechanic.html()).doesNotContain("id=\"effect\"");
    assertThat(mechanic.taps).isLessThanOrEqualTo(40);
    assertThat(state()).isEqualTo(State.HANDED_BACK);
    mechanic.go(JOB + "/hand-back");
    assertThat(mechanic.text())
        .contains("Brake B-0417-rear: handed back")
        .contains("goes soft, fine again after pumping")
        .contains("bleed at the lever end, by T3, 12 May 2026, mineral oil")
        .contains("Signed by T3 on 12 May 2026")
        .contains("maker's instructions");
    CaseFile closed = file();
    assertThat(closed.outcome().orElseThrow().causes()).containsExactly("air-at-lever");
    assertThat(closed.outcome().orElseThrow().works()).containsExactly("lever-end-bleed");
    assertThat(closed.outcome().orElseThrow().by()).isEqualTo("T3");

    served.setClock("2026-06-01T08:00:00Z");
    Visitor later = new Visitor(served, "T5");
    later.go("/new?brake=B-0417-rear");
    assertThat(later.text()).contains("was here before: 1 jobs");
    later.send(
        "/new",
        "brake",
        "B-0417-rear",
        "wheel",
        "rear",
        "fluid",
        "mineral-oil",
        "complaint",
        "soft again");
    assertThat(later.text())
        .contains("This brake was handed back 20 days ago")
        .contains("12 May 2026, bleed at the lever end, with mineral oil, by T3, mended");
    later.go("/brakes/B-0417-rear");
    assertThat(later.text()).contains("2 jobs").contains("back after 20 days");
  }

  @Test
  @DisplayName("says what triage says: the same first screen, and the same JSON byte for byte")
  void agreesWithTriage() throws Exception {
    takeIn("goes soft, fine again after pumping, was upside down on the car yesterday");
    mechanic.send(JOB, "heard", "deed=turned-over", "so", "yes");
    tap("lever", "spongy-lever", "present");
    mechanic.go(JOB + "/places/lever");
    mechanic.send(
        JOB + "/places/lever", "throw-firm", "19", "throw-firm-force", "100", "creep", "0,5");
    mechanic.go(JOB + "/case.json");
    Path file = Files.writeString(folder.resolve("case.json"), mechanic.html());
    mechanic.go(JOB + "/diagnosis.json");
    String triage = Printed.by("triage", file.toString(), "--json");
    assertThat(mechanic.html()).isEqualTo(triage);
    assertThat(triage).contains("\"throw\"").contains("turned-over");
    String screen = Printed.by("triage", file.toString()).replaceAll("\\s+", " ");
    String lines = screen.substring(screen.indexOf("Ride "), screen.indexOf(" Why "));
    mechanic.go(JOB);
    assertThat(mechanic.text()).contains(lines);
  }

  @Test
  @DisplayName("says what ask says: the same words and answers give the same JSON byte for byte")
  void agreesWithAsk() throws Exception {
    String complaint = "it goes to the bar, fine after pumping";
    Path asked = folder.resolve("asked.json");
    String screen =
        Printed.typing(
            String.join(
                "\n",
                "B-0417-rear",
                "12 May 2026",
                "rear",
                "mineral oil",
                complaint,
                "y",
                "y",
                "",
                ""),
            "ask",
            asked.toString());
    takeIn(complaint);
    for (String heard : List.of("lever-to-bar", "pumps-up")) {
      mechanic.send(JOB, "heard", "symptom=" + heard + "=present", "so", "yes");
    }
    mechanic.go(JOB + "/diagnosis.json");
    assertThat(mechanic.html())
        .as(screen)
        .isEqualTo(Printed.by("triage", asked.toString(), "--json"));
    assertThat(mechanic.html()).contains("lever-to-bar");
  }

  @Test
  @DisplayName("speaks the language of the browser, and English where it has none of its own")
  void speaksTheLanguage() {
    takeIn("soft");
    assertThat(mechanic.speaking("de-CH, en;q=0.5").go(JOB).text())
        .contains("Da seit 12 Mai 2026")
        .contains("Wo nachschauen");
    assertThat(mechanic.html()).contains("<html lang=\"de\">");
    assertThat(mechanic.speaking("fr").go("/").text()).contains("12 mai 2026");
    assertThat(mechanic.speaking("it, *;q=0.1").go("/").text()).contains("Today, 12 May 2026");
    assertThat(mechanic.speaking("x".repeat(300)).go("/").text()).contains("Today");
    assertThat(mechanic.speaking("de;q=;;").go("/").text()).contains("Today");
  }

  @Test
  @DisplayName("takes a tap back, and refuses a reading that is none without losing what was typed")
  void takesBack() throws Exception {
    takeIn("soft");
    tap("lever", "slow-return", "present");
    tap("lever", "slow-return", "open");
    assertThat(file().symptoms()).doesNotContainKey("slow-return");
    mechanic.go(JOB + "/places/pads");
    mechanic.send(JOB + "/places/pads", "pad-thickness", "1,2 0.8", "rotor-thickness", "thick");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.html()).contains("value=\"1,2 0.8\"").contains("value=\"thick\"");
    mechanic.send(JOB + "/places/pads", "pad-thickness", "1,2 0.8", "rotor-thickness", "1.7 mm");
    assertThat(file().readings().padThicknessesMm()).containsExactly(1.2, 0.8);
    assertThat(file().readings().rotorThicknessMm()).isEqualTo(1.7);
    mechanic.send(JOB + "/places/pads", "pad-thickness", "", "rotor-thickness", "1.7 mm");
    assertThat(file().readings().padThicknessesMm()).isEmpty();
  }

  @Test
  @DisplayName("tells the later of two tablets, keeps its input, and puts it in on a second word")
  void tellsTheLater() throws Exception {
    takeIn("soft");
    Visitor other = new Visitor(served, "T5");
    other.go(JOB + "/places/lever");
    mechanic.go(JOB + "/places/lever");
    mechanic.send(JOB + "/places/lever", "answer", "lever-sinks=present");
    other.send(JOB + "/places/lever", "throw-firm", "22", "throw-firm-force", "100");
    assertThat(other.status()).isEqualTo(409);
    assertThat(other.text())
        .contains("Somebody else has changed this job")
        .contains("T3")
        .contains("lever sinks under a steady pull: there");
    assertThat(other.html()).contains("name=\"throw-firm\" value=\"22\"");
    assertThat(file().readings().throwFirm()).isEmpty();
    other.send(JOB + "/places/lever", "throw-firm", "22", "throw-firm-force", "100");
    assertThat(other.status()).isEqualTo(200);
    assertThat(file().readings().throwFirmMm()).isEqualTo(22);
    assertThat(file().symptoms()).containsEntry("lever-sinks", Presence.PRESENT);
  }

  @Test
  @DisplayName("makes no change of a tap that says what stands there already")
  void ignoresTheSameTap() {
    takeIn("soft");
    mechanic.go(JOB + "/places/lever");
    String version = mechanic.hidden("version");
    String[] tap = {"answer", "gritty-lever=present", "version", version};
    mechanic.send(JOB + "/places/lever", tap);
    mechanic.send(JOB + "/places/lever", tap);
    assertThat(mechanic.status()).isEqualTo(200);
    assertThat(served.store.changes(JOB.substring(6))).hasSize(2);
  }

  @Test
  @DisplayName("never hands a brake back that must not be ridden, whatever the form says")
  void neverHandsBackOverAStop() throws Exception {
    takeIn("soft");
    tap("caliper", "body-crack", "present");
    work("clean-rotor", "unknown");
    mechanic.go(JOB + "/acceptance");
    for (String check :
        List.of("throw", "firm", "hold", "dry", "pads", "rotor", "free", "screws", "ride")) {
      mechanic.send(JOB + "/acceptance", "do", "check:" + check + ":passed");
    }
    assertThat(mechanic.text()).contains("It stays, because").doesNotContain("It goes back");
    mechanic.send(JOB + "/acceptance", "do", "hand-back", "code", "T3");
    assertThat(mechanic.text()).contains("is not to be ridden, and is not handed back");
    assertThat(state()).isEqualTo(State.OPEN);
    mechanic.send(JOB + "/acceptance", "do", "hold", "reason", "cracked lever, new one ordered");
    assertThat(state()).isEqualTo(State.HELD);
    mechanic.go("/");
    assertThat(mechanic.text()).contains("Held 1");
  }

  @Test
  @DisplayName("does not let what was found before go quiet: it is asked for again after the work")
  void asksAgain() throws Exception {
    takeIn("soft");
    tap("lever", "spongy-lever", "present");
    tap("hose", "hose-damage", "present");
    // The hose first, and then the bleed it asks for, which must wait without it.
    work("replace-hose", "mineral-oil");
    work("full-bleed", "mineral-oil");
    mechanic.go(JOB + "/acceptance");
    assertThat(mechanic.text())
        .contains("Found before. Is it still there?")
        .contains("kinked hose");
    Matcher checks = Pattern.compile("value=\"(check:[a-z-]+:passed)\"").matcher(mechanic.html());
    for (String each : checks.results().map(found -> found.group(1)).toList()) {
      mechanic.send(JOB + "/acceptance", "do", each);
    }
    assertThat(mechanic.text()).doesNotContain("It goes back");
    mechanic.send(JOB + "/acceptance", "do", "again:hose-damage:absent");
    assertThat(mechanic.text()).contains("It goes back");
  }

  @Test
  @DisplayName("sends a repair that did not help back to the diagnosis, as evidence")
  void sendsBack() throws Exception {
    takeIn("goes soft, fine again after pumping");
    tap("lever", "spongy-lever", "present");
    tap("lever", "pumps-up", "present");
    double before = chance("air-at-lever");
    work("lever-end-bleed", "mineral-oil");
    mechanic.send(JOB + "/acceptance", "do", "check:firm:spongy-lever");
    mechanic.send(JOB + "/acceptance", "do", "check:dry:passed");
    assertThat(mechanic.text()).doesNotContain("It goes back");
    mechanic.send(JOB + "/acceptance", "do", "vain");
    assertThat(mechanic.path()).isEqualTo(JOB);
    assertThat(mechanic.text())
        .contains("bleed at the lever end, with mineral oil, by T3, unchanged");
    CaseFile file = file();
    assertThat(file.history()).hasSize(1);
    assertThat(file.history().get(0).outcome()).isEqualTo("unchanged");
    assertThat(file.symptoms())
        .containsEntry("spongy-lever", Presence.PRESENT)
        .containsEntry("leak-found", Presence.ABSENT);
    assertThat(chance("air-at-lever")).isLessThan(before);
    assertThat(mechanic.go(JOB + "/work").text()).contains("did not help");
  }

  private double chance(String cause) throws BadInput {
    return new Verdicts(Reasons.ALL)
        .of(served.store.job(JOB.substring(6)).orElseThrow().content().caseText())
        .diagnosis()
        .orElseThrow()
        .cause(cause)
        .orElseThrow()
        .probability();
  }

  @Test
  @DisplayName(
      "counts a work as done only with every step, torque and fluid on record, and keeps the rest")
  void wantsTheWholeCard() {
    takeIn("soft");
    mechanic.go(JOB + "/work");
    mechanic.send(JOB + "/work", "do", "start", "work", "lever-end-bleed");
    mechanic.send(JOB + "/work", "do", "done", "tick", "0", "value-99", "x");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text()).contains("steps are not ticked").contains("fluid used is not told");
    assertThat(mechanic.html()).contains("value=\"0\" checked");
    mechanic.send(JOB + "/work", "do", "section:0", "tick", "0");
    assertThat(mechanic.status()).isEqualTo(200);
    mechanic.send(JOB + "/work", "do", "drop");
    assertThat(mechanic.text()).contains("Which work?");
  }

  @Test
  @DisplayName("changes nothing of a job that went back")
  void closesJobs() throws Exception {
    leadsToAHandBack();
    int before = served.store.changes(JOB.substring(6)).size();
    Visitor other = new Visitor(served, "T5");
    other.go(JOB + "/places/lever");
    assertThat(other.html()).doesNotContain("value=\"lever-sinks=present\"");
    other.go("/new");
    other.send(JOB + "/places/lever", "answer", "lever-sinks=present", "version", "" + before);
    assertThat(other.status()).isEqualTo(400);
    assertThat(other.text()).contains("is handed back, and nothing of it can be changed");
    assertThat(served.store.changes(JOB.substring(6))).hasSize(before);
  }

  @Test
  @DisplayName("shows a hostile complaint as the letters it is made of")
  void escapes() {
    String hostile = "\"><script>alert(1)</script><img src=x onerror=alert(2)>' {{7*7}} ${7*7}";
    takeIn(hostile);
    assertThat(mechanic.html()).doesNotContain("<script>alert").doesNotContain("<img");
    assertThat(mechanic.text()).contains(hostile);
    for (String page : List.of("", "/why", "/work", "/acceptance", "/log", "/places/told")) {
      assertThat(mechanic.go(JOB + page).html()).doesNotContain("<script>alert");
    }
    mechanic.go("/search?q=%22%3E%3Cscript%3Ealert(1)%3C/script%3E");
    assertThat(mechanic.html()).doesNotContain("<script>alert");
  }

  @Test
  @DisplayName("stays of one mind through a thousand rapid taps, and keeps each of them")
  void survivesRapidTaps() throws Exception {
    takeIn("soft");
    mechanic.go(JOB + "/places/lever");
    String[] answers = {"present", "absent", "open"};
    int version = Integer.parseInt(mechanic.hidden("version"));
    int taps = 1000;
    for (int i = 0; i < taps; i++) {
      mechanic.send(JOB + "/places/lever", "answer", "gritty-lever=" + answers[i % 3]);
    }
    assertThat(Integer.parseInt(mechanic.hidden("version"))).isEqualTo(version + taps);
    assertThat(served.store.changes(JOB.substring(6))).hasSize(version + taps);
    assertThat(file().symptoms()).containsEntry("gritty-lever", Presence.PRESENT);
  }

  @Test
  @DisplayName("marks in the log where the clock was set back, and goes on")
  void survivesAClockSetBack() {
    takeIn("soft");
    served.setClock("2026-05-11T08:00:00Z");
    tap("lever", "gritty-lever", "present");
    mechanic.go(JOB + "/log");
    assertThat(mechanic.text()).contains("The clock was set back here");
    mechanic.go("/new");
    mechanic.send(
        "/new", "brake", "B-0417-rear", "wheel", "rear", "fluid", "mineral-oil", "complaint", "x");
    assertThat(mechanic.status()).isEqualTo(200);
  }

  @Test
  @DisplayName("tells in words what cannot be taken in, and a job or page that is not there")
  void refuses() {
    mechanic.go("/new");
    mechanic.send(
        "/new", "brake", "B 0417", "wheel", "left", "fluid", "water", "complaint", "keeps this");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text())
        .contains("must be a code")
        .contains("not a wheel")
        .contains("fluid");
    assertThat(mechanic.html()).contains("keeps this");
    for (String path : List.of("/jobs/none", "/brakes/none", "/nowhere", JOB + "/x")) {
      assertThat(mechanic.go(path).status()).as(path).isEqualTo(404);
    }
  }

  @Test
  @DisplayName("two jobs of a brake on one day have codes of their own")
  void takesInTwice() {
    takeIn("soft");
    takeIn("squeals");
    assertThat(mechanic.path()).isEqualTo(JOB + "-2");
    assertThat(served.store.ofBrake("B-0417-rear", 9))
        .extracting(JobStore.Heading::id)
        .containsExactly("B-0417-rear-2026-05-12-2", "B-0417-rear-2026-05-12");
  }
}
