package firmlever.records;

import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyLong;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The temporary file of a review")
class SpillTest {
  @Test
  @DisplayName("says that the disk is full, and where")
  void saysThatTheDiskIsFull() throws IOException {
    FileChannel full = mock(FileChannel.class);
    when(full.write(any(ByteBuffer.class), anyLong()))
        .thenThrow(new IOException("No space left on device"));
    Spill spill = new Spill(Path.of("/somewhere/x.spill"), full);
    Spill.Raw large = new Spill.Raw(0, 1, "B-1", new byte[100_000]);
    assertThatThrownBy(() -> spill.add(3, large))
        .isInstanceOf(Spill.Broken.class)
        .hasMessageContaining("/somewhere/x.spill", "the disk is full", "TMPDIR");
  }
}
