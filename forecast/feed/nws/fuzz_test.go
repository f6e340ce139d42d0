package nws

import (
	"os"
	"strings"
	"testing"
	"time"

	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/feedtest"
)

func FuzzParse(f *testing.F) {
	small, err := os.ReadFile("testdata/grid_small.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(small)
	f.Add([]byte(`{"properties":{"updateTime":"2026-07-15T09:20:00Z","temperature":{"uom":"degC","values":[{"validTime":"2026-07-15T09:20:00Z/PT1M","value":"1e300"}]}}}`))
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

func FuzzParseObservations(f *testing.F) {
	small, err := os.ReadFile("testdata/reports_small.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(small)
	f.Add([]byte(`{"features":null}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		s, err := ParseObservations(doc)
		if err != nil {
			return
		}
		if err := feedtest.Check(s); err != nil {
			t.Error(err)
		}
	})
}

func FuzzDuration(f *testing.F) {
	for _, s := range []string{"PT1H", "P6DT15H", "P", "PT", "P1DT", "P1Y", "PT99999999H", "P1DT1H1M1S"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := parseDuration(s)
		if err != nil {
			return
		}
		if d < 0 || d > maxDuration {
			t.Errorf("%q gives %v", s, d)
		}
		if last := s[len(s)-1]; s[0] != 'P' || !strings.ContainsRune("DHMS", rune(last)) {
			t.Errorf("%q was accepted", s)
		}
	})
}
