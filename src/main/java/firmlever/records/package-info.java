/** Reading of batches: records of many files, one brake after the other, and what is rejected. */
@NullMarked
package firmlever.records;

import org.jspecify.annotations.NullMarked;
