-- What the desk adds to a job: a claim as it was handed in, a decision as it was signed.
create table paper (
  job text not null references job (id),
  number integer not null,
  moment text not null,
  author text not null,
  kind text not null,
  content text not null,
  primary key (job, number)
) strict, without rowid;
create trigger paper_is_never_rewritten before update on paper
  begin select raise(abort, 'a paper is never rewritten'); end;
create trigger paper_is_never_removed before delete on paper
  begin select raise(abort, 'a paper is never removed'); end;
