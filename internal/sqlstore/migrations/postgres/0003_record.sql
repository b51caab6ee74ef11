-- +goose Up

-- The record of a house, by its code, and where it stands. What happened is in
-- fact; the tables below it are worked out from the facts and can be made
-- again, save chain and counter, which say what was given out.
create table chain (
  house text not null primary key,
  seq bigint not null,
  hash text not null -- of the last fact, in hexadecimal
);

-- The numbers of codes that people use.
create table counter (
  house text not null,
  name text not null,
  value bigint not null,
  primary key (house, name)
);

-- Only ever added to. Times are milliseconds since 1970 in UTC; body is JSON
-- text, byte for byte as it was entered, which the hash covers.
create table fact (
  house text not null,
  seq bigint not null,
  id text not null,
  kind text not null,
  schema bigint not null,
  at bigint not null,
  offset_min bigint not null,
  entered bigint not null,
  who text not null,
  body text not null,
  hash text not null,
  primary key (house, seq),
  unique (house, id)
);
create index fact_kind on fact (house, kind, seq);

-- What went from where to where, in grams of dry matter and water, with
-- standard uncertainties; struck 1 when its fact was struck, and on the flow
-- that undoes it.
create table flow (
  house text not null,
  seq bigint not null,
  n bigint not null,
  at bigint not null,
  source text not null,
  target text not null,
  lot text not null,
  dry_g bigint not null,
  water_g bigint not null,
  u_dry_g bigint not null,
  u_water_g bigint not null,
  standing text not null,
  alike bigint not null check (alike in (0, 1)),
  undo bigint not null check (undo in (0, 1)),
  struck bigint not null check (struck in (0, 1)),
  primary key (house, seq, n)
);
create index flow_source on flow (house, source, seq);
create index flow_target on flow (house, target, seq);
create index flow_lot on flow (house, lot, seq) where lot <> '';

create table balance (
  house text not null,
  account text not null,
  dry_g bigint not null,
  water_g bigint not null,
  seq bigint not null,
  primary key (house, account)
);

-- Which fact is about which thing, and what became of it.
create table touch (
  house text not null,
  thing text not null,
  seq bigint not null,
  state text not null,
  leave text not null,
  drawn text not null,
  struck bigint not null check (struck in (0, 1)),
  primary key (house, thing, seq)
);
create index touch_seq on touch (house, seq);

create table subject (
  house text not null,
  thing text not null,
  kind text not null,
  state text not null,
  leave text not null,
  drawn text not null,
  opened bigint not null,
  seq bigint not null,
  primary key (house, thing)
);
create index subject_kind on subject (house, kind);

create table result (
  house text not null,
  seq bigint not null,
  n bigint not null,
  thing text not null,
  sample text not null,
  quantity text not null,
  value double precision not null,
  u double precision,
  less bigint not null check (less in (0, 1)),
  method text not null,
  lab text not null,
  struck bigint not null check (struck in (0, 1)),
  primary key (house, seq, n)
);
create index result_thing on result (house, thing, seq);

-- Fact seq rests on fact id.
create table rest (
  house text not null,
  seq bigint not null,
  id text not null,
  primary key (house, seq, id)
);
create index rest_id on rest (house, id);

-- Fact id was struck by fact seq.
create table strike (
  house text not null,
  id text not null,
  seq bigint not null,
  primary key (house, id)
);

-- Fact id is stood by in fact seq.
create table accepted (
  house text not null,
  id text not null,
  seq bigint not null,
  primary key (house, id, seq)
);
