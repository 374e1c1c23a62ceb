/** Pictures as cameras make them in, plain pictures out. Knows nothing of brakes or files. */
@NullMarked
package firmlever.picture;

import org.jspecify.annotations.NullMarked;
