package metno

import (
	"testing"
	"time"

	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/feedtest"
)

func FuzzParse(f *testing.F) {
	f.Add(small(f))
	f.Add([]byte(`{"properties":{"meta":{"updated_at":"2026-07-15T09:20:00Z","units":{"air_temperature":"celsius","precipitation_amount":"mm"}},"timeseries":[` +
		`{"time":"2026-07-15T06:00:00Z","data":{"instant":{"details":{"air_temperature":1e300}},"next_6_hours":{"details":{"precipitation_amount":9}}}},` +
		`{"time":"2026-07-15T12:00:00Z","data":{"instant":{"details":{"air_temperature":-0}},"next_1_hours":{"details":{"precipitation_amount":null}}}}]}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := Reader{}.Parse(doc, issued)
		if err != nil {
			return
		}
		if err := feedtest.Check(s); err != nil {
			t.Error(err)
		}
		if time.Duration(len(s.Hours))*time.Hour > assemble.UsualSpan+25*time.Hour {
			t.Errorf("%d hours", len(s.Hours))
		}
	})
}
