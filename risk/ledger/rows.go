package ledger

import (
	"dawnbrush/risk"
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
	"dawnbrush/risk/water/table"
)

// rowsOf lists the printed values that a bed's account rests on, each once: those of
// its crop, of the crop that lends what the tables lack, of its soil and its watering.
func rowsOf(b *Bed, g *ground) (out []table.Entry) {
	t, err := table.Load()
	if err != nil {
		return nil
	}
	switch key := b.Lead.Crop.Key; key {
	case "okra":
		out = kc.Rows(t, "eggplant", g.plan.Stages)
	case "strawberry":
		out = append(strawberryRows(t), stageRows(kc.Rows(t, "sweet-pepper", g.plan.Stages))...)
	default:
		out = kc.Rows(t, key, g.plan.Stages)
	}
	out = onlyOf(out, g.plan.Single)
	_, full := b.Bed.FieldCapacity.Get()
	_, dry := b.Bed.WiltingPoint.Get()
	if name := b.Bed.Soil; !full || !dry {
		if name == "" {
			name = assumedSoil(b.Bed)
		}
		out = append(out, soil.Rows(t, string(name))...)
	}
	if e, ok := kc.WettedRow(t, g.plan.Method); ok && b.Bed.Kind != risk.Pots {
		out = append(out, e)
	}
	return out
}

// strawberryRows are those that a strawberry has of its own.
func strawberryRows(t *table.Tables) (out []table.Entry) {
	for _, f := range [...][2]string{{"17", "Kcb_ini"}, {"17", "Kcb_mid"}, {"17", "Kcb_end"}, {"12", "Kc_ini"}, {"12", "Kc_mid"}, {"12", "Kc_end"},
		{"12", "max_height"}, {"22", "root_depth_max"}, {"22", "p_depletion_fraction"}} {
		if e, ok := t.Find(f[0], "strawberry", "", f[1]); ok {
			out = append(out, e)
		}
	}
	return out
}

func stageRows(rows []table.Entry) (out []table.Entry) {
	for _, e := range rows {
		if e.Table == "11" {
			out = append(out, e)
		}
	}
	return out
}

// onlyOf leaves out the coefficients that the account does not go by.
func onlyOf(rows []table.Entry, single bool) (out []table.Entry) {
	for _, e := range rows {
		isSingle := e.Table == "12" && e.Field != "max_height"
		if isSingle && !single || e.Table == "17" && single {
			continue
		}
		out = append(out, e)
	}
	return out
}
