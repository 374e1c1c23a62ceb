package firmlever.bench;

import firmlever.bench.job.Jobs;
import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.Limit;
import firmlever.picture.PlainPicture;
import firmlever.picture.Unusable;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Photo;
import firmlever.store.JobStore.Stamp;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Session;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** The photos of a job: attached, struck out, shown. */
final class JobPhotos {
  private static final int BYTES_OF_A_MEGABYTE = 1024 * 1024;
  private static final int A_MILLION = 1_000_000;

  private final Shop shop;
  private final JobFrames frames;

  JobPhotos(Shop shop, JobFrames frames) {
    this.shop = shop;
    this.frames = frames;
  }

  /**
   * Takes a photo in, or strikes the one out that the address names.
   *
   * @return what is wrong, in words; empty where it is done
   * @throws BadInput where nothing of the job can be changed any more
   */
  Optional<String> take(Session session, Request request) throws BadInput, NotFound {
    String id = request.segment(1);
    return request.segment(3).isEmpty()
        ? attached(session, request, id)
        : struck(session, request, id);
  }

  private Optional<String> attached(Session session, Request request, String id)
      throws BadInput, NotFound {
    Jobs.checkOpen(job(id));
    byte[] file = request.files().get("photo");
    String shows = request.field("shows");
    if (file == null) {
      return Optional.of(shop.say("photo.none-chosen"));
    }
    if (tooLong(shows)) {
      return Optional.of(shop.say("photo.too-long", Limit.PHOTO_LETTERS.most()));
    }
    if (full(shop.store().photos(id))) {
      return Optional.of(shop.say("photo.full", Limit.JOB_PHOTOS.most()));
    }
    try {
      byte[] picture = PlainPicture.of(file);
      return changed(id, job -> attached(session, job, picture, shows));
    } catch (Unusable e) {
      return Optional.of(
          shop.say(
              "photo.refused." + e.why().name().toLowerCase(Locale.ROOT).replace('_', '-'),
              Limit.PHOTO_PIXELS.most() / A_MILLION,
              Limit.PHOTO_SIDE.most()));
    }
  }

  private Optional<String> attached(Session session, Job job, byte[] picture, String shows)
      throws Changed {
    List<Photo> photos = shop.store().photos(job.heading().id());
    String digest = Digest.sha256(picture);
    Optional<Photo> same = photos.stream().filter(p -> p.digest().equals(digest)).findFirst();
    if (same.isPresent()) {
      // A second tap on the same: it is as it should be.
      return same.get().struck().map(reason -> shop.say("photo.was-struck", reason));
    }
    if (full(photos)) {
      return Optional.of(shop.say("photo.full", Limit.JOB_PHOTOS.most()));
    }
    shop.store()
        .addPhoto(
            job,
            picture,
            shows,
            stamp(
                session,
                "photo attached" + (shows.isEmpty() ? "" : ": " + shows) + "; sha256 " + digest));
    return Optional.empty();
  }

  private Optional<String> struck(Session session, Request request, String id)
      throws BadInput, NotFound {
    Jobs.checkOpen(job(id));
    Photo photo = photo(id, request.segment(3));
    String reason = request.field("reason");
    if (reason.isEmpty() || tooLong(reason)) {
      return Optional.of(shop.say("photo.reason-needed", Limit.PHOTO_LETTERS.most()));
    }
    return changed(
        id,
        job -> {
          boolean stands =
              shop.store().photos(id).stream()
                  .anyMatch(p -> p.number() == photo.number() && p.struck().isEmpty());
          if (stands) {
            shop.store()
                .strikePhoto(
                    job,
                    photo.number(),
                    reason,
                    stamp(session, "photo struck out: " + reason + "; sha256 " + photo.digest()));
          }
          return Optional.empty();
        });
  }

  /** Changes a job as it stands. */
  private interface Edit {
    Optional<String> of(Job job) throws Changed;
  }

  /** A photo has to do with nothing else in the job, so that it goes on whatever version it has. */
  private Optional<String> changed(String id, Edit edit) throws BadInput, NotFound {
    while (true) {
      Job job = job(id);
      Jobs.checkOpen(job);
      try {
        return edit.of(job);
      } catch (Changed e) {
        // Somebody else was first: what they wrote stays, and this comes after it.
        continue;
      }
    }
  }

  private Job job(String id) throws NotFound {
    return shop.store().job(id).orElseThrow(NotFound::new);
  }

  private Photo photo(String id, String digest) throws NotFound {
    return shop.store().photos(id).stream()
        .filter(photo -> photo.digest().equals(digest))
        .findFirst()
        .orElseThrow(NotFound::new);
  }

  private Stamp stamp(Session session, String what) {
    return new Stamp(shop.clock().instant(), session.person(), what);
  }

  private static boolean tooLong(String text) {
    return text.codePointCount(0, text.length()) > Limit.PHOTO_LETTERS.most();
  }

  private static boolean full(List<Photo> photos) {
    return photos.size() >= Limit.JOB_PHOTOS.most();
  }

  /** The picture itself. What is asked for is looked up in the store; no file is named by it. */
  Response picture(String id, String digest) throws NotFound {
    return new Response(
        200,
        PlainPicture.TYPE,
        shop.store().picture(photo(id, digest)),
        Map.of("Cache-Control", "private, max-age=31536000, immutable"));
  }

  /** What the page of a job shows of its photos, with what was typed and could not be taken. */
  View.Photos shown(String id, String typed) {
    List<Photo> photos = shop.store().photos(id);
    List<View.Photo> shown = new ArrayList<>();
    for (Photo photo : photos) {
      String number = shop.say("photo.number", shown.size() + 1);
      shown.add(
          new View.Photo(
              "/jobs/" + id + "/photos/" + photo.digest(),
              photo.digest(),
              shown.size() + 1,
              number,
              photo.shows(),
              photo.stamp().author() + ", " + frames.time(photo.stamp()),
              photo.struck().orElse("")));
    }
    return new View.Photos(
        shown,
        full(photos),
        Limit.JOB_PHOTOS.most(),
        Limit.PHOTO_BYTES.most() / BYTES_OF_A_MEGABYTE,
        Limit.PHOTO_LETTERS.most(),
        typed);
  }
}
