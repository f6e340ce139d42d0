package table

import (
	"io"
	"slices"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water/et0"
)

const (
	// shownBack is how many past days a bed's table shows where nobody asks for others.
	// [chosen: what a grower still remembers]
	shownBack = 7
	// shownAhead is how many days it shows from today on. [chosen: beyond it forecasts have little rain to tell]
	shownAhead = 7
)

// waterReport is the report of the beds while it is written.
type waterReport struct {
	*paper
	words.Words
	d *document.Document
}

// Water prints what each bed wants today, then of each bed in focus the days that
// were and those to come, how even they are, the season, and once what to mind.
func Water(w io.Writer, d *document.Document) error {
	k := waterReport{newPaper(d.Columns(), d.Colour), words.New(d.Units, d.Zone()), d}
	today := forecast.DateOf(d.Now, d.Zone())
	if d.Water != nil {
		today = d.Water.Today
	}
	k.line(k.paint(d.Garden.Name+" - water - "+k.Day(today), color.Bold))
	k.para("", "Forecast "+provenance(k.Words, d)+".")
	if d.Demo {
		k.para("", demoLine)
	}
	if d.Water == nil || len(d.Water.Beds) == 0 {
		k.blank()
		k.para("", noBeds)
		return k.to(w)
	}
	if err := k.summary(); err != nil {
		return err
	}
	for i := range d.Water.Beds {
		if b := &d.Water.Beds[i]; d.Focus.InFocus(b) {
			if err := k.bed(b); err != nil {
				return err
			}
		}
	}
	if lines := notKnown(k.Words, d); !d.Complete() && len(lines) > 0 {
		k.heading("Not known")
		for _, l := range lines {
			k.hanging("  ", 4, l)
		}
	}
	k.reckoned()
	k.heading("Mind")
	for _, c := range k.WaterCautions() {
		k.hanging("  ", 4, c)
	}
	k.credits(d)
	return k.to(w)
}

// noBeds says how to tell of beds.
const noBeds = "The garden file tells of no bed, so no water can be reckoned. Add a [[bed]] with name, area, soil and watering for each, and name it in its plantings; " +
	"the file that `dawnbrush init` writes explains every setting."

// summary prints a row a bed in focus with what it wants today.
func (k *waterReport) summary() error {
	var rows [][]string
	for i := range k.d.Water.Beds {
		b := &k.d.Water.Beds[i]
		if !k.d.Focus.InFocus(b) {
			continue
		}
		day, ok := b.Day(k.d.Water.Today)
		if b.Why != ledger.Reckoned || !ok {
			rows = append(rows, []string{k.split(k.Bed(b), mostNameWidth), words.Unknown, "not reckoned: " + k.WaterNot(b.Why)})
			continue
		}
		rows = append(rows, []string{k.split(k.Bed(b), mostNameWidth), k.left(b, day), k.order(b, day)})
	}
	k.heading("Today")
	name := k.share(0.3) // [chosen: a bed and a planting on two lines]
	for _, row := range rows {
		name = k.widthOf(row[:1], name)
	}
	columns := []column{{"bed", name, false}, {"left %", 5, true}, {"to do", 0, false}}
	columns[2].width = k.rest(columns)
	return k.grid(columns, rows)
}

// order says in a few words what a bed wants today: "05:00-08:00 water 9 gal, 4 cans".
func (k *waterReport) order(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	s := k.WaterDo(a.Verdict)
	switch a.Verdict {
	case ledger.Water:
		s = strings.TrimSpace(k.WaterHours(a) + " " + s + " " + k.Dose(b.Bed, a))
		if a.Times > 1 {
			s += ", in two goes"
		}
	case ledger.Enough:
		if why := k.WaterText(b, d); why != "" {
			s += ": " + why
		}
	default:
		s += k.hangsOn(d)
	}
	return s
}

// brief says it of any day for a narrow column: "water 9 gal, 36 min".
func (k *waterReport) brief(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	if a.Verdict == ledger.Water {
		return k.WaterDo(a.Verdict) + " " + strings.Join(k.DoseShort(b.Bed, a), ", ")
	}
	return k.WaterDo(a.Verdict) + k.hangsOn(d)
}

// hangsOn writes the chance of the rain that is waited for.
func (k *waterReport) hangsOn(d *ledger.Day) string {
	p, ok := d.Advice.Chance.Get()
	switch {
	case !ok || d.Advice.Verdict != ledger.WaitForRain:
		return ""
	case words.RainDay(d) != d.Date:
		return " (" + k.ShortDay(words.RainDay(d)) + ": " + k.Percent(p) + ")"
	}
	return " (" + k.Percent(p) + ")"
}

// share gives a part of the width, rest what other columns leave.
func (k *waterReport) share(x float64) int { return int(x * float64(k.width)) }

func (k *waterReport) rest(columns []column) int {
	used := 2
	for _, c := range columns {
		used += c.width + gridGap
	}
	return max(12, k.width-used)
}

// bed prints one bed.
func (k *waterReport) bed(b *ledger.Bed) error {
	k.heading(k.Bed(b))
	k.hanging("  ", 4, k.BedWhat(b.Bed))
	if b.Why != ledger.Reckoned {
		k.para("  ", "Not reckoned: "+k.WaterNot(b.Why)+".")
		return nil
	}
	if day, ok := b.Day(k.d.Water.Today); ok {
		if s := k.WaterText(b, day); s != "" {
			k.hanging("  Today: ", 4, k.today(day.Advice.Verdict, s)+".")
		}
		if day.TAW > 0 && !b.NoStore {
			k.hanging("  Store: ", 4, k.Holds(day)+".")
		}
	}
	k.blank()
	if err := k.days(b); err != nil {
		return err
	}
	k.blank()
	k.told(b)
	return nil
}

// today joins a verdict and its text, where the text does not begin with the same word.
func (k *waterReport) today(v ledger.Verdict, text string) string {
	switch v {
	case ledger.Water:
		return k.WaterDo(v) + " " + text
	case ledger.LookFirst:
		return text
	}
	return k.WaterDo(v) + ": " + text
}

// back is how many past days are shown.
func (k *waterReport) back() int {
	if k.d.Focus.Back > 0 {
		return k.d.Focus.Back
	}
	return shownBack
}

// days prints a row a day: what the air and the plants took, what fell and by whom it
// was told, what was given, what is left in the morning, what to do.
func (k *waterReport) days(b *ledger.Bed) error {
	columns := []column{{"day", 6, false}, {"air draws " + k.DepthUnit(), 5, true}, {"used " + k.DepthUnit(), 5, true}, {"rain " + k.DepthUnit(), 4, true},
		{"told by", 8, false}, {"given " + k.LitresUnit(), 5, true}, {"left %", 5, true}, {"to do", 0, false}}
	if k.narrow() {
		columns = slices.Delete(columns, 1, 2)
	}
	columns[len(columns)-1].width = k.rest(columns)
	var rows [][]string
	for _, day := range k.shown(b) {
		row := k.row(b, day)
		if k.narrow() {
			row = slices.Delete(row, 1, 2)
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		k.para("  ", "No day is known.")
		return nil
	}
	return k.grid(columns, rows)
}

// narrow tells whether the sheet has no room for what the air draws. [chosen: what is done needs twenty columns]
func (k *waterReport) narrow() bool { return k.width < 72 }

func (k *waterReport) row(b *ledger.Bed, d *ledger.Day) []string {
	rain, by := k.DepthNumber(forecast.Known(d.Rain.Mid)), k.RainByShort(d.By)
	switch {
	case d.By == ledger.RainUnknown:
		rain, by = words.Unknown, ""
	case d.By == ledger.RainNone:
		rain = "-"
	case d.By == ledger.RainAhead:
		by = k.PercentNumber(d.Chance) + " %"
	case d.Rain.Mid == 0 && d.By != ledger.RainForecast:
		by = ""
	}
	given, used := "-", k.DepthNumber(forecast.Known(d.Heeded.Used))
	switch {
	case d.Litres > 0:
		given = k.LitresNumber(d.Litres)
	case d.Past && !b.NoStore && d.Taken > 0:
		given = words.Unknown
	}
	if d.Gap {
		used += "?"
	}
	todo := ""
	if !d.Past {
		todo = k.brief(b, d)
	}
	return []string{k.ShortDay(d.Date), k.DepthNumber(d.ET0), used, rain, by, given, k.left(b, d), todo}
}

// left writes what is left, nothing for a bed that stores none.
func (k *waterReport) left(b *ledger.Bed, d *ledger.Day) string {
	if b.NoStore {
		return "-"
	}
	return k.LeftNumber(k.leftOn(d), k.ends(b))
}

// leftOn is what is left on a day: as it is, on later ones where the advice is followed.
func (k *waterReport) leftOn(d *ledger.Day) risk.Range {
	if d.Date.After(k.d.Water.Today) {
		return d.Heeded.Left
	}
	return d.Left
}

// ends tells whether what is left is written with its ends: where they lie far apart on
// one of the days shown of a bed, for all of them.
func (k *waterReport) ends(b *ledger.Bed) bool {
	return slices.ContainsFunc(k.shown(b), func(d *ledger.Day) bool { return k.LeftWide(k.leftOn(d)) })
}

// shown gives the days of a bed that its table has.
func (k *waterReport) shown(b *ledger.Bed) (out []*ledger.Day) {
	from, to := k.d.Water.Today.AddDays(-k.back()), k.d.Water.Today.AddDays(shownAhead)
	for i := range b.Days {
		if day := &b.Days[i]; !day.Date.Before(from) && day.Date.Before(to) {
			out = append(out, day)
		}
	}
	return out
}

// told says evenness, season, and on what the account rests.
func (k *waterReport) told(b *ledger.Bed) {
	say := func(label, text string) {
		if text != "" {
			k.hanging("  "+label+": ", 4, text+".")
		}
	}
	say("Without water", k.WithoutWater(b, k.d.Water.Today))
	say("Evenness", k.Evenness(b.Bed, b.Swing))
	say("Season", k.Season(b.Season))
	rests := "soil " + k.WaterStart(b.Start)
	if b.Crop != "" {
		rests = "crop of the tables: " + b.Crop + "; " + rests
	}
	if b.Borrowed != "" {
		rests += "; " + b.Borrowed
	}
	if b.Bed.Account == risk.SimpleAccount {
		rests += "; the simple account, one number a day for plants and bare soil"
	}
	if len(b.Assumed) > 0 {
		rests += "; taken for what the garden file does not tell: " + words.List(b.Assumed)
	}
	say("Rests on", rests)
	say("Under cover", k.WaterUnder(b))
}

// reckoned says once what the columns mean and from what the pull of the air was
// worked out; the days that rest on less are named.
func (k *waterReport) reckoned() {
	k.heading("How it is reckoned")
	draws := "air draws: what a lawn that wants for nothing would give off that day; "
	if k.narrow() {
		draws = ""
	}
	k.hanging("  ", 4, "After FAO Irrigation and Drainage Paper 56 (1998); `dawnbrush workings DATE BED` shows every term of a day.")
	k.hanging("  ", 4, draws+"used: what left this bed, by plants and bare soil; left: "+
		"share in the morning of the water that roots can take, for all days from its least to its most where one of them is in wide doubt. Days ahead take it that what stands to do is done. "+
		"Given ?: before the first watering that you noted, anything may have been. Rain told by: gauge, your own; near by, a station; forecast, not measured; per cent, its chance.")
	ways := k.ways()
	for from := 0; from < len(ways); {
		to := from
		for to+1 < len(ways) && ways[to+1].way == ways[from].way {
			to++
		}
		k.hanging("  ", 4, k.Days(ways[from].date, ways[to].date)+": "+k.Pull(ways[from].way))
		from = to + 1
	}
}

// wayDay tells from what the pull of a day's air was worked out.
type wayDay struct {
	date forecast.Date
	way  et0.Way
}

// ways lists them for the days shown; the air is that of the whole garden.
func (k *waterReport) ways() []wayDay {
	var out []wayDay
	for d := k.d.Water.Today.AddDays(-k.back()); d.Before(k.d.Water.Today.AddDays(shownAhead)); d = d.AddDays(1) {
		for i := range k.d.Water.Beds {
			b := &k.d.Water.Beds[i]
			if day, ok := b.Day(d); ok && b.Why == ledger.Reckoned && k.d.Focus.InFocus(b) {
				out = append(out, wayDay{d, day.Way})
				break
			}
		}
	}
	return out
}
