PRAGMA application_id = 1145205365;
CREATE TABLE action (
  seq    INTEGER PRIMARY KEY AUTOINCREMENT,
  at     INTEGER NOT NULL,
  what   TEXT    NOT NULL CHECK (what IN ('add', 'amend', 'remove', 'import', 'undo')),
  undone INTEGER REFERENCES action (seq)
) STRICT;
CREATE TABLE entry (
  seq      INTEGER PRIMARY KEY,
  id       TEXT    NOT NULL UNIQUE,
  action   INTEGER NOT NULL REFERENCES action (seq),
  recorded INTEGER NOT NULL,
  date     TEXT    NOT NULL,
  kind     TEXT    NOT NULL,
  planting TEXT    NOT NULL,
  replaces TEXT,
  removed  INTEGER NOT NULL CHECK (removed IN (0, 1)),
  payload  TEXT    NOT NULL
) STRICT;
CREATE INDEX entry_date ON entry (date);
CREATE INDEX entry_replaces ON entry (replaces) WHERE replaces IS NOT NULL;
CREATE INDEX entry_action ON entry (action);
CREATE TABLE forecast (
  seq    INTEGER PRIMARY KEY,
  feed   TEXT    NOT NULL,
  issue  TEXT    NOT NULL,
  issued INTEGER NOT NULL,
  first  INTEGER NOT NULL,
  stop   INTEGER NOT NULL,
  body   BLOB    NOT NULL,
  UNIQUE (feed, issue)
) STRICT;
CREATE INDEX forecast_issued ON forecast (issued, first, stop, feed);
CREATE TABLE instrument (
  seq         INTEGER PRIMARY KEY,
  feed        TEXT NOT NULL,
  source      TEXT NOT NULL,
  attribution TEXT NOT NULL,
  UNIQUE (feed, source, attribution)
) STRICT;
CREATE TABLE outbox (
  seq     INTEGER PRIMARY KEY,
  day     TEXT    NOT NULL,
  way     TEXT    NOT NULL,
  digest  TEXT    NOT NULL,
  made    INTEGER NOT NULL,
  tried   INTEGER,
  state   TEXT    NOT NULL CHECK (state IN ('pending', 'sent', 'failed')),
  reason  TEXT    NOT NULL DEFAULT '',
  message BLOB    NOT NULL,
  UNIQUE (day, way, digest)
) STRICT;
CREATE TABLE "observed" (
  seq        INTEGER PRIMARY KEY,
  hour       INTEGER NOT NULL,
  origin     INTEGER NOT NULL CHECK (origin IN (0, 1, 2, 3)),
  instrument INTEGER NOT NULL REFERENCES instrument (seq),
  recorded   INTEGER NOT NULL,
  superseded INTEGER,
  temp       REAL,
  dew_point  REAL,
  rh         REAL,
  wind       REAL,
  gust       REAL,
  sky        REAL,
  radiation  REAL,
  rain       REAL
) STRICT;
CREATE UNIQUE INDEX observed_holds ON observed (hour, origin) WHERE superseded IS NULL;
CREATE INDEX observed_hour ON observed (hour, origin, seq);
INSERT INTO action (at, what) VALUES (1784178000000, 'add'), (1784178001000, 'amend');
INSERT INTO entry (id, action, recorded, date, kind, planting, replaces, removed, payload) VALUES
  ('01kxmtqg1a1b2c3', 1, 1784178000000, '2026-07-16', 'bees', 'cucumbers', NULL, 0,
   '{"id":"01kxmtqg1a1b2c3","recorded":"2026-07-16T05:00:00Z","date":"2026-07-16","kind":"bees","planting":"cucumbers","minutes":5,"flowers":10,"visits":3}'),
  ('01kxmtqh1a1b2c3', 2, 1784178001000, '2026-07-16', 'bees', 'cucumbers', '01kxmtqg1a1b2c3', 0,
   '{"id":"01kxmtqh1a1b2c3","recorded":"2026-07-16T05:00:01Z","date":"2026-07-16","kind":"bees","planting":"cucumbers","replaces":"01kxmtqg1a1b2c3","minutes":5,"flowers":10,"visits":4}');
INSERT INTO instrument (feed, source, attribution) VALUES ('nws', 'Albany, 5 km away', '');
INSERT INTO observed (hour, origin, instrument, recorded, superseded, temp, rain) VALUES
  (495600, 1, 1, 1784178000000, 1784180000000, 21.5, NULL),
  (495600, 1, 1, 1784180000000, NULL, 21.5, 0.4);
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT raise(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER entry_fixed BEFORE UPDATE ON entry BEGIN SELECT raise(ABORT, 'entries never change'); END;
CREATE TRIGGER observed_kept BEFORE DELETE ON observed BEGIN SELECT raise(ABORT, 'measured hours are never deleted'); END;
CREATE TRIGGER observed_fixed BEFORE UPDATE OF hour, origin, instrument, recorded, temp, dew_point, rh, wind, gust, sky, radiation, rain ON observed
  BEGIN SELECT raise(ABORT, 'measured hours never change'); END;
PRAGMA user_version = 4;
