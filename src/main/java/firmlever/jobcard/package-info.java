/**
 * The work: its card, and whether the brake goes back after it.
 *
 * <p><b>Job card, acceptance, interview.</b> {@code rules/jobcard/*.drl} speak the language of
 * {@code rulebase/Card}. A new action needs at least three steps there. {@code JobCards} checks the
 * holds and reckons the fluid; {@code rules/vocabulary/acceptance.json} serves the card and {@code
 * Acceptor}. {@code interview/Interview} is pure; {@code document/JsonEdit} changes one value of a
 * case file and leaves the rest as it is. It puts what was heard to the person, asks for the record
 * in words ({@code hearing/Recounting}), then for one look after the other; after a {@code ?} the
 * plan is made anew without that look, or the end says what hangs on it; {@code ?} is noted nowhere
 * and asked again another day; a work or event that was misheard stands under {@code misheard}.
 * {@code DemoInterviewsTest} holds an interview over every demo case, {@code ComplaintsTest} over
 * ten complaints in words. {@code Diagnostician.kept} holds back a brake whose complaint is not
 * explained; card and acceptance ask the same.
 */
package firmlever.jobcard;
