-- +goose Up

-- A malthouse. Its code is in the key of every other table.
create table house (
  code text not null primary key,
  name text not null,
  zone text not null -- time zone, as in Europe/London
);

-- What a house has set, by key.
create table setting (
  house text not null references house (code),
  key text not null,
  value text not null,
  primary key (house, key)
);

-- People stand outside the chain of facts, which know them by id only: a row
-- can be removed and no hash breaks.
create table person (
  house text not null references house (code),
  id text not null,
  name text not null,
  email text not null,
  phone text not null,
  address text not null,
  primary key (house, id)
);
