package openmeteo

import (
	"testing"

	"dawnbrush/forecast/feed/feedtest"
)

func FuzzParse(f *testing.F) {
	f.Add(small(f))
	f.Add([]byte(`{"utc_offset_seconds":19800,"hourly_units":{"temperature_2m":"°C","precipitation":"mm"},"hourly":{"time":["2026-07-15T00:00","2026-07-15T01:00"],"temperature_2m":[1e300,20],"precipitation":[-0,9]}}`))
	f.Add([]byte(`{"hourly":{"time":[1784073600],"temperature_2m":[null]}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := Reader{}.Parse(doc, asked)
		if err != nil {
			return
		}
		if err := feedtest.Check(s); err != nil {
			t.Error(err)
		}
		if len(s.Hours) > len(doc) {
			t.Errorf("%d hours from %d bytes", len(s.Hours), len(doc))
		}
	})
}

func FuzzParsePreviousRuns(f *testing.F) {
	f.Add([]byte(`{"utc_offset_seconds":0,"hourly_units":{"temperature_2m_previous_day1":"°C"},"hourly":{"time":[1784073600],"temperature_2m_previous_day1":[20.5]}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		runs, err := ParsePreviousRuns(doc)
		if err != nil {
			return
		}
		for _, run := range runs {
			if err := feedtest.Check(run.Series); err != nil || run.Days < 0 || run.Days > 7 {
				t.Error(run.Days, err)
			}
		}
	})
}
