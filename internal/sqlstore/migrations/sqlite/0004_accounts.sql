-- +goose Up

-- How somebody whom the house knows proves who they are: an argon2id hash in
-- its usual text form. Not a fact: a password may be changed and forgotten.
create table account (
  house text not null,
  person text not null,
  password text not null,
  changed_at integer not null,
  primary key (house, person),
  foreign key (house, person) references person (house, id) on delete cascade
) strict;

-- What lets somebody in for a while: a session of a browser, a link used once,
-- a token of a program. The secret itself is not kept, only its SHA-256. Times
-- are milliseconds since 1970 in UTC; role is the person's when it was made.
create table pass (
  house text not null,
  digest text not null,
  kind text not null,
  person text not null,
  role text not null,
  name text not null,
  scope text not null,
  made_at integer not null,
  seen_at integer not null,
  ends_at integer not null,
  primary key (house, digest),
  foreign key (house, person) references person (house, id) on delete cascade
) strict;

create index pass_person on pass (house, person, kind);
