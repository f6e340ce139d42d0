-- Forecasts as they were issued, one row an issue and feed.
CREATE TABLE forecast (
  seq    INTEGER PRIMARY KEY,
  feed   TEXT    NOT NULL,
  issue  TEXT    NOT NULL,   -- RFC 3339, or sha256:... of the body where the feed does not tell
  issued INTEGER NOT NULL,   -- s since 1970; when it was kept where the feed does not tell
  first  INTEGER NOT NULL,   -- first hour, in hours since 1970
  stop   INTEGER NOT NULL,   -- the hour after the last
  body   BLOB    NOT NULL,   -- see archive_code.go
  UNIQUE (feed, issue)
) STRICT;
CREATE INDEX forecast_issued ON forecast (issued, first, stop, feed);

-- Whose measurements they are.
CREATE TABLE instrument (
  seq         INTEGER PRIMARY KEY,
  feed        TEXT NOT NULL,
  source      TEXT NOT NULL,
  attribution TEXT NOT NULL,
  UNIQUE (feed, source, attribution)
) STRICT;

-- Measured hours. What was measured better later is a row of its own; the one
-- before keeps its values and says when it was superseded.
CREATE TABLE observed (
  seq        INTEGER PRIMARY KEY,
  hour       INTEGER NOT NULL,                               -- hours since 1970
  origin     INTEGER NOT NULL CHECK (origin IN (1, 2, 3)),   -- station, logger, gauge
  instrument INTEGER NOT NULL REFERENCES instrument (seq),
  recorded   INTEGER NOT NULL,                               -- ms since 1970
  superseded INTEGER,                                        -- ms since 1970; null while it holds
  temp       REAL,   -- degC
  dew_point  REAL,   -- degC
  rh         REAL,   -- %
  wind       REAL,   -- m/s at 10 m
  gust       REAL,   -- m/s at 10 m
  sky        REAL,   -- 0..1
  radiation  REAL,   -- W/m2
  rain       REAL    -- mm
) STRICT;
CREATE UNIQUE INDEX observed_holds ON observed (hour, origin) WHERE superseded IS NULL;
CREATE INDEX observed_hour ON observed (hour, origin, seq);

CREATE TRIGGER observed_kept BEFORE DELETE ON observed BEGIN SELECT raise(ABORT, 'measured hours are never deleted'); END;
CREATE TRIGGER observed_fixed BEFORE UPDATE OF hour, origin, instrument, recorded, temp, dew_point, rh, wind, gust, sky, radiation, rain ON observed
  BEGIN SELECT raise(ABORT, 'measured hours never change'); END;
