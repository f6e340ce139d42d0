package station

import (
	"math"
	"slices"
	"time"

	"dawnbrush/forecast"
)

// enough is the share of an hour's rows from which its mean is taken for the
// hour's. [chosen: one row in four may be missing]
const enough = 0.75

// hours puts the rows together.
func (r *reader) hours() *Result {
	out := &Result{Rows: len(r.rows), OnlyRain: true}
	for i, c := range r.columns {
		if i != r.at && c.what.key != rain.key {
			out.OnlyRain = false
		}
	}
	out.Series = forecast.New(hourBefore(r.rows[0].end), hourBefore(r.rows[len(r.rows)-1].end).Add(time.Hour))
	whole := rowsAnHour(r.rows)
	for lo := 0; lo < len(r.rows); {
		start := hourBefore(r.rows[lo].end)
		hi := lo + 1
		for hi < len(r.rows) && hourBefore(r.rows[hi].end).Equal(start) {
			hi++
		}
		i, _ := out.Series.Index(start)
		h := &out.Series.Hours[i]
		lacking := false
		for k, c := range r.columns {
			if k == r.at {
				continue
			}
			v := joined(r.rows[lo:hi], k, c.what.how, whole)
			*c.what.value(h) = v
			lacking = lacking || !v.IsKnown()
			if v.IsKnown() {
				h.Origin = forecast.OriginLogger
			}
		}
		if lacking {
			out.Partial++
		}
		lo = hi
	}
	return out
}

// hourBefore gives the full hour that a span ending at t belongs to.
func hourBefore(t time.Time) time.Time { return t.Add(-time.Nanosecond).Truncate(time.Hour) }

// rowsAnHour tells how many rows make an hour: by the usual distance between
// rows, one where they stand an hour apart or more.
func rowsAnHour(rows []row) int {
	var gaps []time.Duration
	for i := 1; i < len(rows); i++ {
		gaps = append(gaps, rows[i].end.Sub(rows[i-1].end))
	}
	if len(gaps) == 0 {
		return 1
	}
	slices.Sort(gaps)
	return max(1, int(math.Round(float64(time.Hour)/float64(gaps[len(gaps)/2]))))
}

// joined makes one value of an hour's rows. A sum needs all of them; a mean and
// a highest value most.
func joined(rows []row, cell int, how joining, whole int) forecast.Value {
	total, top, n := 0.0, math.Inf(-1), 0
	for _, x := range rows {
		if v := x.values[cell]; !math.IsNaN(v) {
			total, top, n = total+v, max(top, v), n+1
		}
	}
	switch {
	case n == 0, how == sum && n < whole, float64(n) < enough*float64(whole):
		return forecast.Value{}
	case how == sum:
		return forecast.Known(total)
	case how == highest:
		return forecast.Known(top)
	}
	return forecast.Known(total / float64(n))
}
