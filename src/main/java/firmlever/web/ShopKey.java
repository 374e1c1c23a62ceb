package firmlever.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Locale;

/**
 * The key of a shop. It has 100 random bits, so that a plain digest of it can be kept: nobody can
 * try them all, which is what slow digests are for where people choose the key.
 */
public final class ShopKey {
  private ShopKey() {}

  /** Letters and digits nobody takes for one another (Crockford's base 32). */
  private static final String SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

  private static final int LENGTH = 20;
  private static final int GROUP = 5;

  /** A new key, in groups to be typed. */
  public static String make() {
    SecureRandom random = new SecureRandom();
    StringBuilder key = new StringBuilder();
    for (int i = 0; i < LENGTH; i++) {
      key.append(i > 0 && i % GROUP == 0 ? "-" : "").append(SIGNS.charAt(random.nextInt(32)));
    }
    return key.toString();
  }

  /** The digest that is kept. */
  public static String digest(String key) {
    String plain = key.toUpperCase(Locale.ROOT).replaceAll("[^0-9A-Z]", "");
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(sha.digest(plain.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Whether a key has that digest; takes as long whatever differs. */
  public static boolean fits(String key, String digest) {
    return MessageDigest.isEqual(
        digest(key).getBytes(StandardCharsets.UTF_8), digest.getBytes(StandardCharsets.UTF_8));
  }
}
