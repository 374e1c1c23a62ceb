package firmlever.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.UUID;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Copies a store's file while it is in use: for a backup, and before its form is changed. */
final class StoreCopy {
  private StoreCopy() {}

  /** Writes all that a connection sees into a file: whole, or not at all. */
  static void write(Connection connection, Path target) throws SQLException {
    Path beside = target.resolveSibling(".firmlever-" + UUID.randomUUID());
    try {
      // The driver gives back how it went, and throws nothing.
      int code =
          connection
              .unwrap(SQLiteConnection.class)
              .getDatabase()
              .backup("main", beside.toString(), null);
      if (code != SQLiteErrorCode.SQLITE_OK.code) {
        throw new SQLiteException("the copy broke off", SQLiteErrorCode.getErrorCode(code));
      }
      Files.move(beside, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new SQLException(e.getMessage(), e);
    } finally {
      remove(beside);
      remove(beside.resolveSibling(beside.getFileName() + "-journal"));
    }
  }

  private static void remove(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      // It stays beside; what went wrong before is on its way and matters more.
    }
  }
}
