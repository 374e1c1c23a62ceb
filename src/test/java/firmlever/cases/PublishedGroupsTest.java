package firmlever.cases;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class PublishedGroupsTest {
  private static final Path GROUPS = Path.of("cases", "published", "groups.tsv");
  // Not java.net.URI: an address with a left-out name in it is none.
  private static final Pattern HOST = Pattern.compile("https?://(?:www\\.)?([^/ ]+).*");

  @Test
  @DisplayName("every published case stands in the group of the host that told it")
  void every_published_case_stands_in_the_group_of_its_host() throws Exception {
    List<String> rows = Files.readAllLines(GROUPS);

    assertThat(rows.get(0)).isEqualTo("case\tgroup");
    assertThat(rows.subList(1, rows.size()))
        .containsExactlyInAnyOrderElementsOf(
            CaseFilesTest.cases().stream()
                .filter(file -> file.id().startsWith("published-"))
                .map(file -> file.id() + "\t" + host(file))
                .toList());
  }

  private static String host(CaseFile file) {
    Matcher address = HOST.matcher(file.source());
    assertThat(address.matches()).as(file.id() + " names an address").isTrue();
    return address.group(1).toLowerCase(Locale.ROOT);
  }
}
