/** A small web server that lets in only what comes from its own pages. Knows nothing of brakes. */
@NullMarked
package firmlever.web;

import org.jspecify.annotations.NullMarked;
