package forecast

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func temps(v ...float64) []Hour {
	hs := make([]Hour, len(v))
	for i, t := range v {
		hs[i].Temp, hs[i].RH = Known(t), Known(50)
	}
	return hs
}

// The faults are those of the recorded years: Phoenix 27 June 2015 (41.7, 50.0,
// 38.9), New York JFK 9 May 2013 (13.9, -10.5, 14.0); the true falls are the
// thunderstorm at Phoenix on 31 August 2015 (39.4, 25.0, 28.3) and a cold front.
func TestClearSpikes(t *testing.T) {
	for _, c := range []struct {
		hours []Hour
		want  int
	}{
		{temps(41.7, 50.0, 38.9), 1}, {temps(13.9, -10.5, 14.0), 1},
		{temps(39.4, 25.0, 28.3), 0}, {temps(30, 18, 17), 0}, {temps(20, 21, 22), 0}, {temps(50), 0}, {nil, 0},
	} {
		assert.Equal(t, c.want, ClearSpikes(c.hours))
		if c.want == 1 {
			assert.False(t, c.hours[1].Temp.IsKnown())
			assert.False(t, c.hours[1].RH.IsKnown(), "measured by the same instrument")
			assert.True(t, c.hours[0].Temp.IsKnown())
		}
	}
}

// A civil day has 23, 24 or 25 hours: US Eastern clock changes of 2026 (8 March,
// 1 November), and Lord Howe's half hour.
func TestDayLengths(t *testing.T) {
	ny, err := time.LoadLocation("America/New_York")
	assert.NoError(t, err)
	for date, want := range map[Date]int{{2026, 3, 8}: 23, {2026, 11, 1}: 25, {2026, 7, 15}: 24} {
		from, to := date.Span(ny)
		assert.Equal(t, want, int(to.Sub(from).Hours()), date)
		s := New(from.Add(-24*time.Hour), to.Add(24*time.Hour))
		lo, hi := s.Day(date, ny)
		assert.Equal(t, want, hi-lo, date)
	}
	lhi, err := time.LoadLocation("Australia/Lord_Howe")
	assert.NoError(t, err)
	from, to := Date{2026, 4, 5}.Span(lhi)
	assert.Equal(t, 24.5, to.Sub(from).Hours())
	// Beirut 2022-03-27 has no midnight: the day begins at 01:00.
	if beirut, err := time.LoadLocation("Asia/Beirut"); err == nil {
		assert.Equal(t, Date{2022, 3, 27}, DateOf(Date{2022, 3, 27}.Start(beirut), beirut))
	}
}

func TestJoin(t *testing.T) {
	start := time.Date(2026, 7, 15, 0, 0, 0, 0, time.UTC)
	past, next := New(start, start.Add(6*time.Hour)), New(start.Add(4*time.Hour), start.Add(12*time.Hour))
	for i := range past.Hours {
		past.Hours[i].Temp, past.Hours[i].Origin = Known(10), OriginObserved
	}
	past.Hours[5] = Hour{Start: past.Hours[5].Start}
	for i := range next.Hours {
		next.Hours[i].Temp, next.Hours[i].Origin = Known(20), OriginForecast
	}
	s := Join(past, next, start.Add(7*time.Hour+20*time.Minute))
	assert.Len(t, s.Hours, 12)
	assert.Equal(t, OriginObserved, s.Hours[4].Origin)
	assert.Equal(t, OriginForecast, s.Hours[5].Origin, "an hour the station lacks keeps the forecast's own origin")
	assert.Equal(t, 20.0, s.Hours[7].Temp.Or(0))
	for i := 1; i < len(s.Hours); i++ {
		assert.Equal(t, time.Hour, s.Hours[i].Start.Sub(s.Hours[i-1].Start))
	}
	assert.Same(t, next, Join(nil, next, start))
	assert.Same(t, past, Join(past, nil, start))
}

func TestValueNeverHoldsNonsense(t *testing.T) {
	for _, v := range []Value{{}, Within(-9999, -60, 60), Within(140, 0, 100), Known(inf()), Known(-inf()), Known(inf() - inf())} {
		_, ok := v.Get()
		assert.False(t, ok)
		b, err := v.MarshalJSON()
		assert.NoError(t, err)
		assert.Equal(t, "null", string(b))
	}
	assert.Equal(t, 5.0, Value{}.Or(5))
	b, _ := Known(0).MarshalJSON()
	assert.Equal(t, "0", string(b))
}

func inf() float64 { x := 0.0; return 1 / x }

func TestDates(t *testing.T) {
	for _, bad := range []string{"2026-06-31", "2026-02-29", "15.7.2026", "", "2026-7-5"} {
		_, err := ParseDate(bad)
		assert.Error(t, err, bad)
	}
	d, err := ParseDate("2026-12-31")
	assert.NoError(t, err)
	assert.Equal(t, "2027-01-01", d.AddDays(1).String())
	assert.Equal(t, 365, d.AddDays(365).DaysSince(d))
	assert.True(t, d.Before(d.AddDays(1)) && d.AddDays(1).After(d))
}

// Latham NY to Albany airport, about 5 km by the map; half a degree of latitude
// is 55.6 km by definition of the mean radius.
func TestDistance(t *testing.T) {
	assert.InDelta(t, 55.6, Place{Lat: 42, Lon: -73}.DistanceKm(Place{Lat: 42.5, Lon: -73}), 0.05)
	assert.InDelta(t, 5, Place{Lat: 42.745, Lon: -73.752}.DistanceKm(Place{Lat: 42.75, Lon: -73.80}), 1.2)
}
