package firmlever.bench;

import static java.util.Objects.requireNonNull;

import firmlever.belief.TooManySymptoms;
import firmlever.bench.JobFrames.Notice;
import firmlever.bench.JobFrames.Read;
import firmlever.bench.job.AfterWork;
import firmlever.bench.job.CaseEdits;
import firmlever.bench.job.Jobs;
import firmlever.bench.job.Place;
import firmlever.bench.job.Sheet;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.document.BadInput;
import firmlever.document.JsonEdit;
import firmlever.document.Measures;
import firmlever.document.Problem;
import firmlever.jobcard.JobCard;
import firmlever.jobcard.JobCardHtml;
import firmlever.jobcard.JobCards;
import firmlever.jobcard.Verdict;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The pages of one job from the work on: the card, the acceptance, hand back or hold. */
final class WorkPages {
  private static final Set<String> FILLING = Set.of("bleed", "fluid-level");
  private static final int OFFERED = 5;
  private static final int CAUSES = 6;
  private static final double WORTH_ASKING = 0.02;
  private static final int LONGEST_REASON = 500;

  private static final List<String> MEASURED =
      List.of("throw-light", "throw-firm", "throw-after-five", "creep", "run-out");

  private final Shop shop;
  private final Vocabulary vocabulary;
  private final JobFrames frames;
  private final ReadingFields readings;
  private final AfterWork afterWork;

  WorkPages(Shop shop, JobFrames frames, ReadingFields readings) {
    this.shop = shop;
    this.vocabulary = shop.reasoning().vocabulary();
    this.frames = frames;
    this.readings = readings;
    this.afterWork = new AfterWork(vocabulary);
  }

  /** Takes a form of these pages; returns the page to go on to. */
  String take(Session session, Request request, Read read)
      throws BadInput, NotFound, Jobs.Overtaken {
    String here = "/jobs/" + read.job().heading().id();
    String what = request.field("do").split(":", 2)[0];
    switch (what) {
      case "start" -> start(session, request, read);
      case "save", "section" -> save(session, request, read);
      case "drop" ->
          sheet(session, request, "work left", sheet -> sheet.withCard(Optional.empty()));
      case "done" -> {
        done(session, request, read);
        return here + "/acceptance";
      }
      case "check", "again", "readings" -> {
        acceptance(session, request);
        return here + "/acceptance" + anchor(request.field("do"));
      }
      case "hold" -> hold(session, request);
      case "vain" -> {
        vain(session, request, read);
        return here;
      }
      case "hand-back" -> {
        handBack(session, request, read);
        return here;
      }
      default -> throw new NotFound();
    }
    return here + "/" + request.segment(2) + anchor(request.field("do"));
  }

  private static String anchor(String what) {
    String[] parts = what.split(":");
    return switch (parts[0]) {
      case "check", "again", "section" ->
          // What was typed there goes into a header, where a line end would be another one.
          parts.length > 1 && parts[1].matches("[a-z0-9-]+") ? "#" + parts[0] + "-" + parts[1] : "";
      case "readings" -> "#readings";
      default -> "";
    };
  }

  /** Makes another sheet of the one that stands. */
  private interface SheetEdit {
    Sheet of(Sheet sheet) throws BadInput;
  }

  private void sheet(Session session, Request request, String what, SheetEdit edit)
      throws BadInput, Jobs.Overtaken {
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            what,
            job -> Jobs.withSheet(job, edit.of(Sheet.read(job.content().sheet()))));
  }

  private static BadInput wrong(String where, String message) {
    return new BadInput(List.of(Problem.ofFile(where, message, "")));
  }

  // The card

  private JobCard card(Read read, String work) throws BadInput {
    try {
      Diagnosis diagnosis =
          read.judged().diagnosis().orElseThrow(() -> wrong(name(work), read.judged().refusal()));
      CaseFile heeded = read.judged().heeded().file();
      return shop.reasoning()
          .cards()
          .write(
              heeded,
              shop.reasoning().rules().consult(heeded),
              diagnosis,
              List.of(work),
              read.sheet().done().stream().map(Sheet.Done::work).toList());
    } catch (JobCards.NotNow e) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  shop.say("tab.work"), String.valueOf(e.getMessage()).split("\n")[0], "")));
    }
  }

  private void start(Session session, Request request, Read read)
      throws BadInput, NotFound, Jobs.Overtaken {
    String work = request.field("work");
    if (!vocabulary.actions().containsKey(work) || work.equals(Diagnosis.HAND_BACK)) {
      throw new NotFound();
    }
    card(read, work);
    sheet(
        session,
        request,
        "work begun: " + name(work),
        sheet ->
            sheet.withCard(Optional.of(new Sheet.Card(work, List.of(), Map.of(), "", List.of()))));
  }

  private static List<Line> lines(JobCard card) {
    return card.sections().stream().flatMap(section -> section.lines().stream()).toList();
  }

  /** What of the card stands in the form, with a whole section ticked where that was tapped. */
  private Sheet.Card filled(Request request, JobCard card) {
    List<Line> lines = lines(card);
    Set<String> ticked = new LinkedHashSet<>();
    Map<String, String> values = new LinkedHashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      Line line = lines.get(i);
      switch (line.kind()) {
        case STEP -> {
          if (request.all("tick").contains(String.valueOf(i))) {
            ticked.add(line.text());
          }
        }
        case VALUE, TORQUE -> {
          String value = request.field("value-" + i);
          if (!value.isEmpty()) {
            values.put(line.text(), value.length() > 100 ? value.substring(0, 100) : value);
          }
        }
        case MIND -> {}
      }
    }
    String[] what = request.field("do").split(":", 2);
    if (what[0].equals("section") && what.length > 1 && what[1].matches("[0-9]{1,3}")) {
      int number = Integer.parseInt(what[1]);
      if (number < card.sections().size()) {
        card.sections().get(number).lines().stream()
            .filter(line -> line.kind() == Kind.STEP)
            .forEach(line -> ticked.add(line.text()));
      }
    }
    String fluid = request.field("fluid");
    List<String> known = List.copyOf(vocabulary.parts().keySet());
    return new Sheet.Card(
        card.works().get(0),
        List.copyOf(ticked),
        values,
        fluid.equals("unknown") ? "" : fluid,
        request.all("part").stream().filter(known::contains).toList());
  }

  private JobCard inHand(Read read) throws BadInput, NotFound {
    return card(read, read.sheet().card().orElseThrow(NotFound::new).work());
  }

  private void save(Session session, Request request, Read read)
      throws BadInput, NotFound, Jobs.Overtaken {
    Sheet.Card filled = filled(request, inHand(read));
    sheet(
        session,
        request,
        "card of " + name(filled.work()) + ": " + filled.ticked().size() + " steps ticked",
        sheet -> sheet.withCard(Optional.of(filled)));
  }

  private boolean filling(String work) {
    return FILLING.contains(vocabulary.action(work).group());
  }

  private List<String> missing(JobCard card, Sheet.Card filled) {
    List<String> missing = new ArrayList<>();
    boolean rides = vocabulary.action(filled.work()).needs().contains("ride");
    // What waits for the next card or the acceptance must not be ticked off to get there.
    List<Line> now = lines(card).stream().filter(line -> rides || !card.waits(line)).toList();
    long steps =
        now.stream()
            .filter(line -> line.kind() == Kind.STEP)
            .filter(line -> !filled.ticked().contains(line.text()))
            .count();
    if (steps > 0) {
      missing.add(shop.say("work.missing-steps", steps));
    }
    String values =
        now.stream()
            .filter(line -> line.kind() == Kind.VALUE || line.kind() == Kind.TORQUE)
            .map(Line::text)
            .filter(text -> !filled.values().containsKey(text))
            .collect(Collectors.joining(", "));
    if (!values.isEmpty()) {
      missing.add(shop.say("work.missing-values", values));
    }
    if (filling(filled.work()) && filled.fluid().isEmpty()) {
      missing.add(shop.say("work.missing-fluid"));
    }
    return missing;
  }

  private void done(Session session, Request request, Read read)
      throws BadInput, NotFound, Jobs.Overtaken {
    JobCard card = inHand(read);
    Sheet.Card filled = filled(request, card);
    List<String> missing = missing(card, filled);
    String torque = torque(card, filled);
    if (!missing.isEmpty()) {
      // What was ticked and typed so far is kept, whatever is missing.
      sheet(
          session,
          request,
          "card of " + name(filled.work()) + ": " + filled.ticked().size() + " steps ticked",
          sheet -> sheet.withCard(Optional.of(filled)));
      throw wrong(name(filled.work()), shop.say("work.missing", String.join("; ", missing)));
    }
    Sheet.Done done =
        new Sheet.Done(
            filled.work(),
            session.person(),
            shop.jobs().today(),
            filled.fluid(),
            torque,
            filled.parts(),
            filled.values());
    sheet(
        session,
        request,
        "work done: " + name(filled.work()),
        sheet -> {
          List<Sheet.Done> all = new ArrayList<>(sheet.done());
          all.add(done);
          return sheet.withCard(Optional.empty()).withDone(all, sheet.vain());
        });
  }

  /** The first torque written down, with its unit. */
  private static String torque(JobCard card, Sheet.Card filled) throws BadInput {
    for (Line line : lines(card)) {
      String value = filled.values().get(line.text());
      if (line.kind() == Kind.TORQUE && value != null) {
        String plain = value.replace(',', '.');
        String whole = plain.matches(".*[0-9]") ? plain + " " + Measures.Kind.TORQUE.base() : plain;
        try {
          Measures.read(whole, Measures.Kind.TORQUE);
          return whole;
        } catch (Measures.NotAMeasure e) {
          throw wrong(line.text(), String.valueOf(e.getMessage()));
        }
      }
    }
    return "";
  }

  Response workPage(Session session, Request request, Read read, Notice notice) throws BadInput {
    Notice told = notice;
    Optional<View.Card> card = Optional.empty();
    if (read.sheet().card().isPresent() && !read.closed()) {
      Sheet.Card inHand = read.sheet().card().get();
      try {
        JobCard written = card(read, inHand.work());
        card =
            Optional.of(view(written, notice.status() == 409 ? filled(request, written) : inHand));
      } catch (BadInput e) {
        // A finding made since may hold the work back: the card says so, and nothing is lost.
        told = notice.status() == 200 ? Notice.of(e) : notice;
      }
    }
    return shop.pages()
        .show(
            told.status() == 400 && notice.status() == 200 ? 200 : told.status(),
            "work",
            new View.WorkPage(
                frames.frame(session, read, "work", told),
                card,
                read.judged().diagnosis().map(d -> offered(d, request)).orElse(List.of()),
                vocabulary.actions().values().stream()
                    .filter(action -> !action.id().equals(Diagnosis.HAND_BACK))
                    .map(action -> new View.Choice(action.id(), action.name(), false))
                    .toList(),
                read.sheet().done().stream().map(this::spoken).toList(),
                read.sheet().vain().stream().map(this::spoken).toList()));
  }

  private List<View.Work> offered(Diagnosis d, Request request) {
    String first = request.asked("offer");
    return d.next().stream()
        .filter(step -> step.kind() == StepKind.WORK && !step.forbidden())
        .filter(step -> !step.id().equals(Diagnosis.HAND_BACK))
        .sorted((a, b) -> Boolean.compare(b.id().equals(first), a.id().equals(first)))
        .limit(OFFERED)
        .map(this::work)
        .toList();
  }

  private View.Work work(Step step) {
    return new View.Work(
        step.id(),
        name(step.id()),
        shop.say("work.minutes", String.format(Locale.ROOT, "%.0f", step.minutes())),
        step.why(),
        !step.open());
  }

  private String spoken(Sheet.Done done) {
    List<String> words =
        new ArrayList<>(List.of(name(done.work()), shop.say("work.by", done.by())));
    words.add(shop.day(done.day()));
    if (!done.fluid().isEmpty()) {
      words.add(Fluids.spoken(done.fluid()));
    }
    if (!done.torque().isEmpty()) {
      words.add(done.torque());
    }
    done.parts().forEach(part -> words.add(vocabulary.part(part).name()));
    return String.join(", ", words);
  }

  private View.Card view(JobCard card, Sheet.Card filled) {
    Action action = vocabulary.action(card.works().get(0));
    List<View.Section> sections = new ArrayList<>();
    int number = 0;
    for (JobCard.Section section : card.sections()) {
      List<View.Line> lines = new ArrayList<>();
      for (Line line : section.lines()) {
        lines.add(
            new View.Line(
                number++,
                line.kind().name().toLowerCase(Locale.ROOT),
                line.text(),
                line.want(),
                filled.ticked().contains(line.text()),
                filled.values().getOrDefault(line.text(), "")));
      }
      sections.add(new View.Section(sections.size(), section.title(), lines));
    }
    return new View.Card(
        action.id(),
        action.name(),
        shop.say("work.minutes", card.minutes()),
        card.notes(),
        sections,
        filling(action.id())
            ? Fluids.choices(filled.fluid().isEmpty() ? "unknown" : filled.fluid())
            : List.of(),
        action.parts().stream()
            .filter(vocabulary.parts()::containsKey)
            .map(
                part ->
                    new View.Choice(
                        part, vocabulary.part(part).name(), filled.parts().contains(part)))
            .toList(),
        card.then().stream().map(then -> name(then.action()) + ": " + then.why()).toList());
  }

  /** The card of the work in hand, or of the first the plan allows, as a sheet to be printed. */
  Response paper(Session session, Request request, Read read) throws BadInput, NotFound {
    String work =
        read.sheet()
            .card()
            .map(Sheet.Card::work)
            .or(
                () ->
                    read.judged().diagnosis().stream()
                        .flatMap(d -> d.next().stream())
                        .filter(step -> step.kind() == StepKind.WORK && step.open())
                        .map(Step::id)
                        .filter(id -> !id.equals(Diagnosis.HAND_BACK))
                        .findFirst())
            .orElseThrow(NotFound::new);
    String html =
        new JobCardHtml(vocabulary)
            .of(
                card(read, work),
                new JobCardHtml.Stand(
                    shop.say("paper.judged"),
                    shop.pages().part("paper-head", head(session, request, read, List.of(work))),
                    false));
    return Sheets.page(html);
  }

  /** The head of a printed sheet: the drawing with the places of the works, and the code. */
  private View.PaperHead head(Session session, Request request, Read read, List<String> works) {
    List<View.PlaceRow> places =
        Place.all().stream()
            .map(
                place ->
                    new View.PlaceRow(
                        place.id(),
                        shop.say("place." + place.id()),
                        0,
                        0,
                        0,
                        works.stream().anyMatch(place.works()::contains)))
            .toList();
    String brake = read.job().heading().brake();
    String address = "http://" + request.host() + "/brakes/" + brake;
    return new View.PaperHead(
        frames.frame(session, read, "work", Notice.NONE),
        places,
        places.stream()
            .filter(View.PlaceRow::next)
            .map(View.PlaceRow::name)
            .collect(Collectors.joining(", ")),
        brake,
        address,
        Code.of(address));
  }

  /** What goes with the bike: what was found, done and checked, and who signed it. */
  Response handBackPage(Session session, Request request, Read read) throws BadInput, NotFound {
    if (!read.closed() || read.sheet().signed().isEmpty()) {
      throw new NotFound();
    }
    Sheet sheet = read.sheet();
    List<String> works = sheet.done().stream().map(Sheet.Done::work).distinct().toList();
    return shop.pages()
        .show(
            200,
            "hand-back",
            new View.HandBack(
                head(session, request, read, works),
                read.file().complaint(),
                read.file().outcome().stream()
                    .flatMap(outcome -> outcome.causes().stream())
                    .map(this::name)
                    .toList(),
                sheet.done().stream().map(this::spoken).toList(),
                verdict(after(read, sheet)).checks().stream()
                    .filter(check -> check.result() == Verdict.Result.PASSED)
                    .map(Verdict.Checked::name)
                    .toList(),
                readings.of(MEASURED, sheet.readings()).stream()
                    .filter(reading -> !reading.value().isEmpty())
                    .map(reading -> reading.label() + ": " + reading.value())
                    .toList(),
                shop.say(
                    "paper.signed",
                    sheet.signed().get().by(),
                    shop.day(sheet.signed().get().day())),
                Stream.of("maker-first", "not-sure-ask")
                    .map(id -> vocabulary.caution(id).text())
                    .toList()));
  }

  // The acceptance

  private CaseFile after(Read read, Sheet sheet) throws BadInput {
    return shop.verdicts()
        .read(afterWork.text(read.file(), read.job().content().caseText(), sheet));
  }

  private Verdict verdict(CaseFile after) throws BadInput {
    try {
      return shop.reasoning().acceptor().judge(after, shop.reasoning().heeding().heed(after));
    } catch (TooManySymptoms e) {
      throw wrong(after.id(), e.what() + ". " + e.maybe());
    }
  }

  private void acceptance(Session session, Request request)
      throws BadInput, NotFound, Jobs.Overtaken {
    String[] what = request.field("do").split(":", 3);
    Map<String, String> typed = new LinkedHashMap<>();
    if (what[0].equals("readings")) {
      for (String name : MEASURED) {
        typed.put(name, request.field(name));
      }
      typed.put("throw-firm-force", request.field("throw-firm-force"));
      new CaseEdits(vocabulary).readings(typed);
      typed.values().removeIf(String::isEmpty);
      sheet(
          session,
          request,
          "readings after the work: " + String.join(", ", typed.values()),
          sheet -> sheet.withAcceptance(sheet.checks(), sheet.again(), typed));
      return;
    }
    String id = what.length > 1 ? what[1] : "";
    String said = what.length > 2 ? what[2] : "";
    boolean check = what[0].equals("check");
    if (!(check ? afterWork.checks().keySet() : vocabulary.symptoms().keySet()).contains(id)) {
      throw new NotFound();
    }
    sheet(
        session,
        request,
        "after the work: " + (check ? checkName(id) : name(id)) + ": " + spokenResult(said),
        sheet -> {
          Map<String, String> answers = new LinkedHashMap<>(check ? sheet.checks() : sheet.again());
          if (said.isEmpty() || said.equals("not-made")) {
            answers.remove(id);
          } else {
            answers.put(id, said);
          }
          return check
              ? sheet.withAcceptance(answers, sheet.again(), sheet.readings())
              : sheet.withAcceptance(sheet.checks(), answers, sheet.readings());
        });
  }

  private String checkName(String id) {
    return requireNonNull(afterWork.checks().get(id)).name();
  }

  private String spokenResult(String said) {
    return vocabulary.symptoms().containsKey(said) ? name(said) : said.replace('-', ' ');
  }

  private static String checkedReason(String reason) throws BadInput {
    if (reason.isEmpty() || reason.length() > LONGEST_REASON) {
      throw wrong("the reason", "must be told, in at most " + LONGEST_REASON + " letters");
    }
    return reason;
  }

  private void hold(Session session, Request request) throws BadInput, Jobs.Overtaken {
    String reason = checkedReason(request.field("reason"));
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            "held: " + reason,
            job ->
                Jobs.with(
                    job,
                    State.HELD,
                    job.content().caseText(),
                    Sheet.read(job.content().sheet()).withReason(reason)));
  }

  /** What was found after works that did not help, and those works, go back as evidence. */
  private void vain(Session session, Request request, Read read) throws BadInput, Jobs.Overtaken {
    if (read.sheet().done().isEmpty()) {
      throw wrong(read.job().heading().id(), "no work of this visit is on record");
    }
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            "did not help: "
                + read.sheet().done().stream()
                    .map(done -> name(done.work()))
                    .collect(Collectors.joining(", ")),
            job -> {
              Sheet sheet = Sheet.read(job.content().sheet());
              CaseFile file = shop.verdicts().read(job.content().caseText());
              List<Sheet.Done> vain = new ArrayList<>(sheet.vain());
              vain.addAll(sheet.done());
              return Jobs.with(
                  job,
                  State.OPEN,
                  afterWork.inVain(file, job.content().caseText(), sheet),
                  sheet
                      .withDone(List.of(), vain)
                      .withCard(Optional.empty())
                      .withAcceptance(Map.of(), Map.of(), Map.of())
                      .withReason(""));
            });
  }

  /** Hands back: judged anew here, whatever the page showed. */
  private void handBack(Session session, Request request, Read read)
      throws BadInput, Jobs.Overtaken {
    String code = request.field("code").toUpperCase(Locale.ROOT);
    if (!code.equals(session.person())) {
      throw wrong(shop.say("accept.sign"), shop.say("accept.wrong-signature", session.person()));
    }
    List<String> found =
        request.all("found").stream().filter(vocabulary.causes()::containsKey).toList();
    shop.jobs()
        .change(
            request.segment(1),
            JobFrames.seen(request),
            session.person(),
            "handed back, signed by " + code,
            job -> handedBack(job, code, found));
  }

  private Content handedBack(Job job, String code, List<String> found) throws BadInput {
    Read now = frames.read(job);
    Sheet sheet = now.sheet();
    CaseFile after = after(now, sheet);
    Verdict verdict = verdict(after);
    if (shop.reasoning()
        .diagnostician()
        .ride(shop.reasoning().diagnostician().belief(after))
        .stop()) {
      throw wrong(job.heading().id(), shop.say("accept.stop"));
    }
    if (!verdict.handBack()) {
      throw wrong(
          job.heading().id(), shop.say("accept.holds") + " " + String.join("; ", holds(verdict)));
    }
    Map<String, Object> outcome = new LinkedHashMap<>();
    outcome.put("causes", found);
    outcome.put("works", sheet.done().stream().map(Sheet.Done::work).distinct().toList());
    outcome.put("by", sheet.done().isEmpty() ? code : sheet.done().get(0).by());
    outcome.put(
        "confirmed",
        "acceptance passed: "
            + verdict.checks().stream().map(Verdict.Checked::name).collect(Collectors.joining(", "))
            + "; signed by "
            + code);
    LocalDate today = shop.jobs().today();
    LocalDate opened = job.heading().opened();
    // With the clock set back since, it went back on the day it came in.
    LocalDate day = today.isBefore(opened) ? opened : today;
    outcome.put("closed", day.toString());
    return Jobs.with(
        job,
        State.HANDED_BACK,
        JsonEdit.set(job.content().caseText(), List.of("outcome"), outcome),
        sheet.withCard(Optional.empty()).withSignature(new Sheet.Signed(code, day)));
  }

  private static List<String> holds(Verdict verdict) {
    List<String> holds = new ArrayList<>(verdict.holds());
    verdict.with(Verdict.Result.FAILED).forEach(c -> holds.add(c.name() + ": " + c.why()));
    verdict.with(Verdict.Result.NOT_MADE).forEach(c -> holds.add(c.name() + ": " + c.why()));
    return holds;
  }

  Response acceptancePage(Session session, Request request, Read read, Notice notice)
      throws BadInput {
    Sheet sheet = read.sheet();
    CaseFile after = after(read, sheet);
    Verdict verdict = verdict(after);
    Map<String, String> wants = wants(read, sheet);
    List<View.Check> checks =
        verdict.checks().stream().map(check -> view(check, sheet, wants)).toList();
    Set<String> causes =
        read.judged().diagnosis().stream()
            .flatMap(d -> d.causes().stream())
            .limit(CAUSES)
            .filter(cause -> cause.probability() >= WORTH_ASKING)
            .map(CauseBelief::id)
            .collect(Collectors.toCollection(LinkedHashSet::new));
    boolean typedAmiss = notice.status() != 200;
    Map<String, String> typed = new LinkedHashMap<>();
    if (typedAmiss) {
      request.form().keySet().forEach(name -> typed.put(name, request.field(name)));
    }
    String first = causes.stream().findFirst().orElse("");
    return shop.pages()
        .show(
            notice.status(),
            "acceptance",
            new View.Acceptance(
                frames.frame(session, read, "acceptance", notice),
                checks,
                afterWork.again(read.file()).stream().map(id -> again(id, sheet)).toList(),
                readings.of(
                    MEASURED, typedAmiss && typed.containsKey("creep") ? typed : sheet.readings()),
                verdict.holds(),
                verdict.handBack() && !read.closed(),
                causes.stream()
                    .map(
                        id ->
                            new View.Choice(
                                id,
                                name(id),
                                typedAmiss ? request.all("found").contains(id) : id.equals(first)))
                    .toList(),
                !sheet.done().isEmpty() && !read.closed(),
                typed));
  }

  /** What each check must show on this brake; the figures are those of the card. */
  private Map<String, String> wants(Read read, Sheet sheet) {
    List<String> works = sheet.done().stream().map(Sheet.Done::work).distinct().toList();
    Map<String, String> wants = new LinkedHashMap<>();
    shop.reasoning()
        .cards()
        .acceptance(read.judged().heeded().file(), works)
        .forEach(accept -> wants.put(accept.id(), accept.want()));
    return wants;
  }

  private View.Item again(String id, Sheet sheet) {
    return new View.Item(
        id,
        name(id),
        vocabulary.symptom(id).definition(),
        sheet.again().getOrDefault(id, ""),
        false,
        false);
  }

  private View.Check view(Verdict.Checked check, Sheet sheet, Map<String, String> wants) {
    String tapped = sheet.checks().getOrDefault(check.id(), "");
    List<View.Choice> failures =
        requireNonNull(afterWork.checks().get(check.id())).failsOn().stream()
            .map(id -> new View.Choice(id, name(id), tapped.equals(id)))
            .toList();
    return new View.Check(
        check.id(),
        check.name(),
        wants.getOrDefault(check.id(), ""),
        check.how(),
        check.result().name().toLowerCase(Locale.ROOT).replace('_', '-'),
        check.why(),
        tapped.equals(Sheet.PASSED),
        failures);
  }

  private String name(String id) {
    if (vocabulary.symptoms().containsKey(id)) {
      return vocabulary.symptom(id).name();
    }
    return vocabulary.causes().containsKey(id)
        ? vocabulary.cause(id).name()
        : vocabulary.actions().containsKey(id) ? vocabulary.action(id).name() : id;
  }
}
