package firmlever.picture;

/**
 * A picture as a file holds it, with nothing left in it but what its pixels need.
 *
 * @param format the name of its format among Java's readers
 * @param bytes the file without comments, places, cameras, profiles, thumbnails
 * @param turn how it is to be turned to stand upright
 */
record Encoded(String format, byte[] bytes, Turn turn) {}
