package growth

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, s string, missing float64) float64 {
	t.Helper()
	if s == "" {
		return missing
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Zalom et al. 1983 table 7 (55/90 degF), McMaster & Wilhelm 1997 table 1 (base
// 0 degC), corn 86/50 examples of extension offices; as printed, to 0.01.
func TestPublishedDegreeDays(t *testing.T) {
	methods := map[string]Method{
		"single_triangle": SingleTriangle, "double_triangle": DoubleTriangle,
		"single_sine": SingleSine, "double_sine": DoubleSine,
		"simple_average_method1": SimpleAverage, "clipped_method2": Clipped, "corn_86_50": Clipped,
	}
	const printed = 0.0051 // half a unit of the second decimal
	checked, misprints := 0, 0
	for _, r := range table(t, "degree_days_published.csv") {
		m, ok := methods[r["method"]]
		if !ok {
			t.Fatalf("method %q", r["method"])
		}
		got := m.Day(number(t, r["tmin"], 0), number(t, r["tmax"], 0), number(t, r["tmin_next"], 0),
			number(t, r["lower"], 0), number(t, r["upper"], math.Inf(1)))
		want := number(t, r["published"], 0)
		if m == DoubleTriangle && r["tmin"] == "60" && r["tmax"] == "100" {
			// Printed 24.88. Its own two halves, 23.75 from 60/100 (printed) and
			// 30.5 from 75/100, make 27.125: a misprint.
			if want != 24.88 || math.Abs(got-27.125) > 1e-9 {
				t.Errorf("misprint row: printed %g, ours %g", want, got)
			}
			misprints++
			continue
		}
		if math.Abs(got-want) > printed {
			t.Errorf("%s %s/%s: %.4f, printed %g", r["method"], r["tmin"], r["tmax"], got, want)
		}
		checked++
	}
	if checked != 71 || misprints != 1 {
		t.Errorf("%d rows checked and %d misprints, want 71 and 1", checked, misprints)
	}
}

// Rows computed by another program from the same published formulas.
func TestDegreeDayVectors(t *testing.T) {
	n := 0
	for _, r := range table(t, "degree_days_vectors.csv") {
		for name, m := range map[string]Method{"simple_average": SimpleAverage, "clipped": Clipped,
			"single_triangle": SingleTriangle, "single_sine": SingleSine} {
			if r[name] == "" {
				continue
			}
			got := m.Day(number(t, r["tmin"], 0), number(t, r["tmax"], 0), 0, number(t, r["lower"], 0), number(t, r["upper"], math.Inf(1)))
			if math.Abs(got-number(t, r[name], 0)) > 1e-4 {
				t.Errorf("%s %s/%s above %s: %.5f, want %s", name, r["tmin"], r["tmax"], r["lower"], got, r[name])
			}
			n++
		}
	}
	if n < 200 {
		t.Errorf("only %d vectors", n)
	}
}

// The closed forms must equal the area under the curve they stand for.
func TestSineAndTriangleEqualTheirArea(t *testing.T) {
	const steps = 200000
	for _, c := range [][4]float64{{4, 31, 10, 30}, {12, 18, 10, 30}, {-3, 8, 10, 30}, {31, 40, 10, 30}, {9.9, 30.1, 10, 30}} {
		lo, hi, base, upper := c[0], c[1], c[2], c[3]
		sineArea, lineArea := 0.0, 0.0
		clip := func(v float64) float64 { return math.Max(0, math.Min(v, upper)-base) }
		for i := range steps {
			x := (float64(i) + 0.5) / steps
			sineArea += clip((lo+hi)/2+(hi-lo)/2*math.Sin(2*math.Pi*x)) / steps
			lineArea += clip(lo+(hi-lo)*x) / steps
		}
		if got := SingleSine.Day(lo, hi, 0, base, upper); math.Abs(got-sineArea) > 1e-5 {
			t.Errorf("sine %v: %g, area %g", c, got, sineArea)
		}
		if got := SingleTriangle.Day(lo, hi, 0, base, upper); math.Abs(got-lineArea) > 1e-5 {
			t.Errorf("triangle %v: %g, area %g", c, got, lineArea)
		}
	}
}

// Perry & Wehner 1996: base 15.5, above 32 degC the maximum is replaced by
// 32 - (max - 32).
func TestReducedCeiling(t *testing.T) {
	for _, c := range []struct{ tmax, want float64 }{{25, 9.5}, {32, 16.5}, {35, 13.5}, {15, 0}, {49, 0}} {
		if got := ReducedCeiling.Day(10, c.tmax, 10, 15.5, 32); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("maximum %g: %g, want %g", c.tmax, got, c.want)
		}
	}
}

func TestMethodWords(t *testing.T) {
	for m := SimpleAverage; m <= ReducedCeiling; m++ {
		if got, err := ParseMethod(m.String()); err != nil || got != m {
			t.Errorf("%v: %v, %v", m, got, err)
		}
	}
	if _, err := ParseMethod("sine"); err == nil {
		t.Error("an unknown method was taken")
	}
}
