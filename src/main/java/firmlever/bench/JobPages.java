package firmlever.bench;

import firmlever.bench.JobFrames.Notice;
import firmlever.bench.JobFrames.Read;
import firmlever.bench.job.CaseEdits;
import firmlever.bench.job.Jobs;
import firmlever.bench.job.Place;
import firmlever.bench.job.Sheet;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.hearing.Guesses;
import firmlever.hearing.Heard;
import firmlever.hearing.Recounting;
import firmlever.hearing.language.Certainty;
import firmlever.interview.NewCase;
import firmlever.store.JobStore.Change;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Symptom;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Session;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

/** The pages of one job up to the work: what was heard, the places, why, the log. */
final class JobPages {
  private static final int CAUSES_WITH_BARS = 3;
  private static final double WORTH_BARS = 0.02;
  private static final int OTHERS = 6;

  private final Shop shop;
  private final Vocabulary vocabulary;
  private final JobFrames frames;
  private final ReadingFields readings;
  private final WorkPages work;
  private final ClaimPages claims;
  private final JobPhotos photos;
  private final CaseEdits edits;
  private final NewCase newCase;
  private final List<Place> places = Place.all();
  private final Guesses guesses = new Guesses();

  JobPages(Shop shop) {
    this.shop = shop;
    this.vocabulary = shop.reasoning().vocabulary();
    this.frames = new JobFrames(shop);
    this.readings = new ReadingFields(shop);
    this.work = new WorkPages(shop, frames, readings);
    this.photos = new JobPhotos(shop, frames);
    this.claims = new ClaimPages(shop, frames, photos);
    this.edits = new CaseEdits(vocabulary);
    this.newCase = new NewCase(vocabulary);
  }

  Response answer(Session session, Request request) throws BadInput, NotFound {
    String id = request.segment(1);
    Job job = shop.store().job(id).orElseThrow(NotFound::new);
    String page = request.segment(2);
    if (!request.post()) {
      if (page.equals("photos") && !request.segment(3).isEmpty()) {
        return photos.picture(id, request.segment(3));
      }
      return shown(session, request, frames.read(job), page, Notice.NONE);
    }
    try {
      if (page.equals("claim")) {
        return Response.to(claims.take(session, request, job));
      }
      if (page.equals("photos")) {
        Optional<String> amiss = photos.take(session, request);
        return amiss.isEmpty()
            ? Response.to("/jobs/" + id + "#photos")
            : shown(session, request, frames.read(job), page, Notice.of(amiss.get()));
      }
      return Response.to(
          page.equals("work") || page.equals("acceptance")
              ? work.take(session, request, frames.read(job))
              : take(session, request, frames.read(job), page));
    } catch (BadInput e) {
      Read now = frames.read(shop.store().job(id).orElseThrow(NotFound::new));
      return shown(session, request, now, page, Notice.of(e));
    } catch (Jobs.Overtaken e) {
      Read now = frames.read(shop.store().job(id).orElseThrow(NotFound::new));
      return shown(session, request, now, page, frames.overtaken(request, e.since()));
    }
  }

  private Response shown(Session session, Request request, Read read, String page, Notice notice)
      throws BadInput, NotFound {
    return switch (page) {
      case "" -> overview(session, request, read, notice);
      case "photos" -> overview(session, request, read, notice);
      case "places" -> place(session, request, read, notice);
      case "why" -> why(session, read);
      case "work" -> work.workPage(session, request, read, notice);
      case "acceptance" -> work.acceptancePage(session, request, read, notice);
      case "log" -> log(session, read);
      case "card" -> work.paper(session, request, read);
      case "hand-back" -> work.handBackPage(session, request, read);
      case "claim" -> claims.page(session, request, read, notice);
      case "dossier" -> claims.dossierPage(read);
      case "dossier.pdf" -> claims.dossierPdf(read);
      case "case.json" ->
          new Response(
              200,
              "application/json; charset=utf-8",
              read.job().content().caseText().getBytes(StandardCharsets.UTF_8),
              Map.of(
                  "Cache-Control",
                  "no-store",
                  "Content-Disposition",
                  "attachment; filename=\"" + read.job().heading().id() + ".json\""));
      case "diagnosis.json" -> Response.json(shop.verdicts().json(read.job().content().caseText()));
      default -> throw new NotFound();
    };
  }

  /** Takes a form; returns the page to go on to. */
  private String take(Session session, Request request, Read read, String page)
      throws BadInput, NotFound, Jobs.Overtaken {
    String here = "/jobs/" + read.job().heading().id();
    String answer = request.field("answer");
    return switch (page) {
      case "" -> {
        if (!request.field("heard").isEmpty()) {
          takeHeard(session, request, read);
        } else if (!request.field("record").isEmpty()) {
          takeRecord(session, request, read);
        } else if (!request.field("wait").isEmpty()) {
          takeReason(session, request, State.WAITING, request.field("wait"));
        } else if (!request.field("resume").isEmpty()) {
          takeReason(session, request, State.OPEN, "");
        }
        yield here;
      }
      case "places" -> {
        Place place = placeOf(request.segment(3));
        if (answer.isEmpty()) {
          takeReadings(session, request, place);
          yield here + "/places/" + place.id() + "#readings";
        }
        String symptom = takeFinding(session, request, answer);
        yield here + "/places/" + place.id() + "#s-" + symptom;
      }
      default -> throw new NotFound();
    };
  }

  private void takeReason(Session session, Request request, State state, String reason)
      throws BadInput, Jobs.Overtaken {
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            state == State.OPEN ? "taken up again" : "waits: " + reason,
            job ->
                Jobs.with(
                    job,
                    state,
                    job.content().caseText(),
                    Sheet.read(job.content().sheet()).withReason(reason)));
  }

  // What was heard

  /** Something heard that is neither confirmed nor denied yet. */
  private record Open(String item, String words, String says, String means) {}

  private List<Open> open(Read read) throws BadInput {
    List<Open> open = new ArrayList<>();
    Optional<Heard> heard = read.judged().heeded().heard();
    if (heard.isEmpty()) {
      return open;
    }
    Map<String, String> opposites = vocabulary.opposites();
    for (Heard.Finding each : heard.get().findings()) {
      String opposite = opposites.get(each.symptom());
      String symptom = opposite == null ? each.symptom() : opposite;
      boolean there = (each.certainty() != Certainty.ABSENT) == (opposite == null);
      if (!read.file().symptoms().containsKey(symptom)) {
        Symptom known = vocabulary.symptom(symptom);
        open.add(
            new Open(
                "symptom=" + symptom + "=" + (there ? "present" : "absent"),
                each.words(),
                known.said(there),
                known.definition()));
      }
    }
    Set<String> recorded = new LinkedHashSet<>(read.file().misheard());
    read.file().history().forEach(entry -> recorded.add(entry.work() + entry.event()));
    for (Heard.Told told : heard.get().history()) {
      if (recorded.add(told.id())) {
        open.add(
            new Open(
                "deed=" + told.id(), told.words(), vocabulary.name(told.id()) + when(told), ""));
      }
    }
    return open;
  }

  /** What may have been meant by words nobody understood; only what is tapped is noted. */
  private List<View.Unheard> guessed(Read read) throws BadInput {
    Optional<Heard> heard = read.judged().heeded().heard();
    Set<String> known = read.file().symptoms().keySet();
    return heard.stream()
        .flatMap(
            h ->
                guesses
                    .of(h, id -> vocabulary.symptoms().containsKey(id) && !known.contains(id))
                    .stream())
        .map(
            guess ->
                new View.Unheard(
                    "\"" + guess.words() + "\"",
                    guess.ids().stream().map(vocabulary.symptoms()::get).map(this::guess).toList()))
        .toList();
  }

  private View.Heard guess(Symptom symptom) {
    return new View.Heard(
        "symptom=" + symptom.id() + "=present", symptom.name(), symptom.definition());
  }

  private static String when(Heard.Told told) {
    return told.daysAgo().isPresent() ? ", " + told.daysAgo().getAsInt() + " days ago" : "";
  }

  private void takeHeard(Session session, Request request, Read read)
      throws BadInput, Jobs.Overtaken {
    String[] item = request.field("heard").split("=");
    boolean so = request.field("so").equals("yes");
    if (item.length < 2) {
      return;
    }
    if (item[0].equals("symptom") && vocabulary.symptoms().containsKey(item[1])) {
      boolean there = item.length > 2 && item[2].equals("present") == so;
      shop.jobs()
          .change(
              request.segment(1),
              JobFrames.seen(request),
              session.person(),
              "heard: " + vocabulary.symptom(item[1]).said(there),
              job ->
                  Jobs.withCase(
                      job,
                      edits.found(
                          job.content().caseText(),
                          item[1],
                          there ? Presence.PRESENT : Presence.ABSENT)));
      return;
    }
    Optional<Heard.Told> told =
        read.judged().heeded().heard().stream()
            .flatMap(heard -> heard.history().stream())
            .filter(each -> each.id().equals(item[1]))
            .findFirst();
    if (told.isPresent()) {
      Map<String, Object> entry =
          new LinkedHashMap<>(Recounting.entry(told.get(), read.file().opened()));
      entry.put("note", "heard: " + told.get().words());
      shop.jobs()
          .change(
              request.segment(1),
              JobFrames.seen(request),
              session.person(),
              (so ? "told: " : "misheard: ") + vocabulary.name(item[1]),
              job -> {
                String text = job.content().caseText();
                boolean there = names(text, item[1]);
                return there
                    ? job.content()
                    : Jobs.withCase(
                        job, so ? CaseEdits.told(text, entry) : CaseEdits.misheard(text, item[1]));
              });
    }
  }

  /** Whether a record or the list of what was misheard names that work or event already. */
  private static boolean names(String text, String id) throws BadInput {
    Fields f = Fields.of(DocumentReader.readText(text, "the case"));
    return f.texts("misheard").contains(id)
        || f.objects("history").stream()
            .anyMatch(entry -> entry.text("work").equals(id) || entry.text("event").equals(id));
  }

  private void takeRecord(Session session, Request request, Read read)
      throws BadInput, Jobs.Overtaken {
    List<Map<String, Object>> entries = newCase.done(request.field("record"), read.file().opened());
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            "record: " + request.field("record"),
            job -> {
              String text = job.content().caseText();
              for (Map<String, Object> entry : entries) {
                text = CaseEdits.told(text, entry);
              }
              return Jobs.withCase(job, text);
            });
  }

  private Response overview(Session session, Request request, Read read, Notice notice)
      throws BadInput {
    CaseFile file = read.file();
    Optional<Heard> heard = read.judged().heeded().heard();
    List<View.Heard> open =
        read.closed()
            ? List.of()
            : open(read).stream()
                .map(
                    each ->
                        new View.Heard(
                            each.item(), "\"" + each.words() + "\": " + each.says(), each.means()))
                .toList();
    return shop.pages()
        .show(
            notice.status(),
            "overview",
            new View.Overview(
                frames.frame(session, read, "job", notice),
                file.complaint(),
                shop.say("job.opened", shop.day(file.opened())),
                open,
                read.closed() ? List.of() : guessed(read),
                heard
                    .map(h -> String.join(", ", h.unheard().stream().map(String::strip).toList()))
                    .orElse(""),
                heard.filter(h -> h.findings().isEmpty() && h.history().isEmpty()).isPresent(),
                record(file),
                notice.status() == 400 ? request.field("record") : "",
                read.closed()
                    ? Optional.empty()
                    : read.judged().diagnosis().map(d -> next(read, d)),
                placeRows(read),
                photos.shown(read.job().heading().id(), request.field("shows"))));
  }

  private List<String> record(CaseFile file) {
    return file.history().stream()
        .sorted(
            (a, b) ->
                Integer.compare(
                    a.daysAgo().orElse(Integer.MAX_VALUE), b.daysAgo().orElse(Integer.MAX_VALUE)))
        .map(entry -> spoken(entry, file))
        .toList();
  }

  private String spoken(Entry entry, CaseFile file) {
    List<String> words = new ArrayList<>();
    entry.daysAgo().ifPresent(days -> words.add(shop.day(file.opened().minusDays(days))));
    words.add(vocabulary.name(entry.work() + entry.event()));
    if (!entry.fluid().id().equals("unknown")) {
      words.add("with " + Fluids.spoken(entry.fluid().id()));
    }
    if (!entry.by().isEmpty()) {
      words.add(shop.say("work.by", entry.by()));
    }
    if (!entry.outcome().equals("unknown")) {
      words.add(vocabulary.outcome(entry.outcome()).name());
    }
    return String.join(", ", words);
  }

  private View.Next next(Read read, Diagnosis d) {
    String here = "/jobs/" + read.job().heading().id();
    Optional<Step> first = d.firstStep();
    if (first.isEmpty()) {
      return new View.Next(shop.say("job.next-none"), "", "", "", "");
    }
    Step step = first.get();
    String minutes =
        shop.say("job.next-minutes", String.format(Locale.ROOT, "%.0f", step.minutes()));
    if (step.id().equals(Diagnosis.HAND_BACK)) {
      return new View.Next(
          shop.say("job.next-hand-back"),
          minutes,
          step.why(),
          here + "/acceptance",
          shop.say("work.to-acceptance"));
    }
    if (step.kind() == StepKind.CHECK) {
      return new View.Next(
          vocabulary.lookFor(step.id(), step.looks().size() > 1),
          minutes,
          step.why(),
          placeWith(step.id())
              .map(place -> here + "/places/" + place.id() + "#s-" + step.id())
              .orElse(here),
          shop.say("job.next-look"));
    }
    return new View.Next(
        vocabulary.name(step.id()),
        minutes,
        step.why(),
        here + "/work?offer=" + step.id(),
        shop.say("job.next-work"));
  }

  private Optional<Place> placeWith(String symptom) {
    return places.stream().filter(place -> place.symptoms().contains(symptom)).findFirst();
  }

  private Set<String> sought(Read read) {
    return read.judged().diagnosis().flatMap(Diagnosis::firstStep).stream()
        .filter(step -> step.kind() == StepKind.CHECK && !read.closed())
        .flatMap(step -> step.looks().stream())
        .collect(Collectors.toSet());
  }

  private List<View.PlaceRow> placeRows(Read read) {
    Set<String> sought = sought(read);
    return places.stream().map(place -> placeRow(read, place, sought)).toList();
  }

  private View.PlaceRow placeRow(Read read, Place place, Set<String> sought) {
    Map<String, Presence> found = read.file().symptoms();
    int looked =
        (int)
            place.symptoms().stream()
                .filter(id -> found.getOrDefault(id, Presence.NOT_CHECKED) != Presence.NOT_CHECKED)
                .count();
    int there =
        (int) place.symptoms().stream().filter(id -> found.get(id) == Presence.PRESENT).count();
    return new View.PlaceRow(
        place.id(),
        shop.say("place." + place.id()),
        looked,
        place.symptoms().size(),
        there,
        place.symptoms().stream().anyMatch(sought::contains));
  }

  // One place

  private Place placeOf(String id) throws NotFound {
    return places.stream()
        .filter(place -> place.id().equals(id))
        .findFirst()
        .orElseThrow(NotFound::new);
  }

  private Response place(Session session, Request request, Read read, Notice notice)
      throws NotFound {
    Place place = placeOf(request.segment(3));
    Set<String> sought = sought(read);
    Map<String, List<View.Item>> byLook = new LinkedHashMap<>();
    for (String id : place.symptoms()) {
      Symptom symptom = vocabulary.symptom(id);
      byLook
          .computeIfAbsent(symptom.look(), look -> new ArrayList<>())
          .add(item(read, symptom, sought.contains(id)));
    }
    List<View.Look> looks = new ArrayList<>();
    byLook.forEach(
        (look, items) ->
            looks.add(
                look.isEmpty()
                    ? new View.Look("", "", items)
                    : new View.Look(
                        vocabulary.look(look).name(), vocabulary.look(look).check(), items)));
    int following = (places.indexOf(place) + 1) % places.size();
    boolean typedAmiss = notice.status() == 400;
    return shop.pages()
        .show(
            notice.status(),
            "place",
            new View.Place(
                frames.frame(session, read, "places", notice),
                place.id(),
                shop.say("place." + place.id()),
                looks,
                readings(read.job().content().caseText(), place.readings(), request, typedAmiss),
                hint(place),
                placeRow(read, places.get(following), sought),
                placeRows(read)));
  }

  private String hint(Place place) {
    boolean leaks =
        place.symptoms().stream()
            .anyMatch(
                id ->
                    vocabulary.symptom(id).look().equals(Vocabulary.LEAK_TRACING)
                        && vocabulary.symptom(id).height() > 0);
    return leaks
        ? shop.say("place.highest")
        : place.id().equals("ride") ? shop.say("place.ride-first") : "";
  }

  private View.Item item(Read read, Symptom symptom, boolean next) {
    Presence coded = read.file().symptoms().getOrDefault(symptom.id(), Presence.NOT_CHECKED);
    Presence heeded =
        read.judged().heeded().file().symptoms().getOrDefault(symptom.id(), Presence.NOT_CHECKED);
    boolean onlyTold =
        read.judged().heeded().file().onlyTold().contains(symptom.id())
            && heeded == Presence.PRESENT;
    String answer =
        read.file().onlyTold().contains(symptom.id())
            ? ""
            : switch (coded) {
              case PRESENT -> "present";
              case ABSENT -> "absent";
              case NOT_CHECKED -> "";
            };
    return new View.Item(
        symptom.id(),
        symptom.name(),
        symptom.definition()
            + (symptom.look().isEmpty() && !symptom.check().isEmpty() ? " " + symptom.check() : ""),
        answer,
        onlyTold,
        next);
  }

  /** The fields for readings, with what stands in the case, or with what was typed amiss. */
  private List<View.Reading> readings(
      String text, List<String> names, Request request, boolean typedAmiss) {
    if (!typedAmiss) {
      return readings.of(names, ReadingFields.inCase(text, names));
    }
    Map<String, String> typed = new LinkedHashMap<>();
    request.form().keySet().forEach(name -> typed.put(name, request.field(name)));
    return readings.of(names, typed);
  }

  private String takeFinding(Session session, Request request, String answer)
      throws BadInput, Jobs.Overtaken, NotFound {
    String[] said = answer.split("=", 2);
    Symptom symptom = vocabulary.symptoms().get(said[0]);
    if (symptom == null || said.length < 2) {
      throw new NotFound();
    }
    Presence presence =
        switch (said[1]) {
          case "present" -> Presence.PRESENT;
          case "absent" -> Presence.ABSENT;
          default -> Presence.NOT_CHECKED;
        };
    String what =
        symptom.name()
            + ": "
            + switch (presence) {
              case PRESENT -> shop.say("place.there");
              case ABSENT -> shop.say("place.not-there");
              case NOT_CHECKED -> shop.say("place.not-looked");
            };
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            what,
            job ->
                Jobs.withCase(job, edits.found(job.content().caseText(), symptom.id(), presence)));
    return symptom.id();
  }

  private void takeReadings(Session session, Request request, Place place)
      throws BadInput, Jobs.Overtaken {
    Map<String, String> typed = new LinkedHashMap<>();
    for (String name : place.readings()) {
      typed.put(name, request.field(name));
    }
    typed.put("throw-firm-force", request.field("throw-firm-force"));
    String what =
        "readings: "
            + typed.entrySet().stream()
                .filter(each -> !each.getValue().isEmpty())
                .map(each -> shop.say("reading." + each.getKey()) + " " + each.getValue())
                .collect(Collectors.joining("; "));
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            what,
            job -> Jobs.withCase(job, edits.measured(job.content().caseText(), typed)));
  }

  // Why

  private Response why(Session session, Read read) {
    Optional<Diagnosis> d = read.judged().diagnosis();
    List<CauseBelief> shown =
        d.stream()
            .flatMap(each -> each.causes().stream())
            .limit(CAUSES_WITH_BARS)
            .filter(cause -> cause.probability() >= WORTH_BARS)
            .toList();
    double most = shown.stream().flatMapToDouble(JobPages::sizes).max().orElse(1);
    return shop.pages()
        .show(
            200,
            "why",
            new View.Why(
                frames.frame(session, read, "why", Notice.NONE),
                shown.stream().map(cause -> cause(cause, most)).toList(),
                d.stream()
                    .flatMap(each -> each.causes().stream())
                    .skip(shown.size())
                    .limit(OTHERS)
                    .map(cause -> vocabulary.name(cause.id()) + ", " + chance(cause.probability()))
                    .toList(),
                d.map(each -> shop.say("why.no-fault", chance(each.noFaultFound()))).orElse("")));
  }

  private static DoubleStream sizes(CauseBelief cause) {
    return DoubleStream.concat(
        DoubleStream.of(Math.abs(cause.prior()), Math.abs(cause.logOdds())),
        Stream.concat(cause.history().stream(), cause.symptoms().stream())
            .mapToDouble(weight -> Math.abs(weight.weight())));
  }

  private String chance(double probability) {
    if (probability < Diagnosis.LISTED) {
      return shop.say("why.hardly");
    }
    return shop.say(
        "why.chance",
        probability >= 0.1
            ? String.format(Locale.ROOT, "%.0f", 100 * probability)
            : String.format(Locale.ROOT, "%.1f", 100 * probability));
  }

  private View.Cause cause(CauseBelief cause, double most) {
    List<View.Bar> bars = new ArrayList<>();
    bars.add(bar(shop.say("why.prior"), cause.prior(), "", most));
    cause.history().forEach(weight -> bars.add(bar(weight, weight.why(), most)));
    cause
        .symptoms()
        .forEach(
            weight ->
                bars.add(
                    bar(
                        weight,
                        (weight.hinted() ? "perhaps " : "")
                            + vocabulary.symptom(weight.symptom()).said(weight.present())
                            + (weight.why().isEmpty() ? "" : ": " + weight.why()),
                        most)));
    return new View.Cause(
        cause.id(),
        vocabulary.name(cause.id()),
        chance(cause.probability()),
        vocabulary.cause(cause.id()).definition(),
        bars,
        bar(shop.say("why.sum"), cause.logOdds(), "", most));
  }

  private View.Bar bar(Weight weight, String name, double most) {
    return bar(
        name,
        weight.weight(),
        weight.source().isEmpty() ? "" : shop.say("why.source", weight.source()),
        most);
  }

  private static View.Bar bar(String name, double weight, String detail, double most) {
    double width = Math.round(1000 * Math.abs(weight) / most) / 10.0;
    return new View.Bar(
        name,
        String.format(Locale.ROOT, "%+.1f", weight),
        detail,
        weight < 0 ? 100 - width : 100,
        width,
        weight >= 0);
  }

  // The log

  private Response log(Session session, Read read) {
    List<View.Entry> entries = new ArrayList<>();
    Instant before = Instant.MIN;
    for (Change change : shop.store().changes(read.job().heading().id())) {
      entries.add(
          0,
          new View.Entry(
              change.number(),
              frames.time(change.stamp()),
              change.stamp().author(),
              change.stamp().what(),
              change.stamp().moment().isBefore(before)));
      before = change.stamp().moment();
    }
    return shop.pages()
        .show(200, "log", new View.Log(frames.frame(session, read, "log", Notice.NONE), entries));
  }
}
