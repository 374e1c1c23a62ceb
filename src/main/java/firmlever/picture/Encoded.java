package firmlever.picture;

/**
 * A picture as a file holds it, with nothing left in it but what its pixels need.
 *
 * @param format the name of its format among Java's readers
 * @param bytes the file without comments, places, cameras, profiles, thumbnails
 * @param turn how it is to be turned to stand upright
 */
record Encoded(String format, byte[] bytes, Turn turn) {
  /**
   * Tells by its first bytes what it is, and takes out what is not needed.
   *
   * @throws Unusable where it is neither JPEG nor PNG, or not whole
   */
  static Encoded of(byte[] file) throws Unusable {
    if (JpegParts.begin(file)) {
      return JpegParts.bare(file);
    }
    if (PngParts.begin(file)) {
      return PngParts.bare(file);
    }
    throw new Unusable(Unusable.Why.NO_PICTURE);
  }
}
