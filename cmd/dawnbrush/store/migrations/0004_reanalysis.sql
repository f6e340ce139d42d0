-- Hours that a weather model worked out afterwards get an origin of their own, 0,
-- which gives way to every measurement. SQLite cannot change a check, so the table
-- is made anew.
CREATE TABLE observed_new (
  seq        INTEGER PRIMARY KEY,
  hour       INTEGER NOT NULL,                                  -- hours since 1970
  origin     INTEGER NOT NULL CHECK (origin IN (0, 1, 2, 3)),   -- reanalysis, station, logger, gauge
  instrument INTEGER NOT NULL REFERENCES instrument (seq),
  recorded   INTEGER NOT NULL,                                  -- ms since 1970
  superseded INTEGER,                                           -- ms since 1970; null while it holds
  temp       REAL,   -- degC
  dew_point  REAL,   -- degC
  rh         REAL,   -- %
  wind       REAL,   -- m/s at 10 m
  gust       REAL,   -- m/s at 10 m
  sky        REAL,   -- 0..1
  radiation  REAL,   -- W/m2
  rain       REAL    -- mm
) STRICT;
INSERT INTO observed_new SELECT seq, hour, origin, instrument, recorded, superseded, temp, dew_point, rh, wind, gust, sky, radiation, rain FROM observed;
DROP TRIGGER observed_kept;
DROP TRIGGER observed_fixed;
DROP TABLE observed;
ALTER TABLE observed_new RENAME TO observed;
CREATE UNIQUE INDEX observed_holds ON observed (hour, origin) WHERE superseded IS NULL;
CREATE INDEX observed_hour ON observed (hour, origin, seq);
CREATE TRIGGER observed_kept BEFORE DELETE ON observed BEGIN SELECT raise(ABORT, 'measured hours are never deleted'); END;
CREATE TRIGGER observed_fixed BEFORE UPDATE OF hour, origin, instrument, recorded, temp, dew_point, rh, wind, gust, sky, radiation, rain ON observed
  BEGIN SELECT raise(ABORT, 'measured hours never change'); END;
