package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.Fluid;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Person;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.Heard.Wheel;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.LanguageReader;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The hearing")
class HearingTest {
  private static final Hearing HEARING = new Hearing();

  /** A Tuesday. */
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 12);

  private static Heard hear(String text) {
    return HEARING.hear(text, "unknown", TODAY);
  }

  /** Symptoms with + present, - absent, ? unsure, in one line. */
  private static String said(List<Finding> findings) {
    TreeSet<String> said = new TreeSet<>();
    for (Finding each : findings) {
      String sign =
          switch (each.certainty()) {
            case PRESENT -> "+";
            case ABSENT -> "-";
            case UNSURE -> "?";
          };
      said.add(sign + each.symptom());
    }
    return String.join(" ", said);
  }

  @ParameterizedTest(name = "\"{0}\": {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          The lever is spongy and goes to the bar. | +lever-to-bar +spongy-lever
          The lever is soft. | ?spongy-lever
          It doesn't leak and it never squeals. | -fluid-lost -squeal
          It is not spongy but it squeals. | +squeal -spongy-lever
          No squeal since the bleed. | -squeal
          The wheel does not spin freely. | +drag
          Maybe it leaks, I am not sure. | ?fluid-lost
          Does it squeal? No. | -squeal
          Is it leaking? | ?fluid-lost
          It used to squeal, doesn't any more. | -squeal
          It squeals only when wet. | ?squeal
          Must be a warped disc. | ''
          Probably the pads are worn. | ''
          The lever comes nearly to the bar. | +long-throw ?lever-to-bar
          The lever feels like squeezing a wet sponge. | +spongy-lever
          The lever is sooo spongy!!! | +spongy-lever
          The gears skip and the saddle creaks, what do new tyres cost? | ''
          Die Bremse quietscht nicht, aber der Hebel ist schwammig. | +spongy-lever -squeal
          Der Hebel geht bis zum Lenker. | +lever-to-bar
          Vermutlich sind die Beläge runter. | ''
          Le levier est spongieux mais ça ne fuit pas. | +spongy-lever -fluid-lost
          Le levier va jusqu'au guidon. | +lever-to-bar
          Sans doute que le disque est voilé. | ''
          Somebody said the pads are shot but I do not believe it. | ?thin-pads
          The lad says it leaks. I don't believe him. | ?fluid-lost
          He told me it does not leak, but I doubt it. | ?fluid-lost
          The pads are shot, the shop told me so. | +thin-pads
          I do not believe in luck, it squeals. | +squeal
          Angeblich sind die Beläge runter, glaube ich aber nicht. | ?thin-pads
          Mein Nachbar sagt, die Bremse verliert Öl, aber das glaub ich ihm nicht. | ?fluid-lost
          On m'a dit que les plaquettes sont mortes mais je n'y crois pas. | ?thin-pads
          Mon pote dit que ça fuit, j'en doute. | ?fluid-lost
          I put new pads in, now it doesn't brake. | +no-braking
          New pads, it won't brake now. | +no-braking
          It doesn't brake well. | +weak-braking
          Ich hab neue Beläge drauf, jetzt bremst sie nicht. | +no-braking
          Hinten bremst sie gar nichts mehr. | +no-braking
          Bremst kaum noch. | +weak-braking
          Bremst fast nicht mehr. | +weak-braking
          Bremst nicht gut. | +weak-braking
          Plaquettes neuves, maintenant ça freine plus. | +no-braking
          Ça ne freine pas. | +no-braking
          Ça freine à peine. | +weak-braking
          Ça ne freine plus comme avant. | +weak-braking
          Went to the bar on a long descent, fine again in the morning. | +lever-to-bar +soft-when-hot
          Am Berg weich und am nächsten Tag wieder gut. | +soft-when-hot ?spongy-lever
          Mou dans la descente, le lendemain de nouveau bon. | +soft-when-hot ?spongy-lever
          Lever is firm in the morning and goes soft in use. | +firms-up-standing
          Le levier descend lentement au feu rouge, aucune fuite. | +lever-sinks -fluid-lost
          Kratzt beim Bremsen. | +grinding
          Ça racle en freinant. | +grinding
          Scrapes when braking. | +grinding
          Schleift nach dem Umfallen. | +drag
          Rubs since it fell over. | +drag
          Le vélo est tombé, depuis ça frotte. | +drag
          Hebel ist nicht schwammig, nichts tropft, keine Geräusche. | -fluid-lost -grinding -spongy-lever -squeal
          Hairline crack near the clamp. | +body-crack
          Lever to the bar in the cold this morning, fine in the shop. | +lever-to-bar ?soft-in-frost
          Soft in the frost. | +soft-in-frost
          When I don't brake it rubs. | +drag
          It squeals, but it brakes as well as it ever did. | +squeal -weak-braking
          It squeals, but no complaints about the stopping. | +squeal -weak-braking
          It squeals, but it does stop. | +squeal -no-braking
          The left one is fine, the right one goes to the bar. | +lever-to-bar -both-brakes
          Back brake squeals. The front is perfect. | +squeal -both-brakes
          I pumped it thirty times and nothing builds. | +no-resistance -pumps-up
          It makes no noise. | -noise -squeal
          It never touches the bar. | -lever-to-bar
          Whether the disc is bent I cannot say. | ?bent-rotor-seen
          Before that it was squealing. | ''
          The lever is too far away for my small hands. | +out-of-reach
          I could not reach the lever in time. | ''
          Mein Sohn kann den Hebel kaum erreichen. | +out-of-reach
          Le levier est trop loin pour ses doigts. | +out-of-reach
          Sie quietscht, bremst aber wie am ersten Tag. | +squeal -weak-braking
          Quietscht, an der Bremskraft liegt's nicht. | +squeal -weak-braking
          Bremsen tuat's no. | -no-braking
          Sie bremst nicht wie gewohnt. | +weak-braking
          Hinten schwammig, die vordere macht keine Zicken. | +spongy-lever -both-brakes
          Hinten viel zu weich, vorne keine Probleme. | -both-brakes ?spongy-lever
          Pumpen macht es nicht besser. | -pumps-up
          Quietscht, der Hebel schnalzt gleich wieder raus. | +squeal -slow-return
          Am Griff kommt der Hebel nicht an. | -lever-to-bar
          Schleifen tut aber nichts. | -drag
          Riechen tut nichts. | -smell-or-smoke
          Rundlauf der Scheibe in Ordnung. | -bent-rotor-seen
          Beläge sind fast neu. | -thin-pads
          Mein Mann meint, da ist Luft drin. | ?bubbles-came
          Beißt zu wie ein Krokodil. | +grabs
          Ich krieg die Scheibe nicht mehr zwischen die Beläge. | +pads-closed
          Le frein mord bien, le freinage est nickel. | -weak-braking
          Le freinage n'a pas changé. | -weak-braking
          Je voudrais que ça freine bien. | ''
          Ça freine quand même. | -no-braking
          ça freine plu du tt | +no-braking
          ça couine plus | -squeal
          Ça couine plus fort. | +squeal
          Aucun bruit de ce frein. | -noise -squeal
          Pas de jeu dans le moyeu. | -wheel-play
          Disque bien droit, pas de voile. | -bent-rotor-seen
          Roue impossible à faire tourner. | +drag
          """)
  void hearsSymptoms(String text, String expected) {
    assertThat(said(hear(text).findings())).isEqualTo(expected);
  }

  @ParameterizedTest(name = "\"{0}\": {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          There are no leaks but the floor is oily. | fluid-lost
          Undicht ist nichts, aber morgens ist ein Ölfleck unter dem Rad. | fluid-lost
          Es tropft nichts, aber Öl am Sattel. | wet-at-caliper
          Leaks a drop now and then but it stays dry. | fluid-lost
          Nothing leaks but there is oil on the caliper. | wet-at-caliper
          Nothing leaks but there is oil at the lever. | wet-at-lever
          Kein Leck am Hebel, aber der Sattel sabbert. | wet-at-caliper
          It is not leaking. There is an oil stain on the floor. | fluid-lost
          There is an oil stain on the floor. It is not leaking. | fluid-lost
          Aucune fuite mais huile à l'étrier. | wet-at-caliper
          Ça goutte pas mais le sol est gras. | fluid-lost
          Ça ne fuit pas mais il y a une flaque sous le vélo. | fluid-lost
          A few drops under the rear wheel, otherwise no leak. | fluid-lost
          """)
  @DisplayName("lets a leak that is claimed stand, and writes down no denial of it")
  void letsLeaksStand(String text, String leak) {
    List<Finding> heard = hear(text).findings();
    assertThat(heard)
        .filteredOn(each -> each.certainty() == Certainty.PRESENT)
        .extracting(Finding::symptom)
        .containsExactly(leak);
    assertThat(heard).noneMatch(each -> each.certainty() == Certainty.ABSENT);
  }

  @Test
  @DisplayName("quotes no denied word as a leak, and keeps what is dry elsewhere")
  void keepsDenials() {
    assertThat(said(hear("Undicht ist nichts.").findings())).isEqualTo("-fluid-lost");
    assertThat(said(hear("I wiped everything, pumped and held it, not a wet spot.").findings()))
        .doesNotContain("+leak-found ");
    assertThat(said(hear("The bleed port of the lever weeps. The caliper is bone dry.").findings()))
        .contains("-wet-at-caliper");
  }

  @ParameterizedTest(name = "\"{0}\" leaves \"{1}\"")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          The thing does blorp, and the lever is spongy. | The thing does blorp
          Die Bremse macht Mucken, Hebel schwammig. | Die Bremse macht Mucken
          Le frein fait des siennes, levier spongieux. | Le frein fait des siennes
          Down the pass it was fine, the cat sat there, then the lever went to the bar. | the cat sat there
          Bled in March, all fine since. | ''
          Gestern entlüftet, seither alles bestens. | ''
          Purgé hier, nickel depuis. | ''
          """)
  @DisplayName("leaves what was not understood word for word, and nothing that was")
  void leavesWhatWasNotUnderstood(String text, String expected) {
    assertThat(String.join("; ", hear(text).unheard())).isEqualTo(expected);
  }

  @ParameterizedTest(name = "\"{0}\" is the outcome {1}")
  @CsvSource({
    "'Bled in March, all fine since.', mended",
    "'New rotor last week, fine since.', mended",
    "'Seit dem Entlüften alles gut.', mended",
    "'Gestern entlüftet, seither alles bestens.', mended",
    "'Purgé hier, nickel depuis.', mended"
  })
  void hearsThatItHeld(String text, String outcome) {
    assertThat(hear(text).history().get(0).outcome()).contains(outcome);
  }

  @ParameterizedTest(name = "\"{0}\": {1} {2} days ago")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          I bled it two weeks ago. | full-bleed | 14 | OWNER
          The shop bled it yesterday. | full-bleed | 1 | SHOP
          I bled it last week. | full-bleed | 7 | OWNER
          I bled it on Sunday. | full-bleed | 2 | OWNER
          I bled it last Tuesday. | full-bleed | 7 | OWNER
          I bled it on the 3rd of May. | full-bleed | 9 | OWNER
          It hung in the shed. | hung | | OWNER
          I hit a kerb on Friday. | struck-hard | 4 | OWNER
          I undid a small screw on the caliper by mistake. | screw-turned | | OWNER
          We rode down a long lane yesterday. | long-descent | 1 | OWNER
          We laid the bike on the grass yesterday. | laid-down | 1 | OWNER
          Die Werkstatt hat vor drei Tagen entlüftet. | full-bleed | 3 | SHOP
          Gestern bin ich gestürzt. | crashed | 1 | OWNER
          Gestern hab ich den Mantel gewechselt. | wheel-out | 1 | OWNER
          Beläge hab ich gestern selber neu gemacht. | replace-pads | 1 | OWNER
          Gestern den Pass runter. | long-descent | 1 | OWNER
          Der Händler hat gestern eine neue Scheibe montiert. | fit-rotor | 1 | SHOP
          S Velo isch am Hoke ghanget. | hung | | OWNER
          Hab gestern die Kette geölt. | oil-sprayed | 1 | OWNER
          Le magasin a purgé il y a deux semaines. | full-bleed | 14 | SHOP
          J'ai purgé hier. | full-bleed | 1 | OWNER
          """)
  void hearsWhatWasDone(String text, String id, Integer daysAgo, Person by) {
    List<Told> told = hear(text).history();
    assertThat(told).extracting(Told::id).containsExactly(id);
    assertThat(told.get(0).daysAgo().isPresent()).isEqualTo(daysAgo != null);
    if (daysAgo != null) {
      assertThat(told.get(0).daysAgo().getAsInt()).isEqualTo(daysAgo);
    }
    assertThat(told.get(0).by()).isEqualTo(by);
  }

  @ParameterizedTest(name = "\"{0}\" tells of nothing done")
  @ValueSource(
      strings = {
        "Can you bleed it?",
        "It needs a bleed.",
        "We never bled it.",
        "Probably it was bled badly.",
        "Bitte entlüften.",
        "Faut purger.",
        "The pistons won't go back."
      })
  void takesNoWishForAWork(String text) {
    assertThat(hear(text).history()).isEmpty();
  }

  @Test
  @DisplayName("hears what came of a work, and what was filled in")
  void hearsOutcomeAndFluid() {
    Told bled = hear("I bled it last week, no difference.").history().get(0);
    assertThat(bled.outcome()).contains("unchanged");
    Told topped = hear("My mate topped it up with baby oil.").history().get(0);
    assertThat(topped.id()).isEqualTo("top-up");
    assertThat(topped.fluid()).contains(Fluid.OTHER_OIL);
  }

  @Test
  @DisplayName("keeps two brakes apart")
  void keepsBrakesApart() {
    String text = "The front squeals. The rear is spongy and drags. Front brake judders too.";
    Heard rear = HEARING.hear(text, "rear", TODAY);
    assertThat(said(rear.findings())).isEqualTo("+drag +spongy-lever");
    assertThat(said(rear.elsewhere())).isEqualTo("+judder +squeal");
    assertThat(rear.wheel()).isEqualTo(Wheel.BOTH);
    assertThat(said(HEARING.hear(text, "front", TODAY).findings())).isEqualTo("+judder +squeal");
    assertThat(hear("Hinten schwammig.").wheel()).isEqualTo(Wheel.REAR);
    assertThat(hear("It squeals.").wheel()).isEqualTo(Wheel.UNKNOWN);
    assertThat(HEARING.hear("You bled the front in spring.", "rear", TODAY).history()).isEmpty();
  }

  @Test
  @DisplayName("gives the words with their place, and the clauses nothing was heard in")
  void givesPlacesAndRest() {
    String text = "Hello there. \u0007The lever is spongy, my cat is ill.";
    Heard heard = hear(text);
    Finding spongy = heard.findings().get(0);
    assertThat(text.substring(spongy.start(), spongy.end())).isEqualTo(spongy.words());
    assertThat(spongy.words()).isEqualTo("spongy");
    assertThat(heard.unheard()).containsExactly("Hello there", "my cat is ill");
  }

  @Test
  @DisplayName("hears nothing in a language it does not speak, and leaves all of it unheard")
  void hearsNothingInOtherLanguages() {
    for (String text : List.of("Tylny hamulec jest miękki", "刹车很软", "тормоз мягкий")) {
      Heard heard = hear(text);
      assertThat(heard.findings()).isEmpty();
      assertThat(heard.language()).isEmpty();
      assertThat(heard.unheard()).containsExactly(text);
    }
    assertThat(hear("Der Hebel ist schwammig.").language()).contains("de");
    Hearing english = new Hearing(List.of("en"));
    assertThat(english.hear("Der Hebel ist schwammig.", "rear", TODAY).findings()).isEmpty();
    assertThatThrownBy(() -> new Hearing(List.of("xx")))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  @DisplayName("bears any text, and cuts what no complaint is long enough for")
  void bearsAnyText() {
    for (String text :
        List.of(
            "", " ", "!?.,", "\u0000\u0007", "no no not never", "\ud83d\udeb2 squeals", "\u200f")) {
      assertThat(hear(text).findings()).hasSizeLessThan(2);
    }
    Heard million = hear("The lever is spongy. ".repeat(50_000));
    assertThat(million.cut()).isTrue();
    assertThat(said(million.findings())).isEqualTo("+spongy-lever");
    assertThat(hear("a".repeat(1_000_000)).cut()).isTrue();
    Random random = new Random(7);
    for (int round = 0; round < 200; round++) {
      StringBuilder text = new StringBuilder();
      for (int at = 0; at < 200; at++) {
        text.append((char) random.nextInt(0x3000));
      }
      Heard heard = hear(text.toString());
      for (Finding each : heard.findings()) {
        assertThat(each.end()).isBetween(each.start() + 1, text.length());
      }
    }
  }

  private static final List<String> SENTENCES =
      List.of(
          "The lever is spongy.",
          "It squeals.",
          "The rotor is bent.",
          "There is a puddle under the bike.",
          "The caliper is loose.",
          "The wheel does not spin freely.");

  @Test
  @DisplayName("hears the same with a sentence about something else in between")
  void bearsIdleTalk() {
    for (String sentence : SENTENCES) {
      String alone = said(hear(sentence).findings());
      for (String idle :
          List.of("The gears are new.", "I paid forty for the saddle.", "My sister rides too.")) {
        assertThat(said(hear(idle + " " + sentence).findings())).isEqualTo(alone);
        assertThat(said(hear(sentence + " " + idle).findings())).isEqualTo(alone);
      }
    }
  }

  @Test
  @DisplayName("hears the same in whatever order sentences about different things come")
  void bearsAnyOrder() {
    String once = said(hear(String.join(" ", SENTENCES)).findings());
    List<String> sentences = new ArrayList<>(SENTENCES);
    for (int round = 0; round < 20; round++) {
      Collections.shuffle(sentences, new Random(round));
      assertThat(said(hear(String.join(" ", sentences)).findings())).isEqualTo(once);
    }
  }

  @Test
  @DisplayName("hears the same in many threads at once")
  void isSafeForThreads() {
    String text = "The rear lever is spongy, I bled it yesterday.";
    Heard once = hear(text);
    assertThat(IntStream.range(0, 200).parallel().mapToObj(i -> hear(text))).allMatch(once::equals);
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("has a pattern for every symptom, by its own word or its opposite")
  void knowsEverySymptom(String code) {
    var vocabulary = VocabularyReader.builtIn();
    TreeSet<String> known = new TreeSet<>();
    LanguageReader.read(code)
        .meanings()
        .values()
        .forEach(all -> all.forEach(meaning -> known.add(meaning.id())));
    vocabulary
        .opposites()
        .forEach(
            (opposite, symptom) -> {
              if (known.contains(opposite)) {
                known.add(symptom);
              }
            });
    assertThat(known).containsAll(vocabulary.symptoms().keySet());
  }

  @ParameterizedTest(name = "\"{0}\": {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          I stuck new pads in on Monday. | OWNER
          My mate put new pads in. | OWNER
          Bled at home on Monday. | OWNER
          Selbst entlüftet. | OWNER
          Purgé moi-même. | OWNER
          Stuck new pads in on Monday. | OWNER
          Pads are new. | UNKNOWN
          Beläge sind neu. | UNKNOWN
          Les plaquettes sont neuves. | UNKNOWN
          Soft after the last bleed. | UNKNOWN
          New pads fitted yesterday. | UNKNOWN
          I noticed it squeals, pads are new. | UNKNOWN
          It was bled last month, I noticed it is soft. | UNKNOWN
          The pads were changed on Monday. | UNKNOWN
          Bei euch entlüftet. | SHOP
          Purgé chez vous. | SHOP
          Your shop bled it. | SHOP
          You put new pads in on Monday. | SHOP
          New pads since Monday, says my mechanic. | SHOP
          It was in for a service on Monday. | SHOP
          """)
  @DisplayName("says who did a work, and nobody where nobody is named")
  void saysWho(String text, Person by) {
    assertThat(hear(text).history()).extracting(Heard.Told::by).contains(by);
  }

  @ParameterizedTest(name = "\"{0}\"")
  @ValueSource(
      strings = {
        "My saddle is spongy.",
        "The chain squeaks.",
        "Mein Reifen ist weich und das Tretlager knackt.",
        "La chaîne couine tout le temps."
      })
  @DisplayName("takes nothing said of other parts of the bicycle")
  void leavesOtherParts(String text) {
    assertThat(hear(text).findings()).isEmpty();
  }
}
