/**
 * The interview at the stand, question by question.
 *
 * <p>{@link firmlever.interview.Interview} is pure; {@code JsonEdit} changes one value of a case
 * file and leaves the rest as it is. The interview puts what was heard to the person, asks for the
 * record in words ({@code hearing/Recounting}), then for one look after the other; after a {@code
 * ?} the plan is made anew without that look, or the end says what hangs on it; {@code ?} is noted
 * nowhere and asked again another day; a work or event that was misheard stands under {@code
 * misheard}. {@code DemoInterviewsTest} holds an interview over every demo case, {@code
 * ComplaintsTest} over ten complaints in words.
 */
@NullMarked
package firmlever.interview;

import org.jspecify.annotations.NullMarked;
