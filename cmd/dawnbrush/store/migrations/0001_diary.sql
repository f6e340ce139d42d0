-- What was done to the diary, in order, so that the last thing can be taken back.
CREATE TABLE action (
  seq    INTEGER PRIMARY KEY AUTOINCREMENT,
  at     INTEGER NOT NULL,                 -- ms since 1970 UTC
  what   TEXT    NOT NULL CHECK (what IN ('add', 'amend', 'remove', 'import', 'undo')),
  undone INTEGER REFERENCES action (seq)   -- the action that took it back
) STRICT;

-- Entries as they were written; a row never changes and never goes. An
-- amendment is a row of its own that replaces another. The entry it replaces may
-- be missing when it came from another file.
CREATE TABLE entry (
  seq      INTEGER PRIMARY KEY,
  id       TEXT    NOT NULL UNIQUE,
  action   INTEGER NOT NULL REFERENCES action (seq),
  recorded INTEGER NOT NULL,               -- ms since 1970 UTC
  date     TEXT    NOT NULL,               -- YYYY-MM-DD, the garden's day
  kind     TEXT    NOT NULL,
  planting TEXT    NOT NULL,
  replaces TEXT,
  removed  INTEGER NOT NULL CHECK (removed IN (0, 1)),
  payload  TEXT    NOT NULL                -- the whole entry, JSON
) STRICT;
CREATE INDEX entry_date ON entry (date);
CREATE INDEX entry_replaces ON entry (replaces) WHERE replaces IS NOT NULL;
CREATE INDEX entry_action ON entry (action);

CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT raise(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER entry_fixed BEFORE UPDATE ON entry BEGIN SELECT raise(ABORT, 'entries never change'); END;
