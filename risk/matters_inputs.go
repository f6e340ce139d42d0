package risk

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
	"dawnbrush/risk/source"
)

// inputs lists what is in doubt for the planting.
func (b *bench) inputs() []input {
	out := b.garden()
	switch b.p.Crop.Pollination {
	case crop.Insect:
		out = append(out, b.supply()...)
		out = append(out, b.hand(), b.curve("window.offer", 1, "h", func(t *trial) *crop.Curve { return &t.c.Window.Offer }),
			b.curve("window.receptive", 1, "h", func(t *trial) *crop.Curve { return &t.c.Window.Receptive }))
	case crop.Wind:
		out = append(out, b.rows(), b.rowsRun(), b.firstTassel(), b.dryHeat())
	case crop.Self:
		name := b.p.Crop.Self.MeanParam()
		out = append(out, b.curve(name, cultivarHeat, "degC", func(t *trial) *crop.Curve { return &t.self().Mean }),
			b.curve("self.night", cultivarHeat, "degC", func(t *trial) *crop.Curve { return &t.self().Night }))
	}
	out = append(out, b.numbers()...)
	return append(out, b.weather()...)
}

// cultivarHeat is how far cultivars stand apart in the heat they bear, degC.
// [chosen, status chosen] one step of the published chamber studies is 3 to 4.
const cultivarHeat = 1.5

func (t *trial) self() *crop.SelfFruit {
	own := *t.c.Self
	t.c.Self = &own
	return t.c.Self
}

func (t *trial) corn() *crop.Corn {
	own := *t.c.Corn
	t.c.Corn = &own
	return t.c.Corn
}

func (t *trial) group(g bee.Group) *crop.Group {
	at := [bee.Groups]**crop.Group{&t.c.Bees.Honey, &t.c.Bees.Bumble, &t.c.Bees.Squash}[g]
	own := **at
	*at = &own
	return *at
}

// chosenDoubt is a doubt whose ends nobody published.
func chosenDoubt(name string, lo, hi float64, unit, note string) source.Param {
	return source.Param{Name: name, Kind: source.Span, Range: &source.Interval{Low: lo, High: hi}, Unit: unit,
		Key: source.KeyChosen, Status: source.Chosen, Note: note}
}

// told closes a doubt: both ends are what the grower told.
func told(p source.Param, x float64, known bool) source.Param {
	if known {
		p.Range = &source.Interval{Low: x, High: x}
		p.Note = "told in the garden file"
	}
	return p
}

// sureVisits makes a supply all but certain: as good as so many visits expected.
const sureVisits = 1e4 // [chosen, status chosen] leaves 1 % of spread

// supply is how many bees live here, all groups together, and whether each group
// does.
func (b *bench) supply() []input {
	var known []law
	s := newSupply(b.p.Crop, b.a.Garden.Bees, &b.a.Learned, &known)
	book, shape := 0.0, "bees.honey.shape"
	for g := range bee.Groups {
		book += s.book[g]
	}
	groups := [bee.Groups]*crop.Group{b.p.Crop.Bees.Honey, b.p.Crop.Bees.Bumble, b.p.Crop.Bees.Squash}
	for g, data := range groups {
		if data != nil && data.Shape == s.shape {
			shape = "bees." + [bee.Groups]string{"honey", "bumble", "squash"}[g] + ".shape"
			break
		}
	}
	doubt := chosenDoubt("bees.supply", book*s.learned*s.marks[0], book*s.learned*s.marks[2], "visits per flower and hour",
		"one garden in ten lies under, one over; all groups at full flight, by "+shape+", the garden file and the diary's counts")
	out := []input{{doubt, CanCount, func(t *trial, x float64) {
		t.l.Visits, t.l.Expected = sureVisits*x/book, sureVisits
	}}}
	if book == 0 {
		out[0].doubt.Range = &source.Interval{}
	}
	levels := [bee.Groups]Level{b.a.Garden.Bees.Honey, b.a.Garden.Bees.Bumble, b.a.Garden.Bees.Squash}
	for g, data := range groups {
		if data == nil {
			continue
		}
		known := levels[g] != LevelUnknown || bee.Group(g) == bee.Honey && b.a.Garden.Bees.Hives > 0
		d := chosenDoubt("bees."+[bee.Groups]string{"honey", "bumble", "squash"}[g], 0, levelFactor(Many), "times the book's visits",
			"none to many, the steps of the garden file")
		out = append(out, input{told(d, 1, known), CanTell, func(t *trial, x float64) {
			level := None
			if x > 0 {
				level = Many
			}
			*[bee.Groups]*Level{&t.g.Bees.Honey, &t.g.Bees.Bumble, &t.g.Bees.Squash}[g] = level
		}})
	}
	return out
}

// hand is how many flowers a brush sets where pollen and stigma are in order.
func (b *bench) hand() input {
	set := handSet(b.p.Crop)
	d := source.Param{Name: "hand.share", Kind: source.Span, Unit: "share", Key: "Szegedi93", Where: "pp. 3-4", Status: source.Derived,
		Range: &source.Interval{Low: set * pollen.FlaggingShare, High: set},
		Note:  "hand-pollinated flowers that set where trials did it well, and what cucumbers that flagged at noon set of it"}
	if l := &b.a.Learned; l.HandOf > 0 {
		d.Range = &source.Interval{Low: min(set, l.Hand.Quantile(0.1)), High: min(set, l.Hand.Quantile(0.9))}
		d.Key, d.Where, d.Status, d.Note = source.KeyChosen, "", source.Chosen, "nine in ten of what the diary's brushed flowers leave open"
	}
	return input{d, CanCount, func(t *trial, x float64) {
		t.l.Hand.A, t.l.Hand.B, t.l.HandOf, t.l.HandBook = x*sureVisits, (1-x)*sureVisits, sureVisits, set
	}}
}

// garden is what a garden file can tell.
func (b *bench) garden() []input {
	shelter := b.a.Garden.Shelter
	out := []input{{told(chosenDoubt("garden.shelter", 0.5, 1.4, "times the reported wind", "the span a garden file may tell; 1 counts as not told"), shelter, shelter != 1),
		CanMeasure, func(t *trial, x float64) { t.g.Shelter = x }}}
	pace := b.p.Crop.Hand.MinutesPerFlower
	out = append(out, input{told(chosenDoubt("planting.minutes_per_flower", pace/2, pace*2, "min", "half to twice the crop's default"), b.p.MinutesPerFlower, b.p.MinutesPerFlower > 0),
		CanMeasure, func(t *trial, x float64) { t.planting().MinutesPerFlower = x }})
	out = append(out, input{told(chosenDoubt("planting.fruit_worth", fruitWorth/2, fruitWorth*2, "money", "half to twice what stands where nothing is told"), b.p.FruitWorth, b.p.FruitWorth > 0),
		CanTell, func(t *trial, x float64) { t.planting().FruitWorth = x }})
	n := b.p.Crop.Hand.FemalesPerDay * float64(max(1, b.p.Plants))
	out = append(out, input{told(chosenDoubt("planting.open", math.Ceil(n/2), math.Ceil(2*n), "flowers", "half to twice the crop's default for so many plants"), float64(b.p.Open), b.p.OpenOn == b.date),
		CanCount, func(t *trial, x float64) { t.planting().Open, t.planting().OpenOn = int(x), b.date }})
	return append(out, b.firstFlower())
}

// firstFlower is the day of the first flower, as days from the middle.
func (b *bench) firstFlower() input {
	zero := input{told(chosenDoubt("planting.first_flower", 0, 0, "days", ""), 0, true), CanTell, func(*trial, float64) {}}
	if !b.p.FirstFemale.IsZero() {
		return zero
	}
	m := NewModelWith(&Garden{Place: b.a.Garden.Place, Plantings: []Planting{*b.p}, Shelter: b.a.Garden.Shelter}, b.a.Learned)
	m.Assess(b.a.Series, b.date, 1)
	dates := &m.models[0].dates
	if !dates.known || dates.est.Female.To.Before(dates.est.Female.From) {
		zero.doubt.Note = "no date was told that dates the first flower: it has no ends to try"
		return zero
	}
	from := dates.est.Female.From
	d := chosenDoubt("planting.first_flower", 0, float64(dates.est.Female.To.DaysSince(from)), "days after the earliest", "the earliest and the latest day: "+dates.basis)
	return input{d, CanTell, func(t *trial, x float64) { t.planting().FirstFemale = from.AddDays(int(x)) }}
}

// rows is how many rows of corn stand side by side.
func (b *bench) rows() input {
	return input{told(chosenDoubt("planting.rows", 1, fewRows, "rows", "one row to a block"), float64(b.p.Rows), b.p.Rows > 0),
		CanTell, func(t *trial, x float64) { t.planting().Rows = int(x) }}
}

// dryHeat is what a degree day of heat takes from corn, by whether it has water. An account
// of the bed's water closes it.
func (b *bench) dryHeat() input {
	c := b.p.Crop.Corn
	d := source.Param{Name: "corn.heat_loss", Kind: source.Span, Unit: "per degC day", Range: &source.Interval{Low: c.HeatLoss, High: c.HeatLossDry}}
	if p, ok := b.param("corn.heat_loss"); ok {
		d.Key, d.Where, d.Status = p.Key, p.Where, p.Status
	}
	d.Note = "irrigated fields and others; a [[bed]] with its water in the garden file tells which"
	if _, kept := b.a.Learned.Thirst[ThirstDay{b.p.Name, b.date}]; kept {
		d.Range, d.Note = &source.Interval{Low: c.HeatLoss, High: c.HeatLoss}, "the account of the bed's water tells"
	}
	return input{d, CanTell, func(t *trial, x float64) { t.corn().HeatLoss = x }}
}

// rowsRun is how the rows lie on the compass: it says something of few rows whose length
// is told, in a wind whose direction is forecast.
func (b *bench) rowsRun() input {
	deg, known := b.p.RowsRun.bearing()
	return input{told(chosenDoubt("planting.rows_run", 0, 90, "degrees from north", "north-south to east-west"), deg, known),
		CanTell, func(t *trial, x float64) {
			t.planting().RowsRun = NorthSouth
			if x > 45 {
				t.planting().RowsRun = EastWest
			}
		}}
}

// firstTassel is the day on which tassels began to shed, by which the days of pollen are
// counted where the first silk was seen.
func (b *bench) firstTassel() input {
	d := chosenDoubt("planting.first_male", 0, 0, "days before the first silk", "")
	before := b.p.Crop.Phenology.FemaleAfterMale
	if p, ok := b.param("phenology.female_after_male"); ok && !b.p.FirstFemale.IsZero() {
		d = source.Param{Name: d.Name, Kind: source.Span, Range: &source.Interval{Low: before.Low, High: before.High}, Unit: d.Unit, Key: p.Key, Where: p.Where, Status: p.Status}
	}
	return input{told(d, 0, !b.p.FirstMale.IsZero()), CanTell, func(t *trial, x float64) {
		t.planting().FirstMale = b.p.FirstFemale.AddDays(-int(math.Round(x)))
	}}
}

// curve is a curve of the crop moved along its x, as a whole.
func (b *bench) curve(name string, by float64, unit string, at func(*trial) *crop.Curve) input {
	d := chosenDoubt(name, -by, by, unit, "the whole curve earlier (lower) or later (higher)")
	if p, ok := b.param(name); ok {
		d.Others = []source.Alternative{{Text: "the curve itself", Key: p.Key, Where: p.Where, Status: p.Status}}
	}
	t := trial{c: *b.p.Crop}
	if at(&t).Empty() {
		d.Range = &source.Interval{}
	}
	handle := LeftToBooks
	if unit == "h" {
		handle = CanMeasure
	}
	return input{d, handle, func(t *trial, x float64) {
		c := at(t)
		points := c.Points()
		for i := range points {
			points[i][0] += x
		}
		*c = crop.NewCurve(points...)
	}}
}

// param finds a number of the crop with its origin.
func (b *bench) param(name string) (source.Param, bool) {
	for _, p := range b.p.Crop.Params {
		if p.Name == name {
			return p, true
		}
	}
	return source.Param{}, false
}

// leadDays is how many days ahead of its forecast the date lies, 1 to 7.
func (b *bench) leadDays() int {
	issued := b.options.Asked
	if issued.IsZero() {
		return 1
	}
	return max(1, min(7, b.date.DaysSince(forecast.DateOf(issued, b.a.Garden.Place.Zone))))
}
