-- A record as the third migration left it, with one house, document and person, five readings, one closed seal.
BEGIN TRANSACTION;
CREATE TABLE document (
  house integer not null references house (id),
  sha256 text not null,
  media text not null,
  bytes blob not null,
  primary key (house, sha256)
) strict;
INSERT INTO "document" VALUES(1,'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad','text/plain',X'616263');
CREATE TABLE house (
  id bigint not null primary key,
  code text not null unique,
  name text not null,
  zone text not null -- time zone, as in Europe/London
);
INSERT INTO "house" VALUES(1,'HALLOW','Hallow Sound','UTC');
CREATE TABLE migration (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);
INSERT INTO "migration" VALUES(1,0,1,'2026-11-25 14:17:47');
INSERT INTO "migration" VALUES(2,2,1,'2026-11-25 14:17:47');
INSERT INTO "migration" VALUES(3,3,1,'2026-11-25 14:17:47');
CREATE TABLE person (
  house bigint not null references house (id),
  id text not null,
  name text not null,
  email text not null,
  phone text not null,
  address text not null,
  primary key (house, id)
);
INSERT INTO "person" VALUES(1,'p1','A Grower','','','');
CREATE TABLE reading (
  house integer not null,
  series integer not null,
  at integer not null,
  value real not null,
  seal integer not null,
  primary key (house, series, at),
  foreign key (house, series) references series (house, id)
) strict, without rowid;
INSERT INTO "reading" VALUES(1,1,0,60.0,1);
INSERT INTO "reading" VALUES(1,1,1000,6.00399999733333373814e+01,1);
INSERT INTO "reading" VALUES(1,1,2000,6.00799997866668391557e+01,1);
INSERT INTO "reading" VALUES(1,1,3000,6.01199992800012950056e+01,2);
INSERT INTO "reading" VALUES(1,1,4000,6.01599982933387948929e+01,2);
CREATE TABLE rolled (
  house integer not null,
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
  house integer not null,
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
INSERT INTO "seal" VALUES(1,1,1,0,2000,3,'69731e0ec211e6327e703b1136dc68dcd92a250288d93c221b71f5cab8b4965f',1,0,'');
INSERT INTO "seal" VALUES(1,1,2,3000,4000,2,'',0,0,'');
CREATE TABLE series (
  house integer not null references house (id),
  id integer not null,
  code text not null,
  quantity text not null,
  unit text not null,
  primary key (house, id),
  unique (house, code)
) strict, without rowid;
INSERT INTO "series" VALUES(1,1,'AIR-ON','temperature','°C');
INSERT INTO "series" VALUES(1,2,'AIR-OFF','temperature','°C');
CREATE TABLE setting (
  house bigint not null references house (id),
  key text not null,
  value text not null,
  primary key (house, key)
);
INSERT INTO "setting" VALUES(1,'alarm.unexplained','0.01');
COMMIT;
