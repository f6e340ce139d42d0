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
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT raise(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER entry_fixed BEFORE UPDATE ON entry BEGIN SELECT raise(ABORT, 'entries never change'); END;
INSERT INTO action (at, what) VALUES (1784178000000, 'add'), (1784178001000, 'amend');
INSERT INTO entry (id, action, recorded, date, kind, planting, replaces, removed, payload) VALUES
  ('01kxmtqg1a1b2c3', 1, 1784178000000, '2026-07-16', 'bees', 'cucumbers', NULL, 0,
   '{"id":"01kxmtqg1a1b2c3","recorded":"2026-07-16T05:00:00Z","date":"2026-07-16","kind":"bees","planting":"cucumbers","minutes":5,"flowers":10,"visits":3}'),
  ('01kxmtqh1a1b2c3', 2, 1784178001000, '2026-07-16', 'bees', 'cucumbers', '01kxmtqg1a1b2c3', 0,
   '{"id":"01kxmtqh1a1b2c3","recorded":"2026-07-16T05:00:01Z","date":"2026-07-16","kind":"bees","planting":"cucumbers","replaces":"01kxmtqg1a1b2c3","minutes":5,"flowers":10,"visits":4}');
PRAGMA user_version = 1;
