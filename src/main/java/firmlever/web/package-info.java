/** A small web server that lets in only what comes from its own pages. Knows nothing of brakes. */
package firmlever.web;
