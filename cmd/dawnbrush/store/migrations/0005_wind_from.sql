-- Where the wind came from, degrees clockwise from true north: few rows of corn are
-- fed by it.
ALTER TABLE observed ADD COLUMN wind_from REAL;
DROP TRIGGER observed_fixed;
CREATE TRIGGER observed_fixed BEFORE UPDATE OF hour, origin, instrument, recorded, temp, dew_point, rh, wind, gust, sky, radiation, rain, wind_from ON observed
  BEGIN SELECT raise(ABORT, 'measured hours never change'); END;
