package feedtest

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// At gives the hour that holds a time; the test fails without one.
func At(t testing.TB, s *forecast.Series, when time.Time) forecast.Hour {
	t.Helper()
	i, ok := s.Index(when)
	require.True(t, ok, "no hour %v", when)
	return s.Hours[i]
}

// NoteOn gives the notes about a layer, joined.
func NoteOn(s *forecast.Series, layer string) string {
	out := ""
	for _, n := range s.Notes {
		if n.Layer == layer {
			out += n.Text + "; "
		}
	}
	return out
}

// RainTotals gives the rain of all hours and of all blocks in mm.
func RainTotals(s *forecast.Series) (hours, blocks float64) {
	for _, h := range s.Hours {
		hours += h.Rain.Or(0)
	}
	return hours, blockTotal(s)
}

// Measure benchmarks a reader on a document: the whole reading, its decoding alone,
// and the standard decoder into peer, a pointer to the same selection of members.
func Measure(b *testing.B, r feed.Reader, doc []byte, decode func([]byte) error, peer func() any) {
	for _, c := range []struct {
		name string
		run  func() error
	}{
		{"whole", func() error { _, err := r.Parse(doc, time.Time{}); return err }},
		{"decode", func() error { return decode(doc) }},
		{"encoding-json", func() error { return json.Unmarshal(doc, peer()) }},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(doc)))
			b.ReportAllocs()
			for b.Loop() {
				if err := c.run(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
