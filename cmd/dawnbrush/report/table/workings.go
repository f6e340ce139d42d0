package table

import (
	"fmt"
	"io"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// workings walks one day of the plantings asked for, from hour to verdict. It
// is the one report that shows the model's own numbers, for who wants to check
// them: degC, m/s, mm, shares of 0 to 1.
type workings struct {
	*paper
	words.Words
	d   *document.Document
	day *risk.Day
}

// Workings prints the walk of the day and planting in the document's focus.
func Workings(w io.Writer, d *document.Document) error {
	day, ok := d.Assessment.Day(d.Focus.Date)
	if !ok {
		return fmt.Errorf("there is no weather for %s", d.Focus.Date)
	}
	k := workings{newPaper(d.Columns(), d.Colour), words.New(d.Units, d.Zone()), d, day}
	k.line(k.paint(fmt.Sprintf("%s - %s - how it was worked out", d.Garden.Name, k.Day(day.Date)), color.Bold))
	k.para("", "Forecast "+provenance(k.Words, d)+".")
	k.para("", "The model's own units: C, m/s, mm, W/m2, shares of 0 to 1. Every number names its source; `dawnbrush sources KEY` tells more.")
	k.sun()
	if err := k.air(); err != nil {
		return err
	}
	for i := range day.Plantings {
		p := &day.Plantings[i]
		if d.Focus.Matches(p.Planting) {
			if err := k.planting(p); err != nil {
				return err
			}
		}
	}
	if err := k.water(); err != nil {
		return err
	}
	k.credits(d)
	return k.to(w)
}

func (k *workings) sun() {
	if k.day.Sunrise.IsZero() {
		k.line("The sun does not rise or does not set on this day.")
		return
	}
	k.para("", fmt.Sprintf("Sunrise %s, sunset %s, at -0.8333 degrees of the sun's centre.", k.Clock(k.day.Sunrise), k.Clock(k.day.Sunset)))
}

// air prints the hours of the day as they were read.
func (k *workings) air() error {
	k.heading("Hours as read")
	columns := []column{{"hour", 5, false}, {"temp C", 5, true}, {"RH %", 4, true}, {"wind 10 m", 5, true}, {"wind from", 4, true}, {"sky", 4, true}, {"light W/m2", 5, true},
		{"rain mm", 5, true}, {"rain %", 4, true}, {"from", 9, false}}
	s := k.d.Assessment.Series
	lo, hi := s.Day(k.day.Date, k.d.Zone())
	var rows [][]string
	for i := lo; i < hi; i++ {
		h := &s.Hours[i]
		rows = append(rows, []string{k.Clock(h.Start), digits(h.Temp, 1), digits(h.RH, 0), digits(h.Wind, 1), digits(h.WindFrom, 0), digits(h.Sky, 2), digits(h.Radiation, 0),
			digits(h.Rain, 2), k.PercentNumber(h.RainProb), h.Origin.String()})
	}
	if err := k.grid(columns, rows); err != nil {
		return err
	}
	k.para("  ", "Hours of the garden's clock; ? is not known. Rain in a forecast hour is its share of a block; the model takes the block.")
	k.blocks()
	return nil
}

// blocks prints the rain blocks that touch the day.
func (k *workings) blocks() {
	from, to := k.day.Date.Span(k.d.Zone())
	var parts []string
	for _, b := range k.d.Assessment.Series.Blocks {
		if b.Start.Before(to) && b.End.After(from) {
			parts = append(parts, fmt.Sprintf("%s %s mm at %s %%", k.Hours(b.Start, b.End), digits(b.Amount, 1), k.PercentNumber(b.Prob)))
		}
	}
	if len(parts) > 0 {
		k.para("  Rain blocks: ", strings.Join(parts, "; ")+".")
	}
	k.hanging("  ", 4, "Worlds: dry with what is left of the chance; wet in one run of "+k.cited(nil, "risk.wet_run")+" that carries the amount; blocks of a day are wet together.")
	for _, c := range risk.Courses(k.d.Assessment, k.day.Date) {
		k.hanging("    ", 6, k.course(&c))
	}
}

// course writes one way the rain may go: "24 %: 06:00 1.0 mm, 07:00 1.0 mm".
func (k *workings) course(c *risk.Course) string {
	var wet []string
	for _, h := range c.Wet {
		wet = append(wet, fmt.Sprintf("%s %.1f mm", k.Clock(h.Start), h.Rain))
	}
	s := fmt.Sprintf("%.1f %%: ", 100*c.Weight)
	if c.Harsh {
		s += "unknown layers harsh; "
	}
	if len(wet) == 0 {
		return s + "dry"
	}
	return s + strings.Join(wet, ", ")
}

func digits(v forecast.Value, n int) string {
	x, ok := v.Get()
	if !ok {
		return words.Unknown
	}
	return fmt.Sprintf("%.*f", n, x)
}

func (k *workings) planting(p *risk.PlantingDay) error {
	k.heading(p.Planting.Name + ", " + k.CropType(p.Planting))
	k.para("  ", "Bloom: "+k.Bloom(p.Bloom)+" ("+p.BloomBasis+"). Verdict: "+k.State(p.State)+".")
	k.kind(p.Planting)
	if err := k.inside(p); err != nil {
		return err
	}
	k.firsts(p)
	if p.Missing != 0 {
		k.para("  ", "Not known: "+k.Layers(p.Missing)+"; worked out twice, as kindly and as harshly as weather commonly is, and mixed.")
	}
	if len(p.Hours) > 0 {
		k.para("  ", "Flowers open "+k.Clock(p.Opens)+" to "+k.Clock(p.Closes)+".")
		if err := k.flower(p); err != nil {
			return err
		}
	}
	if len(p.Hours) > 0 && p.State != risk.NeedsNoPollen {
		k.sums(p)
	}
	k.load(p)
	k.drySoil(p)
	k.flags(p)
	k.params(p)
	return nil
}

// flower prints the flower's hours, then the bees'.
func (k *workings) flower(p *risk.PlantingDay) error {
	columns := []column{{"hour", 5, false}, {"VPD kPa", 4, true}, {"wind 2 m", 5, true}, {"open", 4, true}, {"age", 5, true}, {"alive", 5, true}, {"heat", 4, true},
		{"tube", 4, true}, {"taken", 5, true}, {"offer", 5, true}, {"dry", 4, true}, {"brush", 5, true}}
	var rows, bees [][]string
	groups := words.Visitors(p.Planting.Crop, k.d.Garden.Bees)
	for i := range p.Hours {
		h := &p.Hours[i]
		rows = append(rows, []string{k.Clock(h.Start), two(h.Air.VPD), two(h.Air.Wind2), two(h.Open), two(h.Age), two(h.Alive), two(h.Heat), two(h.Tube),
			two(h.Receptive), two(h.Offer), two(h.Dry), two(h.Hand)})
		row := []string{k.Clock(h.Start), fmt.Sprintf("%.0f", h.Air.Light)}
		for _, g := range groups {
			s := bee.FlightShares(g, h.Air, 0, false)
			row = append(row, narrow(s[bee.Cold]*s[bee.Heat])+" "+narrow(s[bee.Light])+" "+narrow(s[bee.Wind]), two(h.Flight[g]))
		}
		bees = append(bees, append(row, two(h.Bees)))
	}
	k.blank()
	if err := k.grid(columns, rows); err != nil {
		return err
	}
	k.legend(p)
	if p.Planting.Crop.Pollination != crop.Insect {
		return nil
	}
	k.blank()
	columns = []column{{"hour", 5, false}, {"light W/m2", 5, true}}
	for _, g := range groups {
		columns = append(columns, column{g.String() + "\nT   L   W", 12, false}, column{"out", 4, true})
	}
	if err := k.grid(append(columns, column{"part", 4, true}), bees); err != nil {
		return err
	}
	k.hanging("  ", 4, "T warmth: "+k.cited(nil, "bee.cold")+", "+k.cited(nil, "bee.heat")+"; L light: "+k.cited(nil, "bee.light")+"; W wind at 2 m: "+
		k.cited(nil, "bee.wind")+", "+k.cited(nil, "bee.wind_stop")+" (honey bees; the other groups under `dawnbrush sources model`). "+
		"out = T x L x W x rain x wet flowers, expected over the worlds of rain. part = the hour's part of what bees fill.")
	return nil
}

func two(x float64) string { return fmt.Sprintf("%.2f", x) }

// narrow writes a share in three places: "1.0", ".62".
func narrow(x float64) string {
	if x >= 0.995 {
		return fmt.Sprintf("%.1f", x)
	}
	return strings.TrimPrefix(two(x), "0")
}

// legend explains the columns of the flower with equation and source.
func (k *workings) legend(p *risk.PlantingDay) {
	pl := p.Planting
	lines := []string{
		"VPD: dryness of the air, e0(T) (1 - RH/100) [FAO56 eq 11, eq 54]; wind at 2 m from 10 m by the log profile [FAO56 eq 47], times shelter",
	}
	switch pl.Crop.Pollination {
	case crop.Insect:
		lines = append(lines,
			"open: "+k.cited(pl, pl.Crop.WindowParam(pl.Species, "opens"))+" to "+k.cited(pl, pl.Crop.WindowParam(pl.Species, "closes"))+", not under "+k.cited(pl, "window.opens_at_temp"),
			"age: integral of "+k.cited(pl, "pollen.age_rate")+" x max(0, "+k.cited(pl, "pollen.coupling")+" x VPD - "+k.cited(pl, "pollen.age_threshold")+"); alive = exp(-age)",
			"heat: full to "+k.cited(pl, "pollen.heat_full")+", nil at "+k.cited(pl, "pollen.heat_nil"),
			"tube: full to "+k.cited(pl, "pollen.tube_full")+", nil at "+k.cited(pl, "pollen.tube_nil")+", mean of the "+k.cited(pl, "pollen.tube_hours")+" after",
			"taken: stigmas that take pollen, "+k.cited(pl, "window.receptive")+"; offer: pollen left for bees, "+k.cited(pl, "window.offer"),
			"dry: "+k.cited(nil, "pollen.rain_stops")+" stops it, a rain film halves it; brush = alive x heat x tube x taken x dry")
	case crop.Wind:
		lines = append(lines,
			"open: chance that tassels shed in the hour, "+k.cited(pl, "corn.shed_from")+" to "+k.cited(pl, "corn.shed_to")+", under "+k.cited(pl, "corn.rh_limit"),
			"alive: mean of exp(-"+k.cited(pl, "corn.age_rate")+" x VPD x t) over "+k.cited(pl, "corn.age_hours")+"; heat: "+k.cited(pl, "corn.heat_full")+" to "+k.cited(pl, "corn.heat_nil"))
	case crop.Self:
		lines = append(lines, "open: "+k.cited(pl, "self.shed_from")+" to "+k.cited(pl, "self.shed_to")+"; set hangs on the days before, "+k.cited(pl, pl.Crop.Self.MeanParam()))
	}
	for _, l := range lines {
		k.hanging("  ", 4, l)
	}
}

// sums prints the verdict's numbers.
func (k *workings) sums(p *risk.PlantingDay) {
	k.blank()
	r := func(x risk.Range) string { return fmt.Sprintf("%.2f (%.2f to %.2f)", x.Mid, x.Lo, x.Hi) }
	k.hanging("  ", 4, "Set without work "+r(p.Set)+"; full fruit "+r(p.Fill)+"; middle, and one in ten under and over.")
	if p.BestHour >= 0 {
		k.hanging("  ", 4, fmt.Sprintf("Best hour %s: a brush sets %.2f. Hours within a tenth of it: %s. With it set %s, full fruit %s.",
			k.Clock(p.Hours[p.BestHour].Start), p.BestShare, k.Hours(p.BrushSpan[0], p.BrushSpan[1]), r(p.BothSet), r(p.Both)))
	}
	if v, ok := p.Factor.Get(); ok {
		k.hanging("  ", 4, fmt.Sprintf("The days before leave %.2f of the set (%s).", v, k.cited(p.Planting, p.Planting.Crop.Self.MeanParam())))
	}
	k.catface(p)
	k.overRows(p)
	k.ears(p)
	if b := &p.Planting.Crop.Bees; p.Planting.Crop.Pollination == crop.Insect {
		k.supply(p, b)
	}
}

// supply tells the visits that the book gives, what the garden file and the
// diary's counts make of them, and from how many counts.
func (k *workings) supply(p *risk.PlantingDay, b *crop.Bees) {
	view := k.d.Assessment.SupplyOf(p.Planting)
	var book, told, garden []string
	for g, data := range []*crop.Group{b.Honey, b.Bumble, b.Squash} {
		if data == nil {
			continue
		}
		name := bee.Group(g).String()
		book = append(book, fmt.Sprintf("%s %.2g", name, data.VisitRate))
		told = append(told, fmt.Sprintf("%s %.2g", name, view.Book[g]))
		garden = append(garden, fmt.Sprintf("%s %.2g", name, view.Garden[g]))
	}
	text := "Bees, visits a flower and hour at full flight, middle. The book: " + strings.Join(book, ", ") +
		"; with what the garden file tells (" + k.cited(nil, "risk.few") + ", " + k.cited(nil, "risk.many") + "): " + strings.Join(told, ", ")
	l := &k.d.Assessment.Learned
	if l.Counts > 0 {
		text += fmt.Sprintf("; after %d counts of the diary (%.1f visits where %.1f were expected, older counts weighing less, %s): %s",
			l.Counts, l.Visits, l.Expected, k.cited(nil, "risk.count_half_life"), strings.Join(garden, ", "))
	} else {
		text += "; no count in the diary"
	}
	k.hanging("  ", 4, text+fmt.Sprintf(". One garden in ten has under %.2g, one in ten over %.2g times that.", view.Lo, view.Hi))
	if need := &p.Planting.Crop.Need; need.Straight {
		k.hanging("  ", 4, "X = sum over hours and groups of open x visits x grains x quality; set and full fruit = the mean of X/need, "+
			"1 at most, over uneven visits: "+k.cited(p.Planting, "need.rise")+", need "+k.cited(p.Planting, "need.set")+".")
		return
	}
	k.hanging("  ", 4, "X = sum over hours and groups of open x visits x (1 - exp(-3 grains quality/need)); set = 1 - exp(-X). "+
		"Full fruit: the chance of "+k.cited(nil, "risk.full_share")+" in live grains.")
}

func (k *workings) flags(p *risk.PlantingDay) {
	all := append(append([]risk.Flag{}, k.day.Flags...), p.Flags...)
	for i := range all {
		if i == 0 {
			k.blank()
		}
		k.hanging("  flag: ", 8, k.Flag(&all[i], p)+"; "+k.cited(p.Planting, all[i].Param))
	}
}

// params prints every number of the crop with its evidence.
func (k *workings) params(p *risk.PlantingDay) {
	k.heading("Numbers used for " + p.Planting.Crop.Name)
	for i := range p.Planting.Crop.Params {
		k.param(p.Planting.Crop.Key, &p.Planting.Crop.Params[i])
	}
}

// cited writes a parameter's value with unit, source and status.
func (k *workings) cited(p *risk.Planting, name string) string {
	param, ok := k.d.Param(p, name)
	if !ok {
		return name
	}
	return content(&param) + " [" + origin(param.Key, param.Where, param.Status) + "]"
}
