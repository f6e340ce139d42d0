package config

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
	"unicode"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anyText draws texts that Parse accepts, quotes and backslashes included.
func anyText() *rapid.Generator[string] {
	runes := rapid.OneOf(rapid.RuneFrom([]rune(`"\#=[]'\n😀`)), rapid.RuneFrom(nil, unicode.L, unicode.N, unicode.P, unicode.S, unicode.Zs))
	return rapid.StringOfN(runes, 1, longestText, -1).Filter(func(s string) bool { return unfit(s) == "" })
}

// anyDay draws a day of this spring or none.
func anyDay(t *rapid.T, label string, from, to int) forecast.Date {
	if !rapid.Bool().Draw(t, label+" told") {
		return forecast.Date{}
	}
	return today.AddDays(rapid.IntRange(from, to).Draw(t, label))
}

func anyHours(t *rapid.T, label string) []risk.Span {
	marks := rapid.SliceOfNDistinct(rapid.IntRange(0, 24*60), 0, 6, rapid.ID[int]).Draw(t, label)
	if len(marks)%2 == 1 {
		marks = marks[1:]
	}
	for i := range marks { // few enough to sort by hand
		for j := range i {
			if marks[i] < marks[j] {
				marks[i], marks[j] = marks[j], marks[i]
			}
		}
	}
	var out []risk.Span
	for i := 0; i < len(marks); i += 2 {
		out = append(out, risk.Span{From: float64(marks[i]) / 60, To: float64(marks[i+1]) / 60})
	}
	return out
}

func anyPlanting(t *rapid.T, i int, crops []*crop.Crop, u risk.Units) risk.Planting {
	c := rapid.SampledFrom(crops).Draw(t, "crop")
	p := plantingDefaults(c)
	p.Name = fmt.Sprintf("%d%s", i, anyText().Filter(func(s string) bool { return len([]rune(s)) < longestText-4 }).Draw(t, "name"))
	if rapid.Bool().Draw(t, "more") {
		p.Cultivar, p.Bed = anyText().Draw(t, "cultivar"), anyText().Draw(t, "bed")
		p.Plants = rapid.IntRange(1, mostPlants).Draw(t, "plants")
		p.Support = rapid.SampledFrom([]risk.Support{risk.OnGround, risk.OnTrellis}).Draw(t, "support")
		p.Cover = rapid.SampledFrom([]risk.Cover{risk.Open, risk.RowCover, risk.Tunnel, risk.House}).Draw(t, "cover")
		p.MinutesPerFlower = rapid.Float64Range(0.05, 60).Draw(t, "minutes")
		p.FruitWorth = rapid.Float64Range(0, 1e6).Draw(t, "worth")
		p.Pollenizer = rapid.Bool().Draw(t, "pollenizer")
		p.Logger, p.BumbleHive = anyText().Draw(t, "logger"), rapid.Bool().Draw(t, "hive")
		p.BudsOn = today.AddDays(rapid.IntRange(-20, 0).Draw(t, "buds on"))
		p.Buds = rapid.IntRange(0, mostPlants).Draw(t, "buds")
	}
	if len(c.Settings) > 0 {
		p.Setting = rapid.SampledFrom(c.Settings).Draw(t, "sets")
	}
	if len(c.Species) > 0 && rapid.Bool().Draw(t, "species told") {
		p.Species = rapid.SampledFrom(c.Species).Draw(t, "species").Key
	}
	if len(c.Types) > 0 && rapid.Bool().Draw(t, "type told") {
		p.Type = rapid.SampledFrom(c.Types).Draw(t, "type").Key
	}
	if c.Pollination == crop.Wind {
		p.Sweetness = rapid.SampledFrom([]risk.Sweetness{"", risk.Sugary, risk.SugaryEnhanced, risk.Supersweet}).Draw(t, "sweetness")
		p.RowsRun = rapid.SampledFrom([]risk.RowsRun{"", risk.NorthSouth, risk.NorthEast, risk.EastWest, risk.NorthWest}).Draw(t, "rows run")
		p.Rows = rapid.IntRange(1, 40).Draw(t, "rows")
		p.RowLength = lengths().in(rapid.Float64Range(1, 1000).Draw(t, "row length"), u)
	}
	p.Sown = anyDay(t, "sown", -120, -80)
	p.Transplanted = anyDay(t, "transplanted", -80, -50)
	p.FirstMale = anyDay(t, "first male", -50, -20)
	p.FirstFemale = anyDay(t, "first female", -50, -20)
	p.Finished = anyDay(t, "finished", 0, 40)
	return p
}

func anyBed(t *rapid.T, i int, u risk.Units) risk.Bed {
	b := bedDefaults()
	b.Name = fmt.Sprint("bed ", i)
	b.Kind = rapid.SampledFrom([]risk.BedKind{risk.GroundBed, risk.RaisedBed, risk.Pots}).Draw(t, "kind")
	b.Area = areas().in(rapid.Float64Range(1, 1000).Draw(t, "area"), u)
	b.Watering = rapid.SampledFrom([]risk.Watering{"", risk.Drip, risk.Can, risk.Sprinkler}).Draw(t, "watering")
	b.Mulch = rapid.SampledFrom([]risk.Mulch{risk.BareSoil, risk.Organic, risk.Plastic}).Draw(t, "mulch")
	b.Account = rapid.SampledFrom([]risk.WaterAccount{risk.FullAccount, risk.SimpleAccount}).Draw(t, "account")
	b.Flow = flows().in(rapid.Float64Range(0.5, 100).Draw(t, "flow"), u)
	switch b.Kind {
	case risk.Pots:
		b.Pots, b.PotVolume = rapid.IntRange(1, 50).Draw(t, "pots"), volumes().in(rapid.Float64Range(1, 100).Draw(t, "volume"), u)
	case risk.RaisedBed:
		b.Depth = depths().in(rapid.Float64Range(6, 60).Draw(t, "depth"), u)
	}
	if rapid.Bool().Draw(t, "measured soil") {
		share := func(lo, hi float64, what string) forecast.Value {
			return forecast.Known(percent().in(rapid.Float64Range(lo, hi).Draw(t, what), risk.Metric))
		}
		b.FieldCapacity, b.WiltingPoint = share(25, 60, "field capacity"), share(2, 20, "wilting point")
	} else {
		b.Soil = rapid.SampledFrom([]risk.Soil{"", risk.Sand, risk.SiltClayLoam}).Draw(t, "soil")
	}
	return b
}

func anyFile(t *rapid.T, crops []*crop.Crop) *File {
	f := Defaults()
	g := &f.Garden
	g.Units = rapid.SampledFrom([]risk.Units{risk.Metric, risk.US}).Draw(t, "units")
	g.Name = anyText().Draw(t, "garden")
	g.Contact = rapid.SampledFrom([]string{"", "grower@example.org", "mailto:a.b+c@example.org", "https://example.org/plot?a=1"}).Draw(t, "contact")
	g.Shelter = rapid.Float64Range(0.5, 1.4).Draw(t, "shelter")
	town := rapid.SampledFrom(zoneTowns()).Draw(t, "town")
	zone, err := time.LoadLocation(town.zone)
	if err != nil {
		t.Fatal(err)
	}
	g.Place = forecast.Place{Lat: town.town.Lat, Lon: town.town.Lon, Zone: zone}
	if rapid.Bool().Draw(t, "height told") {
		g.Place.Elevation = forecast.Known(lengths().in(rapid.Float64Range(-1000, 6000).Filter(func(v float64) bool {
			return lengths().in(v, g.Units) > -450
		}).Draw(t, "height"), g.Units))
	}
	for day := range g.Work {
		g.Work[day] = anyHours(t, fmt.Sprint("hours ", day))
	}
	level := rapid.SampledFrom([]risk.Level{risk.LevelUnknown, risk.None, risk.Few, risk.Normal, risk.Many})
	g.Bees = risk.Bees{Honey: level.Draw(t, "honey"), Bumble: level.Draw(t, "bumble"), Squash: level.Draw(t, "squash"),
		Hives: rapid.IntRange(0, 1000).Draw(t, "hives")}
	if rapid.Bool().Draw(t, "can told") {
		g.Can = volumes().in(rapid.Float64Range(1, 50).Draw(t, "can"), g.Units)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "beds") {
		g.Beds = append(g.Beds, anyBed(t, i, g.Units))
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "plantings") {
		g.Plantings = append(g.Plantings, anyPlanting(t, i, crops, g.Units))
	}
	f.Mail = anyMail(t)
	return f
}

// anyMail draws a way of mail with its recipients, or none.
func anyMail(t *rapid.T) *Mail {
	if !rapid.Bool().Draw(t, "mail") {
		return nil
	}
	m := mailDefaults()
	m.Hook, m.From = rapid.SampledFrom([]Hook{HookCommand, HookSMTP, HookHTTPS, HookStdout}).Draw(t, "hook"), "garden+plot@example.org"
	m.Timeout = rapid.IntRange(1, 600).Draw(t, "timeout")
	switch m.Hook {
	case HookCommand:
		m.Command = []string{"/" + anyText().Draw(t, "program")}
		for range rapid.IntRange(0, 3).Draw(t, "arguments") {
			m.Command = append(m.Command, rapid.OneOf(anyText(), rapid.Just(""), rapid.Just(" -t ")).Draw(t, "argument"))
		}
	case HookSMTP:
		m.Server, m.Security = "smtp.example.org", rapid.SampledFrom([]string{securityTLS, securitySTARTTLS}).Draw(t, "security")
		m.Port = rapid.IntRange(1, 65535).Draw(t, "port")
		if rapid.Bool().Draw(t, "user") {
			m.User, m.PasswordFile = anyText().Draw(t, "name"), anyText().Draw(t, "password file")
		}
	case HookHTTPS:
		m.URL, m.Credential = "https://example.org:8443/letters?plot=7&a=%22", "dawnbrush-mail"
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "recipients") {
		m.To = append(m.To, Recipient{
			Address: fmt.Sprintf("r%d.o'hara@example.org", i),
			Units:   rapid.SampledFrom([]risk.Units{"", risk.Metric, risk.US}).Draw(t, "reader's units"),
			Dates:   rapid.SampledFrom([]string{"", "de", "en-us"}).Draw(t, "dates"),
			Kinds:   rapid.SampledFrom([][]string{{Daily}, {Weekly}, {Weekly, Daily}}).Draw(t, "kinds"),
		})
	}
	return m
}

// Whatever garden is written is read back as the same one, to the last bit of
// every number and in both systems of units.
func TestWriteReadsBack(t *testing.T) {
	k := known(t)
	rapid.Check(t, func(t *rapid.T) {
		f := anyFile(t, k.Crops.Crops())
		again, faults := Parse("written", Write(f), k)
		if again == nil {
			t.Fatalf("%s\n%s", screen(faults), Write(f))
		}
		assertSame(t, f, again)
	})
}

// An untouched answer to every question gives a file without a fault; the golden
// file is what a new grower sees.
func TestFirstFile(t *testing.T) {
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		t.Run(string(u), func(t *testing.T) {
			f := Defaults()
			f.Garden.Units, f.Garden.Contact = u, "grower@example.org"
			f.Garden.Place.Lat, f.Garden.Place.Lon = 40.71, -74.01
			f.Garden.Place.Elevation = forecast.Known(30.48)
			var err error
			f.Garden.Place.Zone, err = time.LoadLocation("America/New_York")
			require.NoError(t, err)
			doc := Write(f)
			golden(t, "testdata/first-"+string(u)+".golden", string(doc))
			again, faults := Parse("first", doc, known(t))
			require.NotNil(t, again, screen(faults))
			assert.Empty(t, faults.Errors())
			assertSame(t, f, again)
		})
	}
}

// All that stands as a note in a new file can be opened by taking the first #
// away, and is then a garden.
func TestNotesCanBeOpened(t *testing.T) {
	f := Defaults()
	f.Garden.Place.Lat, f.Garden.Place.Lon = 40.71, -74.01
	f.Garden.Place.Zone = time.UTC
	var b strings.Builder
	opened := 0
	for line := range strings.Lines(string(Write(f))) {
		body := strings.TrimPrefix(line, "# ")
		key, _, assigned := strings.Cut(body, " = ")
		if body != line && (strings.HasPrefix(body, "[[") || body == "[mail]\n" || assigned && bareKey().MatchString(key)) {
			line = body
			opened++
		}
		b.WriteString(line)
	}
	k := known(t)
	k.Today = forecast.Date{Year: 2026, Month: time.December, Day: 1}
	got, faults := Parse("opened", []byte(b.String()), k)
	require.NotNil(t, got, screen(faults)+b.String())
	require.Len(t, got.Garden.Plantings, 1)
	require.Len(t, got.Garden.Beds, 1)
	assert.Equal(t, len(bedSettings())+1+len(plantingSettings())+1+len(mailSettings())+1+len(recipientSettings())+1+
		len([]string{"can", "contact", "sells", "elevation", "honey", "bumble", "squash", "hives"}), opened)
	for _, r := range Explain(got) {
		if r.Key != "type" { // of a cucumber
			assert.NotEqual(t, notTold, r.Value, r.Key)
		}
	}
}

// The crops that the file names as examples are crops.
func TestExampleCropsExist(t *testing.T) {
	k := known(t)
	for _, word := range []string{"cucumber", "zucchini", "pumpkin", "sweet corn", "tomato"} {
		_, ok := k.Crops.Find(word)
		assert.True(t, ok, word)
	}
}

// Feet come back as the same metres although 0.3048 has no exact binary form.
func TestFeetKeepTheirMetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet := rapid.Float64Range(-1476, 19685).Draw(t, "feet")
		text := lengths().show(lengths().in(feet, risk.US), risk.US)
		var back float64
		if _, err := fmt.Sscan(text, &back); err != nil {
			t.Fatal(err)
		}
		if lengths().in(back, risk.US) != lengths().in(feet, risk.US) {
			t.Fatalf("%v ft written as %s", feet, text)
		}
	})
	assert.Equal(t, "394", lengths().show(lengths().in(394, risk.US), risk.US))
	assert.Equal(t, "33.5", lengths().show(lengths().in(33.5, risk.US), risk.US))
	assert.Equal(t, "30", lengths().show(30, risk.Metric))
	assert.False(t, math.Signbit(lengths().in(0, risk.US)))
}

// The largest garden that Parse takes is also one that it takes from Write.
func TestLargestGardenFits(t *testing.T) {
	k := known(t)
	long := strings.Repeat("\U0001f33d", longestText-4)
	f := Defaults()
	f.Garden.Units = risk.US
	f.Garden.Place = forecast.Place{Lat: 40.71, Lon: -74.01, Zone: time.UTC}
	corn, ok := k.Crops.Find("sweet corn")
	require.True(t, ok)
	for i := range mostPlantings {
		p := plantingDefaults(corn)
		p.Name, p.Cultivar, p.Bed = fmt.Sprintf("%d%s", i, long), long, long
		p.Plants, p.Rows, p.RowLength, p.Buds = mostPlants, mostPlants, 1000.0/3, mostPlants
		p.Support, p.Cover, p.Pollenizer = risk.OnTrellis, risk.RowCover, true
		p.Sown, p.Transplanted, p.FirstMale, p.FirstFemale, p.Finished, p.BudsOn = today, today, today, today, today, today
		p.MinutesPerFlower, p.FruitWorth = 100.0/3, 1e6/3
		f.Garden.Plantings = append(f.Garden.Plantings, p)
	}
	doc := Write(f)
	assert.Less(t, len(doc), mostBytes)
	t.Logf("%d bytes", len(doc))
	again, faults := Parse("g", doc, k)
	require.NotNil(t, again, screen(faults))
	assertSame(t, f, again)
}

// A text that Parse would refuse is still written as sound TOML and then found.
func TestWriteEscapesWhatParseRefuses(t *testing.T) {
	f := Defaults()
	f.Garden.Name = "a\nname = \"b\"\x00\u2028"
	f.Garden.Contact = "grower@example.org"
	f.Garden.Place = forecast.Place{Lat: 40.71, Lon: -74.01, Zone: time.UTC}
	_, faults := Parse("g", Write(f), known(t))
	require.Len(t, faults.Errors(), 1)
	assert.Contains(t, faults.Errors()[0].Message, "name holds a line break")
}
