-- A record as the third migration left it, with one house, a document and five readings.
BEGIN TRANSACTION;
CREATE TABLE accepted (
  house text not null,
  id text not null,
  seq integer not null,
  primary key (house, id, seq)
) strict;
CREATE TABLE balance (
  house text not null,
  account text not null,
  dry_g integer not null,
  water_g integer not null,
  seq integer not null,
  primary key (house, account)
) strict;
CREATE TABLE chain (
  house text not null primary key,
  seq integer not null,
  hash text not null -- of the last fact, in hexadecimal
) strict;
CREATE TABLE counter (
  house text not null,
  name text not null,
  value integer not null,
  primary key (house, name)
) strict;
CREATE TABLE document (
  house text not null references house (code),
  sha256 text not null,
  media text not null,
  bytes blob not null,
  primary key (house, sha256)
) strict;
INSERT INTO "document" VALUES('hallow','ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad','text/plain',X'616263');
CREATE TABLE fact (
  house text not null,
  seq integer not null,
  id text not null,
  kind text not null,
  schema integer not null,
  at integer not null,
  offset_min integer not null,
  entered integer not null,
  who text not null,
  body text not null,
  hash text not null,
  primary key (house, seq),
  unique (house, id)
) strict;
CREATE TABLE flow (
  house text not null,
  seq integer not null,
  n integer not null,
  at integer not null,
  source text not null,
  target text not null,
  lot text not null,
  dry_g integer not null,
  water_g integer not null,
  u_dry_g integer not null,
  u_water_g integer not null,
  standing text not null,
  alike integer not null check (alike in (0, 1)),
  undo integer not null check (undo in (0, 1)),
  struck integer not null check (struck in (0, 1)),
  primary key (house, seq, n)
) strict;
CREATE TABLE house (
  code text not null primary key,
  name text not null,
  zone text not null -- time zone, as in Europe/London
) strict;
INSERT INTO "house" VALUES('hallow','Hallow Sound','UTC');
CREATE TABLE migration (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);
INSERT INTO "migration" VALUES(1,0,1,'2026-11-25 14:52:01');
INSERT INTO "migration" VALUES(2,1,1,'2026-11-25 14:52:01');
INSERT INTO "migration" VALUES(3,2,1,'2026-11-25 14:52:01');
INSERT INTO "migration" VALUES(4,3,1,'2026-11-25 14:52:01');
CREATE TABLE person (
  house text not null references house (code),
  id text not null,
  name text not null,
  email text not null,
  phone text not null,
  address text not null,
  primary key (house, id)
) strict;
CREATE TABLE reading (
  house text not null,
  series integer not null,
  at integer not null,
  value real not null,
  seal integer not null,
  primary key (house, series, at)
) strict, without rowid;
INSERT INTO "reading" VALUES('hallow',1,0,60.0,1);
INSERT INTO "reading" VALUES('hallow',1,1000,6.00399999733333373814e+01,1);
INSERT INTO "reading" VALUES('hallow',1,2000,6.00799997866668391557e+01,1);
INSERT INTO "reading" VALUES('hallow',1,3000,6.01199992800012950056e+01,1);
INSERT INTO "reading" VALUES('hallow',1,4000,6.01599982933387948929e+01,1);
CREATE TABLE rest (
  house text not null,
  seq integer not null,
  id text not null,
  primary key (house, seq, id)
) strict;
CREATE TABLE result (
  house text not null,
  seq integer not null,
  n integer not null,
  thing text not null,
  sample text not null,
  quantity text not null,
  value real not null,
  u real,
  less integer not null check (less in (0, 1)),
  method text not null,
  lab text not null,
  struck integer not null check (struck in (0, 1)),
  primary key (house, seq, n)
) strict;
CREATE TABLE rolled (
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
CREATE TABLE seal (
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
INSERT INTO "seal" VALUES('hallow',1,1,0,4000,5,'',0,0,'');
CREATE TABLE series (
  house text not null references house (code),
  id integer not null,
  code text not null,
  quantity text not null,
  unit text not null,
  primary key (house, id),
  unique (house, code)
) strict, without rowid;
INSERT INTO "series" VALUES('hallow',1,'AIR-ON','temperature','°C');
INSERT INTO "series" VALUES('hallow',2,'AIR-OFF','temperature','°C');
CREATE TABLE setting (
  house text not null references house (code),
  key text not null,
  value text not null,
  primary key (house, key)
) strict;
CREATE TABLE strike (
  house text not null,
  id text not null,
  seq integer not null,
  primary key (house, id)
) strict;
CREATE TABLE subject (
  house text not null,
  thing text not null,
  kind text not null,
  state text not null,
  leave text not null,
  drawn text not null,
  opened integer not null,
  seq integer not null,
  primary key (house, thing)
) strict;
CREATE TABLE touch (
  house text not null,
  thing text not null,
  seq integer not null,
  state text not null,
  leave text not null,
  drawn text not null,
  struck integer not null check (struck in (0, 1)),
  primary key (house, thing, seq)
) strict;
CREATE INDEX fact_kind on fact (house, kind, seq);
CREATE INDEX flow_source on flow (house, source, seq);
CREATE INDEX flow_target on flow (house, target, seq);
CREATE INDEX flow_lot on flow (house, lot, seq) where lot <> '';
CREATE INDEX touch_seq on touch (house, seq);
CREATE INDEX subject_kind on subject (house, kind);
CREATE INDEX result_thing on result (house, thing, seq);
CREATE INDEX rest_id on rest (house, id);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('migration',4);
COMMIT;
