/** The review of comebacks as a job of Apache Spark; leans on the door of {@code cli} alone. */
@NullMarked
package firmlever.cluster;

import org.jspecify.annotations.NullMarked;
