/**
 * From a case to its diagnosis: causes, what to do next, whether it may be ridden.
 *
 * <p><b>To be ridden or not.</b> {@code diagnosis/RideJudge}: a finding that forbids it ({@code
 * rules/safety/stop-ride.drl}), a likely cause above the limit of its kind ({@code
 * rules/vocabulary/ride.json}, from a stated loss), or a look not made ({@code
 * rules/safety/not-cleared.drl}, {@code rules/actions/crash.drl}).
 */
@NullMarked
package firmlever.diagnosis;

import org.jspecify.annotations.NullMarked;
