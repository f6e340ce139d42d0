package brightsky

import (
	"testing"
	"time"

	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/feedtest"
)

func FuzzParse(f *testing.F) {
	f.Add(small(f))
	f.Add([]byte(`{"weather":[{"timestamp":"2026-07-15T00:00:00+05:30","temperature":1e300},{"timestamp":"2026-07-15T01:00:00+01:00","source_id":-1,"temperature":290,"solar":-0,"precipitation":9}],"sources":[{"id":-1,"observation_type":"synop","lat":1e9,"distance":-5}]}`))
	f.Add([]byte(`{"weather":[{"timestamp":"0001-01-01T00:00:00Z","temperature":null,"precipitation_probability_6h":3}],"sources":null,"detail":[{"loc":[[]]}]}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := Reader{}.Parse(doc, asked)
		if err != nil {
			return
		}
		if err := feedtest.Check(s); err != nil {
			t.Error(err)
		}
		if n := len(s.Hours); time.Duration(n)*time.Hour > 2*assemble.UsualSpan+3*time.Hour && n > len(doc) {
			t.Errorf("%d hours from %d bytes", n, len(doc))
		}
	})
}
