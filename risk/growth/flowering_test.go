package growth

import (
	"strings"
	"testing"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

func date(t *testing.T, s string) forecast.Date {
	t.Helper()
	d, err := forecast.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func phenology(t *testing.T, key string) crop.Phenology {
	t.Helper()
	set, err := crop.Load()
	if err != nil {
		t.Fatal(err)
	}
	c, ok := set.Find(key)
	if !ok {
		t.Fatalf("no crop %q", key)
	}
	return c.Phenology
}

// steady gives n days with the same extremes.
func steady(start forecast.Date, n int, lo, hi float64) []Day {
	days := make([]Day, n)
	for i := range days {
		days[i] = Day{Date: start.AddDays(i), Min: forecast.Known(lo), Max: forecast.Known(hi)}
	}
	return days
}

func contains(d Dates, day forecast.Date) bool { return !day.Before(d.From) && !d.To.Before(day) }

func TestEveryCropNamesAKnownMethod(t *testing.T) {
	set, err := crop.Load()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, c := range set.Crops() {
		for _, dd := range c.Phenology.DegreeDays {
			if _, err := ParseMethod(dd.Method); err != nil {
				t.Errorf("%s: %v", c.Key, err)
			}
			n++
		}
	}
	if n < 5 {
		t.Errorf("only %d degree-day entries", n)
	}
}

// Pacheco de Souza et al. 2017: 832.5 and 858.6 degC days, 60.9 and 63.0 days,
// so a mean of 25.6 degC over base 12. Both flowers must fall on their days.
func TestMoschataFlowersAsPublished(t *testing.T) {
	ph := phenology(t, "butternut")
	sown := date(t, "2013-06-05")
	p := Planting{Sown: sown, Species: "moschata"}
	e, err := Flowering(ph, p, steady(sown, 100, 17.65, 33.65))
	if err != nil {
		t.Fatal(err)
	}
	if !contains(e.Male, sown.AddDays(61)) || !contains(e.Female, sown.AddDays(63)) {
		t.Errorf("male %v to %v, female %v to %v; published day 60.9 and 63.0", e.Male.From, e.Male.To, e.Female.From, e.Female.To)
	}
	if e.Female.Basis != FromWarmth || e.Female.To.DaysSince(e.Female.From) > 14 {
		t.Errorf("female %+v: want a range of two weeks at most from warmth", e.Female)
	}
}

func TestWarmthGoesOnAtTheLastRate(t *testing.T) {
	ph := phenology(t, "butternut")
	sown := date(t, "2026-05-20")
	p := Planting{Sown: sown, Species: "moschata"}
	whole, err := Flowering(ph, p, steady(sown, 120, 18, 33))
	if err != nil {
		t.Fatal(err)
	}
	half, err := Flowering(ph, p, steady(sown, 30, 18, 33))
	if err != nil {
		t.Fatal(err)
	}
	if half.Female.From.After(whole.Female.From) || half.Female.To.Before(whole.Female.To) {
		t.Errorf("thirty known days give %v to %v, not around %v to %v",
			half.Female.From, half.Female.To, whole.Female.From, whole.Female.To)
	}
}

func TestUnknownDays(t *testing.T) {
	ph := phenology(t, "butternut")
	sown := date(t, "2026-05-20")
	p := Planting{Sown: sown, Species: "moschata"}
	days := steady(sown, 40, 18, 33)
	days[10].Max = forecast.Value{}
	e, err := Flowering(ph, p, append(days[:20:20], days[21:]...))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(e.Female.Words, "2 of 40 days without temperatures") {
		t.Errorf("words %q", e.Female.Words)
	}
	for i := range days {
		if i%3 == 0 {
			days[i].Min = forecast.Value{}
		}
	}
	e, err = Flowering(ph, p, days)
	if err != nil {
		t.Fatal(err)
	}
	if e.Female.Basis != FromSowing || !strings.Contains(e.Female.Words, "too few temperatures") {
		t.Errorf("a third of the days unknown: %+v", e.Female)
	}
	if cold, _ := Flowering(ph, p, steady(sown, 40, 2, 9)); cold.Female.Basis != FromSowing {
		t.Errorf("no warmth at all: %+v", cold.Female)
	}
}

func TestFloweringByDays(t *testing.T) {
	ph := phenology(t, "cucumber")
	sown, out := date(t, "2026-05-10"), date(t, "2026-06-01")
	for _, c := range []struct {
		name      string
		p         Planting
		male, fem [2]string
		basis     Basis
		wordPart  string
	}{
		{"sown", Planting{Sown: sown}, [2]string{"2026-06-05", "2026-06-24"}, [2]string{"2026-06-12", "2026-07-04"}, FromSowing, "33 to 55 days after sowing"},
		{"transplanted", Planting{Transplanted: out}, [2]string{"2026-06-01", "2026-06-25"}, [2]string{"2026-06-06", "2026-07-05"}, FromTransplanting, "21 to 28 days old"},
		{"male seen", Planting{Sown: sown, SeenMale: date(t, "2026-06-10")}, [2]string{"2026-06-10", "2026-06-10"}, [2]string{"2026-06-17", "2026-06-20"}, FromMale, "first male flower"},
		{"female seen", Planting{Sown: sown, SeenFemale: date(t, "2026-06-30")}, [2]string{"2026-06-05", "2026-06-24"}, [2]string{"2026-06-30", "2026-06-30"}, FromSight, "seen on"},
	} {
		e, err := Flowering(ph, c.p, nil)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		got := [4]string{e.Male.From.String(), e.Male.To.String(), e.Female.From.String(), e.Female.To.String()}
		if got != [4]string{c.male[0], c.male[1], c.fem[0], c.fem[1]} || e.Female.Basis != c.basis {
			t.Errorf("%s: %v basis %v, want %v %v basis %v", c.name, got, e.Female.Basis, c.male, c.fem, c.basis)
		}
		if !strings.Contains(e.Female.Words, c.wordPart) {
			t.Errorf("%s: words %q", c.name, e.Female.Words)
		}
		if e.End.From.Before(e.Female.From) || e.End.To.Before(e.Female.To) {
			t.Errorf("%s: flowering ends before it begins: %+v", c.name, e.End)
		}
	}
	if _, err := Flowering(ph, Planting{}, nil); err == nil {
		t.Error("a planting without any date was given dates")
	}
}

func TestTransplantedPumpkinCountsFromTransplanting(t *testing.T) {
	ph := phenology(t, "pumpkin")
	out := date(t, "2026-06-01")
	e, err := Flowering(ph, Planting{Transplanted: out}, nil)
	if err != nil {
		t.Fatal(err)
	}
	// Cady & Wien: first female 38 days after transplanting three-week-old plants.
	if !contains(e.Female, out.AddDays(38)) || e.Male.From.After(e.Female.From) {
		t.Errorf("%+v", e)
	}
}

func TestHarvest(t *testing.T) {
	d := Harvest(phenology(t, "zucchini"), date(t, "2026-07-01"))
	if d.From != date(t, "2026-07-04") || d.To != date(t, "2026-07-08") {
		t.Errorf("%+v; Britannica: 3 to 7 days", d)
	}
}
