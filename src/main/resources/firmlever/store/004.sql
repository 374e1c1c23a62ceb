-- A photo of a job: the change that brought it in tells who and when; the picture is the file of that digest beside the store.
create table photo (
  job text not null,
  number integer not null,
  digest text not null,
  bytes integer not null,
  shows text not null,
  primary key (job, number),
  unique (job, digest),
  foreign key (job, number) references change (job, number)
) strict, without rowid;
create trigger photo_is_never_rewritten before update on photo
  begin select raise(abort, 'a photo is never rewritten'); end;
create trigger photo_is_never_removed before delete on photo
  begin select raise(abort, 'a photo is never removed'); end;

-- A photo that was attached by mistake: the change that says so, and why.
create table photo_struck (
  job text not null,
  photo integer not null,
  number integer not null,
  reason text not null,
  primary key (job, photo),
  foreign key (job, photo) references photo (job, number),
  foreign key (job, number) references change (job, number)
) strict, without rowid;
create trigger photo_struck_is_never_rewritten before update on photo_struck
  begin select raise(abort, 'a word on a photo is never rewritten'); end;
create trigger photo_struck_is_never_removed before delete on photo_struck
  begin select raise(abort, 'a word on a photo is never removed'); end;
