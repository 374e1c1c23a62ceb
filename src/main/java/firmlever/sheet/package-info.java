/** How anything is laid out, whatever it says: lines, HTML, PDF, pictures, rows and JSON. */
@NullMarked
package firmlever.sheet;

import org.jspecify.annotations.NullMarked;
