-- +goose Up

-- How somebody wants things told, on whatever browser they sign in: language,
-- units, dates and clock, in the text form of a query. Not a fact: it changes
-- nothing in the house.
create table reader (
  house text not null,
  person text not null,
  chosen text not null,
  primary key (house, person),
  foreign key (house, person) references person (house, id) on delete cascade
) strict, without rowid;
