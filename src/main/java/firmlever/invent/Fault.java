package firmlever.invent;

import java.util.List;

/**
 * A fault of an invented brake. All numbers are invented.
 *
 * @param perYear how often a year it arises in a new brake
 * @param growth by what share of that it grows with each year of age
 * @param felt what the rider reports, with how often
 * @param telling the check that gives it away; looked for only by who diagnoses well
 * @param work that mends it
 * @param mistaken the cause a hasty mechanic takes it for
 */
record Fault(
    String id,
    double perYear,
    double growth,
    List<Shown> felt,
    String telling,
    String work,
    String mistaken) {

  record Shown(String symptom, double share) {}

  private static Fault of(
      String id,
      double perYear,
      double growth,
      String telling,
      String work,
      String mistaken,
      Object... felt) {
    var shown = new java.util.ArrayList<Shown>();
    for (int i = 0; i < felt.length; i += 2) {
      shown.add(new Shown((String) felt[i], (Double) felt[i + 1]));
    }
    return new Fault(id, perYear, growth, List.copyOf(shown), telling, work, mistaken);
  }

  /** Faults that come by themselves. */
  static final List<Fault> ARISING =
      List.of(
          of(
              "air-at-lever",
              0.22,
              0.1,
              "soft-after-tilt",
              "lever-end-bleed",
              "worn-lever-seal",
              "spongy-lever",
              0.8,
              "long-throw",
              0.7,
              "pumps-up",
              0.7),
          of(
              "caliper-port-weep",
              0.05,
              0.2,
              "weep-at-caliper-port",
              "reseal-caliper-port",
              "air-at-lever",
              "spongy-lever",
              0.5,
              "long-throw",
              0.4,
              "weak-braking",
              0.3),
          of(
              "lever-port-weep",
              0.04,
              0.2,
              "weep-at-lever-port",
              "reseal-lever-port",
              "air-at-lever",
              "spongy-lever",
              0.5,
              "long-throw",
              0.5),
          of(
              "caliper-seal-weep",
              0.05,
              0.5,
              "weep-at-caliper-piston",
              "renew-caliper-seals",
              "contaminated-pads",
              "weak-braking",
              0.8,
              "squeal",
              0.7),
          of(
              "worn-lever-seal",
              0.05,
              0.6,
              "lever-sinks",
              "renew-lever-seals",
              "air-at-lever",
              "lever-to-bar",
              0.5,
              "long-throw",
              0.5,
              "pumps-up",
              0.5,
              "wandering-bite",
              0.4),
          of(
              "sticky-piston",
              0.20,
              0.4,
              "uneven-pistons",
              "clean-pistons",
              "caliper-misaligned",
              "drag",
              0.5,
              "rub-in-rhythm",
              0.3,
              "long-throw",
              0.4,
              "squeal",
              0.2),
          of(
              "worn-pads",
              0.35,
              0.1,
              "thin-pads",
              "replace-pads",
              "air-at-lever",
              "long-throw",
              0.6,
              "grinding",
              0.5,
              "weak-braking",
              0.3),
          of(
              "contaminated-pads",
              0.15,
              0.1,
              "fluid-on-pads",
              "replace-pads",
              "unbedded-or-glazed-pads",
              "weak-braking",
              0.85,
              "squeal",
              0.8),
          of(
              "bent-rotor",
              0.15,
              0.1,
              "bent-rotor-seen",
              "true-rotor",
              "caliper-misaligned",
              "rub-in-rhythm",
              0.85,
              "judder",
              0.5),
          of(
              "caliper-misaligned",
              0.15,
              0.0,
              "caliper-off-centre",
              "centre-caliper",
              "sticky-piston",
              "drag",
              0.7,
              "rub-in-rhythm",
              0.4,
              "spongy-lever",
              0.2),
          of(
              "low-fluid",
              0.08,
              0.2,
              "reservoir-low",
              "lever-end-bleed",
              "worn-pads",
              "long-throw",
              0.75,
              "pumps-up",
              0.5,
              "spongy-lever",
              0.3),
          of(
              "aged-fluid",
              0.08,
              0.8,
              "dirty-fluid",
              "fluid-flush",
              "air-at-lever",
              "soft-when-hot",
              0.4,
              "spongy-lever",
              0.3,
              "slow-return",
              0.3),
          of(
              "seized-piston",
              0.04,
              0.6,
              "stuck-piston",
              "replace-caliper",
              "contaminated-pads",
              "weak-braking",
              0.6,
              "long-throw",
              0.4));

  /** Faults that only work brings. */
  static final Fault AIR_LEFT =
      of(
          "air-left-in-line",
          0,
          0,
          "soft-since-work",
          "full-bleed",
          "worn-lever-seal",
          "spongy-lever",
          0.85,
          "long-throw",
          0.7,
          "pumps-up",
          0.7);

  static final Fault NOT_HOME =
      of(
          "pistons-not-home",
          0,
          0,
          "over-extended-piston-seen",
          "push-pistons-home",
          "caliper-misaligned",
          "drag",
          0.85,
          "short-throw",
          0.75);

  static Fault named(String id) {
    return ARISING.stream().filter(f -> f.id.equals(id)).findFirst().orElseThrow();
  }

  /** How often a year it arises at this age in years. */
  double rate(double age) {
    return perYear * (1 + growth * age);
  }
}
