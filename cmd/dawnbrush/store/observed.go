package store

import (
	"context"
	"time"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/forecast"
)

// Origin says what measured an hour.
type Origin int

// The origins; where more than one knows a value the larger number goes first.
const (
	Reanalysis Origin = 0 // a weather model afterwards
	Station    Origin = 1 // a weather station of a feed
	Logger     Origin = 2 // the grower's own instrument
	Gauge      Origin = 3 // the grower's own recording rain gauge
)

// ofHour gives the origin of an hour that o tells of.
func (o Origin) ofHour() forecast.Origin {
	switch o {
	case Reanalysis:
		return forecast.OriginReanalysis
	case Station:
		return forecast.OriginObserved
	}
	return forecast.OriginLogger
}

// measured gives the values of an hour that instruments tell, in the order of
// the table's columns.
func measured(h *forecast.Hour) [9]*forecast.Value {
	return [9]*forecast.Value{&h.Temp, &h.DewPoint, &h.RH, &h.Wind, &h.Gust, &h.Sky, &h.Radiation, &h.Rain, &h.WindFrom}
}

const measuredColumns = `temp, dew_point, rh, wind, gust, sky, radiation, rain, wind_from`

// KeepObserved keeps measured hours and tells how many were new and how many
// amend what was known. Hours of another kind (those a model worked out, where o
// is an instrument, and the other way round), that are forecast, empty or not over
// yet are left out. A value that was known and is missing now stays known.
func (s *Store) KeepObserved(ctx context.Context, obs *forecast.Series, o Origin) (added, amended int, err error) {
	if len(obs.Hours) == 0 {
		return 0, 0, nil
	}
	now := s.now()
	var fresh []forecast.Hour
	var old []int64 // the row each amends, 0 for none
	diff := func() error {
		fresh, old = nil, nil
		have, err := s.holding(hourOf(obs.Start()), hourOf(obs.End()), o)
		if err != nil {
			return err
		}
		for i := range obs.Hours {
			h := obs.Hours[i]
			if h.Origin == forecast.OriginForecast || (h.Origin == forecast.OriginReanalysis) != (o == Reanalysis) || h.Start.Add(time.Hour).After(now) {
				continue
			}
			row := have[hourOf(h.Start)]
			if merged, changed := merge(h, row.hour); changed {
				fresh, old = append(fresh, merged), append(old, row.seq)
			}
		}
		return nil
	}
	if err := s.read(ctx, diff); err != nil || len(fresh) == 0 {
		return 0, 0, err // most mornings the hours are known and nothing is written
	}
	err = s.write(ctx, func() error {
		if err := diff(); err != nil {
			return err
		}
		added, amended, err = s.insertHours(fresh, old, obs, o, now)
		return err
	})
	return added, amended, err
}

// merge lays what is known now over what was known; changed is false when that
// tells nothing new.
func merge(now, was forecast.Hour) (out forecast.Hour, changed bool) {
	out = now
	before := measured(&was)
	for k, v := range measured(&out) {
		if !v.IsKnown() {
			*v = *before[k]
		}
		changed = changed || *v != *before[k]
	}
	return out, changed
}

type heldHour struct {
	seq  int64
	hour forecast.Hour
}

// holding gives the rows of an origin that hold, by hour.
func (s *Store) holding(first, stop int64, o Origin) (map[int64]heldHour, error) {
	out := make(map[int64]heldHour, max(0, stop-first))
	err := query(s.db, `SELECT hour, seq, `+measuredColumns+` FROM observed WHERE hour >= ? AND hour < ? AND origin = ? AND superseded IS NULL`, []any{first, stop, int(o)}, func(row *sqlite3.Stmt) error {
		var h heldHour
		h.seq = row.ColumnInt64(1)
		scanHour(row, 2, &h.hour)
		out[row.ColumnInt64(0)] = h
		return nil
	})
	return out, err
}

func scanHour(row *sqlite3.Stmt, col int, h *forecast.Hour) {
	for k, v := range measured(h) {
		if row.ColumnType(col+k) != sqlite3.NULL {
			*v = forecast.Known(row.ColumnFloat(col + k))
		}
	}
}

func (s *Store) insertHours(fresh []forecast.Hour, old []int64, obs *forecast.Series, o Origin, now time.Time) (added, amended int, err error) {
	instrument, err := s.instrument(obs)
	if err != nil {
		return 0, 0, err
	}
	supersede, _, err := s.db.Prepare(`UPDATE observed SET superseded = ? WHERE seq = ?`)
	if err != nil {
		return 0, 0, err
	}
	defer supersede.Close()
	insert, _, err := s.db.Prepare(`INSERT INTO observed (hour, origin, instrument, recorded, ` + measuredColumns + `) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`)
	if err != nil {
		return 0, 0, err
	}
	defer insert.Close()
	args := make([]any, 13)
	for i := range fresh {
		if old[i] != 0 {
			if err := run(supersede, []any{now.UnixMilli(), old[i]}, nil); err != nil {
				return 0, 0, err
			}
			amended++
		} else {
			added++
		}
		args[0], args[1], args[2], args[3] = hourOf(fresh[i].Start), int(o), instrument, now.UnixMilli()
		for k, v := range measured(&fresh[i]) {
			args[4+k] = nil
			if x, ok := v.Get(); ok {
				args[4+k] = x
			}
		}
		if err := run(insert, args, nil); err != nil {
			return 0, 0, err
		}
	}
	return added, amended, nil
}

// instrument gives the row that says whose measurements they are.
func (s *Store) instrument(obs *forecast.Series) (int64, error) {
	args := []any{obs.Feed, obs.Source, obs.Attribution}
	if err := query(s.db, `INSERT INTO instrument (feed, source, attribution) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`, args, nil); err != nil {
		return 0, err
	}
	return number(s.db, `SELECT seq FROM instrument WHERE feed = ? AND source = ? AND attribution = ?`, args...)
}

// Observed gives the measured hours that begin in [from, to), each value from the
// best instrument that knows it; hours nobody measured are unknown. An hour is
// the logger's when its temperature is.
func (s *Store) Observed(ctx context.Context, from, to time.Time) (out *forecast.Series, err error) {
	err = s.read(ctx, func() error {
		out, err = s.observed(from, to)
		return err
	})
	return out, err
}

func (s *Store) observed(from, to time.Time) (*forecast.Series, error) {
	out := forecast.New(from, to)
	first := hourOf(out.Start())
	instrument := int64(0)
	err := query(s.db, `SELECT hour, origin, instrument, `+measuredColumns+` FROM observed WHERE hour >= ? AND hour < ? AND superseded IS NULL ORDER BY hour, origin`,
		[]any{first, first + int64(len(out.Hours))}, func(row *sqlite3.Stmt) error {
			var x forecast.Hour
			scanHour(row, 3, &x)
			h := &out.Hours[row.ColumnInt64(0)-first]
			o := Origin(row.ColumnInt64(1))
			if o == Station || instrument == 0 {
				instrument = row.ColumnInt64(2)
			}
			to := measured(h)
			for k, v := range measured(&x) {
				if v.IsKnown() {
					*to[k] = *v
				}
			}
			if o <= Station || h.Origin == forecast.OriginNone || x.Temp.IsKnown() {
				h.Origin = o.ofHour()
			}
			return nil
		})
	if err != nil || instrument == 0 {
		return out, err
	}
	return out, query(s.db, `SELECT feed, source, attribution FROM instrument WHERE seq = ?`, []any{instrument}, func(row *sqlite3.Stmt) error {
		out.Feed, out.Source, out.Attribution = row.ColumnText(0), row.ColumnText(1), row.ColumnText(2)
		return nil
	})
}

// Version is what was known of an hour from one time on.
type Version struct {
	Hour       forecast.Hour
	Origin     Origin
	Recorded   time.Time
	Superseded time.Time // zero while it holds
}

// Versions gives all that was ever known of the hour that holds t, oldest first.
func (s *Store) Versions(ctx context.Context, t time.Time) (out []Version, err error) {
	err = s.read(ctx, func() error {
		out = nil
		return query(s.db, `SELECT origin, recorded, superseded, `+measuredColumns+` FROM observed WHERE hour = ? ORDER BY origin, seq`, []any{hourOf(t)}, func(row *sqlite3.Stmt) error {
			v := Version{Origin: Origin(row.ColumnInt64(0)), Recorded: fromMilli(row.ColumnInt64(1))}
			if row.ColumnType(2) != sqlite3.NULL {
				v.Superseded = fromMilli(row.ColumnInt64(2))
			}
			v.Hour.Start, v.Hour.Origin = hourStart(hourOf(t)), v.Origin.ofHour()
			scanHour(row, 3, &v.Hour)
			out = append(out, v)
			return nil
		})
	})
	return out, err
}
