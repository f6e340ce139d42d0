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
	if b.Borrowed != "" {
		k.hanging("  ", 4, "Borrowed: "+b.Borrowed+".")
	}
	if len(b.Assumed) > 0 {
		k.hanging("  ", 4, "Taken for what the garden file does not tell: "+words.List(b.Assumed)+".")
	}
	k.blank()
	rows := k.terms(b.Bed.Account, d)
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
	k.hanging("  ", 4, "`dawnbrush sources tables` lists the values of the tables.")
	k.hanging("  ", 4, fmt.Sprintf("In the order of a day: rain and watering in, what overfills the root zone drains (FAO56 eq 88, in the order of example 38), then the soil and the plants draw. "+
		"Dr %.1f -> %.1f after the wetting -> %.1f at night.", d.Lacks.Mid, f.Start.Dr, f.Start.Dr+f.Evaporation+f.Transpiration))
	k.advised(b, d)
	return nil
}

// terms lists every term of the balance with its equation or table.
func (k *workings) terms(account risk.WaterAccount, d *ledger.Day) [][]string {
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
	if account == risk.SimpleAccount {
		draws = [][]string{
			{"Kc", two(f.Kcb), "FAO56 table 12, eq 62, eq 66 by the day of the season: the simple account"},
			{"Ks", two(f.Ks), "FAO56 eq 84; over the day's doubt " + span(d.Stress)},
			{"ETc", mm(f.Transpiration), "FAO56 eq 58, eq 81: Ks Kc ET0, bare soil in it"},
		}
	}
	rows := [][]string{
		{"ET0", reference, pullEquations[d.Way]},
		{"rain P", mm(d.Rain.Mid), k.RainBy(d.By) + "; " + span(d.Rain) + "; under 0.2 ET0 it does not count (FAO56 p 153)"},
		{"watering I", mm(d.Given), fmt.Sprintf("by the diary, %.1f L in all", d.Litres)},
		{"intercepted", mm(f.Intercepted), "rain too little to count"},
		{"drainage DP", mm(f.Drainage), "FAO56 eq 88"},
		{"TAW", mm(d.TAW), "FAO56 eq 82: soil by table 19, roots by table 22; pots by their volume"},
		{"p", two(f.P), "FAO56 table 22, moved by the day's use as its note says"},
		{"RAW", mm(d.RAW), "FAO56 eq 83"},
		{"Dr, morning", mm(d.Lacks.Mid), "FAO56 eq 85, carried from the day before; " + span(d.Lacks)},
	}
	rows = append(rows, draws...)
	rows = append(rows, []string{"left, morning", two(d.Left.Mid), "1 - Dr/TAW; " + span(d.Left)})
	if f.Cut > 0 {
		rows = append(rows, []string{"cut", mm(f.Cut), "left below by a root zone that became shallower"})
	}
	return rows
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
		k.hanging("  ", 4, fmt.Sprintf("The root zone takes %.1f mm over the bed; %.1f L let out make up for what the way of watering loses (water.drip_efficiency, "+
			"water.hand_efficiency, water.sprinkler_efficiency under `dawnbrush sources model`).", a.MM, a.Litres))
	}
}

// drySoil tells what want of water takes from set; nothing where it is not known.
func (k *workings) drySoil(p *risk.PlantingDay) {
	if d := &p.DrySoil; d.Known {
		k.hanging("  ", 4, fmt.Sprintf("Want of water: Ks %.2f (%.2f to %.2f) by the account of its bed; on flagging plants %s is left, in a straight line between. "+
			"Kept: %.2f (%.2f to %.2f), with which set and full fruit above are multiplied.", d.Ks.Mid, d.Ks.Lo, d.Ks.Hi, k.cited(p.Planting, "need.flagging_set"), d.Kept.Mid, d.Kept.Lo, d.Kept.Hi))
	}
}
