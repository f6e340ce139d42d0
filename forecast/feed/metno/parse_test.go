package metno

import (
	"bytes"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

func TestReaderSuite(t *testing.T) {
	feedtest.Run(t, Reader{},
		feedtest.Doc{Name: "invented", Body: invented(issued).bytes(t), Now: issued},
		feedtest.Doc{Name: "small", Body: small(t)})
}

func TestParseReadsEveryQuantity(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	assert.Equal(t, time.Date(2026, 7, 15, 9, 0, 0, 0, time.UTC), s.Start())
	assert.Equal(t, firstWide.Add((wideSteps-1)*6*time.Hour+time.Hour), s.End(), "the last instant is an hour")
	assert.Equal(t, issued, s.Issued)
	assert.Equal(t, "MET Norway", s.Source)
	assert.Contains(t, s.Attribution, "Based on data from MET Norway")
	assert.Contains(t, s.Attribution, "https://creativecommons.org/licenses/by/4.0/")
	assert.Equal(t, forecast.Place{Lat: 60.25, Lon: 10.0123, Elevation: forecast.Known(187)}, s.Point)

	h := feedtest.At(t, s, issued.Add(30*time.Hour)) // 15:00, the 31st step
	assert.Equal(t, 22.5, h.Temp.Or(-99))
	assert.Equal(t, 12.5, h.DewPoint.Or(-99))
	assert.Equal(t, 75.0, h.RH.Or(-99))
	assert.Equal(t, 2.5, h.Wind.Or(-99))
	assert.Equal(t, 6.5, h.Gust.Or(-99))
	assert.InDelta(t, 0.25, h.Sky.Or(-99), 1e-9)
	assert.InDelta(t, 0.0, h.Rain.Or(-99), 1e-9)
	assert.InDelta(t, 0.2, h.RainProb.Or(-99), 1e-9)
	assert.InDelta(t, 0.015, h.Thunder.Or(-99), 1e-9)
	assert.False(t, h.Radiation.IsKnown(), "the service has no radiation")
	assert.Equal(t, forecast.OriginForecast, h.Origin)
	assert.Len(t, s.DayMax, wideSteps-1)
}

// The hours between two wider steps: readings in a straight line, rain and its chance as
// issued for the six hours, what is read by the hour only unknown.
func TestStepChange(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	before, first := feedtest.At(t, s, firstWide.Add(-time.Hour)), feedtest.At(t, s, firstWide)
	assert.Equal(t, 26.5, before.Temp.Or(-99))
	assert.True(t, before.Gust.IsKnown() && before.Thunder.IsKnown())
	assert.Equal(t, 15.0, first.Temp.Or(-99))
	between := feedtest.At(t, s, firstWide.Add(4*time.Hour)) // from 15 degC at 00:00 to 18 degC at 06:00
	assert.InDelta(t, 17.0, between.Temp.Or(-99), 1e-9)
	assert.InDelta(t, 64.0, between.RH.Or(-99), 1e-9)
	assert.InDelta(t, 0.45, between.RainProb.Or(-99), 1e-9)
	assert.InDelta(t, 0.25, between.Rain.Or(-99), 1e-9, "a sixth of the block, for totals only")
	assert.False(t, between.Gust.IsKnown() || between.Thunder.IsKnown())
	i := slices.IndexFunc(s.Blocks, func(b forecast.RainBlock) bool { return b.Start.Equal(firstWide) })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, forecast.RainBlock{Start: firstWide, End: firstWide.Add(6 * time.Hour), Amount: forecast.Known(1.5), Prob: forecast.Known(0.45)}, s.Blocks[i])
	assert.Equal(t, forecast.Extreme{Start: firstWide, End: firstWide.Add(6 * time.Hour), Temp: forecast.Known(28.5)}, s.DayMax[0])
	assert.Contains(t, feedtest.NoteOn(s, ""), "from 18 July 00:00 UTC on the forecast goes in steps of up to 6 hours")
	assert.Contains(t, feedtest.NoteOn(s, "Thunder"), "ends 7 days before")
}

// A step that the document lost leaves its hours unknown: a line over half a day would
// say that nothing happened there.
func TestHolesStayUnknown(t *testing.T) {
	d := invented(issued)
	d.setSteps(slices.Delete(d.steps(), hourlySteps+2, hourlySteps+3))
	s := parse(t, d, time.Time{})
	assert.True(t, feedtest.At(t, s, firstWide.Add(6*time.Hour)).Temp.IsKnown())
	for k := 7; k < 18; k++ {
		require.False(t, feedtest.At(t, s, firstWide.Add(time.Duration(k)*time.Hour)).Temp.IsKnown(), "hour %d", k)
	}
	assert.True(t, feedtest.At(t, s, firstWide.Add(18*time.Hour)).Temp.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, ""), "holes of more than 6 hours, left unknown: 1")

	d = invented(issued)
	d.setSteps(slices.Delete(d.steps(), 10, 12)) // two of the hourly ones: three hours apart
	s = parse(t, d, time.Time{})
	require.True(t, feedtest.At(t, s, issued.Add(11*time.Hour)).Temp.IsKnown())
}

// A sum of six hours in the hourly part does not stand in for a missing hour when the
// other hours are told.
func TestMissingHourIsNotFilledFromSixHours(t *testing.T) {
	d := invented(issued)
	delete(d.steps()[10].in("data"), "next_1_hours")
	s := parse(t, d, time.Time{})
	h := feedtest.At(t, s, issued.Add(10*time.Hour))
	assert.False(t, h.Rain.IsKnown() || h.RainProb.IsKnown())
	assert.True(t, feedtest.At(t, s, issued.Add(11*time.Hour)).Rain.IsKnown())
}

// A chance that is told for six hours only is read from periods that do not overlap.
func TestChancesOfSixHoursInTheHourlyPart(t *testing.T) {
	d := invented(issued)
	d.each("next_1_hours", func(_ int, details tree) { delete(details, "probability_of_precipitation") })
	d.each("next_6_hours", func(i int, details tree) { details["probability_of_precipitation"] = i % 100 })
	s := parse(t, d, time.Time{})
	for _, c := range []struct{ hour, want int }{{0, 0}, {5, 0}, {6, 6}, {13, 12}} {
		assert.InDelta(t, float64(c.want)/100, feedtest.At(t, s, issued.Add(time.Duration(c.hour)*time.Hour)).RainProb.Or(-99), 1e-9, "hour %d", c.hour)
	}
	assert.Empty(t, feedtest.NoteOn(s, "RainProb"), "periods that overlap are no fault of the document")
	assert.InDelta(t, 0.3, feedtest.At(t, s, issued.Add(2*time.Hour)).Rain.Or(-99)+feedtest.At(t, s, issued.Add(time.Hour)).Rain.Or(-99), 1e-9, "amounts stay hourly")
}

func TestTimesOutOfOrder(t *testing.T) {
	want := parse(t, invented(issued), time.Time{})
	d := invented(issued)
	slices.Reverse(d.steps())
	assert.Equal(t, want, parse(t, d, time.Time{}))

	steps := d.steps()
	d.setSteps(append(steps, steps[3], tree{"time": "soon", "data": steps[0]["data"]}, tree{"time": "2026-07-15T10:30:00Z", "data": steps[0]["data"]},
		tree{"time": "0001-01-01T00:00:00Z", "data": steps[0]["data"]}))
	s := parse(t, d, time.Time{})
	assert.Equal(t, want.Hours, s.Hours)
	assert.Contains(t, feedtest.NoteOn(s, ""), "steps without a usable time, left out: 4")

	d.steps()[0]["time"] = "2026-07-25T02:00:00+02:00" // the last one, with an offset
	assert.Equal(t, want.Hours, parse(t, d, time.Time{}).Hours)
}

func TestPointWithoutHeight(t *testing.T) {
	for _, c := range [][]any{{10.0123, 60.25}, {10.0123, 60.25, nil}, {10.0123, 60.25, 1e6}} {
		d := invented(issued)
		d.in("geometry")["coordinates"] = c
		assert.Equal(t, forecast.Place{Lat: 60.25, Lon: 10.0123}, parse(t, d, time.Time{}).Point)
	}
}

func TestUnusableDocuments(t *testing.T) {
	noTime := invented(issued)
	noTime.in("properties", "meta")["updated_at"] = "yesterday"
	nulls := invented(issued)
	for _, part := range []string{"instant", "next_1_hours", "next_6_hours"} {
		nulls.each(part, func(_ int, details tree) { clear(details) })
	}
	words := invented(issued)
	words.each("instant", func(_ int, details tree) { details["air_temperature"] = "warm" })
	nowcast := invented(issued)
	nowcast.in("properties", "meta")["radar_coverage"] = "ok"
	none := invented(issued)
	none.setSteps(nil)
	for name, c := range map[string]struct {
		doc  []byte
		want string
	}{
		"empty":    {nil, "it is empty"},
		"cut":      {invented(issued).bytes(t)[:5000], "cut short"},
		"page":     {[]byte("<!DOCTYPE html><html><body>403 Forbidden</body></html>"), "it is a web page"},
		"1.9 XML":  {[]byte(`<?xml version="1.0"?><weatherdata created="2017-04-18T02:39:45Z"></weatherdata>`), "XML"},
		"1.9 JSON": {[]byte(`{"weatherdata":{"product":{"time":[]}}}`), "Locationforecast 1.9"},
		"nowcast":  {nowcast.bytes(t), "a nowcast of two hours"},
		"no steps": {none.bytes(t), "it holds no hours"},
		"no issue": {noTime.bytes(t), "does not say when it was issued"},
		"nothing":  {nulls.bytes(t), "none of its temperatures can be read"},
		"words":    {words.bytes(t), "string stands where a number should be"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Reader{}.Parse(c.doc, time.Time{})
			var bad *feed.DocumentError
			require.ErrorAs(t, err, &bad)
			assert.Contains(t, err.Error(), c.want)
			assert.NotEmpty(t, bad.Hint())
		})
	}
}

// The service's other products have the same outer form. The members are those of
// developer.yr.no/doc: nowcast, sea, season; and of the sun.
func TestOtherProductsAreNotRecognised(t *testing.T) {
	good := invented(issued).bytes(t)
	require.True(t, Reader{}.Recognise(good))
	require.True(t, Reader{}.Recognise(append([]byte("\xef\xbb\xbf\r\n "), good...)))
	for name, doc := range map[string][]byte{
		"nowcast": bytes.Replace(good, []byte(`"meta":{`), []byte(`"meta":{"radar_coverage":"ok",`), 1),
		"sea":     bytes.ReplaceAll(good, []byte(`"air_temperature"`), []byte(`"sea_water_temperature"`)),
		"season":  bytes.ReplaceAll(good, []byte(`"air_temperature"`), []byte(`"air_temperature_mean_percentile_50"`)),
		"sun":     []byte(`{"type":"Feature","geometry":{"type":"Point","coordinates":[10,60]},"properties":{"body":"Sun","sunrise":{"time":"2026-07-15T04:10+02:00"}}}`),
		"list":    append(append([]byte("["), good...), ']'),
	} {
		assert.False(t, Reader{}.Recognise(doc), name)
	}
}
