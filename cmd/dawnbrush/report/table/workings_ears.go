package table

import (
	"fmt"

	"dawnbrush/risk"
)

// ears shows the parts of the kernels' sum.
func (k *workings) ears(p *risk.PlantingDay) {
	e := &p.Ears
	if !e.Known {
		return
	}
	pl := p.Planting
	r := func(x risk.Range) string { return fmt.Sprintf("%.2f (%.2f to %.2f)", x.Mid, x.Lo, x.Hi) }
	k.hanging("  ", 4, "Kernels filled in the end "+r(e.Filled)+"; shaken on this day "+r(e.Shaken)+". By part: butt "+r(e.Part[risk.Butt])+
		", middle "+r(e.Part[risk.Middle])+", tip "+r(e.Part[risk.Tip])+fmt.Sprintf(". %.2f of all silks wait this morning, most of them of the %s.", e.Open, k.EarPart(e.Waits)))
	k.hanging("  ", 4, "Silks come out evenly over the middle of "+k.cited(pl, "corn.silks_out")+", butt first, take pollen in full for "+k.cited(pl, "corn.silk_fresh")+" and none from "+k.cited(pl, "corn.silk_days")+
		" on, straight between; one stays empty with the chance exp(-"+k.cited(pl, "corn.fill_rate")+" x the sum of its days' pollen x "+k.cited(pl, "corn.shed")+").")
	k.hanging("  ", 4, "Heat on the ears while silks take pollen takes kernels beside the pollen it kills: "+k.cited(pl, "corn.heat_loss")+", up to "+k.cited(pl, "corn.heat_loss_dry")+" by the Ks of the soil, above "+k.cited(pl, "corn.heat_above")+
		fmt.Sprintf("; %.1f degC days (%.1f to %.1f) leave %.2f (%.2f to %.2f) of them.", e.Heat.Mid, e.Heat.Hi, e.Heat.Lo, e.HeatLeft.Mid, e.HeatLeft.Lo, e.HeatLeft.Hi))
	if e.Dark > 0 {
		k.hanging("  ", 4, fmt.Sprintf("Days of shed whose weather is not known: %d; each counts from nothing to a good day.", e.Dark))
	}
}

// overRows tells what few rows of corn get, and what is not known for it.
func (k *workings) overRows(p *risk.PlantingDay) {
	pl := p.Planting
	few, told := pl.FewRows()
	if !few {
		return
	}
	from := "Few rows, by " + k.cited(nil, "risk.few_rows") + " and " + k.cited(nil, "risk.own_row") + ": "
	switch w := &p.OverRows; {
	case w.Known:
		k.hanging("  ", 4, from+fmt.Sprintf("the rows run %s, and over the hours of shed the wind blows at %.0f degrees to them (0 along, 90 across), swinging by ", pl.RowsRun, w.Angle)+
			k.cited(nil, "risk.wind_swing")+fmt.Sprintf(". By its mean way over the block, rows %s apart, they get %.2f of what four rows do; across it would be %.2f.",
			k.cited(nil, "risk.row_space"), w.Share, pl.AcrossRows()))
	case !told:
		k.hanging("  ", 4, from+fmt.Sprintf("they get %.2f of what four rows do, as in a wind across them; rows_run and row_length in the garden file tell it better.", pl.AcrossRows()))
	default:
		k.hanging("  ", 4, from+fmt.Sprintf("they get %.2f of what four rows do, as in a wind across them, for where the wind comes from is not known.", pl.AcrossRows()))
	}
}
