/**
 * From a case to its diagnosis: causes, what to do next, whether it may be ridden.
 *
 * <p><b>To be ridden or not.</b> {@code diagnosis/RideJudge}: a finding that forbids it ({@code
 * rules/safety/stop-ride.drl}), the chance the findings add to a kind of hazard, above its limit
 * (1/{@code harm} in {@code rules/vocabulary/ride.json}), or a look not made ({@code
 * rules/safety/not-cleared.drl}, {@code rules/actions/crash.drl}).
 */
@NullMarked
package firmlever.diagnosis;

import org.jspecify.annotations.NullMarked;
