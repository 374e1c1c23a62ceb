package firmlever.warranty;

import static java.util.Objects.requireNonNull;

import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Gist;
import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonText;
import firmlever.document.Node;
import firmlever.document.Problem;
import firmlever.document.Problems;
import firmlever.document.Shape;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What people decided of one claim, one line of JSON for each decision, the digest of the line
 * before in every line: a line that is changed, left out or moved shows at the next one. A change
 * to the last line, or a chain rewritten as a whole, does not. Lines are only ever added.
 */
public final class History {
  /** The format of each line that is added. */
  public static final String FORMAT = "firmlever-decision/2";

  /**
   * Lines of this format stay as they are: they named faults by id, and facts as the program did.
   */
  private static final String OLD_FORMAT = "firmlever-decision/1";

  private static final String NONE = "0".repeat(64);

  private static final Shape FACTS =
      Shape.list(
          0,
          Shape.object()
              .needs("at", Shape.text(400), "what it is about")
              .needs("is", Shape.text(4000), "what was told of it"));

  private static final Shape LINE =
      Shape.object()
          .needs(
              "format",
              Shape.oneOf("a format", List.of(FORMAT, OLD_FORMAT)),
              "the format of the line")
          .needs("previous", Shape.sha256(), "the SHA-256 of the line before")
          .needs("claim", Shape.text(80), "the number of the claim, or the case")
          .needs("on", Shape.date(), "the day it was signed")
          .needs("by", Shape.code(), "who signed")
          .needs("role", Shape.text(60), "in which role")
          .needs("recommended", Shape.text(1000), "what was recommended")
          .needs("decided", Shape.text(1000), "what was decided")
          .may("reason", Shape.text(1000), "why it is not what was recommended")
          .needs("case", Shape.sha256(), "the SHA-256 of the case file")
          .needs("policy", Shape.sha256(), "the SHA-256 of the policy")
          .needs("rulebase", Shape.text(100), "the digest of the rule base")
          .may("believed", KeptBelief.SHAPE, "what was believed of the brake then")
          .needs("facts", FACTS, "what the case said then");

  private final List<String> lines;
  private final @Nullable Fields last;
  private final Vocabulary vocabulary;
  private final CaseTold told;

  private History(List<String> lines, @Nullable Fields last, Vocabulary vocabulary) {
    this.lines = lines;
    this.last = last;
    this.vocabulary = vocabulary;
    this.told = new CaseTold(vocabulary);
  }

  /**
   * Reads a history and holds every line against the one before.
   *
   * @param text the file; empty for a claim nobody has decided yet
   * @throws BadInput with the first line that does not belong there
   */
  public static History read(String text, String name, Vocabulary vocabulary) throws BadInput {
    List<String> lines = text.lines().toList();
    String previous = NONE;
    Fields last = null;
    for (int i = 0; i < lines.size(); i++) {
      String place = name + ", entry " + (i + 1);
      Node node = DocumentReader.readText(lines.get(i), place);
      Problems problems = new Problems(place);
      LINE.check(node, problems);
      problems.throwIfAny();
      Fields entry = Fields.of(node);
      if (!entry.text("previous").equals(previous)) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    place,
                    "does not follow the entry before: that one was changed, moved or left out",
                    "Maybe take the history from a copy that nobody touched.")));
      }
      previous = Digest.sha256(lines.get(i));
      last = entry;
    }
    return new History(lines, last, vocabulary);
  }

  /** How many decisions there are. */
  public int size() {
    return lines.size();
  }

  /**
   * What somebody decides.
   *
   * @param decided what is decided instead of what is recommended; empty to follow it
   * @param reason why; needed for an override, and for nothing else
   */
  public record Signature(String by, LocalDate on, String decided, String reason) {}

  /**
   * The history with one decision more. The recommendation is kept beside what was decided.
   *
   * @throws IllegalArgumentException saying what is wrong with the signature
   */
  public String with(Dossier d, Signature signature) {
    Policy.Signer signer =
        d.policy().signers().stream()
            .filter(each -> each.code().equals(signature.by()))
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "\"" + signature.by() + "\" is no signer of policy " + d.policy().id()));
    boolean override = !signature.decided().isEmpty();
    require(override || signature.reason().isEmpty(), "a reason is given only with an override");
    require(
        !override || !signature.reason().isBlank(),
        "an override needs a reason: say why it is not what is recommended");
    require(!override || signer.overrides(), signer.code() + " may sign, not override" + whoMay(d));
    require(
        !override || !Award.lacksPayer(signature.decided()),
        "\""
            + signature.decided()
            + "\" does not say who pays: such as \"cover, paid by the shop\" or \"goodwill, 50 %"
            + " paid by the maker\"");
    require(
        !signature.on().isBefore(Submitted.claimDay(d.file())),
        "signed on " + signature.on() + ", before the claim was made");
    if (last != null) {
      LocalDate before = last.date("on").orElseThrow();
      require(
          !signature.on().isBefore(before),
          "signed on " + signature.on() + ", before the last decision (" + before + ")");
      require(
          last.text("claim").equals(claim(d)),
          "the history is of claim " + last.text("claim") + ", not of " + claim(d));
    }
    Map<String, Object> line = new LinkedHashMap<>();
    line.put("format", FORMAT);
    line.put("previous", lines.isEmpty() ? NONE : Digest.sha256(lines.get(lines.size() - 1)));
    line.put("claim", claim(d));
    line.put("on", signature.on().toString());
    line.put("by", signer.code());
    line.put("role", signer.role());
    line.put("recommended", recommended(d, false));
    line.put("decided", override ? signature.decided() : recommended(d, false));
    if (override) {
      line.put("reason", signature.reason());
    }
    line.put("case", d.caseDigest());
    line.put("policy", d.policy().digest());
    line.put("rulebase", d.diagnosis().rulebase());
    line.put("believed", KeptBelief.json(Gist.of(d.diagnosis())));
    List<Object> facts = new ArrayList<>();
    told.facts(d).forEach((at, is) -> facts.add(Map.of("at", at, "is", is)));
    line.put("facts", facts);
    List<String> all = new ArrayList<>(lines);
    // A line end within a JSON text is always spelt out, so these are of the layout only.
    all.add(JsonText.of(line).replaceAll("\n *", ""));
    return String.join("\n", all) + "\n";
  }

  private static String whoMay(Dossier d) {
    String named =
        d.policy().signers().stream()
            .filter(Policy.Signer::overrides)
            .map(each -> each.code() + " (" + each.role() + ")")
            .collect(Collectors.joining(", "));
    return named.isEmpty()
        ? "; by policy " + d.policy().id() + " nobody may"
        : "; " + named + " may";
  }

  private static void require(boolean holds, String message) {
    if (!holds) {
      throw new IllegalArgumentException(message);
    }
  }

  private static String claim(Dossier d) {
    return d.claim().number().isEmpty() ? d.file().id() : d.claim().number();
  }

  /** What is recommended, in one line; in the old format faults stand as ids. */
  private String recommended(Dossier d, boolean old) {
    return d.judged().matters().stream()
        .map(matter -> spoken(matter, old))
        .collect(Collectors.joining("; "));
  }

  private String spoken(Matter matter, boolean old) {
    String lead = matter.decisions().isEmpty() ? "" : matter.decisions().get(0).cause();
    return (lead.isEmpty() ? "" : old ? lead + " " : vocabulary.cause(lead).name() + ": ")
        + matter.result().spoken()
        + ", clause "
        + matter.clause().id();
  }

  private boolean old() {
    return requireNonNull(last).text("format").equals(OLD_FORMAT);
  }

  /** What was signed last, and whether it still is what is recommended; empty for the first. */
  public Optional<Signed> signed(Dossier d) {
    if (last == null) {
      return Optional.empty();
    }
    return Optional.of(
        new Signed(
            last.text("by"),
            last.text("role"),
            last.date("on").orElseThrow(),
            plain(last.text("recommended")),
            last.text("reason").isEmpty() ? plain(last.text("decided")) : last.text("decided"),
            last.text("reason"),
            last.text("case").equals(d.caseDigest())
                && last.text("policy").equals(d.policy().digest())
                && last.text("recommended").equals(recommended(d, old())),
            changesOfCase(d)));
  }

  private String plain(String recommended) {
    return old() ? told.readable(recommended) : recommended;
  }

  /**
   * What differs in the diagnosis since the last decision, beside what {@link #changes} tells of
   * the case; empty for the first, and where the belief of then was not kept.
   */
  public Optional<Difference> difference(Dossier d) {
    return last == null || !last.has("believed")
        ? Optional.empty()
        : Optional.of(
            Difference.between(
                    KeptBelief.read(last.inner("believed")), Gist.of(d.diagnosis()).believed())
                .withoutFindings(d.file().symptoms().keySet()));
  }

  /** What has changed since the last decision, in sentences; none for the first. */
  public List<String> changes(Dossier d) {
    if (last == null) {
      return List.of();
    }
    List<String> changes = new ArrayList<>(changesOfCase(d));
    String recommended = recommended(d, old());
    if (!last.text("recommended").equals(recommended)) {
      changes.add(
          "recommended then: "
              + plain(last.text("recommended"))
              + "; now: "
              + recommended(d, false));
    }
    if (!last.text("decided").equals(recommended)) {
      changes.add(
          "decided then: "
              + (last.text("reason").isEmpty() ? plain(last.text("decided")) : last.text("decided"))
              + ", by "
              + last.text("by")
              + " ("
              + last.text("role")
              + ") on "
              + last.date("on").orElseThrow()
              + (last.text("reason").isEmpty() ? "" : ", because " + last.text("reason")));
    }
    return changes;
  }

  private List<String> changesOfCase(Dossier d) {
    Map<String, String> before = new TreeMap<>();
    Fields entry = requireNonNull(last);
    entry.objects("facts").forEach(fact -> before.put(fact.text("at"), fact.text("is")));
    List<String> changes =
        new ArrayList<>(
            old() ? told.changesOfOldForm(before, d) : CaseTold.changes(before, told.facts(d)));
    if (!entry.text("policy").equals(d.policy().digest())) {
      changes.add("the policy is another one");
    }
    if (!last.text("rulebase").equals(d.diagnosis().rulebase())) {
      changes.add("the rule base is another one");
    }
    return changes;
  }
}
