package crop

import (
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"dawnbrush/forecast"
	"dawnbrush/risk/source"
)

func TestEveryCropLoads(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatalf("crop files:\n%v", err)
	}
	var keys []string
	for _, c := range set.Crops() {
		keys = append(keys, c.Key)
		if len(c.Params) < 30 {
			t.Errorf("%s exposes only %d numbers and facts", c.Key, len(c.Params))
		}
		names := map[string]bool{}
		for _, p := range c.Params {
			if names[p.Name] {
				t.Errorf("%s: %s stands twice", c.Key, p.Name)
			}
			names[p.Name] = true
			if !p.Status.Valid() || p.Key == "" || (p.Kind != source.Words && p.Unit == "") {
				t.Errorf("%s: %s has no status, source or unit", c.Key, p.Name)
			}
			if err := p.Validate(set.Bibliography()); err != nil {
				t.Errorf("%s: %s: %v", c.Key, p.Name, err)
			}
		}
	}
	if got := strings.Join(keys, " "); got != "common-bean cucumber muskmelon pumpkin-winter-squash seedless-watermelon summer-squash sweet-corn sweet-pepper tomato watermelon" {
		t.Errorf("crops %s", got)
	}
}

func TestFind(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for word, key := range map[string]string{
		"Zucchini": "summer-squash", "winter_squash": "pumpkin-winter-squash", "Sweet Corn": "sweet-corn",
		"cucumber": "cucumber", " butternut ": "pumpkin-winter-squash", "tomatoes": "tomato",
		"Cantaloupe": "muskmelon", "Armenian cucumber": "muskmelon", "watermelons": "watermelon", "triploid watermelon": "seedless-watermelon",
	} {
		if c, ok := set.Find(word); !ok || c.Key != key {
			t.Errorf("%q found %v", word, c)
		}
	}
	if _, ok := set.Find("dandelion"); ok {
		t.Error("a word nobody listed was found")
	}
	pumpkin, _ := set.Find("pumpkin")
	if sp, ok := pumpkin.FindSpecies("Cucurbita maxima"); !ok || sp.Key != "maxima" {
		t.Errorf("species %+v", sp)
	}
}

// The typed fields against the publications named beside them: a field filled
// from the wrong key shows here.
func TestTypedFields(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	get := func(word string) *Crop {
		c, ok := set.Find(word)
		if !ok {
			t.Fatal(word)
		}
		return c
	}
	cuke, squash, pumpkin, corn, tomato := get("cucumber"), get("zucchini"), get("pumpkin"), get("corn"), get("tomato")
	pepper, bean := get("bell pepper"), get("green beans")
	muskmelon, watermelon, seedless := get("muskmelon"), get("watermelon"), get("seedless watermelon")
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"cucumber opens at 60 degF, UWlisa", cuke.Window.OpensAtTemp, 15.6},
		{"cucumber tubes none at 38, CukeTube", cuke.Pollen.TubeNil, 38},
		{"cucumber visits from, MSU19", cuke.Need.VisitsNeeded.Low, 8},
		{"cucumber visits to, MSU19", cuke.Need.VisitsNeeded.High, 12},
		{"cucumber shut stigmas on a hot day at 10 h, WehHor89", cuke.Window.ReceptiveAt(5, 36), 0},
		{"cucumber first male from, RDW97", cuke.Phenology.SowToMale.Low, 26},
		{"cucumber first male to, RDW97", cuke.Phenology.SowToMale.High, 45},
		{"squash opens at 50 degF, UWlisa", squash.Window.OpensAtTemp, 10},
		{"squash shut by heat, RDW97", squash.Window.CloseHeat.At(33), 0},
		{"squash open at 30, RDW97", squash.Window.CloseHeat.At(30), 1},
		{"squash six visits, Sampson", squash.Need.VisitsNeeded.Low, 6},
		{"courgettes unpollinated, Knapp", squash.Need.WithoutBees.Or(-1), 0.56},
		{"squash pollen 8 h, ZuccPol20", squash.Hand.Store.Hours.Or(-1), 8},
		{"squash fresh for 3 h, ZuccPol20", squash.Hand.WithinOpening.Or(-1), 3},
		{"pumpkin bumble grains, Pfister17", pumpkin.Bees.Bumble.GrainsPerVisit, 864},
		{"pumpkin first visits after 9 h, Nico09", pumpkin.Window.LastUsefulVisit.Or(-1), 9},
		{"pumpkin buds by day, WienEth", pumpkin.Buds.DayTemp, 32},
		{"pumpkin buds by night, WienEth", pumpkin.Buds.NightTemp, 27},
		{"pumpkin nights, UDel1583", pumpkin.Buds.NightAlone.Or(-1), 24},
		{"moschata to male, Souza17", pumpkin.Phenology.DegreeDays[0].ToMale.Or(-1), 832.5},
		{"moschata to female, Souza17", pumpkin.Phenology.DegreeDays[0].ToFemale.Or(-1), 858.6},
		{"corn silk days, BasWesB", corn.Corn.SilkDays, 7},
		{"corn silks all out to, BasWesA", corn.Corn.SilksOut.High, 8},
		{"corn less pollen above 95 degF, UNLheat", corn.Corn.HeatFull, 35},
		{"corn base, GDDmd", corn.Phenology.DegreeDays[0].Base.Or(-1), 10},
		{"corn shares add up", corn.Corn.Weights[0] + corn.Corn.Weights[1] + corn.Corn.Weights[2] + corn.Corn.Weights[3], 1},
		{"watermelon grains, UDel4481", watermelon.Need.Set, 1000},
		{"watermelon honey bee visit, StangDep", watermelon.Bees.Honey.GrainsPerVisit, 119},
		{"watermelon bumble bee visit, StangDep", watermelon.Bees.Bumble.GrainsPerVisit, 481},
		{"seedless visits from, Walt05", seedless.Need.VisitsNeeded.Low, 16},
		{"seedless visits to, Walt05", seedless.Need.VisitsNeeded.High, 24},
		{"seedless rate is the seeded one's", seedless.Bees.Honey.VisitRate, watermelon.Bees.Honey.VisitRate},
		{"seedless bumble bee rate is the seeded one's", seedless.Bees.Bumble.VisitRate, watermelon.Bees.Bumble.VisitRate},
		{"muskmelon opens at 65 degF, UWlisa", muskmelon.Window.OpensAtTemp, 18.3},
		{"muskmelon visits to, Revan19", muskmelon.Need.VisitsNeeded.High, 10},
		{"tomato at 29, Peet98", tomato.Self.Mean.At(29), 0.10},
		{"tomato at 25, Peet98", tomato.Self.Mean.At(25), 1},
		{"tomato cool pollen, Peet98", tomato.Self.MeanCoolPollen.At(31), 0.73},
		{"tomato 103 degF, BrustTom", tomato.Self.AcuteTemp, 39.4},
		{"tomato 4 h, UWlisa", tomato.Self.AloneHours, 4},
		{"tomato 3 h, PurdTom", tomato.Self.AcuteHours, 3},
		{"tomato best nights from, UNLtom", tomato.Self.Night.At(15.6), 1},
		{"tomato sheds from, UNLtom", tomato.Self.ShedFrom, 10},
		{"tomato sheds to, UNLtom", tomato.Self.ShedTo, 16},
		{"pepper open flowers in heat from, EriMark02", pepper.Self.MeanFrom, -1},
		{"pepper small buds to, 12 days before", pepper.Self.EarlyTo, -12},
		{"pepper 11 % a degC, PepArava", pepper.Self.Mean.At(26), 0.89},
		{"pepper nights of 60 degF, IowaPep", pepper.Self.Night.At(15.6), 1},
		{"pepper nights over 30, AndPep", pepper.Self.Night.At(30), 0},
		{"pepper sheds to, AleHai00", pepper.Self.ShedTo, 17},
		{"bean days that feel heat from, MonWien90", bean.Self.MeanFrom, -6},
		{"bean at nights of 30, Prasad02", bean.Self.Mean.At(30), 0.22},
		{"bean at nights of 18, Prasad02", bean.Self.Mean.At(18), 1},
		{"bean days of 25, DickBoe84", bean.Self.Day.At(25), 1},
		{"bean 4 h at 45, InoSuz59", bean.Self.AloneTemp, 45},
		{"watermelon by hand, Bomfim13", watermelon.Hand.Set.Or(-1), 0.846},
		{"cucumber by hand, Szegedi93", cuke.Hand.Set.Or(-1), 0.93},
		{"watermelon visits that stay, DiTrani22", watermelon.Bees.Stay, 0.1},
		{"squash bees are not known to leave", squash.Bees.Stay, 1},
		{"bean base 50 degF, HPRCCbean", bean.Phenology.DegreeDays[0].Base.Or(-1), 10},
	} {
		if d := c.got - c.want; d > 1e-9 || d < -1e-9 {
			t.Errorf("%s: %g, want %g", c.name, c.got, c.want)
		}
	}
	if cuke.Buds != nil || cuke.Bees.Squash != nil || corn.Self != nil || tomato.Corn != nil {
		t.Error("a part stands where the crop has none")
	}
	if pepper.Self.ByNight || !pepper.Self.Early() || !pepper.Self.Tapped() || !bean.Self.ByNight || !bean.Self.Early() || bean.Self.Tapped() {
		t.Error("pepper goes by two spells of whole days and is tapped, bean by two of nights and is not")
	}
	if !seedless.Need.Straight || watermelon.Need.Straight || seedless.Settings[0] != Triploid || watermelon.Allows(Triploid) {
		t.Error("the two watermelons are not told apart")
	}
	if !cuke.Allows(Gynoecious) || cuke.Allows(Triploid) {
		t.Errorf("cucumber settings %v", cuke.Settings)
	}
}

func cucumberFile(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("data/cucumber.json")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// swap replaces text that must be there once at least.
func swap(t *testing.T, text, old, with string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("the crop file no longer holds %s", old)
	}
	return strings.Replace(text, old, with, 1)
}

// lineOf gives the 1-based line of a text.
func lineOf(t *testing.T, text, part string) int {
	t.Helper()
	at := strings.Index(text, part)
	if at < 0 {
		t.Fatalf("no %s", part)
	}
	return 1 + strings.Count(text[:at], "\n")
}

// An invented crop needs one file and no Go; it may bring its own sources.
func TestOneFileAddsACrop(t *testing.T) {
	text := cucumberFile(t)
	text = swap(t, text, `"name": "cucumber"`, `"name": "moon gherkin"`)
	text = swap(t, text, `"plural": "cucumbers"`, `"plural": "moon gherkins"`)
	text = swap(t, text, `"aliases": [`, `"sources": [{"key": "Moon01", "citation": "Invented for this test"}],
  "aliases": ["lunar cuke", `)
	text = swap(t, text, `"cuke", "cukes", "pickling cucumber", "slicing cucumber", "gherkin", "lemon cucumber", "lemon cucumbers", "english cucumber", "persian cucumber", "japanese cucumber", "greenhouse cucumber", "cucumis sativus"`, `"moonling"`)
	text = swap(t, text, `"value": 15.6, "unit": "degC", "source": "UWlisa", "where": "page text", "status": "read"`,
		`"value": 4.25, "unit": "degC", "source": "Moon01", "where": "crater 2", "status": "read"`)
	set, err := LoadFS(fstest.MapFS{"data/moon-gherkin.json": {Data: []byte(text)}, "data/cucumber.json": {Data: []byte(cucumberFile(t))}})
	if err != nil {
		t.Fatal(err)
	}
	c, ok := set.Find("Lunar Cuke")
	if !ok || c.Key != "moon-gherkin" || c.Window.OpensAtTemp != 4.25 {
		t.Fatalf("found %+v", c)
	}
	found := false
	for _, p := range c.Params {
		found = found || p.Name == "window.opens_at_temp" && p.Value == 4.25 && p.Key == "Moon01" && p.Where == "crater 2"
	}
	if !found {
		t.Error("the number is not among Params")
	}
	if _, ok := set.Bibliography().Get("Moon01"); !ok {
		t.Error("the crop's source is not in the bibliography")
	}
	if base, err := source.Load(); err != nil {
		t.Error(err)
	} else if _, ok := base.Get("Moon01"); ok {
		t.Error("the built-in bibliography was changed")
	}
}

// Everything wrong in all files comes at once, each with file and line.
func TestAllFaultsAtOnce(t *testing.T) {
	text := cucumberFile(t)
	for _, s := range [][2]string{
		{`"opens": {"value": 0.5, "unit": "h after sunrise", `, `"opens": {"value": 0.5, `},
		{`"closes": {"value": 10, "unit": "h after sunrise"`, `"closes": {"value": 10, "unit": "min after sunrise"`},
		{`"opens_at_temp": {"value": 15.6, "unit": "degC", "source": "UWlisa"`, `"opens_at_temp": {"value": 60, "unit": "degC", "source": "Nobody99"`},
		{`"tube_nil": {"value": 38, "unit": "degC", "source": "CukeTube", "where": "abstract", "status": "read"`, `"tube_nil": {"value": 88, "unit": "degC", "source": "CukeTube", "status": "seen"`},
		{`"tube_hours": {`, `"tube_minutes": {`},
		{`"flower_height": {"value": 0.5,`, `"flower_height": {"value": "half",`},
		{`"pollination": "insect"`, `"pollination": "birds"`},
		{`"aliases": [`, `"sources": [{"key": "MSU19", "citation": "other words"}],
  "aliases": [`},
	} {
		text = swap(t, text, s[0], s[1])
	}
	// The carrier stays insect so that the other sections are read.
	text = swap(t, text, `"pollination": "birds"`, `"pollination": "insect", "colour": "green"`)
	bare := swap(t, cucumberFile(t), `"name": "cucumber"`, `"name": "second"`)
	_, err := LoadFS(fstest.MapFS{
		"data/a.json": {Data: []byte(text)},
		"data/b.json": {Data: []byte("{\n\"name\": \"b\",\n\"plural\" 3}")},
		"data/c.json": {Data: []byte(bare)},
	})
	var faults Faults
	if !errors.As(err, &faults) {
		t.Fatalf("error %v", err)
	}
	want := []struct{ file, at, text string }{
		{"data/a.json", `"opens": {`, "window.opens: unit is missing"},
		{"data/a.json", `"closes": {`, `unit "min after sunrise" must be "h after sunrise"`},
		{"data/a.json", `"opens_at_temp": {`, `source "Nobody99" is not in the bibliography`},
		{"data/a.json", `"tube_nil": {`, `status "seen" is not one of`},
		{"data/a.json", `"tube_nil": {`, "pollen.tube_nil: place in CukeTube is missing"},
		{"data/a.json", `"tube_nil": {`, "88 degC is not between"},
		{"data/a.json", `"tube_minutes": {`, "pollen.tube_minutes is not a field of a crop file"},
		{"data/a.json", `"pollen": {`, "pollen.tube_hours is missing"},
		{"data/a.json", `"flower_height": {`, "flower_height: value must be a number"},
		{"data/a.json", `"colour"`, "colour is not a field of a crop file"},
		{"data/a.json", `"sources": [`, "source MSU19 is already cited with other text"},
		{"data/b.json", "", "not valid JSON"},
	}
	for _, w := range want {
		line := 3
		if w.file == "data/a.json" {
			line = lineOf(t, text, w.at)
		}
		found := false
		for _, f := range faults {
			found = found || f.File == w.file && f.Line == line && strings.Contains(f.Text, w.text)
		}
		if !found {
			t.Errorf("no fault %s:%d %q", w.file, line, w.text)
		}
	}
	twice := false
	for _, f := range faults {
		twice = twice || f.File == "data/c.json" && strings.Contains(f.Text, `"cukes" already means a`)
	}
	if !twice {
		t.Error("one alias in two files was taken")
	}
	if t.Failed() {
		t.Logf("all faults:\n%v", err)
	}
}

func TestBareNumbersAndWrongCarriersAreRefused(t *testing.T) {
	for _, c := range []struct{ old, with, want string }{
		{`"pollination": "insect"`, `"pollination": "birds"`, `pollination "birds" must be one of insect, self, wind`},
		{`"settings": ["monoecious"`, `"settings": ["shy"`, `"shy" is not one of`},
		{`"curve": [[8, 1], [10, 0.5]]`, `"curve": [[4.5, 1]]`, "at least two points"},
		{`"low": 26, "high": 45`, `"low": 46, "high": 45`, "low 46 is above high 45"},
		{`"name": "cucumber",`, `"name": "cucumber", "name": "cuke",`, `"name" stands here twice`},
		{`"value": 15.6, "unit"`, `"value": 1e999, "unit"`, "value must be a number"},
		{`"set": {"value": 10, "low": 8, "high": 12, "unit": "honey bee visits"`, `"set": {"value": 10, "low": 8, "high": 12, "unit": "handfuls"`, `"handfuls" must be "grains" or "honey bee visits"`},
		{`"status": "chosen",`, `"status": "read",`, `goes with status chosen, not read`},
	} {
		_, err := LoadFS(fstest.MapFS{"data/x.json": {Data: []byte(swap(t, cucumberFile(t), c.old, c.with))}})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.with, err, c.want)
		}
	}
	bare := swap(t, cucumberFile(t), `"flower_height": {`, `"flower_height": 0.5, "limits2": {`)
	if _, err := LoadFS(fstest.MapFS{"data/x.json": {Data: []byte(bare)}}); err == nil || !strings.Contains(err.Error(), "flower_height is a bare value") {
		t.Errorf("a bare number was taken: %v", err)
	}
}

// What a self-pollinated crop may leave out, it leaves out whole.
func TestPartsOfASelfPollinatedCrop(t *testing.T) {
	for _, c := range []struct{ file, old, with, want string }{
		{"tomato", `"tap_one": "truss",`, ``, "self.tap_one is missing"},
		{"tomato", `"acute_reach": {`, `"acute_far": {`, "self.acute_reach is missing"},
		{"tomato", `"alone_hours": {`, `"alone_long": {`, "self.alone_hours is missing"},
		{"tomato", `"minutes_per_flower": {`, `"minutes": {`, "hand.minutes_per_flower is missing"},
		{"sweet-pepper", `"early_to": {"value": -12`, `"early_to": {"value": -1`, "must follow each other"},
		{"sweet-pepper", `"early_to": {`, `"early_end": {`, "self.early_to is missing"},
		{"sweet-pepper", `"mean": {`, `"means": {`, "self.mean is missing"},
		{"common-bean", `"x": "degC mean of night minima"`, `"x": "degC mean of daily means"`, `must be "degC mean of night minima"`},
		{"common-bean", `"tool": {`, `"best": {"low": 10, "high": 14, "unit": "local hour", "source": "memory", "status": "memory"}, "tool": {`, "hand.best is not a field"},
	} {
		data, err := os.ReadFile("data/" + c.file + ".json")
		if err != nil {
			t.Fatal(err)
		}
		_, err = LoadFS(fstest.MapFS{"data/x.json": {Data: []byte(swap(t, string(data), c.old, c.with))}})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s with %s: error %v, want %q", c.file, c.with, err, c.want)
		}
	}
}

func TestCurve(t *testing.T) {
	c := NewCurve([2]float64{7, 0}, [2]float64{4.5, 1})
	for _, p := range [][2]float64{{-2, 1}, {4.5, 1}, {5.5, 0.6}, {7, 0}, {20, 0}} {
		if got := c.At(p[0]); got-p[1] > 1e-12 || p[1]-got > 1e-12 {
			t.Errorf("at %g: %g, want %g", p[0], got, p[1])
		}
	}
	if n := testing.AllocsPerRun(100, func() { c.At(5) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
	var none Curve
	if !none.Empty() || none.At(3) != 1 {
		t.Error("an empty curve must change nothing")
	}
}

func TestUnknownStaysUnknown(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	c, _ := set.Find("cucumber")
	if c.Window.LastUsefulVisit != (forecast.Value{}) || c.Limits.NightLow.IsKnown() {
		t.Error("a number that the file does not hold is known")
	}
}

// A crop's set may rise in a straight line, and its fruit may come from flowers
// that stand beside males without being female.
func TestFormsOfRiseAndFlowers(t *testing.T) {
	const rise = `"need": { "rise": {"text": "straight", "source": "Walt05", "where": "abstract", "status": "read"},`
	text := swap(t, swap(t, cucumberFile(t), `"need": {`, rise), `"separate-sexes"`, `"male-and-perfect"`)
	set, err := LoadFS(fstest.MapFS{"data/cucumber.json": {Data: []byte(text)}})
	if err != nil {
		t.Fatal(err)
	}
	c, _ := set.Find("cucumber")
	if !c.Need.Straight || c.Flowers != MaleAndPerfect || !c.Flowers.MalesApart() || c.Hand.Tell.Text == "" {
		t.Errorf("straight %v, flowers %v", c.Need.Straight, c.Flowers)
	}
	text = swap(t, text, `"text": "straight"`, `"text": "stairs"`)
	_, err = LoadFS(fstest.MapFS{"data/cucumber.json": {Data: []byte(text)}})
	if err == nil || !strings.Contains(err.Error(), `need.rise "stairs" must be bent or straight`) {
		t.Errorf("error %v", err)
	}
}
