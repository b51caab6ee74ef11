-- +goose Up

-- What moved in a day (of UTC, counted from 1970) from accounts of one kind to
-- accounts of another, without what was struck: a balance of a month adds up
-- days and not flows.
create table turnover (
  house text not null,
  day integer not null,
  source text not null,
  target text not null,
  dry_g integer not null,
  water_g integer not null,
  primary key (house, day, source, target)
) strict, without rowid;
insert into turnover (house, day, source, target, dry_g, water_g)
select house, at / 86400000,
  case when source like 'silo:%' then 'silo' when source like 'piece:%' then 'piece' when source like 'malt:%' then 'malt'
    when source like 'byproduct:%' then 'byproduct' when source like 'shipment:%' then 'shipment'
    when source like 'unexplained:%' then 'unexplained' else source end,
  case when target like 'silo:%' then 'silo' when target like 'piece:%' then 'piece' when target like 'malt:%' then 'malt'
    when target like 'byproduct:%' then 'byproduct' when target like 'shipment:%' then 'shipment'
    when target like 'unexplained:%' then 'unexplained' else target end,
  sum(case when struck = 0 then dry_g else 0 end), sum(case when struck = 0 then water_g else 0 end)
from flow where undo = 0
group by 1, 2, 3, 4;

-- The hours at both ends of a balance are no whole days.
create index flow_at on flow (house, at);
