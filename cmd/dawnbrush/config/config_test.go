package config

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

// today is the day of all tests here.
var today = forecast.Date{Year: 2026, Month: time.July, Day: 16}

func known(t testing.TB) Known {
	t.Helper()
	crops, err := crop.Load()
	require.NoError(t, err)
	return Known{Feeds: []Feed{{Key: "nws"}}, Crops: crops, Today: today}
}

// golden compares with a file beside the tests, or renews it.
func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update to write it")
	assert.Equal(t, string(want), got)
}

// screen writes faults as a command prints them.
func screen(faults Faults) string {
	var b strings.Builder
	for _, f := range faults {
		if f.Warning {
			b.WriteString("warning: ")
		}
		fmt.Fprintln(&b, f)
		if f.Hint != "" {
			fmt.Fprintln(&b, "    hint:", f.Hint)
		}
	}
	return b.String()
}

// Every faulty file gives no garden and the faults of its golden list.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/*.bad.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, path := range files {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".bad.toml"), func(t *testing.T) {
			doc, err := os.ReadFile(path)
			require.NoError(t, err)
			f, faults := Parse(filepath.Base(path), doc, known(t))
			assert.Nil(t, f)
			assert.NotEmpty(t, faults.Errors())
			for _, one := range faults {
				assert.NotContains(t, one.Message+one.Hint, "\n")
				assert.GreaterOrEqual(t, one.Line, 1)
				assert.GreaterOrEqual(t, one.Column, 1)
			}
			golden(t, strings.TrimSuffix(path, ".toml")+".golden", screen(faults))
		})
	}
}

// Every good file gives a garden; the golden list holds its warnings and what
// was understood. Written and read again it is the same garden.
func TestGoodFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/*.toml")
	require.NoError(t, err)
	for _, path := range files {
		if strings.HasSuffix(path, ".bad.toml") {
			continue
		}
		t.Run(strings.TrimSuffix(filepath.Base(path), ".toml"), func(t *testing.T) {
			doc, err := os.ReadFile(path)
			require.NoError(t, err)
			f, faults := Parse(filepath.Base(path), doc, known(t))
			require.NotNil(t, f, screen(faults))
			assert.Empty(t, faults.Errors())
			var b strings.Builder
			b.WriteString(screen(faults))
			for _, r := range Explain(f) {
				fmt.Fprintf(&b, "%-22s %-20s %-40s %s\n", r.Table, r.Key, r.Value, r.From)
			}
			golden(t, strings.TrimSuffix(path, ".toml")+".golden", b.String())
			again, faults := Parse("again", Write(f), known(t))
			require.NotNil(t, again, screen(faults))
			assertSame(t, f, again)
		})
	}
}

// assertSame compares gardens; zones by name, since each load is a new one.
func assertSame(t assert.TestingT, want, got *File) {
	a, b := *want, *got
	if assert.NotNil(t, b.Garden.Place.Zone) {
		assert.Equal(t, a.Garden.Place.Zone.String(), b.Garden.Place.Zone.String())
	}
	a.Garden.Place.Zone, b.Garden.Place.Zone = nil, nil
	for f := range 2 {
		g := &[]*File{&a, &b}[f].Garden
		if len(g.Plantings) == 0 {
			g.Plantings = nil
		}
		for day := range g.Work {
			if len(g.Work[day]) == 0 {
				g.Work[day] = nil
			}
		}
	}
	assert.Equal(t, a.Feed, b.Feed)
	assert.Equal(t, a.Mail, b.Mail)
	if !reflect.DeepEqual(a.Garden, b.Garden) {
		assert.Equal(t, a.Garden, b.Garden)
	}
}

const plot = "contact = \"grower@example.org\"\n[place]\nlat = 40.71\nlon = -74.01\nzone = \"America/New_York\"\n"

// Files from other machines: a byte order mark and Windows line ends are taken,
// and columns count characters as editors do.
func TestForeignTextFiles(t *testing.T) {
	f, faults := Parse("g", []byte("\ufeff"+strings.ReplaceAll(plot, "\n", "\r\n")), known(t))
	require.NotNil(t, f, screen(faults))
	assert.Empty(t, faults.Errors())
	assert.Equal(t, 40.71, f.Garden.Place.Lat)

	_, faults = Parse("g", []byte("\ufeff# größte\r\nname = \"Gärtchen\" x\r\n"+plot), known(t))
	require.Len(t, faults.Errors(), 1)
	assert.Equal(t, "g:2:19", strings.Join(strings.SplitN(faults.Errors()[0].String(), ":", 4)[:3], ":"))
}

func TestLargeFileIsRefused(t *testing.T) {
	doc := append([]byte(plot), bytes.Repeat([]byte("# note\n"), mostBytes/7)...)
	require.Greater(t, len(doc), mostBytes)
	f, faults := Parse("g", doc, known(t))
	assert.Nil(t, f)
	assert.Equal(t, "g:1:1: the file is larger than 1 MiB\n    hint: is it the right file? A garden file is a few kilobytes\n", screen(faults))

	f, faults = Parse("g", doc[:mostBytes], known(t))
	require.NotNil(t, f, screen(faults))
}

// A broken megabyte ends with a bounded list.
func TestFaultsAreBounded(t *testing.T) {
	var b strings.Builder
	for i := 0; b.Len() < mostBytes-100; i++ {
		fmt.Fprintf(&b, "k%d = 1\nx%d =\n", i, i)
	}
	f, faults := Parse("g", []byte(b.String()), known(t))
	assert.Nil(t, f)
	assert.Len(t, faults, mostFaults+1)
	assert.Contains(t, faults[mostFaults].Message, "faults more")
}

func TestPlantingsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString(plot)
	for i := range mostPlantings + 1 {
		fmt.Fprintf(&b, "[[planting]]\nname = \"%d\"\ncrop = \"cucumber\"\n", i)
	}
	_, faults := Parse("g", []byte(b.String()), known(t))
	require.Len(t, faults.Errors(), 1)
	assert.Equal(t, "501 plantings are more than the 500 one file can hold", faults.Errors()[0].Message)
}

// Without a today no date is judged by it.
func TestTodayUnknown(t *testing.T) {
	k := known(t)
	k.Today = forecast.Date{}
	f, faults := Parse("g", []byte(plot+"[[planting]]\nname = \"a\"\ncrop = \"cucumber\"\nplants = 6\nfirst_female = 2099-01-01\n"), k)
	require.NotNil(t, f, screen(faults))
	assert.Empty(t, faults)
}

func TestFeedsThatAreKnown(t *testing.T) {
	k := known(t)
	k.Feeds = []Feed{{Key: "nws"}, {Key: "upland", NonCommercial: true}}
	f, faults := Parse("g", []byte("feed = \"Upland\"\n"+plot), k)
	require.NotNil(t, f, screen(faults))
	assert.Equal(t, "upland", f.Feed)
	_, faults = Parse("g", []byte("feed = \"uplnad\"\n"+plot), k)
	require.Len(t, faults.Errors(), 1)
	assert.Equal(t, `did you mean "upland"?`, faults.Errors()[0].Hint)

	for text, want := range map[string]string{
		"feed = \"upland\"\nsells = true\n":                            "upland is free for those alone who do not sell, and this garden sells",
		"second_feed = \"upland\"\nsells = true\n":                     "upland is free for those alone who do not sell, and this garden sells",
		"feed = \"upland\"\nsecond_feed = \"upland\"\nsells = false\n": "the second feed is the first",
		"feed = \"none\"\n":                                            `feed cannot be "none"`,
	} {
		_, faults = Parse("g", []byte(text+plot), k)
		require.Len(t, faults.Errors(), 1, text)
		assert.Contains(t, faults.Errors()[0].Message, want)
	}
	f, faults = Parse("g", []byte("feed = \"upland\"\nsecond_feed = \"none\"\nsells = false\n"+plot), k)
	require.NotNil(t, f, screen(faults))
	assert.Equal(t, [...]any{"upland", None, No}, [...]any{f.Feed, f.Second, f.Sells})
	f, faults = Parse("g", []byte(plot), k)
	require.NotNil(t, f, screen(faults))
	assert.Equal(t, [...]any{Auto, Auto, NotTold}, [...]any{f.Feed, f.Second, f.Sells})
}

// The two unit systems meet in metres: 1 ft is 0.3048 m exactly (ISO 80000-3).
func TestUnitsOfLength(t *testing.T) {
	corn := "[[planting]]\nname = \"a\"\ncrop = \"corn\"\nrows = 4\nrow_length = 100\nsown = 2026-05-01\n"
	withHeight := strings.Replace(plot, "[place]\n", "[place]\nelevation = 1000\n", 1)
	us, faults := Parse("g", []byte("units = \"us\"\n"+withHeight+corn), known(t))
	require.NotNil(t, us, screen(faults))
	metric, faults := Parse("g", []byte(withHeight+corn), known(t))
	require.NotNil(t, metric, screen(faults))
	assert.Equal(t, 30.48, us.Garden.Plantings[0].RowLength)
	assert.Equal(t, 304.8, us.Garden.Place.Elevation.Or(-1))
	assert.Equal(t, 100.0, metric.Garden.Plantings[0].RowLength)
	assert.Equal(t, 1000.0, metric.Garden.Place.Elevation.Or(-1))
}

// Corn of types that spoil each other is warned of where both may silk within 14 days
// (ISUcorn98), and the word is read for corn only.
func TestCornThatSpoilsCorn(t *testing.T) {
	corn := func(name, sweetness, silk string) string {
		return "[[planting]]\nname = \"" + name + "\"\ncrop = \"corn\"\nrows = 4\nsweetness = \"" + sweetness + "\"\nfirst_female = " + silk + "\n"
	}
	warned := func(second string) string {
		f, faults := Parse("g", []byte(plot+corn("a", "sh2", "2026-07-12")+second), known(t))
		require.NotNil(t, f, screen(faults))
		assert.Equal(t, risk.Supersweet, f.Garden.Plantings[0].Sweetness)
		return screen(faults)
	}
	assert.Contains(t, warned(corn("b", "su", "2026-07-10")), "su corn may be in flower with the sh2 corn")
	assert.Contains(t, warned(corn("b", "su", "2026-07-10")), "keep them 76 metres apart, or 14 days between their silks")
	assert.NotContains(t, warned(corn("b", "su", "2026-06-20")), "may be in flower with")
	assert.NotContains(t, warned(corn("b", "sh2", "2026-07-10")), "may be in flower with")
	assert.Contains(t, warned("[[planting]]\nname = \"t\"\ncrop = \"tomato\"\nsweetness = \"su\"\nsown = 2026-05-01\n"), "sweetness is read for corn only")
}

// A glance tells what Parse would, from sound files and from broken ones, and never
// falls over.
func TestLook(t *testing.T) {
	g := Look([]byte("name = \"Plot 7\"\n" + plot + "[[planting]]\nname = \"a\"\ncrop = \"cukes\"\n[[planting]]\nname = \"b\"\n[[planting]]\ncrop = \"corn\"\n"))
	assert.Equal(t, Glance{Name: "Plot 7", Crops: []string{"cukes", "corn"}}, g)
	assert.Equal(t, "garden", Look([]byte(plot)).Name, "as Parse names a garden without one")
	for _, doc := range []string{"", "\xff\xfe", "name = 7\n", "planting = 3\n", "[[planting]]\ncrop = [1]\n", "planting = [1, {crop = \"x\"}]\n"} {
		Look([]byte(doc))
	}
	files, err := filepath.Glob("testdata/*.toml")
	require.NoError(t, err)
	for _, f := range files {
		doc, err := os.ReadFile(f)
		require.NoError(t, err)
		if file, _ := Parse(f, doc, known(t)); file != nil {
			assert.Equal(t, file.Garden.Name, Look(doc).Name, f)
			assert.Len(t, Look(doc).Crops, len(file.Garden.Plantings), f)
		}
	}
}

// A planting without a name has one fault, and no warning that speaks of "" and
// stands at the head of the file.
func TestNamelessPlantingIsToldOnce(t *testing.T) {
	text := "contact = \"me@garden.example\"\n[place]\nlat = 40\nlon = -75\nzone = \"America/New_York\"\n[[bed]]\nname = \"a\"\narea = 2\n[[planting]]\ncrop = \"cucumber\"\nsown = 2026-05-10\n"
	_, faults := Parse("garden.toml", []byte(text), known(t))
	require.Len(t, faults.Errors(), 1)
	assert.Equal(t, "name is missing", faults.Errors()[0].Message)
	for _, f := range faults {
		assert.NotContains(t, f.Message, "without bed")
	}
}

// Where bees are needed, a planting without its number of plants is doubted: one is
// taken. A kind that needs no pollen, corn in its rows, and what is finished are not.
func TestPlantsThatAreNotToldAreDoubted(t *testing.T) {
	head := "contact = \"me@garden.example\"\n[place]\nlat = 40\nlon = -75\nzone = \"America/New_York\"\n[[planting]]\nname = \"a\"\nsown = 2026-05-10\n"
	for text, want := range map[string]bool{
		"crop = \"cucumber\"\n":                            true,
		"crop = \"cucumber\"\nplants = 1\n":                false,
		"crop = \"cucumber\"\nsets = \"parthenocarpic\"\n": false,
		"crop = \"cucumber\"\nfinished = 2026-07-10\n":     false,
		"crop = \"sweet corn\"\nrows = 4\n":                false,
		"crop = \"tomato\"\n":                              false,
	} {
		_, faults := Parse("garden.toml", []byte(head+text), known(t))
		assert.Empty(t, faults.Errors(), text)
		got := false
		for _, f := range faults {
			got = got || strings.HasPrefix(f.Message, "no number of plants")
		}
		assert.Equal(t, want, got, text)
	}
}
