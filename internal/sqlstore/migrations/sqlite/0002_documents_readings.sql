-- +goose Up

-- What was brought in or sent out, as it was. Never changed.
create table document (
  house text not null references house (code),
  sha256 text not null,
  media text not null,
  bytes blob not null,
  primary key (house, sha256)
) strict;

-- One quantity at one place, read again and again.
create table series (
  house text not null references house (code),
  id integer not null,
  code text not null,
  quantity text not null,
  unit text not null,
  primary key (house, id),
  unique (house, code)
) strict, without rowid;

-- at is milliseconds since 1970 in UTC; seal is the number of the seal, in its
-- series, that closes over the row.
create table reading (
  house text not null,
  series integer not null,
  at integer not null,
  value real not null,
  seal integer not null,
  primary key (house, series, at)
) strict, without rowid;

-- closed 0 while rows may still come; rolled 1 when its rows have been rolled
-- up; fact is the id of the fact that put the seal on record, '' before.
create table seal (
  house text not null,
  series integer not null,
  number integer not null,
  from_at integer not null,
  to_at integer not null,
  count integer not null,
  digest text not null,
  closed integer not null check (closed in (0, 1)),
  rolled integer not null check (rolled in (0, 1)),
  fact text not null,
  primary key (house, series, number),
  foreign key (house, series) references series (house, id)
) strict, without rowid;

-- What is left of readings after their retention.
create table rolled (
  house text not null,
  series integer not null,
  at integer not null,
  every_ms integer not null,
  count integer not null,
  least real not null,
  most real not null,
  total real not null,
  primary key (house, series, at, every_ms),
  foreign key (house, series) references series (house, id)
) strict, without rowid;
