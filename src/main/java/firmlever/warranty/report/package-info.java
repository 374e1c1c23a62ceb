/**
 * A decided claim on paper: dossier, letter, summary and the policy itself, as text, pages and
 * JSON.
 */
@NullMarked
package firmlever.warranty.report;

import org.jspecify.annotations.NullMarked;
