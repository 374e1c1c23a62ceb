/**
 * What a diagnosis says, as text, first screen, curve and JSON. Reads the one record and adds
 * nothing to it.
 */
@NullMarked
package firmlever.diagnosis.report;

import org.jspecify.annotations.NullMarked;
