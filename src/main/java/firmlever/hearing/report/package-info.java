/** What was heard in a complaint, and the words it is heard by, laid out for reading. */
@NullMarked
package firmlever.hearing.report;

import org.jspecify.annotations.NullMarked;
