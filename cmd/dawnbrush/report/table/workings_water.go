package table

import (
	"fmt"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water/et0"
)

// pullEquations are the equations behind the day's reference, by its way.
var pullEquations = map[et0.Way]string{
	et0.ByHours:        "FAO56 eq 53, summed over the hours",
	et0.ByHoursOfCloud: "FAO56 eq 53, summed over the hours; sun from cloud by eq 35",
	et0.ByMeans:        "FAO56 eq 6, from the day's means",
	et0.ByTemperature:  "FAO56 eq 52, from the high and the low alone",
	et0.NoWay:          "not known: taken from the days around",
}

// water walks the day's account of each bed in focus, term by term, in the order in
// which the day is reckoned.
func (k *workings) water() error {
	if k.d.Water == nil {
		return nil
	}
	for i := range k.d.Water.Beds {
		b := &k.d.Water.Beds[i]
		if !k.d.Focus.InFocus(b) {
			continue
		}
		k.heading("Water of " + k.Words.Bed(b))
		day, ok := b.Day(k.day.Date)
		switch {
		case b.Why != ledger.Reckoned:
			k.para("  ", "Not reckoned: "+k.WaterNot(b.Why)+".")
			continue
		case !ok:
			k.para("  ", "The account does not reach this day.")
			continue
		}
		if err := k.account(b, day); err != nil {
			return err
		}
	}
	return nil
}

func (k *workings) account(b *ledger.Bed, d *ledger.Day) error {
	k.hanging("  ", 4, k.BedWhat(b.Bed)+". Crop of the tables: "+b.Crop+". Soil "+k.WaterStart(b.Start)+".")
	if s := k.WaterUnder(b); s != "" {
		k.hanging("  ", 4, "Under cover: "+s+".")
	}
	if b.Borrowed != "" {
		k.hanging("  ", 4, "Borrowed: "+b.Borrowed+".")
	}
	if len(b.Assumed) > 0 {
		k.hanging("  ", 4, "Taken for what the garden file does not tell: "+words.List(b.Assumed)+".")
	}
	k.blank()
	rows := k.terms(b, d)
	value := 8
	for _, r := range rows {
		value = max(value, k.columns(r[1])) // a number never parts from its unit
	}
	columns := []column{{"term", 13, false}, {"", value, true}, {"where from", 0, false}}
	columns[2].width = max(20, k.width-2-13-value-3*gridGap)
	if err := k.grid(columns, rows); err != nil {
		return err
	}
	k.blank()
	f := &d.Flux
	k.rows(b, d)
	k.hanging("  ", 4, fmt.Sprintf("In the order of a day: rain and watering in, what overfills the root zone drains (FAO56 eq 88, in the order of example 38), then the soil and the plants draw. "+
		"Dr %.1f -> %.1f after the wetting -> %.1f at night.", d.Lacks.Mid, f.Start.Dr, f.Start.Dr+f.Evaporation+f.Transpiration))
	k.advised(b, d)
	return nil
}

// rows names the printed values that the account rests on, as `dawnbrush sources tables`
// has them, and what of the season and the roots they are taken at.
func (k *workings) rows(b *ledger.Bed, d *ledger.Day) {
	s := &b.Stages
	k.hanging("  ", 4, fmt.Sprintf("Day %d of the season; stages of %.0f, %.0f, %.0f and %.0f days (FAO56 table 11, the first two stretched to the bloom where it is known). "+
		"Roots %.2f m deep: from 0.15 m to the lower depth of table 22, as the plants grow.", d.Age, s.Ini, s.Dev, s.Mid, s.Late, d.Roots))
	if len(b.Rows) == 0 {
		return
	}
	k.hanging("  ", 4, "Rows of the tables that it rests on, by their names under `dawnbrush sources tables`; of a range the middle is taken:")
	for _, e := range b.Rows {
		x := e.Param()
		k.hanging("    ", 6, x.Name+": "+content(&x))
	}
	if b.Lead != nil && b.Lead.Support == risk.OnTrellis {
		k.hanging("    ", 6, "trained up: the coefficient at mid-season and the height by the notes of those rows")
	}
}

// terms lists every term of the balance with its equation or table.
func (k *workings) terms(b *ledger.Bed, d *ledger.Day) [][]string {
	f := &d.Flux
	mm := func(x float64) string { return fmt.Sprintf("%.2f mm", x) }
	span := func(r risk.Range) string { return fmt.Sprintf("%.2f to %.2f", min(r.Lo, r.Hi), max(r.Lo, r.Hi)) }
	reference := digits(d.ET0, 2) + " mm"
	if !d.ET0.IsKnown() {
		reference = words.Unknown
	}
	draws := [][]string{
		{"Kcb", two(f.Kcb), "FAO56 table 17, eq 66, eq 70 by the day of the season"},
		{"few", two(f.Exposed), "FAO56 eq 75, eq 76, table 20: soil both wet and open"},
		{"Kr", two(f.Kr), "FAO56 eq 74, REW and TEW by table 19"},
		{"Ke", two(f.Ke), "FAO56 eq 71"},
		{"Ks", two(f.Ks), "FAO56 eq 84; over the day's doubt " + span(d.Stress)},
		{"evaporation", mm(f.Evaporation), "Ke ET0, at most what the surface holds"},
		{"transpiration", mm(f.Transpiration), "FAO56 eq 80: Ks Kcb ET0"},
	}
	if b.Bed.Account == risk.SimpleAccount {
		draws = [][]string{
			{"Kc", two(f.Kcb), "FAO56 table 12, eq 62, eq 66 by the day of the season: the simple account"},
			{"Ks", two(f.Ks), "FAO56 eq 84; over the day's doubt " + span(d.Stress)},
			{"ETc", mm(f.Transpiration), "FAO56 eq 58, eq 81: Ks Kc ET0, bare soil in it"},
		}
	}
	rows := [][]string{{"ET0", reference, pullEquations[d.Way]}}
	if b.Cover != "" {
		rows = k.underCover(b, d)
	}
	rows = append(rows, [][]string{
		{"rain P", mm(d.Rain.Mid), k.RainBy(d.By) + "; " + span(d.Rain) + "; under 0.2 ET0 it does not count (FAO56 p 153)"},
		{"watering I", mm(d.Given), fmt.Sprintf("by the diary, %.1f L in all", d.Litres)},
		{"intercepted", mm(f.Intercepted), "rain too little to count"},
		{"drainage DP", mm(f.Drainage), "FAO56 eq 88"},
		{"TAW", mm(d.TAW), "FAO56 eq 82: soil by table 19, roots by table 22; pots by their volume"},
		{"p", two(f.P), "FAO56 table 22, moved by the day's use as its note says"},
		{"RAW", mm(d.RAW), "FAO56 eq 83"},
		{"Dr, morning", mm(d.Lacks.Mid), "FAO56 eq 85, carried from the day before; " + span(d.Lacks)},
	}...)
	rows = append(rows, draws...)
	rows = append(rows, []string{"left, morning", two(d.Left.Mid), "1 - Dr/TAW; " + span(d.Left)})
	if f.Cut > 0 {
		rows = append(rows, []string{"cut", mm(f.Cut), "left below by a root zone that became shallower"})
	}
	return rows
}

// underCover gives the reference outdoors and what of it is drawn under a bed's cover.
func (k *workings) underCover(b *ledger.Bed, d *ledger.Day) [][]string {
	u := &d.Under
	outdoors, within := digits(u.Outside, 2)+" mm", digits(d.ET0, 2)+" mm"
	if !u.Outside.IsKnown() {
		outdoors = words.Unknown
	}
	if !d.ET0.IsKnown() {
		within = words.Unknown
	}
	if u.Logged {
		return [][]string{{"ET0 outdoors", outdoors, "told beside it: what is reckoned rests on the logger"},
			{"ET0", within, fmt.Sprintf("FAO56 eq 53 by the logger, in still air (ledger.still_air) under 0.6 to 0.8 of the light (ledger.light_min, ledger.light_max); %.2f to %.2f", u.Draws.Lo, u.Draws.Hi)}}
	}
	if u.Own {
		return [][]string{{"ET0 outdoors", outdoors, pullEquations[d.Way]},
			{"ET0", within, fmt.Sprintf("the share that the days had which the logger tells; %.2f to %.2f under 0.6 to 0.8 of the light (ledger.light_min, ledger.light_max)", u.Draws.Lo, u.Draws.Hi)}}
	}
	return [][]string{{"ET0 outdoors", outdoors, pullEquations[d.Way]},
		{"ET0", within, fmt.Sprintf("%.2f of it, %.2f to %.2f by papers that differ (ledger.%s.mid, .least, .most); %.2f to %.2f", b.Share.Mid, b.Share.Lo, b.Share.Hi, b.Cover, u.Draws.Lo, u.Draws.Hi)}}
}

// advised tells what is advised and from which numbers.
func (k *workings) advised(b *ledger.Bed, d *ledger.Day) {
	a := &d.Advice
	if a.Verdict == ledger.NoVerdict {
		return
	}
	s := k.WaterDo(a.Verdict)
	if text := k.WaterText(b, d); text != "" {
		s += ": " + text
	}
	k.hanging("  Advice: ", 4, s+".")
	if a.MM > 0 {
		share, name := ledger.Reaches(b.Bed.Watering)
		k.hanging("  ", 4, fmt.Sprintf("The root zone takes %.1f mm over the bed; %.1f L let out make up for what the way of watering loses (%.2f reaches the roots: %s under `dawnbrush sources model`).",
			a.MM, a.Litres, share, name))
		k.hanging("  ", 4, k.fills(b, d, share))
	}
}

// fills tells why a watering is as much as it is: what the root zone lacks, and on a
// square metre what is let out for it.
func (k *workings) fills(b *ledger.Bed, d *ledger.Day, share float64) string {
	a := &d.Advice
	if b.NoStore {
		return fmt.Sprintf("It is the day's use alone: nothing is stored there. On a square metre that is %.0f L let out.", a.MM/share)
	}
	if b.Bed.Kind == risk.Pots || d.Flux.Wanted >= d.RAW {
		return fmt.Sprintf("It fills what roots reach and, where even that would not last the day, brings back half of the day's use (ledger.second): %.1f mm / %.2f = %.0f L let out on a square metre%s.",
			a.MM, share, a.MM/share, map[bool]string{true: " of leaves"}[b.Bed.Kind == risk.Pots])
	}
	s := fmt.Sprintf("It fills the roots' whole depth, %.2f m, and no more than lacks there when it is given (FAO56 eq 88, p 171): on a square metre %.1f mm / %.2f = %.0f L let out.", d.Roots, a.MM, share, a.MM/share)
	if late := a.MM - d.RAW; late > 0 && a.Verdict == ledger.Water {
		s += fmt.Sprintf(" %.0f mm of it lack beyond RAW, where plants go short: watered in time it would be about %.0f L on a square metre, more often.", late, d.RAW/share)
	}
	return s
}

// drySoil tells what want of water takes from set; nothing where it is not known.
func (k *workings) drySoil(p *risk.PlantingDay) {
	if d := &p.DrySoil; d.Known {
		k.hanging("  ", 4, fmt.Sprintf("Want of water: Ks %.2f (%.2f to %.2f) by the account of its bed; on flagging plants %s is left, in a straight line between. "+
			"Kept: %.2f (%.2f to %.2f), with which set and full fruit above are multiplied.", d.Ks.Mid, d.Ks.Lo, d.Ks.Hi, k.cited(p.Planting, "need.flagging_set"), d.Kept.Mid, d.Kept.Lo, d.Kept.Hi))
	}
}
