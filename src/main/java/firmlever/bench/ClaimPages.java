package firmlever.bench;

import firmlever.bench.JobFrames.Notice;
import firmlever.bench.JobFrames.Read;
import firmlever.bench.job.ClaimDesk;
import firmlever.bench.job.Claims;
import firmlever.bench.job.Plain;
import firmlever.bench.job.Sheet;
import firmlever.casefile.CaseFormat;
import firmlever.diagnosis.Diagnosis;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonEdit;
import firmlever.document.Problem;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Photo;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Dossier;
import firmlever.warranty.History;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.Submitted;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.report.DossierReport;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Session;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The desk: what is claimed for a job, what is recommended, and what a person decides. */
final class ClaimPages {
  private static final int FREE_LINES = 2;
  private static final int MOST_LINES = 30;
  private static final String PHOTOS = "photos";
  private static final String ATTACHMENTS = "attachments";

  /** How the form calls a photo, before its digest. */
  private static final String PHOTO = "photo-";

  private static final List<String> TEXTS =
      List.of("number", "claimant", "purchased", "arose", "made");

  private final Shop shop;
  private final Vocabulary vocabulary;
  private final JobFrames frames;
  private final JobPhotos photos;
  private final Claims claims;
  private final DossierReport report;
  private final EffectLines effects;

  ClaimPages(Shop shop, JobFrames frames, JobPhotos photos) {
    this.shop = shop;
    this.vocabulary = shop.reasoning().vocabulary();
    this.frames = frames;
    this.photos = photos;
    this.claims = new Claims(shop.store());
    this.effects = new EffectLines(shop);
    this.report = new DossierReport(vocabulary);
  }

  /** Takes a form of the claim's page; returns the page to go on to. */
  String take(Session session, Request request, Job job) throws BadInput {
    String id = job.heading().id();
    String seen = request.field("paper");
    int paper = seen.matches("[0-9]{1,9}") ? Integer.parseInt(seen) : 0;
    try {
      if (request.field("do").equals("sign")) {
        sign(session, request, job, paper);
      } else {
        claims.handIn(id, paper, claim(session, request, job), session.person(), now());
      }
    } catch (Changed e) {
      throw wrong(id, shop.say("claim.overtaken"));
    }
    return "/jobs/" + id + "/claim";
  }

  private Instant now() {
    return shop.clock().instant();
  }

  private static BadInput wrong(String where, String message) {
    return new BadInput(List.of(Problem.ofFile(where, message, "")));
  }

  // The claim

  /** What was typed, as a claim a case file may hold; papers handed in before stay. */
  private Map<String, Object> claim(Session session, Request request, Job job) throws BadInput {
    Map<String, Object> claim = new LinkedHashMap<>();
    for (String name : TEXTS) {
      put(claim, name, request.field(name));
    }
    put(claim, "holder", request.field("holder"));
    put(claim, "part", request.field("part"));
    List<Object> costs = costs(request);
    if (!costs.isEmpty()) {
      claim.put("costs", costs);
    }
    List<Object> statements = statements(session, request, job);
    if (!statements.isEmpty()) {
      claim.put("statements", statements);
    }
    if (claim.isEmpty()) {
      throw wrong(job.heading().id(), shop.say("claim.empty"));
    }
    List<Object> papers = papers(request, job);
    if (!papers.isEmpty()) {
      claim.put(ATTACHMENTS, papers);
    }
    // All that is wrong is told at once, by the description of the format itself.
    shop.verdicts().read(JsonEdit.set(job.content().caseText(), List.of("claim"), claim));
    return claim;
  }

  /** Papers handed in before stay, but for the photos of the job: those are as ticked now. */
  private List<Object> papers(Request request, Job job) throws BadInput {
    List<Photo> all = shop.store().photos(job.heading().id());
    List<Object> papers = new ArrayList<>();
    if (before(job).get(ATTACHMENTS) instanceof List<?> before) {
      for (Object each : before) {
        if (each instanceof Map<?, ?> paper
            && all.stream().map(Claims::paper).noneMatch(name -> name.equals(paper.get("file")))) {
          papers.add(paper);
        }
      }
    }
    for (Photo photo : all) {
      if (!request.field(PHOTO + photo.digest()).isEmpty()) {
        // In this order at every start: the claim's digest hangs on it.
        Map<String, Object> paper = new LinkedHashMap<>();
        paper.put("file", Claims.paper(photo));
        paper.put("kind", PHOTOS);
        paper.put("sha256", photo.digest());
        papers.add(paper);
      }
    }
    return papers;
  }

  private static void put(Map<String, Object> map, String name, String value) {
    if (!value.isEmpty()) {
      map.put(name, value);
    }
  }

  private static List<Object> costs(Request request) {
    List<Object> costs = new ArrayList<>();
    for (int i = 0; i < MOST_LINES; i++) {
      String[] what = request.field("what-" + i).split(":", 2);
      String price = request.field("price-" + i);
      if (what.length == 2 && !price.isEmpty()) {
        Map<String, Object> cost = new LinkedHashMap<>();
        cost.put(what[0], what[1]);
        String minutes = request.field("minutes-" + i);
        if (minutes.matches("[0-9]{1,4}")) {
          cost.put("minutes", Integer.valueOf(minutes));
        }
        cost.put("price", price.replace(',', '.'));
        costs.add(cost);
      }
    }
    return costs;
  }

  /** What is said to have been handed in; a statement that stands unchanged keeps its signature. */
  private List<Object> statements(Session session, Request request, Job job) throws BadInput {
    List<Object> statements = new ArrayList<>();
    List<Object> before =
        before(job).get("statements") instanceof List<?> list ? List.copyOf(list) : List.of();
    for (Object each : before) {
      if (each instanceof Map<?, ?> old && keeps(request, old)) {
        statements.add(old);
      }
    }
    for (String kind : kinds()) {
      String says = request.field("says-" + kind);
      boolean there =
          statements.stream()
              .anyMatch(each -> each instanceof Map<?, ?> old && kind.equals(old.get("kind")));
      if (!says.isEmpty() && !there) {
        Map<String, Object> statement = new LinkedHashMap<>();
        statement.put("kind", kind);
        statement.put("by", session.person());
        statement.put("signed", shop.jobs().today().toString());
        statement.put("says", says);
        statements.add(statement);
      }
    }
    return statements;
  }

  private static boolean keeps(Request request, Map<?, ?> old) {
    String kind = String.valueOf(old.get("kind"));
    return !kinds().contains(kind) || request.field("says-" + kind).equals(old.get("says"));
  }

  /** What can be told in words; a photo is a paper. */
  private static List<String> kinds() {
    return CaseFormat.EVIDENCE.stream().filter(kind -> !kind.equals(PHOTOS)).toList();
  }

  /** The claim as it stands; empty where there is none. */
  private Map<String, Object> before(Job job) throws BadInput {
    String text = claims.caseText(job);
    return Claims.claimed(text)
        ? Plain.map(Fields.of(DocumentReader.readText(text, "the case")).inner("claim").object())
        : Map.of();
  }

  // The decision

  /** The dossier as it is printed: with what was signed last. */
  private Dossier signedDossier(Job job) throws BadInput, NotFound {
    String id = job.heading().id();
    Dossier dossier = dossier(job);
    return dossier.with(History.read(claims.decisions(id), id, vocabulary).signed(dossier));
  }

  private Dossier dossier(Job job) throws BadInput, NotFound {
    ClaimDesk desk = shop.reasoning().claims().orElseThrow(NotFound::new);
    String text = claims.caseText(job);
    if (!Claims.claimed(text)) {
      throw new NotFound();
    }
    return desk.desk()
        .judge(
            Submitted.read(
                shop.reasoning().reader(),
                text.getBytes(StandardCharsets.UTF_8),
                job.heading().id(),
                claims.papers(job.heading().id(), desk.papers())),
            desk.policy());
  }

  private void sign(Session session, Request request, Job job, int paper) throws BadInput, Changed {
    String id = job.heading().id();
    try {
      History history = History.read(claims.decisions(id), id, vocabulary);
      claims.decide(
          id,
          paper,
          history.with(
              dossier(job),
              new History.Signature(
                  session.person(),
                  shop.jobs().today(),
                  request.field("decided"),
                  request.field("reason"))),
          session.person(),
          now());
    } catch (IllegalArgumentException e) {
      throw wrong(id, String.valueOf(e.getMessage()));
    } catch (NotFound e) {
      throw wrong(id, shop.say("claim.none"));
    }
  }

  Response dossierPage(Read read) throws BadInput, NotFound {
    return Sheets.page(report.html(signedDossier(read.job())));
  }

  Response dossierPdf(Read read) throws BadInput, NotFound {
    return new Response(
        200,
        "application/pdf",
        report.pdf(signedDossier(read.job())),
        Map.of(
            "Cache-Control",
            "no-store",
            "Content-Disposition",
            "attachment; filename=\"" + read.job().heading().id() + ".pdf\""));
  }

  Response page(Session session, Request request, Read read, Notice notice) throws BadInput {
    Job job = read.job();
    String id = job.heading().id();
    Map<String, String> typed = notice.status() == 200 ? stands(job) : typed(request);
    String refusal = "";
    List<View.Matter> matters = List.of();
    List<String> changes = List.of();
    List<String> differs = List.of();
    History history = History.read(claims.decisions(id), id, vocabulary);
    try {
      Dossier dossier = dossier(job);
      matters = dossier.judged().matters().stream().map(this::view).toList();
      changes = history.changes(dossier);
      differs =
          history.difference(dossier).map(each -> effects.of(each, Set.of())).orElse(List.of());
    } catch (NotFound e) {
      refusal =
          shop.reasoning().claims().isEmpty()
              ? shop.say("claim.no-policy")
              : shop.say("claim.none");
    } catch (BadInput e) {
      refusal = String.join(" ", Sentences.of(e));
    }
    return shop.pages()
        .show(
            notice.status(),
            "claim",
            new View.Claim(
                frames.frame(session, read, "claim", notice),
                signs(session),
                shop.reasoning().claims().stream()
                    .flatMap(desk -> desk.policy().signers().stream())
                    .map(Policy.Signer::code)
                    .collect(Collectors.joining(", ")),
                parts(typed.getOrDefault("part", "")),
                Stream.of("", "owner", "hire")
                    .map(
                        holder ->
                            new View.Choice(
                                holder,
                                shop.say("claim.holder." + (holder.isEmpty() ? "open" : holder)),
                                holder.equals(typed.getOrDefault("holder", ""))))
                    .toList(),
                costLines(read, typed),
                kinds().stream().map(kind -> new View.Field(kind, name(kind))).toList(),
                photos.shown(id, "").all().stream()
                    .filter(
                        photo ->
                            photo.struck().isEmpty() || typed.containsKey(PHOTO + photo.digest()))
                    .toList(),
                refusal,
                matters,
                signed(claims.decisions(id)),
                changes,
                differs,
                claims.last(id),
                typed));
  }

  private boolean signs(Session session) {
    return shop.reasoning().claims().stream()
        .flatMap(desk -> desk.policy().signers().stream())
        .anyMatch(signer -> signer.code().equals(session.person()));
  }

  private static String name(String kind) {
    return Missing.valueOf(kind.toUpperCase(Locale.ROOT).replace('-', '_')).spoken();
  }

  private View.Matter view(Matter matter) {
    return new View.Matter(
        matter.result().spoken(),
        matter.decisions().stream()
            .map(decision -> vocabulary.cause(decision.cause()).name())
            .collect(Collectors.joining(", ")),
        matter.clause().id() + ": " + matter.clause().text(),
        matter.why(),
        matter.missing().stream().map(Missing::spoken).toList());
  }

  private List<String> signed(String decisions) throws BadInput {
    List<String> signed = new ArrayList<>();
    for (String line : decisions.lines().toList()) {
      Fields f = Fields.of(DocumentReader.readText(line, "a decision"));
      String day = shop.day(f.date("on").orElseThrow());
      signed.add(
          f.text("reason").isEmpty()
              ? shop.say("claim.signed", day, f.text("by"), f.text("role"), f.text("decided"))
              : shop.say(
                  "claim.signed-otherwise",
                  day,
                  f.text("by"),
                  f.text("role"),
                  f.text("decided"),
                  f.text("recommended"),
                  f.text("reason")));
    }
    return signed;
  }

  private static Map<String, String> typed(Request request) {
    Map<String, String> typed = new LinkedHashMap<>();
    request.form().keySet().forEach(name -> typed.put(name, request.field(name)));
    return typed;
  }

  /** The claim as it stands, by the fields of the form. */
  private Map<String, String> stands(Job job) throws BadInput {
    Map<String, String> fields = new LinkedHashMap<>();
    Map<String, Object> claim = before(job);
    claim.forEach(
        (name, value) -> {
          if (value instanceof String text) {
            fields.put(name, text);
          }
        });
    if (claim.get("statements") instanceof List<?> statements) {
      for (Object each : statements) {
        if (each instanceof Map<?, ?> map) {
          fields.put("says-" + map.get("kind"), String.valueOf(map.get("says")));
        }
      }
    }
    if (claim.get(ATTACHMENTS) instanceof List<?> papers) {
      for (Photo photo : shop.store().photos(job.heading().id())) {
        if (papers.stream()
            .anyMatch(
                each ->
                    each instanceof Map<?, ?> paper
                        && Claims.paper(photo).equals(paper.get("file")))) {
          fields.put(PHOTO + photo.digest(), photo.digest());
        }
      }
    }
    if (claim.get("costs") instanceof List<?> costs) {
      for (int i = 0; i < costs.size(); i++) {
        if (costs.get(i) instanceof Map<?, ?> map) {
          boolean work = map.containsKey("work");
          fields.put("what-" + i, work ? "work:" + map.get("work") : "part:" + map.get("part"));
          fields.put("price-" + i, String.valueOf(map.get("price")));
          if (map.containsKey("minutes")) {
            fields.put("minutes-" + i, String.valueOf(map.get("minutes")));
          }
        }
      }
    }
    return fields;
  }

  private List<View.Choice> parts(String chosen) {
    List<View.Choice> parts = new ArrayList<>();
    parts.add(new View.Choice("", shop.say("claim.part-open"), chosen.isEmpty()));
    vocabulary
        .parts()
        .forEach((id, part) -> parts.add(new View.Choice(id, part.name(), id.equals(chosen))));
    return parts;
  }

  /** A line for each cost; for a new claim, one for each work and part of the job. */
  private List<View.Cost> costLines(Read read, Map<String, String> typed) {
    List<String> whats = new ArrayList<>();
    for (int i = 0; i < MOST_LINES && typed.containsKey("what-" + i); i++) {
      whats.add(typed.get("what-" + i));
    }
    if (whats.isEmpty()) {
      for (Sheet.Done done : read.sheet().done()) {
        whats.add("work:" + done.work());
        done.parts().forEach(part -> whats.add("part:" + part));
      }
      if (whats.isEmpty()) {
        read.file().outcome().stream()
            .flatMap(outcome -> outcome.works().stream())
            .forEach(work -> whats.add("work:" + work));
      }
    }
    whats.removeIf(String::isEmpty);
    for (int i = 0; i < FREE_LINES; i++) {
      whats.add("");
    }
    List<View.Cost> costs = new ArrayList<>();
    for (String what : whats.stream().limit(MOST_LINES).toList()) {
      int number = costs.size();
      costs.add(
          new View.Cost(
              number,
              choices(what),
              typed.getOrDefault("minutes-" + number, ""),
              typed.getOrDefault("price-" + number, "")));
    }
    return costs;
  }

  private List<View.Choice> choices(String chosen) {
    List<View.Choice> all = new ArrayList<>();
    all.add(new View.Choice("", "-", chosen.isEmpty()));
    vocabulary
        .actions()
        .forEach(
            (id, action) -> {
              if (!id.equals(Diagnosis.HAND_BACK)) {
                all.add(new View.Choice("work:" + id, action.name(), chosen.equals("work:" + id)));
              }
            });
    vocabulary
        .parts()
        .forEach(
            (id, part) ->
                all.add(
                    new View.Choice(
                        "part:" + id,
                        shop.say("claim.part-of", part.name()),
                        chosen.equals("part:" + id))));
    return all;
  }
}
