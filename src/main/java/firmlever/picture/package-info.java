/** Pictures as cameras make them in, plain pictures out. Knows nothing of brakes or files. */
package firmlever.picture;
