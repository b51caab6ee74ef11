-- +goose Up

-- What was brought in or sent out, as it was. Never changed.
create table document (
  house text not null references house (code),
  sha256 text not null,
  media text not null,
  bytes bytea not null,
  primary key (house, sha256)
);

-- One quantity at one place, read again and again.
create table series (
  house text not null references house (code),
  id bigint not null,
  code text not null,
  quantity text not null,
  unit text not null,
  primary key (house, id),
  unique (house, code)
);

-- at is milliseconds since 1970 in UTC; seal is the number of the seal, in its
-- series, that closes over the row.
create table reading (
  house text not null,
  series bigint not null,
  at bigint not null,
  value double precision not null,
  seal bigint not null,
  primary key (house, series, at)
);

-- closed 0 while rows may still come; rolled 1 when its rows have been rolled
-- up; fact is the id of the fact that put the seal on record, '' before.
create table seal (
  house text not null,
  series bigint not null,
  number bigint not null,
  from_at bigint not null,
  to_at bigint not null,
  count bigint not null,
  digest text not null,
  closed bigint not null check (closed in (0, 1)),
  rolled bigint not null check (rolled in (0, 1)),
  fact text not null,
  primary key (house, series, number),
  foreign key (house, series) references series (house, id)
);

-- What is left of readings after their retention.
create table rolled (
  house text not null,
  series bigint not null,
  at bigint not null,
  every_ms bigint not null,
  count bigint not null,
  least double precision not null,
  most double precision not null,
  total double precision not null,
  primary key (house, series, at, every_ms),
  foreign key (house, series) references series (house, id)
);
