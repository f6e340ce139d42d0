package nws

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/feedtest"
)

func parse(t *testing.T, props map[string]any, now time.Time) *forecast.Series {
	t.Helper()
	s, err := Reader{}.Parse(document(t, props), now)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	return s
}

func TestReaderSuite(t *testing.T) {
	small, err := os.ReadFile("testdata/grid_small.json")
	require.NoError(t, err)
	feedtest.Run(t, Reader{},
		feedtest.Doc{Name: "invented", Body: document(t, invented(issued)), Now: issued},
		feedtest.Doc{Name: "small", Body: small})
}

func TestRecordedDocumentsPassTheSuite(t *testing.T) {
	names := append(feedtest.Recordings(t, "nws/restored/*_raw_*.json"), "nws/pynws_gridpoint_raw_TAE_58_65.json")
	var docs []feedtest.Doc
	for _, n := range names {
		docs = append(docs, feedtest.Doc{Name: n, Body: feedtest.Recording(t, n)})
	}
	feedtest.Run(t, Reader{}, docs...)
}

func TestParseReadsEveryLayer(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	start := issued.Truncate(time.Hour).Add(-6 * time.Hour)
	assert.Equal(t, start, s.Start())
	assert.Len(t, s.Hours, 180)
	assert.Equal(t, issued, s.Issued)
	assert.Equal(t, "National Weather Service, office XYZ", s.Source)
	assert.InDelta(t, 40.01, s.Point.Lat, 1e-9)
	assert.InDelta(t, -90.01, s.Point.Lon, 1e-9)
	assert.Equal(t, forecast.Known(101.2), s.Point.Elevation)
	h := s.Hours[30]
	assert.Equal(t, 18.0, h.Temp.Or(0))
	assert.Equal(t, 12.5, h.DewPoint.Or(0))
	assert.Equal(t, 56.0, h.RH.Or(0))
	assert.InDelta(t, 2.5, h.Wind.Or(0), 1e-9) // 9 km/h
	assert.InDelta(t, 5.0, h.Gust.Or(0), 1e-9)
	assert.InDelta(t, 0.25, h.Sky.Or(0), 1e-9)
	assert.InDelta(t, 0.2, h.RainProb.Or(0), 1e-9)
	assert.InDelta(t, 0.05, h.Thunder.Or(0), 1e-9)
	assert.False(t, h.Radiation.IsKnown(), "the feed has no radiation")
	assert.Equal(t, forecast.OriginForecast, h.Origin)
	assert.Equal(t, []forecast.Extreme{{Start: start.Add(9 * time.Hour), End: start.Add(22 * time.Hour), Temp: forecast.Known(27.4)}}, s.DayMax)
}

func TestRainSharesFollowTheChance(t *testing.T) {
	p := invented(issued)
	start := issued.Truncate(time.Hour).Add(-6 * time.Hour)
	p["quantitativePrecipitation"] = layerOf("wmoUnit:mm", start, entry{4, 3.0})
	p["probabilityOfPrecipitation"] = layerOf("wmoUnit:percent", start, entry{2, 20}, entry{2, 40})
	s := parse(t, p, time.Time{})
	assert.InDelta(t, 0.5, s.Hours[0].Rain.Or(0), 1e-9)
	assert.InDelta(t, 1.0, s.Hours[3].Rain.Or(0), 1e-9)
	assert.InDelta(t, 0.4, s.Blocks[0].Prob.Or(0), 1e-9, "the highest chance of its hours")

	delete(p, "probabilityOfPrecipitation")
	s = parse(t, p, time.Time{})
	assert.InDelta(t, 0.75, s.Hours[0].Rain.Or(0), 1e-9, "evenly without chances")
	assert.False(t, s.Blocks[0].Prob.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "RainProb"), "not in this forecast")
}

func TestChanceGoesOnWhereAmountsEnd(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	b := s.Blocks[4] // after four blocks with amounts
	assert.Equal(t, s.Start().Add(24*time.Hour), b.Start)
	assert.Equal(t, assemble.ChanceBlock, b.End.Sub(b.Start))
	assert.False(t, b.Amount.IsKnown())
	assert.InDelta(t, 0.2, b.Prob.Or(0), 1e-9)
	assert.Equal(t, s.End(), s.Blocks[len(s.Blocks)-1].End)
}

func TestImpossibleValuesAreUnknown(t *testing.T) {
	p := invented(issued)
	start := issued.Truncate(time.Hour).Add(-6 * time.Hour)
	p["temperature"] = layerOf("wmoUnit:degC", start, entry{5, 20}, entry{1, 45}, entry{5, 20}, entry{1, -9999}, entry{168, 20})
	p["windSpeed"] = layerOf("mph", start, entry{3, 5}, entry{1, 1048}, entry{100, 5})
	p["relativeHumidity"] = layerOf("wmoUnit:percent", start, entry{3, 50}, entry{1, 140}, entry{170, 50})
	p["dewpoint"] = layerOf("wmoUnit:degC", start)
	s := parse(t, p, time.Time{})
	assert.False(t, s.Hours[5].Temp.IsKnown(), "a single hour 25 degC above both neighbours")
	assert.False(t, s.Hours[11].Temp.IsKnown())
	assert.False(t, s.Hours[3].Wind.IsKnown())
	assert.False(t, s.Hours[3].RH.IsKnown())
	assert.InDelta(t, 2.2352, s.Hours[2].Wind.Or(0), 1e-4)
	assert.Contains(t, feedtest.NoteOn(s, "Temp"), "far from both neighbours, taken as unknown: 1")
	assert.Contains(t, feedtest.NoteOn(s, "Temp"), "impossible")
	assert.Contains(t, feedtest.NoteOn(s, "Wind"), "impossible")
	assert.Contains(t, feedtest.NoteOn(s, "RH"), "impossible")
}

func TestOverlappingIntervalsCountOnce(t *testing.T) {
	p := invented(issued)
	start := issued.Truncate(time.Hour)
	l := layerOf("wmoUnit:mm", start, entry{6, 2.0})
	l["values"] = append(l["values"].([]any), l["values"].([]any)[0])
	p["quantitativePrecipitation"] = l
	s := parse(t, p, time.Time{})
	hours, blocks := feedtest.RainTotals(s)
	assert.InDelta(t, 2.0, hours, 1e-9)
	assert.InDelta(t, 2.0, blocks, 1e-9)
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "without a usable time, left out: 1")
}

func TestUnusableDocuments(t *testing.T) {
	words := document(t, map[string]any{"updateTime": issued, "periods": []any{}})
	noTime := invented(issued)
	noTime["updateTime"] = "yesterday"
	for name, c := range map[string]struct {
		doc  []byte
		want string
	}{
		"empty":    {nil, "it is empty"},
		"cut":      {document(t, invented(issued))[:5000], "cut short"},
		"reports":  {[]byte(`{"type":"FeatureCollection","features":[]}`), "it is a list"},
		"words":    {words, "forecast in words"},
		"no layer": {document(t, map[string]any{"updateTime": issued}), "no temperatures"},
		"nulls": {document(t, map[string]any{"updateTime": issued,
			"temperature": layerOf("wmoUnit:degC", issued, entry{5, nil})}), "all its values are unknown"},
		"no time": {document(t, noTime), "does not say when"},
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

func TestDetectSaysWhatElseItIs(t *testing.T) {
	readers := []feed.Reader{Reader{}}
	r, err := feed.Detect(document(t, invented(issued)), readers)
	require.NoError(t, err)
	assert.Equal(t, Key, r.Info().Key)
	for doc, want := range map[string]string{
		"":                           "empty",
		" <!DOCTYPE html><html>":     "a web page",
		"<?xml version='1.0'?><a/>":  "an XML document",
		`[{"a":1}]`:                  "a JSON list",
		`{"hourly":{},"latitude":1}`: `"hourly", "latitude"`,
		`{"hourly":{`:                "breaks off",
		"{}":                         "an empty JSON object",
		"Dear grower":                `begins with "Dear grower"`,
		"\x1f\x8b\x08":               "compressed",
	} {
		_, err := feed.Detect([]byte(doc), readers)
		var bad *feed.DocumentError
		if assert.ErrorAs(t, err, &bad, doc) {
			assert.Contains(t, err.Error(), want)
			assert.Contains(t, bad.Hint(), "National Weather Service")
		}
	}
}
