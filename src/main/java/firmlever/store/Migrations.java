package firmlever.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Locale;

/**
 * Brings a store's file to the form this program knows: numbered files of SQL, each in a
 * transaction of its own, and the number reached kept in the file. A file that is to be changed is
 * copied before.
 */
final class Migrations {
  private Migrations() {}

  /** The number of the last file of SQL. */
  static final int NEWEST = 4;

  static void run(Connection connection, Path file) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      int reached = reached(statement);
      if (reached > NEWEST) {
        throw new StoreFault(
            file
                + ": was written by a newer firmlever (form "
                + reached
                + "; this one knows "
                + NEWEST
                + ")\n    Maybe use that version.");
      }
      if (reached > 0 && reached < NEWEST) {
        StoreCopy.write(connection, Path.of(file + ".form-" + reached));
      }
      for (int number = reached + 1; number <= NEWEST; number++) {
        statement.execute("begin immediate");
        // Another process may be at the same: only one of them finds the number before.
        if (reached(statement) == number - 1) {
          // The driver runs all statements of one text, those within triggers included.
          statement.executeUpdate(sql(number));
          statement.execute("pragma user_version = " + number);
        }
        statement.execute("commit");
      }
    }
  }

  private static int reached(Statement statement) throws SQLException {
    try (var row = statement.executeQuery("pragma user_version")) {
      row.next();
      return row.getInt(1);
    }
  }

  static String sql(int number) {
    String name = String.format(Locale.ROOT, "%03d.sql", number);
    try (InputStream in = Migrations.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
