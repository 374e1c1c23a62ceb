package firmlever.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.store.JobStore.Change;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The store of jobs")
class SqliteStoreTest {
  @TempDir private Path folder;

  private Path file() {
    return folder.resolve("shop.db");
  }

  private JobStore open() {
    return SqliteStore.open(file());
  }

  @Test
  @DisplayName("gives back letter for letter what was put in, also after it was closed")
  void keepsContents() throws Changed {
    String text =
        "{ \"complaint\": \"weich — ça fuit; '); drop table job; --\u0000 \ud83d\ude80\" }\r\n";
    Content content = Contents.open("J-1", "B-1-rear", text);
    try (JobStore store = open()) {
      store.add(content, Contents.by("T3", "came in"));
    }
    try (JobStore store = open()) {
      assertThat(store.job("J-1")).contains(new Job(content, 1));
      assertThat(store.changes("J-1"))
          .containsExactly(new Change(1, Contents.by("T3", "came in"), text, "{}"));
      assertThat(store.job("J-2")).isEmpty();
    }
  }

  @Test
  @DisplayName("keeps every change with its author and moment; the last one is what holds")
  void keepsHistory() throws Changed {
    try (JobStore store = open()) {
      store.add(Contents.open("J-1", "B-1", "one"), Contents.by("T1", "came in"));
      Job second =
          store.change(Contents.open("J-1", "B-1", "two"), 1, Contents.by("T2", "lever sinks"));
      assertThat(second.version()).isEqualTo(2);
      assertThat(store.job("J-1")).contains(second);
      assertThat(store.changes("J-1"))
          .extracting(Change::caseText, each -> each.stamp().author())
          .containsExactly(
              org.assertj.core.groups.Tuple.tuple("one", "T1"),
              org.assertj.core.groups.Tuple.tuple("two", "T2"));
      assertThat(store.changesAfter("J-1", 1)).extracting(Change::number).containsExactly(2);
    }
  }

  @Test
  @DisplayName("lets nobody rewrite or remove a change, not even by another program")
  void isAppendOnly() throws Exception {
    try (JobStore store = open()) {
      store.add(Contents.open("J-1", "B-1", "one"), Contents.by("T1", "came in"));
    }
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
        var statement = other.createStatement()) {
      assertThatThrownBy(() -> statement.executeUpdate("update change set case_text = 'x'"))
          .hasMessageContaining("never rewritten");
      assertThatThrownBy(() -> statement.executeUpdate("delete from change"))
          .hasMessageContaining("never removed");
    }
  }

  @Test
  @DisplayName("tells the later of two that the job was changed, and writes nothing of it")
  void tellsTheLater() throws Changed {
    try (JobStore one = open();
        JobStore other = open()) {
      one.add(Contents.open("J-1", "B-1", "one"), Contents.by("T1", "came in"));
      one.change(Contents.open("J-1", "B-1", "from one"), 1, Contents.by("T1", "a"));
      assertThatThrownBy(
              () ->
                  other.change(
                      Contents.open("J-1", "B-1", "from other"), 1, Contents.by("T2", "b")))
          .isInstanceOf(Changed.class);
      assertThatThrownBy(
              () -> other.add(Contents.open("J-1", "B-9", "new"), Contents.by("T2", "b")))
          .isInstanceOf(Changed.class);
      assertThat(other.job("J-1").orElseThrow().content().caseText()).isEqualTo("from one");
      assertThat(other.changes("J-1")).hasSize(2);
      assertThat(other.search("B-9", 9)).isEmpty();
    }
  }

  @Test
  @DisplayName("finds jobs by brake, by the beginning of a code, by state and by day")
  void finds() throws Changed {
    try (JobStore store = open()) {
      put(store, "J-1", "B-0417-rear", 0, State.HANDED_BACK);
      put(store, "J-2", "B-0417-front", 3, State.HELD);
      put(store, "J-3", "B-0417-rear", 5, State.OPEN);
      put(store, "J-4", "B-0500-rear", 5, State.OPEN);
      assertThat(ids(store.ofBrake("B-0417-rear", 9))).containsExactly("J-3", "J-1");
      assertThat(ids(store.search("b-0417", 9))).containsExactly("J-3", "J-2", "J-1");
      assertThat(ids(store.search("j-4", 9))).containsExactly("J-4");
      assertThat(ids(store.search("%", 9))).isEmpty();
      assertThat(ids(store.search("", 2))).containsExactly("J-4", "J-3");
      assertThat(ids(store.in(State.OPEN, 9))).containsExactly("J-4", "J-3");
      assertThat(ids(store.handedBackOn(Contents.DAY, 9))).containsExactly("J-1");
      List<String> all = new ArrayList<>();
      store.each(job -> all.add(job.heading().id()));
      assertThat(all).containsExactly("J-1", "J-2", "J-3", "J-4");
    }
  }

  private static void put(JobStore store, String id, String brake, int days, State state)
      throws Changed {
    store.add(
        Contents.of(id, brake, Contents.DAY.plusDays(days), state, "text"),
        Contents.by("T1", "came in"));
  }

  private static List<String> ids(List<Heading> headings) {
    return headings.stream().map(Heading::id).toList();
  }

  @Test
  @DisplayName("goes by numbers and not by the clock, which somebody may set back")
  void survivesAClockSetBack() throws Changed {
    try (JobStore store = open()) {
      store.add(
          Contents.open("J-1", "B-1", "one"),
          new Stamp(Instant.parse("2026-05-12T08:00:00Z"), "T1", "came in"));
      store.change(
          Contents.open("J-1", "B-1", "two"),
          1,
          new Stamp(Instant.parse("2019-01-01T00:00:00Z"), "T1", "tapped"));
      assertThat(store.changes("J-1")).extracting(Change::caseText).containsExactly("one", "two");
      assertThat(store.job("J-1").orElseThrow().content().caseText()).isEqualTo("two");
    }
  }

  @Test
  @DisplayName("says that there is no room, keeps all it has, and goes on once there is")
  void survivesAFullDisk() throws Exception {
    try (JobStore store = open()) {
      store.add(Contents.open("J-1", "B-1", "one"), Contents.by("T1", "came in"));
    }
    // A file that may not grow answers as one on a full disk does.
    SqliteStore store = (SqliteStore) open();
    try (store) {
      store.growNoFurther(true);
      String large = "x".repeat(1_000_000);
      assertThatThrownBy(
              () -> store.change(Contents.open("J-1", "B-1", large), 1, Contents.by("T1", "b")))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("no room left");
      assertThat(store.job("J-1").orElseThrow().content().caseText()).isEqualTo("one");
      assertThat(store.changes("J-1")).hasSize(1);
      store.growNoFurther(false);
      assertThat(
              store.change(Contents.open("J-1", "B-1", large), 1, Contents.by("T1", "b")).version())
          .isEqualTo(2);
    }
  }

  @Test
  @DisplayName("has everything it acknowledged after its process was killed in the middle of it")
  void survivesAKill() throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                EndlessWriter.class.getName(),
                file().toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    int acknowledged = 0;
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      while (acknowledged < 40) {
        acknowledged = Integer.parseInt(out.readLine());
      }
      // The process handle leaves its output open, so that the last lines are still read.
      process.toHandle().destroyForcibly();
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        acknowledged = Integer.parseInt(line);
      }
    }
    try (JobStore store = open()) {
      Job job = store.job("J-1").orElseThrow();
      assertThat(job.version()).isBetween(acknowledged, acknowledged + 1);
      assertThat(job.content().caseText()).isEqualTo("text " + job.version());
      assertThat(store.changes("J-1"))
          .hasSize(job.version())
          .allSatisfy(each -> assertThat(each.caseText()).isEqualTo("text " + each.number()));
    }
  }

  @Test
  @DisplayName("is backed up while it is open, into a store that opens; never over a file")
  void isBackedUp() throws Changed {
    Path copy = folder.resolve("it's a copy.db");
    try (JobStore store = open()) {
      store.add(Contents.open("J-1", "B-1", "one"), Contents.by("T1", "came in"));
      store.set("name", "value");
      store.backup(copy);
      store.change(Contents.open("J-1", "B-1", "two"), 1, Contents.by("T1", "b"));
      assertThatThrownBy(() -> store.backup(copy))
          .isInstanceOf(StoreFault.class)
          .hasMessageContaining("there already");
    }
    try (JobStore store = SqliteStore.open(copy)) {
      assertThat(store.job("J-1").orElseThrow().content().caseText()).isEqualTo("one");
      assertThat(store.setting("name")).contains("value");
    }
  }

  @Test
  @DisplayName("brings a file of every older form to its own, and keeps the old file beside")
  void migrates() throws Exception {
    for (int form = 1; form < Migrations.NEWEST; form++) {
      Path old = folder.resolve("form-" + form + ".db");
      writeOld(old, form);
      try (JobStore store = SqliteStore.open(old)) {
        assertThat(store.job("J-1").orElseThrow().content().caseText()).isEqualTo("one");
        store.set("name", "value");
        assertThat(store.setting("name")).contains("value");
      }
      Path kept = Path.of(old + ".form-" + form);
      assertThat(kept).exists();
      assertThat(number(kept)).isEqualTo(form);
      assertThat(number(old)).isEqualTo(Migrations.NEWEST);
    }
  }

  private static void writeOld(Path file, int form) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        var statement = connection.createStatement()) {
      for (int number = 1; number <= form; number++) {
        statement.executeUpdate(Migrations.sql(number));
      }
      statement.executeUpdate(
          "insert into job values ('J-1', 'B-1', '2026-05-12', null, 'open', 'soft', '', '', 1)");
      statement.executeUpdate(
          "insert into change values ('J-1', 1, '2026-05-12T08:00:00Z', 'T1', 'in', 'one', '{}')");
      statement.executeUpdate("pragma user_version = " + form);
    }
  }

  private static int number(Path file) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        var statement = connection.createStatement();
        var row = statement.executeQuery("pragma user_version")) {
      return row.getInt(1);
    }
  }

  @Test
  @DisplayName(
      "refuses what it does not know: a newer form, another file, a folder that is not there")
  void refuses() throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        var statement = connection.createStatement()) {
      statement.executeUpdate("pragma user_version = 99");
    }
    assertThatThrownBy(this::open)
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("newer firmlever");
    Path text = Files.writeString(folder.resolve("text.db"), "this is no database, ".repeat(100));
    assertThatThrownBy(() -> SqliteStore.open(text))
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("is no store");
    assertThatThrownBy(() -> SqliteStore.open(folder.resolve("none/shop.db")))
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("there is no folder");
    assertThatThrownBy(() -> SqliteStore.open(folder.getRoot()))
        .isInstanceOf(StoreFault.class)
        .hasMessageContaining("a file must be named");
  }
}
