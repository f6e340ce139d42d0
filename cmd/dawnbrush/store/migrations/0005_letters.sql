-- Letters to hand on. Layout 3 laid out a table that nothing ever wrote; this one
-- takes its place.
--   waiting -> trying -> sent, or back to waiting with the fault and the time of the
--   next try, or refused for good; expired when it waited too long; dropped by the
--   grower. A letter left at "trying" was on its way when the program ended: it may
--   have arrived and is tried again under the same identity.
DROP TABLE outbox;
CREATE TABLE outbox (
  seq       INTEGER PRIMARY KEY,
  id        TEXT    NOT NULL UNIQUE,   -- Message-ID without its angle brackets
  kind      TEXT    NOT NULL,          -- of report
  recipient TEXT    NOT NULL,
  day       TEXT    NOT NULL,          -- YYYY-MM-DD, the garden's day
  copy      INTEGER NOT NULL,          -- 0; higher when it was asked for again
  sender    TEXT    NOT NULL,
  body      BLOB    NOT NULL,          -- emptied some time after it was settled
  made      INTEGER NOT NULL,          -- ms since 1970
  since     INTEGER NOT NULL,          -- ms since 1970; from here it waits
  tries     INTEGER NOT NULL DEFAULT 0,
  began     INTEGER,                   -- ms since 1970, the last try
  next      INTEGER NOT NULL,          -- ms since 1970; not tried before
  state     TEXT    NOT NULL CHECK (state IN ('waiting', 'trying', 'sent', 'refused', 'expired', 'dropped')),
  settled   INTEGER,                   -- ms since 1970; null while it waits
  fault     TEXT    NOT NULL DEFAULT '',
  hint      TEXT    NOT NULL DEFAULT '',
  UNIQUE (kind, recipient, day, copy)
) STRICT;
CREATE INDEX outbox_open ON outbox (state, next) WHERE state IN ('waiting', 'trying');
CREATE INDEX outbox_settled ON outbox (settled) WHERE settled IS NOT NULL;
CREATE TRIGGER outbox_kept BEFORE DELETE ON outbox BEGIN SELECT raise(ABORT, 'letters are never deleted'); END;
