/**
 * What a review of comebacks found, as text, page, tables and JSON. Reads the findings and adds
 * none.
 */
@NullMarked
package firmlever.comeback.report;

import org.jspecify.annotations.NullMarked;
