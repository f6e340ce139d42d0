package brightsky

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

func detail(v any) []byte {
	b, err := json.Marshal(row{"detail": v})
	if err != nil {
		panic(err)
	}
	return b
}

func TestFaults(t *testing.T) {
	feedtest.RunFaults(t, feedtest.Subject{
		Reader: func(base string) feed.Reader { return Reader{}.At(base) },
		Place:  garden, Path: path, Now: asked,
		Document: func(at time.Time) []byte { return invented(at).bytes(t) },
		Refusal:  func(int) []byte { return detail("Internal Server Error") },
	})
}

// What is asked: four decimals, whole UTC days, units and time zone by name.
func TestQuestion(t *testing.T) {
	f := newFake(t)
	f.On(path, feedtest.Body(invented(asked).bytes(t)))
	a, err := f.forecast()
	require.NoError(t, err)
	assert.Equal(t, []string{"/weather?lat=50.0123&lon=10.05&date=2026-07-14&last_date=2026-07-24&max_dist=50000&tz=Etc/UTC&units=dwd"}, f.Asked)
	assert.Zero(t, a.Age(asked), "counted from when it was fetched")

	f.Now = asked.Add(59 * time.Minute)
	a, err = f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Asked, 1, "not asked again within the hour, though the service names no time")
	assert.Equal(t, 59*time.Minute, a.Age(f.Now))
	f.Now = asked.Add(61 * time.Minute)
	_, err = f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Asked, 2)
}

// 4. The place is outside: told without asking, or by the service.
func TestFault04_PlaceOutside(t *testing.T) {
	f := newFake(t)
	req := f.request()
	var out *feed.OutsideError
	for p, swapped := range map[forecast.Place]bool{{Lat: 48.86, Lon: 2.35}: false, {Lat: 10.05, Lon: 50.01}: true, {Lat: 50.01, Lon: -10.05}: true} {
		req.Place = p
		_, err := f.reader().Forecast(t.Context(), f.Client, req)
		require.ErrorAs(t, err, &out)
		assert.Equal(t, swapped, out.Swapped, "%v", p)
		assert.NotEmpty(t, out.Hint())
		_, err = f.reader().Past(t.Context(), f.Client, req, asked.Add(-day))
		require.ErrorAs(t, err, &out)
	}
	assert.Empty(t, f.Asked)

	f.On(path, feedtest.Status(404, "application/json", detail("No sources match your criteria")))
	_, err := f.forecast()
	require.ErrorAs(t, err, &out)
	assert.False(t, out.Swapped)
	assert.Contains(t, out.Hint(), "whole world")
	assert.Empty(t, f.Waits, "asking again is in vain")

	f.On(path, feedtest.Status(404, "application/json", detail("Not Found")))
	_, err = f.forecast()
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none, "an address that is gone says nothing of the place")
}

// 5. Values that are missing throughout.
func TestFault05_MissingValues(t *testing.T) {
	d := invented(asked)
	d.set("solar", nil)
	for _, r := range d.rows {
		delete(r, "cloud_cover")
	}
	s := parse(t, d)
	for _, h := range s.Hours {
		require.False(t, h.Sky.IsKnown() || h.Radiation.IsKnown())
	}
	assert.Contains(t, feedtest.NoteOn(s, "Sky"), "is not in this forecast")
	assert.Contains(t, feedtest.NoteOn(s, "Radiation"), "is not in this forecast")
}

// 6. Rain sums of an hour, whose chance is that of six: one sum with one chance.
func TestFault06_RainSums(t *testing.T) {
	d := invented(asked)
	sums := 0.0
	for _, r := range d.rows {
		sums += r["precipitation"].(float64)
	}
	s := parse(t, d)
	total, blocks := 0.0, 0.0
	for _, h := range s.Hours {
		total += h.Rain.Or(0)
	}
	six, one := 0, 0
	for _, b := range s.Blocks {
		blocks += b.Amount.Or(0)
		switch b.End.Sub(b.Start) {
		case 6 * time.Hour:
			six++
			require.Zero(t, b.Start.Hour()%6)
			require.InDelta(t, 0.6, b.Prob.Or(0), 1e-9)
			want := 0.0
			for at := b.Start.Add(time.Hour); !at.After(b.End); at = at.Add(time.Hour) {
				want += d.at(at)["precipitation"].(float64)
			}
			require.InDelta(t, want, b.Amount.Or(-1), 1e-9, "%v", b.Start)
		case time.Hour:
			one++
			require.InDelta(t, 0.2, b.Prob.Or(0), 1e-9)
		}
	}
	assert.InDelta(t, sums, total, 0.01)
	measured := 0.0
	for at := asked.Truncate(day).AddDate(0, 0, -1); !at.After(asked); at = at.Add(time.Hour) {
		measured += d.at(at)["precipitation"].(float64)
	}
	assert.InDelta(t, sums-measured, blocks, 0.01)
	// 09 to 21 h and the next day to 21 h have chances of their own: 36 hours from 09:20.
	assert.Equal(t, 36, one)
	assert.Equal(t, (24-21)/6+4*7, six)
	assert.Len(t, s.Blocks, one+six+1, "21 to 24 h stands for itself with the chance of its six hours")
}

// 6. An amount that cannot be spoils its own hour, not the six around it.
func TestFault06_ImpossibleAmount(t *testing.T) {
	d := invented(asked)
	at6 := time.Date(2026, 7, 20, 3, 0, 0, 0, time.UTC)
	d.at(at6)["precipitation"] = -999.0
	d.at(at6.Add(day))["precipitation"] = nil
	s := parse(t, d)
	assert.False(t, feedtest.At(t, s, at6.Add(-time.Hour)).Rain.IsKnown())
	assert.True(t, feedtest.At(t, s, at6).Rain.IsKnown())
	assert.True(t, feedtest.At(t, s, at6.Add(-2*time.Hour)).Rain.IsKnown())
	assert.False(t, feedtest.At(t, s, at6.Add(day-time.Hour)).Rain.IsKnown(), "null is unknown, not dry")
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "impossible entries, taken as unknown: 1")
}

// 9. Chances of single hours end, then those of six hours; amounts end before the temperatures.
func TestFault09_ChancesAndAmountsEnd(t *testing.T) {
	d := invented(asked)
	last := time.Date(2026, 7, 20, 0, 0, 0, 0, time.UTC)
	for _, r := range d.rows {
		if r["timestamp"].(string) > last.Format(time.RFC3339) {
			r["precipitation"] = nil
		}
		if r["timestamp"].(string) > last.Add(day).Format(time.RFC3339) {
			r["precipitation_probability_6h"] = nil
		}
	}
	s := parse(t, d)
	hour := func(h int) forecast.Hour { return feedtest.At(t, s, asked.Add(time.Duration(h)*time.Hour)) }
	assert.InDelta(t, 0.2, hour(35).RainProb.Or(0), 1e-9)
	assert.InDelta(t, 0.6, hour(36).RainProb.Or(0), 1e-9, "of its six hours")
	assert.True(t, feedtest.At(t, s, last.Add(-time.Hour)).Rain.IsKnown())
	assert.False(t, feedtest.At(t, s, last).Rain.IsKnown(), "unknown, not dry")
	assert.True(t, feedtest.At(t, s, last).RainProb.IsKnown())
	assert.False(t, feedtest.At(t, s, last.Add(day)).RainProb.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "ends 4 days before the temperatures")
	assert.Contains(t, feedtest.NoteOn(s, "RainProb"), "ends 3 days before")
}

// 10. A document does not name its units: those in SI are told by their temperatures.
func TestFault10_Units(t *testing.T) {
	d := invented(asked)
	d.set("temperature", 293.15)
	d.set("dew_point", 283.15)
	d.set("wind_speed", 10.0)
	d.set("wind_gust_speed", 20.0)
	d.set("solar", 2026800.0)
	d.set("precipitation", 0.3)
	s := parse(t, d)
	h := s.Hours[50]
	assert.InDelta(t, 20.0, h.Temp.Or(0), 1e-9)
	assert.InDelta(t, 10.0, h.DewPoint.Or(0), 1e-9)
	assert.Equal(t, 10.0, h.Wind.Or(0), "10 m/s, not 10 km/h")
	assert.Equal(t, 20.0, h.Gust.Or(0))
	assert.InDelta(t, 563.0, h.Radiation.Or(0), 1e-9)
	assert.InDelta(t, 0.3, h.Rain.Or(0), 1e-9)
	assert.Contains(t, feedtest.NoteOn(s, ""), "kelvin")

	d = invented(asked)
	d.at(asked.Truncate(day))["temperature"] = 300.0
	s = parse(t, d)
	assert.InDelta(t, 2.5, s.Hours[50].Wind.Or(0), 1e-9, "a single damaged value changes no units")
	assert.False(t, feedtest.At(t, s, asked.Truncate(day)).Temp.IsKnown())
}

// 11. An answer with forecasts of days before. It does not tell its issue: its latest forecast
// does, and the day that it begins with.
func TestFault11_OldForecasts(t *testing.T) {
	ask := func(d *tree) error {
		f := newFake(t)
		f.On(path, feedtest.Body(d.bytes(t)))
		_, err := f.forecast()
		return err
	}
	reaching := func(age time.Duration) *tree {
		d := invented(asked)
		d.sources[1]["last_record"] = asked.Add(reach - age).Format(time.RFC3339)
		return d
	}
	assert.NoError(t, ask(reaching(23*time.Hour)))
	var stale *feed.StaleError
	require.ErrorAs(t, ask(reaching(89*time.Hour)), &stale)
	assert.Contains(t, stale.Error(), "89 h old")
	assert.NoError(t, ask(invented(asked.Add(-10*time.Hour))), "asked for yesterday")
	require.ErrorAs(t, ask(invented(asked.Add(-34*time.Hour))), &stale, "asked for the day before yesterday")

	d := invented(asked) // stations only: the forecasts have stopped
	d.rows = d.rows[:34]
	assert.ErrorContains(t, ask(d), "end within 48 h")
}

// 13. An error in place of an answer, with status 200.
func TestFault13_ErrorInPlaceOfAnAnswer(t *testing.T) {
	f := newFake(t)
	f.On(path, feedtest.Body(detail("Internal Server Error")), feedtest.Body(invented(asked).bytes(t)))
	_, err := f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Waits, 1, "fetched again")

	f = newFake(t)
	f.On(path, feedtest.Body(detail("Internal Server Error")))
	_, err = f.forecast()
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none)
	assert.Contains(t, none.Error(), `the service says "Internal Server Error"`)
}

// 14. The service's own words for a question that it does not take.
func TestFault14_RefusedQuestion(t *testing.T) {
	for name, c := range map[string]struct {
		status int
		doc    any
		want   string
	}{
		"one":   {422, []any{row{"type": "less_than_equal", "loc": []any{"query", "lat"}, "msg": "Input should be less than or equal to 90", "input": "95"}}, `"lat: Input should be less than or equal to 90"`},
		"two":   {422, []any{row{"loc": []any{"query"}, "msg": "Value error, one."}, row{"loc": []any{}, "msg": "two"}}, `"query: Value error, one; two"`},
		"long":  {422, []any{row{"msg": strings.Repeat("x", 500)}}, strings.Repeat("x", maxReason) + `..."`},
		"text":  {400, "must accept gzip encoding", `"must accept gzip encoding"`},
		"other": {422, 7, "422"},
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.On(path, feedtest.Status(c.status, "application/json", detail(c.doc)))
			_, err := f.forecast()
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), c.want)
			assert.Empty(t, f.Waits, "asking again is in vain")
			assert.NotEmpty(t, none.Hint())
		})
	}
}

// 15. Nulls are unknown; a little less than no light is none.
func TestFault15_NullsAndNegativeLight(t *testing.T) {
	d := invented(asked)
	start := time.Date(2026, 7, 17, 0, 0, 0, 0, time.UTC)
	d.at(start.Add(time.Hour))["solar"] = -0.0002
	d.at(start.Add(2 * time.Hour))["solar"] = json.RawMessage("-0")
	d.at(start.Add(3 * time.Hour))["solar"] = -0.03
	d.at(start.Add(4 * time.Hour))["temperature"] = nil
	for _, r := range d.rows[220:] {
		for name := range r {
			if name != "timestamp" && name != "source_id" {
				r[name] = nil
			}
		}
	}
	s := parse(t, d)
	for i := range 2 {
		v, ok := feedtest.At(t, s, start.Add(time.Duration(i)*time.Hour)).Radiation.Get()
		assert.True(t, ok)
		assert.Equal(t, "0", fmt.Sprint(v), "no minus sign either")
	}
	assert.False(t, feedtest.At(t, s, start.Add(2*time.Hour)).Radiation.IsKnown(), "-30 W/m2 is no rounding")
	assert.False(t, feedtest.At(t, s, start.Add(4*time.Hour)).Temp.IsKnown(), "null is unknown, not 0 degC")
	assert.Len(t, s.Hours, 221, "a tail of nulls is no hours")
}
