/**
 * The work: its card, and whether the brake goes back after it.
 *
 * <p><b>Job card and acceptance.</b> {@code rules/jobcard/*.drl} speak the language of {@code
 * rulebase/jobcard/Card}. A new action needs at least three steps there. {@code JobCards} checks
 * the holds and reckons the fluid; {@code rules/vocabulary/acceptance.json} serves the card and
 * {@code Acceptor}. {@code Diagnostician.kept} holds back a brake whose complaint is not explained;
 * card and acceptance ask the same.
 */
@NullMarked
package firmlever.jobcard;

import org.jspecify.annotations.NullMarked;
