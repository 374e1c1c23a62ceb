package firmlever.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * The store in one SQLite file, with a log of writing beside it while it is open. What a method has
 * acknowledged is on the disk and survives the end of the process at any moment.
 */
public final class SqliteStore implements JobStore {
  private static final String HEADING =
      "select id, brake, opened, closed, state, title, causes, works from job ";

  private static final String PHOTO =
      "select p.job, p.number, moment, author, what, digest, bytes, shows, reason from photo p"
          + " join change c on c.job = p.job and c.number = p.number"
          + " left join photo_struck s on s.job = p.job and s.photo = p.number ";

  private final Path file;
  private final PhotoFolder pictures;
  private final Connection writing;
  private final Connection reading;

  private SqliteStore(Path file, Connection writing, Connection reading) {
    this.file = file;
    this.pictures = PhotoFolder.of(file);
    this.writing = writing;
    this.reading = reading;
  }

  /** Opens a store, or makes a new one where there is no such file. */
  public static SqliteStore open(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null) {
      throw new StoreFault(file + ": is a folder, and a file must be named");
    }
    if (!Files.isDirectory(folder)) {
      throw new StoreFault(file + ": there is no folder " + folder);
    }
    // The driver takes what follows a question mark for settings of its own.
    if (file.toString().contains("?")) {
      throw new StoreFault(file + ": the name of a store may hold no question mark");
    }
    Connection writing = null;
    try {
      writing = connect(file);
      Migrations.run(writing, file);
      return new SqliteStore(file, writing, connect(file));
    } catch (SQLException e) {
      closeQuietly(writing);
      throw fault(file, e);
    } catch (StoreFault e) {
      closeQuietly(writing);
      throw e;
    }
  }

  private static Connection connect(Path file) throws SQLException {
    Properties settings = new Properties();
    settings.setProperty("journal_mode", "WAL");
    settings.setProperty("synchronous", "FULL");
    settings.setProperty("busy_timeout", "5000");
    settings.setProperty("foreign_keys", "true");
    return DriverManager.getConnection("jdbc:sqlite:" + file.toAbsolutePath(), settings);
  }

  private static void closeQuietly(@Nullable Connection connection) {
    try {
      if (connection != null) {
        connection.close();
      }
    } catch (SQLException e) {
      // What went wrong before is on its way and matters more.
    }
  }

  @Override
  public Job add(Content content, Stamp stamp) throws Changed {
    return written(
        () -> {
          try (PreparedStatement insert =
              writing.prepareStatement(
                  "insert into job (brake, opened, closed, state, title, causes, works, version, id)"
                      + " values (?, ?, ?, ?, ?, ?, ?, 1, ?) on conflict (id) do nothing")) {
            int next = bind(insert, content.heading());
            insert.setString(next, content.heading().id());
            if (insert.executeUpdate() == 0) {
              throw new Changed(content.heading().id());
            }
          }
          log(content, 1, stamp);
          return new Job(content, 1);
        });
  }

  @Override
  public Job change(Content content, int seen, Stamp stamp) throws Changed {
    return written(() -> changed(content, seen, stamp));
  }

  private Job changed(Content content, int seen, Stamp stamp) throws SQLException, Changed {
    try (PreparedStatement update =
        writing.prepareStatement(
            "update job set brake = ?, opened = ?, closed = ?, state = ?, title = ?,"
                + " causes = ?, works = ?, version = version + 1"
                + " where id = ? and version = ?")) {
      int next = bind(update, content.heading());
      update.setString(next, content.heading().id());
      update.setInt(next + 1, seen);
      if (update.executeUpdate() == 0) {
        throw new Changed(content.heading().id());
      }
    }
    log(content, seen + 1, stamp);
    return new Job(content, seen + 1);
  }

  private static int bind(PreparedStatement statement, Heading heading) throws SQLException {
    statement.setString(1, heading.brake());
    statement.setString(2, heading.opened().toString());
    statement.setString(3, heading.closed().map(LocalDate::toString).orElse(null));
    statement.setString(4, id(heading.state()));
    statement.setString(5, heading.title());
    statement.setString(6, String.join(" ", heading.causes()));
    statement.setString(7, String.join(" ", heading.works()));
    return 8;
  }

  private static String id(State state) {
    return state.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private void log(Content content, int number, Stamp stamp) throws SQLException {
    try (PreparedStatement insert =
        writing.prepareStatement("insert into change values (?, ?, ?, ?, ?, ?, ?)")) {
      insert.setString(1, content.heading().id());
      insert.setInt(2, number);
      insert.setString(3, stamp.moment().toString());
      insert.setString(4, stamp.author());
      insert.setString(5, stamp.what());
      insert.setString(6, content.caseText());
      insert.setString(7, content.sheet());
      insert.executeUpdate();
    }
  }

  /** Work within a transaction. */
  private interface Work<T> {
    T run() throws SQLException, Changed;
  }

  private <T> T written(Work<T> work) throws Changed {
    synchronized (writing) {
      boolean done = false;
      try {
        execute(writing, "begin immediate");
        T result = work.run();
        execute(writing, "commit");
        done = true;
        return result;
      } catch (SQLException e) {
        throw fault(file, e);
      } finally {
        if (!done) {
          rollback();
        }
      }
    }
  }

  private void rollback() {
    try {
      execute(writing, "rollback");
    } catch (SQLException e) {
      // The engine has rolled back by itself, as it does on a full disk.
    }
  }

  @Override
  public Optional<Job> job(String id) {
    return read(
            "select j.id, brake, opened, closed, state, title, causes, works, version, case_text,"
                + " sheet from job j join change c on c.job = j.id and c.number = j.version"
                + " where j.id = ?",
            SqliteStore::job,
            id)
        .stream()
        .findFirst();
  }

  private static Job job(ResultSet row) throws SQLException {
    return new Job(
        new Content(heading(row), row.getString("case_text"), row.getString("sheet")),
        row.getInt("version"));
  }

  private static Heading heading(ResultSet row) throws SQLException {
    return new Heading(
        row.getString("id"),
        row.getString("brake"),
        LocalDate.parse(row.getString("opened")),
        Optional.ofNullable(row.getString("closed")).map(LocalDate::parse),
        State.valueOf(row.getString("state").toUpperCase(Locale.ROOT).replace('-', '_')),
        row.getString("title"),
        ids(row.getString("causes")),
        ids(row.getString("works")));
  }

  private static List<String> ids(String text) {
    return text.isEmpty() ? List.of() : List.of(text.split(" "));
  }

  @Override
  public List<Change> changes(String id) {
    return changesAfter(id, 0);
  }

  @Override
  public List<Change> changesAfter(String id, int version) {
    return read(
        "select * from change where job = ? and number > ? order by number",
        row ->
            new Change(
                row.getInt("number"),
                stamp(row),
                row.getString("case_text"),
                row.getString("sheet")),
        id,
        version);
  }

  private static Stamp stamp(ResultSet row) throws SQLException {
    return new Stamp(
        Instant.parse(row.getString("moment")), row.getString("author"), row.getString("what"));
  }

  @Override
  public List<Paper> papers(String id) {
    return read(
        "select * from paper where job = ? order by number",
        row ->
            new Paper(
                row.getInt("number"),
                Instant.parse(row.getString("moment")),
                row.getString("author"),
                row.getString("kind"),
                row.getString("content")),
        id);
  }

  @Override
  public void addPaper(String id, Paper paper) throws Changed {
    written(
        () -> {
          try (PreparedStatement insert =
              writing.prepareStatement(
                  "insert into paper values (?, ?, ?, ?, ?, ?) on conflict (job, number)"
                      + " do nothing")) {
            insert.setString(1, id);
            insert.setInt(2, paper.number());
            insert.setString(3, paper.moment().toString());
            insert.setString(4, paper.author());
            insert.setString(5, paper.kind());
            insert.setString(6, paper.content());
            if (insert.executeUpdate() == 0) {
              throw new Changed(id);
            }
          }
          return paper;
        });
  }

  @Override
  public Job addPhoto(Job job, byte[] jpeg, String shows, Stamp stamp) throws Changed {
    // The file first: a line in the history that leads to none would be worse than the reverse.
    String digest = pictures.keep(jpeg);
    return written(
        () -> {
          Job after = changed(job.content(), job.version(), stamp);
          try (PreparedStatement insert =
              writing.prepareStatement(
                  "insert into photo values (?, ?, ?, ?, ?) on conflict (job, digest)"
                      + " do nothing")) {
            insert.setString(1, job.heading().id());
            insert.setInt(2, after.version());
            insert.setString(3, digest);
            insert.setInt(4, jpeg.length);
            insert.setString(5, shows);
            if (insert.executeUpdate() == 0) {
              throw new Changed(job.heading().id());
            }
          }
          return after;
        });
  }

  @Override
  public Job strikePhoto(Job job, int photo, String reason, Stamp stamp) throws Changed {
    return written(
        () -> {
          Job after = changed(job.content(), job.version(), stamp);
          try (PreparedStatement insert =
              writing.prepareStatement("insert into photo_struck values (?, ?, ?, ?)")) {
            insert.setString(1, job.heading().id());
            insert.setInt(2, photo);
            insert.setInt(3, after.version());
            insert.setString(4, reason);
            insert.executeUpdate();
          }
          return after;
        });
  }

  @Override
  public List<Photo> photos(String id) {
    return read(PHOTO + "where p.job = ? order by p.number", SqliteStore::photo, id);
  }

  private static Photo photo(ResultSet row) throws SQLException {
    return new Photo(
        row.getString("job"),
        row.getInt("number"),
        stamp(row),
        row.getString("digest"),
        row.getInt("bytes"),
        row.getString("shows"),
        Optional.ofNullable(row.getString("reason")));
  }

  @Override
  public Map<String, Integer> photosOfBrake(String brake) {
    Map<String, Integer> counts = new LinkedHashMap<>();
    read(
            "select j.id, count(*) as count from job j join photo p on p.job = j.id"
                + " left join photo_struck s on s.job = p.job and s.photo = p.number"
                + " where j.brake = ? and s.photo is null group by j.id",
            row -> Map.entry(row.getString("id"), row.getInt("count")),
            brake)
        .forEach(each -> counts.put(each.getKey(), each.getValue()));
    return counts;
  }

  @Override
  public byte[] picture(Photo photo) {
    return pictures.read(photo.digest());
  }

  @Override
  public List<Heading> ofBrake(String brake, int most) {
    return read(
        HEADING + "where brake = ? order by opened desc, id desc limit ?",
        SqliteStore::heading,
        brake,
        most);
  }

  @Override
  public List<Heading> search(String beginning, int most) {
    // Codes are letters and digits, so that the last letter of all ends what begins like this.
    String end = beginning + "\uffff";
    return read(
        HEADING
            + "where brake collate nocase >= ? and brake collate nocase < ? union "
            + HEADING
            + "where id collate nocase >= ? and id collate nocase < ?"
            + " order by opened desc, id desc limit ?",
        SqliteStore::heading,
        beginning,
        end,
        beginning,
        end,
        most);
  }

  @Override
  public List<Heading> in(State state, int most) {
    return read(
        HEADING + "where state = ? order by opened desc, id desc limit ?",
        SqliteStore::heading,
        id(state),
        most);
  }

  @Override
  public List<Heading> handedBackOn(LocalDate day, int most) {
    return read(
        HEADING + "where closed = ? order by id limit ?",
        SqliteStore::heading,
        day.toString(),
        most);
  }

  @Override
  public void each(Consumer<Job> reader) {
    // A connection of its own: the reader may take its time, and others must not wait for it.
    try (Connection connection = connect(file);
        Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "select j.id, brake, opened, closed, state, title, causes, works, version,"
                    + " case_text, sheet from job j join change c on c.job = j.id"
                    + " and c.number = j.version order by j.id")) {
      while (rows.next()) {
        reader.accept(made(SqliteStore::job, rows));
      }
    } catch (SQLException e) {
      throw fault(file, e);
    }
  }

  @Override
  public Optional<String> setting(String name) {
    return read("select value from setting where name = ?", row -> row.getString(1), name).stream()
        .findFirst();
  }

  @Override
  public void set(String name, String value) {
    try {
      written(
          () -> {
            try (PreparedStatement upsert =
                writing.prepareStatement(
                    "insert into setting values (?, ?)"
                        + " on conflict (name) do update set value = excluded.value")) {
              upsert.setString(1, name);
              upsert.setString(2, value);
              return upsert.executeUpdate();
            }
          });
    } catch (Changed e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void backup(Path target) {
    PhotoFolder copied = PhotoFolder.of(target);
    if (!Files.notExists(target) || copied.exists()) {
      throw new StoreFault(
          target
              + ": is there already, or the photos of it are, and a backup writes over nothing"
              + "\n    Maybe name a new file.");
    }
    try (Connection connection = connect(file)) {
      StoreCopy.write(connection, target);
      copyPictures(connection, copied);
    } catch (SQLException e) {
      throw fault(target, e);
    }
  }

  /** Copies every picture the store tells of; those that came since the copy do no harm. */
  private void copyPictures(Connection connection, PhotoFolder copied) throws SQLException {
    List<String> lost = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("select distinct digest from photo")) {
      while (rows.next()) {
        byte[] picture;
        try {
          picture = pictures.read(rows.getString("digest"));
        } catch (StoreFault e) {
          lost.add(e.getMessage());
          continue;
        }
        copied.keep(picture);
      }
    }
    if (!lost.isEmpty()) {
      throw new StoreFault(
          "all is copied but " + lost.size() + " of its photos:\n" + String.join("\n", lost));
    }
  }

  /** Transactions are begun by hand: the driver would begin the next one with the last's end. */
  static void execute(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  @Override
  public void close() {
    synchronized (writing) {
      closeQuietly(writing);
    }
    synchronized (reading) {
      closeQuietly(reading);
    }
  }

  /** Lets the file grow no further, or as large as it will: how a test fills a disk. */
  void growNoFurther(boolean held) throws SQLException {
    synchronized (writing) {
      try (Statement statement = writing.createStatement()) {
        statement.execute("pragma max_page_count = " + (held ? 1 : 1_000_000_000));
      }
    }
  }

  /** Makes a value of a row. */
  private interface Row<T> {
    T of(ResultSet row) throws SQLException;
  }

  private <T> T made(Row<T> row, ResultSet at) throws SQLException {
    try {
      return row.of(at);
    } catch (RuntimeException e) {
      // A day that is none, a state that is none, nothing at all: no value this program wrote.
      throw new StoreFault(
          file
              + ": holds a row that is damaged ("
              + e.getMessage()
              + ")\n    Maybe go on with the last backup.",
          e);
    }
  }

  private <T> List<T> read(String sql, Row<T> row, Object... values) {
    synchronized (reading) {
      try (PreparedStatement query = reading.prepareStatement(sql)) {
        for (int i = 0; i < values.length; i++) {
          query.setObject(i + 1, values[i]);
        }
        List<T> found = new ArrayList<>();
        try (ResultSet rows = query.executeQuery()) {
          while (rows.next()) {
            found.add(made(row, rows));
          }
        }
        return found;
      } catch (SQLException e) {
        throw fault(file, e);
      }
    }
  }

  private static StoreFault fault(Path file, SQLException e) {
    SQLiteErrorCode code =
        e instanceof SQLiteException sqlite
            ? sqlite.getResultCode()
            : SQLiteErrorCode.UNKNOWN_ERROR;
    String why =
        switch (code) {
          case SQLITE_FULL -> "there is no room left; nothing of this was written";
          case SQLITE_NOTADB, SQLITE_CORRUPT -> "is no store of firmlever, or is damaged";
          case SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_PERM -> "cannot be written to by this user";
          case SQLITE_BUSY, SQLITE_LOCKED -> "is held by another program; try again";
          default -> "cannot be used: " + e.getMessage();
        };
    return new StoreFault(file + ": " + why, e);
  }
}
