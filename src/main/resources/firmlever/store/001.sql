-- A job as it stands now: what one searches by, and the number of its last change.
create table job (
  id text primary key,
  brake text not null,
  opened text not null,
  closed text,
  state text not null,
  title text not null,
  causes text not null,
  works text not null,
  version integer not null
) strict;
create index job_of_brake on job (brake, opened);
create index job_like_brake on job (brake collate nocase);
create index job_like_id on job (id collate nocase);
create index job_by_state on job (state, opened);
create index job_by_day on job (closed) where closed is not null;

-- Everything that was ever written: the whole case and the whole work sheet after each change.
create table change (
  job text not null references job (id),
  number integer not null,
  moment text not null,
  author text not null,
  what text not null,
  case_text text not null,
  sheet text not null,
  primary key (job, number)
) strict, without rowid;
create trigger change_is_never_rewritten before update on change
  begin select raise(abort, 'a change is never rewritten'); end;
create trigger change_is_never_removed before delete on change
  begin select raise(abort, 'a change is never removed'); end;
