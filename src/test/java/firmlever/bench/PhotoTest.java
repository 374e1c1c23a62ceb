package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.Digest;
import firmlever.document.Limit;
import firmlever.picture.Camera;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Photo;
import firmlever.store.SqliteStore;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Photos on the bench page")
class PhotoTest {
  private static final String ID = "B-0417-rear-2026-05-12";
  private static final String JOB = "/jobs/" + ID;
  private static final String PHOTOS = JOB + "/photos";

  @TempDir private Path folder;
  private Served served;
  private Visitor mechanic;

  @BeforeEach
  void open() {
    served = new Served(folder.resolve("shop.db"));
    mechanic = new Visitor(served, "T3").takesIn("goes soft, fine again after pumping");
  }

  @AfterEach
  void close() {
    served.close();
    assertThat(served.faults).isEmpty();
  }

  private List<Photo> photos() {
    return served.store.photos(ID);
  }

  private List<Path> files() throws IOException {
    Path beside = folder.resolve("shop.db.photos");
    if (!Files.exists(beside)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(beside)) {
      return files.sorted().toList();
    }
  }

  private static boolean holds(byte[] file, byte[] what) {
    for (int at = 0; at + what.length <= file.length; at++) {
      if (Arrays.equals(file, at, at + what.length, what, 0, what.length)) {
        return true;
      }
    }
    return false;
  }

  @Test
  @DisplayName("are shown as they were taken, upright, and tell nothing of place and camera")
  void goRound() throws IOException {
    byte[] photo = Camera.photo(400, 300, 6);
    byte[] place =
        ByteBuffer.allocate(4).order(ByteOrder.LITTLE_ENDIAN).putInt(Camera.LATITUDE[0]).array();
    byte[] exif = "Exif".getBytes(StandardCharsets.US_ASCII);
    byte[] maker = Camera.MAKER.getBytes(StandardCharsets.US_ASCII);
    mechanic.sendFile(PHOTOS, "photo", photo, "shows", "wet union at the lever");
    assertThat(mechanic.status()).isEqualTo(200);
    assertThat(mechanic.path()).isEqualTo(JOB);
    Photo kept = photos().get(0);
    String address = PHOTOS + "/" + kept.digest();
    assertThat(mechanic.html())
        .contains("<img src=\"" + address + "\" alt=\"Photo 1: wet union at the lever\"")
        .contains("loading=\"lazy\"");
    HttpResponse<byte[]> sent = mechanic.bytes(address);
    assertThat(sent.statusCode()).isEqualTo(200);
    assertThat(sent.headers().firstValue("Content-Type")).contains("image/jpeg");
    assertThat(sent.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
    assertThat(sent.headers().firstValue("Cache-Control")).get().asString().startsWith("private,");
    assertThat(sent.headers().firstValue("Content-Security-Policy"))
        .get()
        .asString()
        .contains("default-src 'none'", "img-src 'self'");
    BufferedImage seen = Camera.seen(sent.body());
    assertThat(seen.getWidth()).isEqualTo(300);
    assertThat(seen.getHeight()).isEqualTo(400);
    assertThat(Camera.colour(seen, 1, 0)).as("the first corner, turned right").isEqualTo('R');
    for (byte[] what : List.of(place, exif, maker)) {
      assertThat(holds(photo, what)).isTrue();
      assertThat(holds(sent.body(), what)).isFalse();
    }
    assertThat(Digest.sha256(sent.body())).isEqualTo(kept.digest());
    assertThat(kept.bytes()).isEqualTo(sent.body().length);
    assertThat(files()).singleElement().asString().endsWith("/" + kept.digest() + ".jpg");
    assertThat(mechanic.go(JOB + "/log").text())
        .contains("T3 photo attached: wet union at the lever; sha256 " + kept.digest());
    assertThat(mechanic.go("/brakes/B-0417-rear").html())
        .contains("<a href=\"" + JOB + "#photos\">Photos: 1</a>");
  }

  @Test
  @DisplayName("change nothing else of the job, and nothing else gets in their way")
  void changeNothingElse() {
    String before = served.store.job(ID).orElseThrow().content().caseText();
    Visitor other = new Visitor(served, "T4").go(JOB + "/places/lever");
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1), "shows", "");
    assertThat(served.store.job(ID).orElseThrow().content().caseText()).isEqualTo(before);
    // The page of the other is older now, and is told so; a photo goes on all the same.
    other.send(JOB + "/places/lever", "answer", "spongy-lever=present");
    assertThat(other.status()).isEqualTo(409);
    assertThat(other.text()).contains("T3").contains("photo attached");
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(60, 30, 1), "version", "1");
    assertThat(photos()).hasSize(2);
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(60, 30, 1), "version", "1");
    assertThat(mechanic.status()).isEqualTo(200);
    assertThat(photos()).as("tapped twice").hasSize(2);
  }

  @Test
  @DisplayName("are refused where they are none, with what to do, whatever their name")
  void refuseWhatIsNone() throws IOException {
    byte[] text = "I am a leak, says my name".getBytes(StandardCharsets.UTF_8);
    mechanic.sendFile(PHOTOS, "photo", text, "shows", "a leak");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text())
        .contains("no JPEG or PNG picture, whatever its name says. Take the photo");
    assertThat(mechanic.html()).as("what was typed").contains("value=\"a leak\"");
    byte[] half = Arrays.copyOf(Camera.photo(40, 30, 1), 400);
    assertThat(mechanic.sendFile(PHOTOS, "photo", half).text()).contains("damaged or not whole");
    byte[] none = {};
    assertThat(mechanic.sendFile(PHOTOS, "photo", none).text()).contains("No photo was chosen");
    assertThat(mechanic.sendFile(PHOTOS, "other", Camera.photo(40, 30, 1)).text())
        .contains("No photo was chosen");
    mechanic.go(JOB);
    assertThat(mechanic.send(PHOTOS, "photo", "typed").text()).contains("No photo was chosen");
    assertThat(photos()).isEmpty();
    assertThat(files()).isEmpty();
    assertThat(served.store.changes(ID)).hasSize(1);
    mechanic.speaking("de").go(JOB);
    assertThat(mechanic.sendFile(PHOTOS, "photo", text).text()).contains("kein Bild in JPEG");
  }

  @Test
  @DisplayName("may have as many bytes, letters and neighbours, and not more")
  void haveLimits() throws IOException {
    // What follows the end of a picture is sent too, and left out.
    byte[] largest = Arrays.copyOf(Camera.photo(40, 30, 1), Limit.PHOTO_BYTES.most());
    int letters = Limit.PHOTO_LETTERS.most();
    mechanic.sendFile(PHOTOS, "photo", largest, "shows", "x".repeat(letters));
    assertThat(mechanic.status()).isEqualTo(200);
    assertThat(photos()).hasSize(1);
    assertThat(photos().get(0).bytes()).isLessThan(10_000);
    mechanic.sendFile(PHOTOS, "photo", Arrays.copyOf(largest, largest.length + 1));
    assertThat(mechanic.status()).isEqualTo(413);
    assertThat(mechanic.text()).contains("at most. Set the camera to smaller pictures");
    mechanic.go(JOB);
    mechanic.sendFile(PHOTOS, "photo", new byte[3 * Limit.PHOTO_BYTES.most()]);
    assertThat(mechanic.status()).isEqualTo(413);
    mechanic.go(JOB);
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(50, 30, 1), "shows", "x".repeat(letters + 1));
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text()).contains("at most " + letters + " letters");
    assertThat(photos()).hasSize(1);
    for (int i = 1; i < Limit.JOB_PHOTOS.most(); i++) {
      mechanic.sendFile(PHOTOS, "photo", Camera.photo(50 + i, 30, 1));
      assertThat(mechanic.status()).isEqualTo(200);
    }
    assertThat(photos()).hasSize(Limit.JOB_PHOTOS.most());
    assertThat(mechanic.html()).doesNotContain("type=\"file\"");
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(9, 9, 1));
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text()).contains("no more can be attached");
    assertThat(files()).hasSize(Limit.JOB_PHOTOS.most());
  }

  @Test
  @DisplayName("are for those who are signed in, and come from forms of their own session only")
  void areGuarded() throws IOException {
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1));
    String address = PHOTOS + "/" + photos().get(0).digest();
    Visitor stranger = new Visitor(served.address());
    assertThat(stranger.go(address).path()).isEqualTo("/sign-in");
    assertThat(stranger.bytes(address).statusCode()).isEqualTo(303);
    stranger.sendFile(PHOTOS, "photo", Camera.photo(50, 30, 1));
    assertThat(stranger.status()).isEqualTo(401);
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(50, 30, 1), "form-token", "made up");
    assertThat(mechanic.status()).isEqualTo(403);
    assertThat(files()).hasSize(1);
    for (String odd :
        List.of(
            "/" + "0".repeat(64),
            "/..%2f..%2fshop.db",
            "/" + photos().get(0).digest() + ".jpg",
            "/" + photos().get(0).digest().toUpperCase(java.util.Locale.ROOT))) {
      assertThat(mechanic.bytes(PHOTOS + odd).statusCode()).as(odd).isEqualTo(404);
    }
    mechanic.go("/new");
    mechanic.send("/new", "brake", "B-2", "wheel", "front", "fluid", "dot-4", "complaint", "soft");
    String elsewhere = address.replace(ID, mechanic.path().substring("/jobs/".length()));
    assertThat(elsewhere).isNotEqualTo(address);
    assertThat(mechanic.bytes(elsewhere).statusCode()).as("of another job").isEqualTo(404);
  }

  @Test
  @DisplayName("carry words that stay words")
  void escapeWords() {
    String hostile = "\"><script>alert(1)</script><img src=x onerror='alert(2)'>";
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1), "shows", hostile);
    for (String page : List.of(JOB, JOB + "/log")) {
      assertThat(mechanic.go(page).html())
          .doesNotContain("<script>alert")
          .doesNotContain("<img src=x");
      assertThat(mechanic.text()).contains(hostile);
    }
  }

  @Test
  @DisplayName("are struck out with a reason, and stay where they are")
  void areStruckOut() throws IOException {
    byte[] photo = Camera.photo(40, 30, 1);
    mechanic.sendFile(PHOTOS, "photo", photo, "shows", "the wrong bike");
    String address = PHOTOS + "/" + photos().get(0).digest();
    mechanic.send(address, "reason", "");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text()).contains("Say why it does not count");
    mechanic.go(JOB).send(address, "reason", "of B-0418");
    assertThat(mechanic.text()).contains("Struck out: of B-0418");
    mechanic.send(address, "reason", "again");
    assertThat(photos()).extracting(Photo::struck).containsExactly(Optional.of("of B-0418"));
    assertThat(mechanic.bytes(address).statusCode()).isEqualTo(200);
    assertThat(mechanic.go(JOB + "/log").text()).contains("photo struck out: of B-0418; sha256");
    assertThat(mechanic.go("/brakes/B-0417-rear").text()).doesNotContain("Photos:");
    mechanic.go(JOB).sendFile(PHOTOS, "photo", photo);
    assertThat(mechanic.text()).contains("This very picture was struck out of this job (of B-0418");
    mechanic.go(JOB).send(PHOTOS + "/" + "0".repeat(64), "reason", "x");
    assertThat(mechanic.status()).isEqualTo(404);
    assertThat(files()).hasSize(1);
  }

  @Test
  @DisplayName("of a job that is handed back are shown, and neither added to nor struck out")
  void areClosedWithTheJob() throws Exception {
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1));
    JobStore.Job job = served.store.job(ID).orElseThrow();
    JobStore.Heading h = job.heading();
    served.store.change(
        new JobStore.Content(
            new JobStore.Heading(
                h.id(),
                h.brake(),
                h.opened(),
                Optional.of(h.opened()),
                JobStore.State.HANDED_BACK,
                h.title(),
                h.causes(),
                h.works()),
            job.content().caseText(),
            job.content().sheet()),
        job.version(),
        new JobStore.Stamp(java.time.Instant.EPOCH, "T3", "back"));
    String address = PHOTOS + "/" + photos().get(0).digest();
    assertThat(mechanic.go(JOB).html())
        .contains("<img src=\"" + address)
        .doesNotContain("type=\"file\"")
        .doesNotContain("name=\"reason\"");
    mechanic.go("/new");
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(50, 30, 1));
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(mechanic.text()).contains("is handed back, and nothing of it can be changed");
    mechanic.go("/new").send(address, "reason", "x");
    assertThat(mechanic.status()).isEqualTo(400);
    assertThat(photos()).extracting(Photo::struck).containsExactly(Optional.empty());
    assertThat(files()).hasSize(1);
  }

  @Test
  @DisplayName("that cannot be kept are told, and leave no line that leads to none")
  void tellWhatCannotBeKept() throws IOException {
    Files.writeString(folder.resolve("shop.db.photos"), "in the way of the folder");
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1));
    assertThat(mechanic.status()).isEqualTo(503);
    assertThat(mechanic.text()).contains("the photo was not kept");
    assertThat(photos()).isEmpty();
    assertThat(served.store.changes(ID)).hasSize(1);
    Files.delete(folder.resolve("shop.db.photos"));
    mechanic.go(JOB).sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1));
    assertThat(photos()).hasSize(1);
    // A file somebody changed is not sent as what was attached.
    Path file = files().get(0);
    Files.write(file, Camera.photo(41, 30, 1));
    String address = PHOTOS + "/" + photos().get(0).digest();
    assertThat(mechanic.bytes(address).statusCode()).isEqualTo(503);
    assertThat(mechanic.go(JOB).status()).isEqualTo(200);
    Files.delete(file);
    assertThat(mechanic.go(address).text()).contains("missing or damaged");
  }

  @Test
  @DisplayName("wait for one another and are all there, whoever else writes meanwhile")
  void waitForOneAnother() throws Exception {
    Visitor other = new Visitor(served, "T4").go(JOB);
    Thread beside =
        new Thread(
            () -> {
              for (int i = 0; i < 5; i++) {
                other.sendFile(PHOTOS, "photo", Camera.photo(100 + i, 30, 1));
              }
            });
    beside.start();
    for (int i = 0; i < 5; i++) {
      mechanic.sendFile(PHOTOS, "photo", Camera.photo(200 + i, 30, 1));
    }
    beside.join();
    assertThat(photos()).hasSize(10);
    assertThat(served.store.changes(ID)).hasSize(11);
  }

  @Test
  @DisplayName("are there after the store is opened anew")
  void last() {
    mechanic.sendFile(PHOTOS, "photo", Camera.photo(40, 30, 1));
    Photo kept = photos().get(0);
    served.close();
    try (JobStore again = SqliteStore.open(folder.resolve("shop.db"))) {
      assertThat(again.photos(ID)).containsExactly(kept);
      assertThat(Digest.sha256(again.picture(kept))).isEqualTo(kept.digest());
    }
    served = new Served(folder.resolve("shop.db"));
  }
}
