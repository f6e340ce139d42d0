-- Messages to hand on: one row a day, way and digest, so that a morning's digest
-- goes out once unless it is asked for again. Nothing writes it yet.
--   pending -> sent, or failed with the reason; a pending row whose "tried" is set
--   was on its way when the program ended, so it may have arrived.
CREATE TABLE outbox (
  seq     INTEGER PRIMARY KEY,
  day     TEXT    NOT NULL,      -- YYYY-MM-DD, the garden's day
  way     TEXT    NOT NULL,      -- the hook that takes it
  digest  TEXT    NOT NULL,      -- sha256 of the message, to know a repeat
  made    INTEGER NOT NULL,      -- ms since 1970
  tried   INTEGER,               -- ms since 1970, the last attempt
  state   TEXT    NOT NULL CHECK (state IN ('pending', 'sent', 'failed')),
  reason  TEXT    NOT NULL DEFAULT '',
  message BLOB    NOT NULL,
  UNIQUE (day, way, digest)
) STRICT;
