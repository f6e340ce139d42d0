package store

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"time"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/forecast"
)

// What of the forecasts is kept. All of a month serve to fill in hours that no
// station measured. After that one a day, the one a grower got up with, serves to
// see how good the forecasts were; a little more than a year covers the same weeks
// of last season.
const (
	keepAllDays  = 30  // [chosen: as far back as a forecast may fill in]
	keepDays     = 400 // [chosen: the same weeks of last season, with five to spare]
	morningHours = 6   // local clock: the last issue before it is the day's [chosen: plans are made before dawn]
)

// Packed is a forecast as it is kept.
type Packed struct {
	f    *forecast.Series
	body []byte
	err  error
}

// Pack makes a forecast ready to be kept, which needs no memory.
func Pack(f *forecast.Series) Packed {
	body, err := pack(f)
	return Packed{f, body, err}
}

// KeepForecast keeps a forecast as it was issued and tells whether it is new. One
// that is here already, by its feed and the time of its issue, is not written
// again.
func (s *Store) KeepForecast(ctx context.Context, f *forecast.Series) (added bool, err error) {
	return s.KeepPacked(ctx, Pack(f))
}

// KeepPacked keeps a forecast that was packed before.
func (s *Store) KeepPacked(ctx context.Context, p Packed) (added bool, err error) {
	f := p.f
	if p.err != nil || len(f.Hours) == 0 {
		return false, p.err
	}
	issue, issued := f.Issued.UTC().Format(time.RFC3339), f.Issued
	if f.Issued.IsZero() {
		sum := sha256.Sum256(p.body)
		issue, issued = "sha256:"+hex.EncodeToString(sum[:]), s.now()
	}
	err = s.write(ctx, func() error {
		err := query(s.db, `INSERT INTO forecast (feed, issue, issued, first, stop, body) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			[]any{f.Feed, issue, issued.Unix(), hourOf(f.Start()), hourOf(f.End()), p.body}, nil)
		if added = err == nil && s.db.Changes() > 0; !added {
			return err
		}
		_, err = s.prune()
		return err
	})
	return added && err == nil, err
}

// LatestForecast gives the forecast issued last up to an instant, and when: that it
// was kept, where the feed does not tell. It is nil when there is none.
func (s *Store) LatestForecast(ctx context.Context, now time.Time) (f *forecast.Series, issued time.Time, err error) {
	err = s.read(ctx, func() error {
		f = nil
		return query(s.db, `SELECT issued, body FROM forecast WHERE issued <= ? ORDER BY issued DESC, seq DESC LIMIT 1`, []any{now.Unix()}, func(row *sqlite3.Stmt) error {
			issued = time.Unix(row.ColumnInt64(0), 0).UTC()
			if f, err = unpack(row.ColumnRawBlob(1)); err != nil {
				return &DamagedError{Path: s.path, What: err.Error(), Err: err}
			}
			return nil
		})
	})
	return f, issued, err
}

// Forecasts gives the forecasts issued in [from, to) that are still kept, oldest
// first.
func (s *Store) Forecasts(ctx context.Context, from, to time.Time) (out []*forecast.Series, err error) {
	err = s.read(ctx, func() error {
		out = nil
		return query(s.db, `SELECT body FROM forecast WHERE issued >= ? AND issued < ? ORDER BY issued, seq`, []any{from.Unix(), to.Unix()}, func(row *sqlite3.Stmt) error {
			f, err := unpack(row.ColumnRawBlob(0))
			if err != nil {
				return &DamagedError{Path: s.path, What: err.Error(), Err: err}
			}
			out = append(out, f)
			return nil
		})
	})
	return out, err
}

// Prune lets go of forecasts by the rule above and gives the room back to the
// disk. Diary and measured hours are never pruned. It tells how many went.
func (s *Store) Prune(ctx context.Context) (gone int, err error) {
	err = s.write(ctx, func() error {
		gone, err = s.prune()
		return err
	})
	if err != nil {
		return 0, err
	}
	return gone, s.alone(ctx, func() error { return s.db.Exec("VACUUM") })
}

func (s *Store) prune() (gone int, err error) {
	now := s.now()
	type issue struct{ seq, at int64 }
	type key struct {
		feed string
		day  forecast.Date
	}
	var drop []int64
	keep := map[key]issue{}
	oldest := forecast.DateOf(now, s.zone).AddDays(-keepDays)
	err = query(s.db, `SELECT seq, issued, feed FROM forecast INDEXED BY forecast_issued WHERE issued < ? ORDER BY issued`, []any{now.AddDate(0, 0, -keepAllDays).Unix()}, func(row *sqlite3.Stmt) error {
		x := issue{row.ColumnInt64(0), row.ColumnInt64(1)}
		k := key{row.ColumnText(2), forecast.DateOf(time.Unix(x.at, 0), s.zone)}
		had, ok := keep[k]
		switch {
		case k.day.Before(oldest):
			drop = append(drop, x.seq)
		case !ok:
			keep[k] = x
		case x.at < k.day.At(morningHours, s.zone).Unix(): // they come in order of their issue
			drop = append(drop, had.seq)
			keep[k] = x
		default:
			drop = append(drop, x.seq)
		}
		return nil
	})
	for _, seq := range drop {
		if err == nil {
			err = query(s.db, `DELETE FROM forecast WHERE seq = ?`, []any{seq}, nil)
		}
	}
	return len(drop), err
}
