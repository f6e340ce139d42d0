package et0

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// year is a made-up year of hours at many sites, for weighing the work.
type year struct {
	sites []Site
	w     []Weather
	n     int // hours in all
}

// peers gives the folder of the independent programs, "" where it is absent.
func peers(t testing.TB) string {
	dir := os.Getenv("DAWNBRUSH_PEERS")
	if dir == "" {
		wd, err := os.Getwd()
		if err != nil {
			t.Fatal(err)
		}
		dir = filepath.Join(wd, "..", "..", "..", "..", "shared", "peers")
	}
	if _, err := os.Stat(filepath.Join(dir, "gen_weather.py")); err != nil {
		return ""
	}
	return dir
}

// python gives the first interpreter that can do what the statement asks.
func python(statement string) string {
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", statement).Run() == nil {
			return p
		}
	}
	return ""
}

// weatherOf lets the generator of the peers write a year of hours and reads it.
func weatherOf(t testing.TB, dir string, sites, days int) (year, string) {
	py := python("import sys")
	if py == "" {
		t.Skip("no python3 here: the hours of the independent programs cannot be made")
	}
	out := t.TempDir()
	if b, err := exec.Command(py, filepath.Join(dir, "gen_weather.py"), out, strconv.Itoa(sites), strconv.Itoa(days), "42").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, b)
	}
	var y year
	for _, r := range numbers(t, filepath.Join(out, "sites.csv")) {
		y.sites = append(y.sites, NewSite(r[1], r[2], r[3], r[4]))
	}
	per := days * 24
	hours := numbers(t, filepath.Join(out, "weather.csv"))
	y.n = len(hours)
	if y.n != per*len(y.sites) {
		t.Fatalf("%d hours, want %d", y.n, per*len(y.sites))
	}
	for s := range y.sites {
		w := Weather{make([]float64, per), make([]float64, per), make([]float64, per), make([]float64, per)}
		for i := range per {
			r := hours[s*per+i]
			w.Temp[i], w.RH[i], w.Wind2[i], w.Radiation[i] = r[3], r[4], r[5], r[6]
		}
		y.w = append(y.w, w)
	}
	return y, out
}

func numbers(t testing.TB, name string) [][]float64 {
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var out [][]float64
	lines := bytes.Split(bytes.TrimSpace(b), []byte("\n"))
	for _, line := range lines[1:] {
		var row []float64
		for f := range strings.SplitSeq(string(line), ",") {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		out = append(out, row)
	}
	return out
}

func (y *year) run(out []float64) {
	per := y.n / len(y.sites)
	for s := range y.sites {
		y.sites[s].Run(out[s*per:(s+1)*per], y.w[s], 1, FirstNight)
	}
}

// The hourly reference agrees with a scalar Python program written apart, to
// 1e-9 mm in every hour of a year at 100 sites.
func TestRunAgainstPython(t *testing.T) {
	dir := peers(t)
	if dir == "" {
		t.Skip("the independent programs are not here")
	}
	sites, days := 100, 365
	if testing.Short() {
		sites, days = 5, 365
	}
	y, out := weatherOf(t, dir, sites, days)
	bin := filepath.Join(out, "py.f64")
	if b, err := exec.Command(python("import sys"), filepath.Join(dir, "et0_py.py"), out, "--bin", bin).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, b)
	}
	raw, err := os.ReadFile(bin)
	if err != nil {
		t.Fatal(err)
	}
	got := make([]float64, y.n)
	y.run(got)
	worst := 0.0
	for i := range got {
		want := math.Float64frombits(binary.LittleEndian.Uint64(raw[8*i:]))
		if d := math.Abs(got[i] - want); !(d <= 1e-9) {
			t.Fatalf("hour %d: %.12f, Python %.12f", i, got[i], want)
		} else {
			worst = max(worst, d)
		}
	}
	t.Logf("%d site-hours, worst difference %.2g mm", y.n, worst)
}

// The benchmark weighs this package, C built with gcc -O2 and numpy on the same
// hours in the same run, each without reading files, and reports the ratios.
func BenchmarkRunAgainstPeers(b *testing.B) {
	dir := peers(b)
	if dir == "" {
		b.Skip("the independent programs are not here: nothing to compare with")
	}
	y, out := weatherOf(b, dir, 100, 365)
	c, numpy := cPeer(b, dir, out), numpyPeer(b, dir, out)
	mm := make([]float64, y.n)
	var own, theirs, array []float64
	b.ResetTimer()
	for range b.N {
		start := time.Now()
		y.run(mm)
		own = append(own, float64(time.Since(start).Nanoseconds())/float64(y.n))
		b.StopTimer() // the peers take their turn in each round, so that a busy moment hits all
		if len(own) <= 15 {
			theirs, array = append(theirs, c()), append(array, numpy())
		}
		b.StartTimer()
	}
	g, cn, nn := median(own), median(theirs), median(array)
	b.ReportMetric(g, "ns/site-hour")
	b.ReportMetric(cn, "C-ns/site-hour")
	b.ReportMetric(nn, "numpy-ns/site-hour")
	b.ReportMetric(cn/g, "C/ours")
	b.ReportMetric(nn/g, "numpy/ours")
}

var perHour = regexp.MustCompile(`compute_ns_per_site_hour=([0-9.]+)`)

// timed runs a peer and gives the ns per site-hour that it states of itself.
func timed(b *testing.B, name string, args ...string) float64 {
	text, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		b.Fatalf("%s: %v: %s", name, err, text)
	}
	v, err := strconv.ParseFloat(string(perHour.FindSubmatch(text)[1]), 64)
	if err != nil {
		b.Fatal(err)
	}
	return v
}

func cPeer(b *testing.B, dir, data string) func() float64 {
	exe := filepath.Join(b.TempDir(), "et0_c")
	if text, err := exec.Command("gcc", "-O2", "-o", exe, filepath.Join(dir, "et0.c"), "-lm").CombinedOutput(); err != nil {
		b.Logf("no comparison with C: %v %s", err, text)
		return math.NaN
	}
	return func() float64 { return timed(b, exe, data, "-", "-", "3") }
}

func numpyPeer(b *testing.B, dir, data string) func() float64 {
	py := python("import numpy, pandas")
	if py == "" {
		b.Log("no comparison with numpy: no python3 with numpy and pandas here")
		return math.NaN
	}
	return func() float64 {
		return timed(b, py, filepath.Join(dir, "et0_numpy.py"), data, "--block", "1", "--repeat", "3")
	}
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	s := append([]float64(nil), v...)
	for i := range s {
		for j := i; j > 0 && s[j-1] > s[j]; j-- {
			s[j-1], s[j] = s[j], s[j-1]
		}
	}
	return s[len(s)/2]
}

// made gives hours without any other program: a warm dry site for ten days.
func made(days int) Weather {
	n := days * 24
	w := Weather{make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)}
	for i := range n {
		day := math.Sin((float64(i%24) - 8) * math.Pi / 12)
		w.Temp[i], w.RH[i], w.Wind2[i] = 20+8*day, 60-25*day, 2+day
		w.Radiation[i] = max(0, 900*math.Sin((float64(i%24)+0.5-6)*math.Pi/12))
	}
	return w
}

func BenchmarkRun(b *testing.B) {
	w, s := made(365), NewSite(41.6, -93.6, 290, -6)
	out := make([]float64, len(w.Temp))
	b.ReportAllocs()
	for b.Loop() {
		s.Run(out, w, 1, FirstNight)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(out)), "ns/site-hour")
}

func TestHoursAllocateNothing(t *testing.T) {
	w, s := made(10), NewSite(41.6, -93.6, 290, -6)
	out := make([]float64, len(w.Temp))
	if n := testing.AllocsPerRun(20, func() { s.Run(out, w, 150, FirstNight) }); n != 0 {
		t.Errorf("%v allocations in ten days of hours", n)
	}
}

func ExampleSite_Run() {
	site := NewSite(36.1, -79.95, 273, -5)
	w, out := made(1), make([]float64, 24)
	site.Run(out, w, 196, FirstNight)
	sum := 0.0
	for _, v := range out {
		sum += v
	}
	fmt.Printf("%.1f mm on a warm dry day of July\n", sum)
	// Output: 5.4 mm on a warm dry day of July
}
