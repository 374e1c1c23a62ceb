package firmlever.records.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Days that are believed")
class PlausibleDaysTest {
  private static PlausibleDays.Range range(int usual, String... strays) {
    PlausibleDays days = new PlausibleDays();
    for (int i = 0; i < usual; i++) {
      days.add(LocalDate.of(2025, 3, 1).plusDays(3L * i));
    }
    for (String stray : strays) {
      days.add(LocalDate.parse(stray));
    }
    return days.range();
  }

  @Test
  @DisplayName("leave out a mistyped year on either side")
  void leaveOutAMistypedYear() {
    PlausibleDays.Range range = range(40, "2052-04-01", "1925-04-01");
    assertThat(range.first()).isEqualTo("2025-03-01");
    assertThat(range.last()).isEqualTo("2025-06-26");
    assertThat(range.contains(LocalDate.of(2052, 4, 1))).isFalse();
  }

  @Test
  @DisplayName("stay where they are not far, not few, or where there is little to judge by")
  void stayWhereTheyMayBeTrue() {
    assertThat(range(40, "2025-12-30").last()).isEqualTo("2025-12-30");
    assertThat(range(40, "2027-12-30", "2027-12-30", "2027-12-31").last()).isEqualTo("2027-12-31");
    assertThat(range(4, "2052-04-01").last()).isEqualTo("2052-04-01");
  }
}
