package store_test

import (
	"context"
	"encoding/base64"
	"math"
	"path/filepath"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// issued makes a forecast of some hours from its issue on.
func issued(at time.Time, hours int) *forecast.Series {
	f := forecast.New(at, at.Add(time.Duration(hours)*time.Hour))
	f.Feed, f.Source, f.Issued = "nws", "National Weather Service", at
	for i := range f.Hours {
		h := &f.Hours[i]
		h.Temp, h.RH, h.Wind = forecast.Known(20+float64(i%24)/3), forecast.Known(60), forecast.Known(2.5)
		h.Rain, h.RainProb, h.Origin = forecast.Known(0.5), forecast.Known(0.4), forecast.OriginForecast
	}
	for lo := 0; lo+6 <= hours; lo += 6 {
		f.Blocks = append(f.Blocks, forecast.RainBlock{Start: f.Hours[lo].Start, End: f.Hours[lo].Start.Add(6 * time.Hour), Amount: forecast.Known(3), Prob: forecast.Known(0.4)})
	}
	f.DayMax = []forecast.Extreme{{Start: f.Start(), End: f.Start().Add(12 * time.Hour), Temp: forecast.Known(29)}}
	f.Notes = []forecast.Note{{Layer: "Rain", Text: "amounts end on Sunday"}}
	return f
}

// measuredHours makes hours of a station; rain NaN is not measured.
func measuredHours(from time.Time, temp, rain float64, n int) *forecast.Series {
	s := forecast.New(from, from.Add(time.Duration(n)*time.Hour))
	s.Feed, s.Source = "nws", "Albany, 5 km away"
	for i := range s.Hours {
		h := &s.Hours[i]
		h.Temp, h.Rain, h.Origin = forecast.Known(temp), forecast.Known(rain), forecast.OriginObserved
	}
	return s
}

// at opens a memory whose clock the test moves.
func at(t *testing.T, now *time.Time, zone *time.Location) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "garden.db"), store.Options{Now: func() time.Time { return *now }, Zone: zone})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

var dawn = time.Date(2026, 7, 16, 4, 0, 0, 0, time.UTC)

func TestForecastsAreKeptOnceAndExactly(t *testing.T) {
	ctx, now := context.Background(), dawn
	s := at(t, &now, nil)
	f := issued(dawn, 168)
	f.Attribution = "NOAA"
	f.Point = forecast.Place{Lat: 42.7, Lon: -73.7, Elevation: forecast.Known(85)}
	for i, want := range []bool{true, false} {
		added, err := s.KeepForecast(ctx, f)
		require.NoError(t, err)
		assert.Equal(t, want, added, i)
	}
	other := issued(dawn, 168)
	other.Feed = "other"
	added, err := s.KeepForecast(ctx, other)
	require.NoError(t, err)
	assert.True(t, added, "another feed's of the same time")
	untold := issued(dawn, 24)
	untold.Issued = time.Time{}
	for i, want := range []bool{true, false} {
		added, err := s.KeepForecast(ctx, untold)
		require.NoError(t, err)
		assert.Equal(t, want, added, "without a time of issue the content tells: %d", i)
	}
	got, err := s.Forecasts(ctx, dawn, dawn.Add(time.Second))
	require.NoError(t, err)
	require.Len(t, got, 3)
	assert.Equal(t, f, got[0])
	none, err := s.Forecasts(ctx, dawn.Add(time.Second), dawn.Add(time.Hour))
	require.NoError(t, err)
	assert.Empty(t, none)
	added, err = s.KeepForecast(ctx, forecast.New(dawn, dawn))
	require.NoError(t, err)
	assert.False(t, added, "nothing is nothing to keep")
}

// Any series comes back bit for bit.
func TestForecastRoundTrip(t *testing.T) {
	ctx, now := context.Background(), dawn
	s := at(t, &now, nil)
	n := 0
	rapid.Check(t, func(r *rapid.T) {
		f := forecast.New(dawn.Add(time.Duration(rapid.IntRange(-1e6, 1e6).Draw(r, "start"))*time.Hour), dawn)
		f = forecast.New(f.Start(), f.Start().Add(time.Duration(rapid.IntRange(1, 60).Draw(r, "hours"))*time.Hour))
		if len(f.Hours) == 0 {
			f = forecast.New(dawn, dawn.Add(time.Hour))
		}
		n++
		f.Feed, f.Source, f.Issued = anyWord().Draw(r, "feed"), anyWord().Draw(r, "source"), dawn.Add(time.Duration(n)*time.Second)
		for i := range f.Hours {
			h := &f.Hours[i]
			for _, v := range []*forecast.Value{&h.Temp, &h.DewPoint, &h.RH, &h.Wind, &h.Gust, &h.Sky, &h.Radiation, &h.Rain, &h.RainProb, &h.Thunder} {
				*v = anyValue().Draw(r, "value")
			}
			h.Origin = forecast.Origin(rapid.IntRange(0, 3).Draw(r, "origin"))
		}
		for range rapid.IntRange(0, 3).Draw(r, "blocks") {
			f.Blocks = append(f.Blocks, forecast.RainBlock{Start: anyTime().Draw(r, "from").Truncate(time.Second), End: anyTime().Draw(r, "to").Truncate(time.Second), Amount: anyValue().Draw(r, "mm"), Prob: anyValue().Draw(r, "p")})
		}
		if added, err := s.KeepForecast(ctx, f); err != nil || !added {
			r.Fatal(added, err)
		}
		got, err := s.Forecasts(ctx, f.Issued, f.Issued.Add(time.Second))
		if err != nil || len(got) != 1 || !assert.ObjectsAreEqual(f, got[0]) {
			r.Fatalf("%v: %+v came back as %+v", err, f, got)
		}
	})
}

// A body as the first layout of bodies wrote it, frozen.
const frozenBody = "lIzNSsNAFEYN+CDhW09hWmPFATGKikLtwlTqDy6u7QWjcQbmpzaU4nPoI+gTufMF3LuUJK5au/BszuLe70Rf0QxHzGMo6CcHgcwEO2Io9MnnRlMRD5n8Hds4YzvJRwyBPe9tfhuqOxQgcOJcqBsd2em25Far3R3IREmppLyCQI88lBToVQMpcFjwhJq5DkUhkHmyHirZ3uzKRODYBOugNgT2CzN6cPXogMpTmkK1BfrGs4O6nqFHJVsonFGuITDgqYcCPZqgvYtZj2Oj4yzoMZWY38yjKFqrSdLzmiR9f6tI0ubw/bzo5r+f/u31Ja/q/NdN73N30a8vFR9LXtVJhxf3zfby1xU76U8AAAD//w=="

func TestForecastsOfEarlierBodiesAreRead(t *testing.T) {
	body, err := base64.StdEncoding.DecodeString(frozenBody)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "garden.db")
	require.NoError(t, open(t, path).Close())
	db, err := sqlite3.Open(path)
	require.NoError(t, err)
	st, _, err := db.Prepare(`INSERT INTO forecast (feed, issue, issued, first, stop, body) VALUES ('nws', '2026-07-16T04:00:00Z', 1784174400, 495604, 495607, ?)`)
	require.NoError(t, err)
	require.NoError(t, st.BindBlob(1, body))
	require.NoError(t, st.Exec())
	require.NoError(t, st.Close())
	require.NoError(t, db.Close())
	got, err := open(t, path).Forecasts(context.Background(), dawn, dawn.Add(time.Second))
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.Equal(t, issued(dawn, 3), got[0])
}

// The rule of keeping: all of 30 days, then one a day, the last before 6 by the
// garden's clock, for 400 days.
func TestPrune(t *testing.T) {
	ctx := context.Background()
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	today := forecast.Date{Year: 2026, Month: 7, Day: 16}
	now := today.AddDays(-420).Start(zone)
	s := at(t, &now, zone)
	for d := 420; d >= 0; d-- {
		if d > 45 && d < 395 {
			continue // the ends of the rule are what matters
		}
		for _, hour := range []float64{3, 5.5, 6, 18} {
			now = today.AddDays(-d).At(hour, zone)
			_, err := s.KeepForecast(ctx, issued(now.UTC(), 6))
			require.NoError(t, err)
		}
	}
	now = today.At(20, zone)
	_, err = s.Prune(ctx)
	require.NoError(t, err)
	kept := map[forecast.Date][]int{}
	all, err := s.Forecasts(ctx, time.Time{}, now)
	require.NoError(t, err)
	for _, f := range all {
		d := forecast.DateOf(f.Issued, zone)
		kept[d] = append(kept[d], f.Issued.In(zone).Hour())
	}
	assert.Empty(t, kept[today.AddDays(-401)])
	assert.Equal(t, []int{5}, kept[today.AddDays(-400)])
	assert.Equal(t, []int{5}, kept[today.AddDays(-31)])
	assert.Equal(t, []int{3, 5, 6, 18}, kept[today.AddDays(-29)])
	assert.Len(t, kept[today], 4)

	// A day without an issue before 6 keeps its first.
	later := today.AddDays(-40)
	late := at(t, &now, zone)
	for _, hour := range []float64{9, 18} {
		_, err := late.KeepForecast(ctx, issued(later.At(hour, zone).UTC(), 6))
		require.NoError(t, err)
	}
	gone, err := late.Prune(ctx)
	require.NoError(t, err)
	all, err = late.Forecasts(ctx, time.Time{}, now)
	require.NoError(t, err)
	require.Len(t, all, 1)
	assert.Equal(t, 9, all[0].Issued.In(zone).Hour())
	assert.Zero(t, gone, "it went when the later one was kept")
}

// Later data amend; what was known before stays to be looked at.
func TestObservedHoursAreAmendedNotOverwritten(t *testing.T) {
	ctx, now := context.Background(), dawn
	s := at(t, &now, nil)
	first := measuredHours(dawn.Add(-3*time.Hour), 18, math.NaN(), 5)
	added, amended, err := s.KeepObserved(ctx, first, store.Station)
	require.NoError(t, err)
	assert.Equal(t, [2]int{3, 0}, [2]int{added, amended}, "hours that are not over yet are left out")
	added, amended, err = s.KeepObserved(ctx, first, store.Station)
	require.NoError(t, err)
	assert.Equal(t, [2]int{0, 0}, [2]int{added, amended}, "known already")

	now = now.Add(time.Hour)
	better := measuredHours(dawn.Add(-2*time.Hour), 19, 0.4, 1)
	better.Hours[0].Temp = forecast.Value{}
	added, amended, err = s.KeepObserved(ctx, better, store.Station)
	require.NoError(t, err)
	assert.Equal(t, [2]int{0, 1}, [2]int{added, amended})
	versions, err := s.Versions(ctx, dawn.Add(-2*time.Hour).Add(20*time.Minute))
	require.NoError(t, err)
	require.Len(t, versions, 2)
	assert.Equal(t, forecast.Value{}, versions[0].Hour.Rain)
	assert.Equal(t, now, versions[0].Superseded)
	assert.Equal(t, dawn, versions[0].Recorded)
	assert.Equal(t, forecast.Known(0.4), versions[1].Hour.Rain)
	assert.Equal(t, forecast.Known(18), versions[1].Hour.Temp, "a value that is missing now stays known")
	assert.True(t, versions[1].Superseded.IsZero())

	// The grower's own instruments go before a station's, value by value.
	own := measuredHours(dawn.Add(-2*time.Hour), 21, math.NaN(), 1)
	own.Hours[0].Origin = forecast.OriginLogger
	_, _, err = s.KeepObserved(ctx, own, store.Logger)
	require.NoError(t, err)
	rain := measuredHours(dawn.Add(-2*time.Hour), math.NaN(), 0.7, 1)
	_, _, err = s.KeepObserved(ctx, rain, store.Gauge)
	require.NoError(t, err)
	got, err := s.Observed(ctx, dawn.Add(-3*time.Hour), dawn)
	require.NoError(t, err)
	require.Len(t, got.Hours, 3)
	assert.Equal(t, forecast.Known(21), got.Hours[1].Temp)
	assert.Equal(t, forecast.Known(0.7), got.Hours[1].Rain)
	assert.Equal(t, forecast.OriginLogger, got.Hours[1].Origin)
	assert.Equal(t, forecast.OriginObserved, got.Hours[0].Origin)
	assert.Equal(t, "Albany, 5 km away", got.Source)

	added, _, err = s.KeepObserved(ctx, issued(dawn.Add(-24*time.Hour), 12), store.Station)
	require.NoError(t, err)
	assert.Zero(t, added, "a forecast is no measurement")
}

func gaugeEntry(at time.Time, mm float64) memory.Entry {
	return memory.Entry{Kind: memory.Rain, At: at, Date: forecast.DateOf(at, time.UTC), Amount: forecast.Known(mm)}
}

// rains sums the rain of a series.
func rains(s *forecast.Series, from, to time.Time) (mm float64) {
	lo, hi := s.Slice(from, to)
	for i := lo; i < hi; i++ {
		mm += s.Hours[i].Rain.Or(math.NaN())
	}
	return mm
}

func TestPastOnAFirstRun(t *testing.T) {
	now := dawn
	got, known, err := at(t, &now, nil).Past(context.Background(), dawn.AddDate(0, 0, -21), dawn, nil)
	require.NoError(t, err)
	assert.Empty(t, got.Hours)
	assert.True(t, known.IsZero(), "nothing is known yet")
	_, _, err = at(t, &now, nil).Past(context.Background(), dawn, dawn, nil)
	require.NoError(t, err)
}

// Measured hours first; else the last forecast of that hour, which stays one,
// with its chance of rain and its share of its block.
func TestPastFillsInFromTheLastForecast(t *testing.T) {
	ctx, now := context.Background(), dawn
	s := at(t, &now, nil)
	old, last := issued(dawn.Add(-24*time.Hour), 48), issued(dawn.Add(-12*time.Hour), 48)
	for i := range last.Hours {
		last.Hours[i].Temp = forecast.Known(30)
		last.Hours[i].RainProb = forecast.Known(0.9)
	}
	for i := range last.Blocks {
		last.Blocks[i].Prob = forecast.Known(0.9)
	}
	for _, f := range []*forecast.Series{last, old} { // in any order
		_, err := s.KeepForecast(ctx, f)
		require.NoError(t, err)
	}
	_, _, err := s.KeepObserved(ctx, measuredHours(dawn.Add(-14*time.Hour), 18, 0, 4), store.Station) // two hours of either
	require.NoError(t, err)
	_, _, err = s.KeepObserved(ctx, measuredHours(dawn.Add(-3*time.Hour), 17, math.NaN(), 1), store.Station)
	require.NoError(t, err)

	got, known, err := s.Past(ctx, dawn.AddDate(0, 0, -21), dawn.Add(20*time.Minute), nil)
	require.NoError(t, err)
	assert.Equal(t, dawn.Add(-24*time.Hour), known)
	require.Len(t, got.Hours, 24)
	assert.Equal(t, old.Hours[9], got.Hours[9])
	assert.Equal(t, forecast.OriginObserved, got.Hours[11].Origin)
	assert.Equal(t, forecast.Known(0), got.Hours[11].Rain)
	assert.Equal(t, last.Hours[5], got.Hours[17])
	odd := got.Hours[21]
	assert.Equal(t, forecast.Known(17), odd.Temp, "its temperature was measured")
	assert.Equal(t, forecast.OriginForecast, odd.Origin, "its rain was not, so it does not pass for measured")
	assert.Equal(t, forecast.Known(0.9), odd.RainProb)
	assert.Contains(t, got.Notes[0].Text, "forecast rain, not measured")
	assert.Equal(t, "of the hours before, 19 have a forecast temperature, not measured", got.Notes[1].Text)
	assert.Empty(t, got.DayMax, "a forecast extreme says nothing of a day that is over")

	// Blocks are those of the hours they speak of, cut to them: 10 hours of the
	// old at 3 mm in 6 h, 10 of the last.
	mm := map[float64]float64{}
	for _, b := range got.Blocks {
		mm[b.Prob.Or(0)] += b.Amount.Or(0)
		lo, hi := got.Slice(b.Start, b.End)
		for i := lo; i < hi; i++ {
			assert.Equal(t, forecast.OriginForecast, got.Hours[i].Origin, "a block lies over a measured hour: %v", got.Hours[i].Start)
		}
	}
	assert.InDelta(t, 10*0.5, mm[0.4], 1e-9)
	assert.InDelta(t, 10*0.5, mm[0.9], 1e-9)

	// What is ahead begins where what is behind ends.
	joined := store.Join(got, last, dawn)
	assert.Equal(t, dawn.Add(36*time.Hour), joined.End())
	total := 0.0
	for _, b := range joined.Blocks {
		total += b.Amount.Or(0)
	}
	assert.InDelta(t, 20*0.5+36*0.5, total, 1e-9, "no block counts twice")
	assert.Same(t, last, store.Join(nil, last, dawn))

	// One that is not kept yet counts as the last.
	next := issued(dawn.Add(-2*time.Hour), 48)
	got, _, err = s.Past(ctx, dawn.AddDate(0, 0, -21), dawn, next)
	require.NoError(t, err)
	assert.Equal(t, next.Hours[1], got.Hours[23])
	assert.Equal(t, last.Hours[8], got.Hours[20])
}

// The diary's gauge goes before a station, as that before a forecast.
func TestGaugeGoesFirst(t *testing.T) {
	ctx := context.Background()
	day := dawn.AddDate(0, 0, -2) // a reading at 4 each morning
	for _, c := range []struct {
		name     string
		measured []float64 // by hour from day on; NaN not measured; nil: no station
		readings []memory.Entry
		from, to time.Time
		want     float64 // mm within
		block    float64 // mm in blocks
		origin   forecast.Origin
	}{
		{"as the station fell", []float64{0, 1, 3, 0}, []memory.Entry{gaugeEntry(day, 0), gaugeEntry(day.Add(4*time.Hour), 8)}, day, day.Add(4 * time.Hour), 8, 0, forecast.OriginObserved},
		{"a dry gauge", []float64{0, 1, 3, 0}, []memory.Entry{gaugeEntry(day, 0), gaugeEntry(day.Add(4*time.Hour), 0)}, day, day.Add(4 * time.Hour), 0, 0, forecast.OriginObserved},
		{"a shower past the station", []float64{0, 0, 0, 0}, []memory.Entry{gaugeEntry(day, 0), gaugeEntry(day.Add(4*time.Hour), 6)}, day, day.Add(4 * time.Hour), 6, 6, forecast.OriginForecast},
		{"no station", nil, []memory.Entry{gaugeEntry(day, 0), gaugeEntry(day.Add(4*time.Hour), 6)}, day, day.Add(4 * time.Hour), 6, 6, forecast.OriginForecast},
		{"a day's reading", []float64{0, 0, 0, 2}, []memory.Entry{{Kind: memory.Rain, Date: forecast.DateOf(day, time.UTC), Amount: forecast.Known(5)}}, day, day.Add(4 * time.Hour), 5, 0, forecast.OriginObserved},
		{"a first reading is of a day", []float64{2, 0, 0, 0}, []memory.Entry{gaugeEntry(day.Add(4*time.Hour), 5)}, day, day.Add(4 * time.Hour), 5, 0, forecast.OriginObserved},
		{"a bed's own note is no gauge", []float64{2, 0, 0, 0}, []memory.Entry{{Kind: memory.Rain, Planting: "house", At: day.Add(4 * time.Hour), Date: forecast.DateOf(day, time.UTC), Amount: forecast.Known(5)}}, day, day.Add(4 * time.Hour), 2, 0, forecast.OriginObserved},
	} {
		t.Run(c.name, func(t *testing.T) {
			now := dawn
			s := at(t, &now, nil)
			dry := measuredHours(day.AddDate(0, 0, -3), 15, 0, 3*24) // before, so that all stretches lie within
			_, _, err := s.KeepObserved(ctx, dry, store.Station)
			require.NoError(t, err)
			for i, mm := range c.measured {
				_, _, err := s.KeepObserved(ctx, measuredHours(day.Add(time.Duration(i)*time.Hour), 18, mm, 1), store.Station)
				require.NoError(t, err)
			}
			if c.measured == nil {
				f := issued(day, 4)
				_, err := s.KeepForecast(ctx, f)
				require.NoError(t, err)
			}
			for _, e := range c.readings {
				_, err := s.AddEntry(ctx, e)
				require.NoError(t, err)
			}
			got, _, err := s.Past(ctx, day.AddDate(0, 0, -3), dawn, nil)
			require.NoError(t, err)
			assert.InDelta(t, c.want, rains(got, c.from, c.to), 1e-9)
			block := 0.0
			for _, b := range got.Blocks {
				block += b.Amount.Or(0)
				assert.Equal(t, forecast.Known(1), b.Prob, "it did rain")
			}
			assert.InDelta(t, c.block, block, 1e-9)
			lo, hi := got.Slice(c.from, c.to)
			require.Equal(t, 4, hi-lo)
			for i := lo; i < hi; i++ {
				assert.Equal(t, c.origin, got.Hours[i].Origin)
			}
		})
	}
}

// An amended and a removed reading count as they stand now.
func TestGaugeFollowsAmendments(t *testing.T) {
	ctx, now := context.Background(), dawn
	s := at(t, &now, nil)
	_, _, err := s.KeepObserved(ctx, measuredHours(dawn.AddDate(0, 0, -2), 15, 0.1, 48), store.Station)
	require.NoError(t, err)
	total := func() float64 {
		got, _, err := s.Past(ctx, dawn.AddDate(0, 0, -2), dawn, nil)
		require.NoError(t, err)
		return rains(got, dawn.AddDate(0, 0, -1), dawn)
	}
	assert.InDelta(t, 2.4, total(), 1e-9)
	e, err := s.AddEntry(ctx, gaugeEntry(dawn, 12))
	require.NoError(t, err)
	assert.InDelta(t, 12, total(), 1e-9)
	e, err = s.Amend(ctx, e.ID, gaugeEntry(dawn, 1.2))
	require.NoError(t, err)
	assert.InDelta(t, 1.2, total(), 1e-9)
	_, err = s.Remove(ctx, e.ID)
	require.NoError(t, err)
	assert.InDelta(t, 2.4, total(), 1e-9)
}
