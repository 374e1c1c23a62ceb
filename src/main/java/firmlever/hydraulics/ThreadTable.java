package firmlever.hydraulics;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Metric coarse threads of a bicycle brake, ISO 261. */
public final class ThreadTable {
  private ThreadTable() {}

  /**
   * One thread.
   *
   * @param diameterMm nominal diameter, mm
   * @param pitchMm pitch, mm
   */
  public record Thread(double diameterMm, double pitchMm) {
    /** Drill for the nut thread, mm. */
    public double tapDrillMm() {
      return diameterMm - pitchMm;
    }

    /** Pitch diameter d2, mm. */
    public double pitchDiameterMm() {
      return diameterMm - Figures.THREAD_PROFILE.at(0) * pitchMm;
    }

    /** Root diameter of the screw d3, mm. */
    public double rootDiameterMm() {
      return diameterMm - Figures.THREAD_PROFILE.at(1) * pitchMm;
    }
  }

  /** The threads, smallest first. */
  public static List<Thread> coarse() {
    return IntStream.range(0, Figures.THREAD_DIAMETERS.size())
        .mapToObj(i -> new Thread(Figures.THREAD_DIAMETERS.at(i), Figures.THREAD_PITCHES.at(i)))
        .toList();
  }

  /** The coarse thread of a nominal diameter, mm. */
  public static Optional<Thread> coarse(double diameterMm) {
    return coarse().stream().filter(thread -> thread.diameterMm() == diameterMm).findFirst();
  }
}
