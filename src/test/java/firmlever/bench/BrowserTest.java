package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import firmlever.bench.job.People;
import firmlever.picture.Camera;
import firmlever.web.Role;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;

/**
 * The bench in a real browser. Skipped where there is none; with {@code -Dfirmlever.pictures=true}
 * each screen is also laid into {@code target/screens} as a picture.
 */
@Tag("browser")
@DisplayName("The bench in a browser")
class BrowserTest {
  private static final Path BROWSER = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Path SCREENS = Path.of("target", "screens");
  private static final List<Integer> WIDTHS = List.of(390, 820, 1280);
  private static final String JOB = "/jobs/B-0417-rear-2026-05-12";

  @TempDir private Path folder;
  private Served served;
  private ChromeDriver browser;
  private int taps;

  @BeforeEach
  void open() {
    assumeTrue(
        Files.isExecutable(BROWSER) && Files.isExecutable(DRIVER),
        "no " + BROWSER + " or no " + DRIVER + " here: apt-get install chromium chromium-driver");
    served = new Served(folder.resolve("shop.db"));
    browser = start(true);
  }

  private static ChromeDriver start(boolean scripts) {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(BROWSER.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--hide-scrollbars",
        "--lang=en");
    if (!scripts) {
      options.setExperimentalOption(
          "prefs", Map.of("profile.managed_default_content_settings.javascript", 2));
    }
    System.setProperty("webdriver.chrome.driver", DRIVER.toString());
    return new ChromeDriver(options);
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.quit();
    }
    if (served != null) {
      served.close();
      assertThat(served.faults).isEmpty();
    }
  }

  private void go(String path) {
    browser.get(served.address() + path);
  }

  private void await(BooleanSupplier until) {
    // A page that is just being renewed has parts that are gone; they are looked up again.
    for (int tries = 0; tries < 600; tries++) {
      try {
        if (until.getAsBoolean()) {
          return;
        }
      } catch (StaleElementReferenceException | NoSuchElementException e) {
        // Looked up again.
      }
      try {
        Thread.sleep(50);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
    throw new AssertionError("it never came, on " + browser.getCurrentUrl() + ": " + text());
  }

  private String text() {
    return browser.findElement(By.tagName("body")).getText();
  }

  /** Taps a button, and waits until its answer is there. */
  private void tap(WebElement element) {
    element.click();
    taps++;
  }

  private void button(String css) {
    tap(browser.findElement(By.cssSelector(css)));
  }

  private void type(String id, String words) {
    WebElement field = browser.findElement(By.id(id));
    field.clear();
    field.sendKeys(words);
  }

  /** Taps a button that answers something, and waits until it is shown as pressed. */
  private void press(String id) {
    press(
        id,
        () ->
            browser.findElements(By.id(id)).stream()
                .anyMatch(each -> "true".equals(each.getDomAttribute("aria-pressed"))));
  }

  private void press(String id, BooleanSupplier until) {
    button("[id='" + id + "']");
    await(until);
  }

  private void signIn(String code) {
    go("/sign-in");
    type("code", code);
    button("button.main");
    await(() -> text().contains("Today"));
  }

  private void takeIn(String complaint) {
    go("/new");
    type("brake", "B-0417-rear");
    button("input[value=rear]");
    browser.findElement(By.cssSelector("option[value=mineral-oil]")).click();
    type("complaint", complaint);
    button("#new-job button.main");
    await(() -> browser.getCurrentUrl().contains("/jobs/"));
  }

  /** Chooses a photo on the page of a job and attaches it. */
  private void attach(String shows, int number) {
    choosePhoto(number);
    type("shows", shows);
    button("#photos form.card button");
    await(() -> browser.findElements(By.cssSelector(".photos img")).size() == number);
  }

  private void choosePhoto(int number) {
    try {
      Path photo = folder.resolve("IMG_" + number + ".jpg");
      Files.write(photo, Camera.photo(1200 + number, 900, 6));
      browser.findElement(By.id("photo")).sendKeys(photo.toString());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private void strike(int number, String reason) {
    button(".photos li:nth-child(" + number + ") summary");
    type("strike-" + number, reason);
    button(".photos li:nth-child(" + number + ") button");
    await(() -> text().contains("Struck out: " + reason));
  }

  private void signInAsOwner() {
    String key = new People(served.store).enrol("O1", Role.OWNER);
    go("/sign-in");
    type("code", "O1");
    button("button.main");
    await(() -> !browser.findElements(By.id("own-key")).isEmpty());
    picture(true, "own-key");
    type("own-key", key);
    button("button.main");
    await(() -> text().contains("Today"));
  }

  /** From the complaint to the signature, by taps on what the pages offer. */
  private void wholeWay(boolean pictures) {
    signIn("T3");
    takeIn("goes soft, fine again after pumping");
    await(() -> text().contains("Do not ride"));
    picture(pictures, "job");
    while (!browser.findElements(By.cssSelector("#heard button[value=yes]")).isEmpty()) {
      int before = browser.findElements(By.cssSelector("#heard li")).size();
      button("#heard button[value=yes]");
      await(() -> browser.findElements(By.cssSelector("#heard li")).size() < before);
    }
    go(JOB + "/places/lever");
    press("no-hard-stop-present");
    picture(pictures, "place");
    go(JOB + "/places/hose");
    press("leak-found-absent");
    go(JOB + "/why");
    picture(pictures, "why");
    go(JOB + "/work");
    picture(pictures, "work-choice");
    button(".works button.main");
    await(() -> !browser.findElements(By.cssSelector(".work-card")).isEmpty());
    List<String> sections =
        browser.findElements(By.cssSelector("button[value^='section:']")).stream()
            .map(each -> each.getDomAttribute("value"))
            .toList();
    for (String section : sections) {
      button("button[value='" + section + "']");
      await(
          () ->
              (Boolean)
                  browser.executeScript(
                      "return [...document.querySelectorAll('#section-"
                          + section.substring(8)
                          + " input[type=checkbox]')].every(e => e.checked)"));
    }
    int blanks = browser.findElements(By.cssSelector("input[name^='value-']")).size();
    for (int i = 0; i < blanks; i++) {
      WebElement blank = browser.findElements(By.cssSelector("input[name^='value-']")).get(i);
      blank.sendKeys("5");
      taps++;
    }
    browser.findElement(By.cssSelector("option[value=mineral-oil]")).click();
    picture(pictures, "card");
    // The card is being saved as it is filled; the last word waits for that by itself.
    button("button[value=done]");
    await(() -> browser.getCurrentUrl().contains("/acceptance"));
    List<String> checks =
        browser.findElements(By.cssSelector(".checks button.yes")).stream()
            .map(each -> each.getDomAttribute("id"))
            .toList();
    for (String check : checks) {
      press(check);
    }
    for (WebElement again : browser.findElements(By.cssSelector("#again button.no"))) {
      press(again.getDomAttribute("id"));
    }
    await(() -> text().contains("It goes back"));
    picture(pictures, "acceptance");
    type("code", "T3");
    button("button[value=hand-back]");
    await(() -> text().contains("Handed back on 12 May 2026, signed by T3"));
  }

  private void picture(boolean wanted, String name) {
    if (wanted && Boolean.getBoolean("firmlever.pictures")) {
      try {
        Files.createDirectories(SCREENS);
        for (int width : WIDTHS) {
          Long height =
              (Long) resized(width, 900).executeScript("return document.body.scrollHeight");
          resized(width, (int) Math.min(4000, height + 10));
          Files.write(
              SCREENS.resolve(name + "-" + width + ".png"),
              browser.getScreenshotAs(OutputType.BYTES));
        }
        resized(1280, 900);
      } catch (IOException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  /** Sets the size of the page itself: a window cannot be made as narrow as a telephone. */
  private ChromeDriver resized(int width, int height) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    return browser;
  }

  @Test
  @DisplayName(
      "goes from the complaint to a signed hand-back in at most 40 taps; the brake comes back")
  void goesTheWholeWay() {
    browser.manage().window().setSize(new Dimension(1280, 900));
    wholeWay(true);
    assertThat(taps).isLessThanOrEqualTo(40);
    served.setClock("2026-06-01T08:00:00Z");
    signIn("T3"); // Nobody stays signed in for weeks.
    takeIn("goes soft again");
    await(() -> text().contains("This brake was handed back 20 days ago"));
    picture(true, "comeback");
    attach("wet union at the lever, seen from below", 1);
    attach("", 2);
    attach("the wrong bike", 3);
    strike(3, "that is B-0418");
    picture(true, "photos");
    go("/brakes/B-0417-rear");
    assertThat(text()).contains("back after 20 days");
    picture(true, "brake");
    go("/");
    picture(true, "day");
    go("/new");
    picture(true, "new");
    go(JOB + "/log");
    picture(true, "log");
    go(JOB + "/hand-back");
    picture(true, "hand-back");
    go("/jobs/B-0417-rear-2026-06-01/work");
    tap(browser.findElement(By.cssSelector("form.card button")));
    go("/jobs/B-0417-rear-2026-06-01/card");
    picture(true, "paper-card");
    signInAsOwner();
    go("/review");
    picture(true, "no-review");
    String again = "/jobs/B-0417-rear-2026-06-01";
    go(again + "/claim");
    picture(true, "claim-none");
    browser.findElement(By.cssSelector("#part option[value=lever-seals]")).click();
    browser.findElement(By.cssSelector(".photos input")).click();
    button("button[value=hand-in]");
    await(() -> text().contains("The whole dossier"));
    assertThat(browser.findElements(By.cssSelector(".photos input:checked"))).hasSize(1);
    picture(true, "claim");
    go(again + "/dossier");
    picture(true, "dossier");
  }

  @Test
  @DisplayName("goes the whole way without scripts too")
  void needsNoScripts() {
    browser.quit();
    browser = start(false);
    wholeWay(false);
    assertThat(taps).isLessThanOrEqualTo(40);
  }

  @Test
  @DisplayName("has no fault of access that the checker finds, on any page, light or dark")
  void hasNoFaultsOfAccess() throws IOException {
    wholeWay(false);
    served.setClock("2026-06-01T08:00:00Z");
    signIn("T3"); // Nobody stays signed in for weeks.
    takeIn("goes soft again, and rattles");
    String open = "/jobs/B-0417-rear-2026-06-01";
    attach("wet union at the lever", 1);
    attach("", 2);
    strike(2, "blurred");
    signInAsOwner();
    go(JOB + "/claim");
    browser.findElement(By.cssSelector("#part option[value=lever-seals]")).click();
    button("button[value=hand-in]");
    await(() -> text().contains("The whole dossier"));
    go(open + "/places/caliper");
    press("body-crack-present");
    assertThat(browser.findElements(By.cssSelector("#verdict #effect li"))).isNotEmpty();
    String checker;
    try (InputStream in = BrowserTest.class.getResourceAsStream("/axe.min.js")) {
      checker = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    List<String> pages =
        List.of(
            "/",
            "/new",
            "/search?q=B",
            "/search?q=zzz",
            "/brakes/B-0417-rear",
            "/none",
            JOB,
            JOB + "/acceptance",
            JOB + "/log",
            open,
            open + "/places/lever",
            open + "/places/told",
            open + "/why",
            open + "/work",
            open + "/acceptance",
            open + "/log",
            open + "/card",
            open + "/claim",
            JOB + "/hand-back",
            JOB + "/claim",
            JOB + "/dossier",
            "/review");
    for (String scheme : List.of("light", "dark")) {
      browser.executeCdpCommand(
          "Emulation.setEmulatedMedia",
          Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
      for (String page : pages) {
        go(page);
        assertThat(faults(checker)).as(scheme + " " + page).isEmpty();
      }
    }
    go(open + "/work");
    tap(browser.findElement(By.cssSelector(".works button")));
    assertThat(faults(checker)).as("card").isEmpty();
    browser.manage().deleteAllCookies();
    go("/sign-in");
    assertThat(faults(checker)).as("sign-in").isEmpty();
  }

  @SuppressWarnings("unchecked")
  private List<String> faults(String checker) {
    browser.executeScript(checker);
    return (List<String>)
        browser.executeAsyncScript(
            "const done = arguments[0]; axe.run().then(r => done(r.violations.map(v => v.id + ': '"
                + " + v.nodes.map(n => n.target + ' ' + n.failureSummary).join(' | '))))");
  }

  @Test
  @DisplayName("attaches photos and strikes them out without scripts")
  void attachesPhotosWithoutScripts() {
    browser.quit();
    browser = start(false);
    signIn("T3");
    takeIn("squeals");
    attach("the pads", 1);
    assertThat(served.store.photos(JOB.substring(6))).hasSize(1);
    strike(1, "blurred");
  }

  @Test
  @DisplayName("shows a photo upright, and keeps one that is chosen while another form is sent")
  void keepsAChosenPhoto() {
    signIn("T3");
    takeIn("squeals");
    attach("the pads", 1);
    WebElement image = browser.findElement(By.cssSelector(".photos img"));
    browser.executeScript("arguments[0].scrollIntoView()", image);
    await(() -> "900".equals(image.getDomProperty("naturalWidth")));
    assertThat(image.getDomProperty("naturalHeight")).isEqualTo("1201");
    choosePhoto(2);
    type("record-words", "new pads yesterday");
    button("#record button");
    await(() -> !browser.findElements(By.cssSelector("#record li")).isEmpty());
    button("#photos form.card button");
    await(() -> browser.findElements(By.cssSelector(".photos img")).size() == 2);
  }

  @Test
  @DisplayName("keeps the focus where it was tapped, and shows the new verdict")
  void keepsTheFocus() {
    signIn("T3");
    takeIn("squeals");
    go(JOB + "/places/caliper");
    String before = browser.findElement(By.id("verdict")).getText();
    press("body-crack-present");
    assertThat(browser.switchTo().activeElement().getDomAttribute("id"))
        .isEqualTo("body-crack-present");
    assertThat(browser.findElement(By.id("verdict")).getText())
        .isNotEqualTo(before)
        .contains("Do not ride");
  }

  @Test
  @DisplayName("keeps what was typed while somebody was signed out")
  void keepsWhatWasTyped() {
    signIn("T3");
    takeIn("soft");
    go(JOB + "/places/lever");
    type("r-throw-firm", "22");
    served.setClock("2026-05-14T08:00:00Z");
    press("no-hard-stop-present", () -> browser.getCurrentUrl().contains("/sign-in"));
    type("code", "T3");
    button("button.main");
    await(() -> browser.getCurrentUrl().contains("/places/lever"));
    assertThat(browser.findElement(By.id("r-throw-firm")).getDomProperty("value")).isEqualTo("22");
  }

  @Test
  @DisplayName("shows the later of two what the other did, and keeps what was typed")
  void tellsTheLater() {
    signIn("T3");
    takeIn("soft");
    go(JOB + "/places/lever");
    Visitor other = new Visitor(served, "T5");
    other.go(JOB + "/places/lever");
    other.send(JOB + "/places/lever", "answer", "lever-sinks=present");
    type("r-throw-firm", "22");
    button("#readings button");
    await(() -> text().contains("Somebody else has changed this job meanwhile"));
    assertThat(text()).contains("T5").contains("lever sinks under a steady pull: there");
    button("#clash button.main");
    await(() -> text().contains("Lever") && !text().contains("Somebody else"));
    assertThat(browser.findElement(By.id("r-throw-firm")).getDomProperty("value")).isEqualTo("22");
  }
}
