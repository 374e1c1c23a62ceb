-- What holds for the whole shop, such as the digest of its key.
create table setting (
  name text primary key,
  value text not null
) strict, without rowid;
