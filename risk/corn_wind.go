package risk

import (
	"math"

	"dawnbrush/risk/source"
)

// RowsRun is how the rows of a block lie on the compass.
type RowsRun string

// The ways rows run.
const (
	RunUnknown RowsRun = ""
	NorthSouth RowsRun = "north-south"
	NorthEast  RowsRun = "northeast-southwest"
	EastWest   RowsRun = "east-west"
	NorthWest  RowsRun = "northwest-southeast"
)

// bearing gives the degrees from north, clockwise.
func (r RowsRun) bearing() (deg float64, ok bool) {
	switch r {
	case NorthSouth:
		return 0, true
	case NorthEast:
		return 45, true
	case EastWest:
		return 90, true
	case NorthWest:
		return 135, true
	}
	return 0, false
}

// to gives the angle of a wind to the rows, degrees: 0 along them, 90 across.
func (r RowsRun) to(from float64) (deg float64, ok bool) {
	b, ok := r.bearing()
	return math.Abs(math.Remainder(from-b, 180)), ok
}

// OverRows is how the wind of a day's shed goes over the rows of a small block. The zero
// OverRows is not known: the block is then taken as if the wind blew across its rows,
// where it loses most.
type OverRows struct {
	Known bool
	Share float64 // of the pollen that four rows get, 0..1
	Angle float64 // degrees, mean over the hours of shed: 0 along the rows, 90 across
}

const (
	// rowSpace is how far corn rows stand apart, 30 in. [common-practice, status common-practice]
	rowSpace = 0.76 // m

	// plantSpace is how far plants of a row stand apart, 10 in. [common-practice, status common-practice]
	plantSpace = 0.25 // m

	// windSwing is how far the wind swings to either side within an hour, as a standard
	// deviation: over a day's tables of it, between the 10 degrees of a dull windy day
	// and the 25 of a hot still one. [chosen, status chosen]
	windSwing = 20 // degrees

	// enoughOver is the share of four rows' pollen from which few rows are no cause of
	// missing kernels. [chosen, status chosen]
	enoughOver = 0.9
)

// smallBlock is a block of few rows seen from above.
type smallBlock struct {
	rows          int
	width, length float64 // m
}

// small gives the block of a planting of few rows whose length is told or follows from
// its plants; ok is false where the wind's way over it says nothing.
func (p *Planting) small() (b smallBlock, ok bool) {
	rows := p.cornRows()
	if _, runs := p.RowsRun.bearing(); !runs || rows <= 0 || rows >= fewRows {
		return b, false
	}
	b = smallBlock{rows, float64(rows) * rowSpace, p.RowLength}
	if b.length <= 0 {
		b.length = float64(p.Plants) / float64(rows) * plantSpace
	}
	return b, b.length > 0
}

// FewRows tells whether a planting is a block of few rows of corn, and whether it is
// told how they run and how long they are, so that the wind's direction says something.
func (p *Planting) FewRows() (few, told bool) {
	if p.Crop == nil || p.Crop.Corn == nil {
		return false, false
	}
	rows := p.cornRows()
	_, told = p.small()
	return rows > 0 && rows < fewRows, told
}

// AcrossRows gives what the block gets of the pollen of four rows in a wind across its
// rows, 0..1.
func (p *Planting) AcrossRows() float64 { return rowShare(p.cornRows()) }

// share gives what a wind at an angle to the rows brings to the block's silks, of what it
// brings to four rows: the mean over its swings.
func (b smallBlock) share(deg float64) float64 {
	const farthest, step = 3, 0.25 // standard deviations of a normal law
	sum, all := 0.0, 0.0
	for z := -float64(farthest); z <= farthest; z += step {
		w := math.Exp(-z * z / 2)
		sum, all = sum+w*b.steady(deg+z*windSwing), all+w
	}
	return sum / all
}

// steady gives it for a wind that does not swing. What counts is the way that the wind
// has come over the block when it meets a silk, in rows: over many rows, across them, it
// is what rowShare counts. Never less than across the rows.
func (b smallBlock) steady(deg float64) float64 {
	const flownOver = 0.5 - ownRow // of a row: so much pollen of the own row is lost that rowShare comes out
	return max(rowShare(b.rows), min(1, (b.way(deg)/rowSpace-flownOver)/(ownRow+float64(fewRows-1)/2)))
}

// way gives the mean way, m, from a point of the block to its upwind edge, by geometry:
// the mean of min(short u, long v) over even u and v. [derived]
func (b smallBlock) way(deg float64) float64 {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	short, long := b.width/math.Abs(sin), b.length/math.Abs(cos)
	if short > long {
		short, long = long, short
	}
	return short/2 - short*short/(6*long)
}

// overHours gives, for the hours of a frame from first to last, how much more the wind
// brings to few rows than it does across them; nil where that is not known of any.
func (p *Planting) overHours(f *frame, first, last int, room []float64) []float64 {
	b, ok := p.small()
	if !ok {
		return nil
	}
	out, some := room[:last-first], false
	for i := range out {
		out[i] = 1
		if from, known := f.starts[first+i].WindFrom.Get(); known {
			deg, _ := p.RowsRun.to(from)
			out[i], some = b.share(deg)/rowShare(b.rows), true
		}
	}
	if !some {
		return nil
	}
	return out
}

// overRows sums the day up: each hour weighs by its pollen.
func (p *Planting) overRows(f *frame, first int, over []float64, hours []FlowerHour) (w OverRows) {
	if over == nil {
		return w
	}
	pollen, told, angle := 0.0, 0.0, 0.0
	for i := range over {
		x := hours[i].Bees
		pollen += x
		w.Share += x * over[i] * rowShare(p.cornRows())
		if from, known := f.starts[first+i].WindFrom.Get(); known {
			deg, _ := p.RowsRun.to(from)
			told, angle = told+x, angle+x*deg
		}
	}
	if told <= 0 {
		return OverRows{}
	}
	return OverRows{true, w.Share / pollen, angle / told}
}

// rowsShare gives what few rows get of the pollen of four, on this day.
func (pd *PlantingDay) rowsShare() float64 {
	if pd.OverRows.Known {
		return pd.OverRows.Share
	}
	return rowShare(pd.Planting.cornRows())
}

// fewFor tells whether the rows are too few for the wind of this day.
func (pd *PlantingDay) fewFor() bool {
	rows := pd.Planting.cornRows()
	return rows > 0 && rows < fewRows && pd.rowsShare() < enoughOver
}

// rowsParams lists the numbers of the wind over rows.
func rowsParams() []source.Param {
	practice := func(name string, v float64, note string) source.Param {
		return source.Param{Name: name, Value: v, Unit: "m", Key: source.KeyCommonPractice, Status: source.CommonPractice, Note: note}
	}
	return []source.Param{
		practice("risk.row_space", rowSpace, "30 in between rows of corn"),
		practice("risk.plant_space", plantSpace, "10 in between plants of a row, where the length of a row is not told"),
		source.Choice("risk.wind_swing", windSwing, "degrees",
			"standard deviation of the wind's direction within an hour, between some 10 degrees in dull wind and 25 in hot sun (memory of dispersion tables); it keeps a single row along the wind from being fed as well as a block"),
		source.Choice("risk.enough_over_rows", enoughOver, "share", "of the pollen of four rows, from which few rows are not told as the cause"),
	}
}
