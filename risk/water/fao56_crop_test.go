package water

import (
	"fmt"
	"math"

	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
)

// ex23 is arithmetic alone: how many rains of a usual depth make a month's sum.
func ex23(_ map[string]example, in inputs) values {
	sum, each := in.list("monthly_mm"), in.list("event_mm")
	return values{"days_paris": sum[0] / each[0], "days_gafsa": sum[1] / each[1], "days_calcutta": sum[2] / each[2]}
}

func ex24(_ map[string]example, in inputs) values {
	_, f := Step(State{}, Day{Single: true, Kcb: in.f("Kc_ini_read"), ET0: in.f("ET0"), TAW: 100, Depletion: 0.5})
	return values{"ETc": f.ET()}
}

func ex25(_ map[string]example, in inputs) values {
	k := kc.InitialBetween(in.f("Kc_fig29"), in.f("Kc_fig30"), in.f("I_mm"))
	return values{"Kc_ini": k, "ETc": k * in.f("ET0")}
}

func ex26(_ map[string]example, in inputs) values {
	iw := kc.OnWetted(in.f("I_mm"), in.f("fw"))
	k := kc.InitialBetween(in.f("Kc_fig29"), in.f("Kc_fig30b"), iw)
	part := kc.InitialPartly(in.f("fw"), k)
	return values{"Iw": iw, "Kc_interp": k, "Kc_ini": part, "ETc": part * in.f("ET0")}
}

func mid(c kc.Climate, table, h float64) float64 { return c.Adjust(kc.Triple{Mid: table}, h).Mid }

func box14(_ map[string]example, in inputs) values {
	v := values{}
	for _, class := range []string{"arid", "subhumid", "veryhumid"} {
		for _, u := range in.list("wind") {
			v[fmt.Sprintf("Kc_%s_u%g", class, u)] = mid(kc.Climate{Wind2: u, RHMin: in.sub("RHmin").f(class)}, in.f("Kc_mid_tab"), in.f("h_m"))
		}
	}
	return v
}

func climate(in inputs) kc.Climate { return kc.Climate{Wind2: in.f("u2"), RHMin: in.f("RHmin")} }

func ex27(_ map[string]example, in inputs) values {
	return values{"Kc_taipei": mid(climate(in.sub("taipei")), in.f("Kc_mid_tab"), in.f("h_m")),
		"Kc_mocha": mid(climate(in.sub("mocha")), in.f("Kc_mid_tab"), in.f("h_m"))}
}

func box15(_ map[string]example, in inputs) values {
	return values{"Kc_mid": mid(climate(in), in.f("Kc_mid_tab"), in.f("h_m"))}
}

func ex29(_ map[string]example, in inputs) values {
	return values{"Kcb_mid": mid(climate(in), in.list("Kcb_tab")[1], in.f("h_m"))}
}

func eq68(_ map[string]example, in inputs) values {
	return values{"K_ratio": climate(in).Tall(in.f("h_m"))}
}

func stagesOf(in inputs, key string) (kc.Stages, kc.Triple) {
	l, k := in.list("L"), in.list(key)
	return kc.Stages{Ini: l[0], Dev: l[1], Mid: l[2], Late: l[3]}, kc.Triple{Ini: k[0], Mid: k[1], End: k[2]}
}

// fig36 takes the mean of the curve over each ten days; its corners lie on whole
// days, so the trapezoids are exact.
func fig36(_ map[string]example, in inputs) values {
	s, k := stagesOf(in, "Kc")
	v := values{}
	for i, et0 := range in.list("ET0_decade") {
		sum := 0.0
		for d := range 10 {
			day := float64(10*i + d)
			sum += (s.At(k, day) + s.At(k, day+1)) / 2
		}
		v[fmt.Sprintf("Kc_decade%d", i+1)] = sum / 10
		v[fmt.Sprintf("ETc_decade%d", i+1)] = sum / 10 * et0
	}
	return v
}

func ex28(_ map[string]example, in inputs) values {
	s, k := stagesOf(in, "Kc")
	return values{"Kc_d20": s.At(k, 20), "Kc_d40": s.At(k, 40), "Kc_d70": s.At(k, 70), "Kc_d95": s.At(k, 95)}
}

func ex30(_ map[string]example, in inputs) values {
	s, k := stagesOf(in, "Kcb")
	return values{"Kcb_d12": s.At(k, 12), "Kcb_d37": s.At(k, 37), "Kcb_d65": s.At(k, 65), "Kcb_d90": s.At(k, 90)}
}

func ex31(_ map[string]example, in inputs) values {
	v := values{}
	s := State{Surface: kc.Surface{De: in.f("De0"), Wetted: in.f("few")}}
	for i := 1; i <= 10; i++ {
		var f Flux
		s, f = Step(s, Day{ET0: in.f("ET0"), Kcb: in.f("Kcb"), Top: in.f("Kc_max"), TAW: 1000, Depletion: 0.5,
			Layer: kc.Layer{TEW: in.f("TEW"), REW: in.f("REW")}})
		for name, x := range (values{"De_start": f.Start.Surface.De, "Kr": f.Kr, "Ke": f.Ke, "E": f.Evaporation, "De_end": s.Surface.De, "ETc": f.ET()}) {
			v[fmt.Sprintf("d%d_%s", i, name)] = x
		}
	}
	return v
}

func ex32(_ map[string]example, in inputs) values {
	kcb := in.f("Kcb")
	top := kc.Max(climate(in), in.f("h_m"), kcb, false)
	fc := kc.Cover(kcb, top, in.f("h_m"))
	return cotton(in, top, fc, kc.Exposed(fc, in.f("fw")))
}

func cotton(in inputs, top, fc, few float64) values {
	ke := kc.Ke(in.f("Kr"), top, in.f("Kcb"), few)
	return values{"Kc_max": top, "fc": fc, "few": few, "Ke": ke, "upper_limit": few * top, "Kc": in.f("Kcb") + ke}
}

func ex33(all map[string]example, in inputs) values {
	first := ex32(all, all["ex32"].Inputs)
	return cotton(all["ex32"].Inputs, first["Kc_max"], first["fc"], kc.Exposed(first["fc"], in.f("fw")))
}

func ex34(all map[string]example, in inputs) values {
	first := ex32(all, all["ex32"].Inputs)
	return cotton(all["ex32"].Inputs, first["Kc_max"], first["fc"], kc.Exposed(first["fc"], kc.UnderLeaves(in.f("fw"), first["fc"])))
}

// schedule runs the ten days that examples 35 and 38 share, in the order of the
// package: drainage first, then use. With due it waters again when the root zone
// lacks what plants may lose; the paper compares whole mm, 27 with 27 on day 10.
func schedule(all map[string]example, due bool) values {
	a, b := all["ex35"].Inputs, all["ex38"].Inputs
	g := soil.Soil{FC: a.f("theta_FC"), WP: a.f("theta_WP"), REW: a.f("REW")}
	layer := kc.Layer{TEW: g.TEW(a.f("Ze_m")), REW: g.REW}
	top := kc.Max(climate(a), a.f("h_m"), 0.4, false)
	along := func(first, last float64, i int) float64 { return first + (last-first)*float64(i)/9 }
	start := soil.RAW(b.f("p"), g.TAW(b.f("Zr_day1")))
	s := State{Dr: start, Surface: kc.Surface{De: layer.TEW, Wetted: 1}}
	v := values{"TEW": layer.TEW, "Kc_max": top, "Dr_initial": start}
	rain, wetting, et0 := a.list("rain_mm"), a.list("I_over_fw_mm"), a.list("ET0")
	for i := range 10 {
		open := along(a.f("one_minus_fc_day1"), a.f("one_minus_fc_day10"), i)
		zr := along(b.f("Zr_day1"), b.f("Zr_day10"), i)
		irrigation := wetting[i] * a.f("fw_irrigation")
		if due && i > 0 && math.Round(s.Dr) >= math.Round(soil.RAW(b.f("p"), g.TAW(zr))) {
			irrigation = s.Dr
		}
		var f Flux
		s, f = Step(s, Day{ET0: et0[i], Rain: rain[i], Irrigation: irrigation, Share: a.f("fw_irrigation"),
			Kcb: along(a.f("Kcb_day1"), a.f("Kcb_day10"), i), Top: top, Cover: 1 - open,
			TAW: g.TAW(zr), Depletion: b.f("p"), Fixed: true, Layer: layer})
		kcb := along(a.f("Kcb_day1"), a.f("Kcb_day10"), i)
		for name, x := range (values{"one_minus_fc": open, "fw": s.Surface.Wetted, "few": f.Exposed, "Kcb": kcb, "De_start": f.Start.Surface.De,
			"Kr": f.Kr, "Ke": f.Ke, "E_few": f.Evaporation / f.Exposed, "DPe": f.Through, "De_end": s.Surface.De, "E": f.Evaporation,
			"Kc": f.Ke + kcb*f.Ks, "ETc": f.ET(), "Zr": zr, "RAW": f.RAW, "Dr_start": f.Start.Dr, "DP": f.Drainage, "Dr_end": s.Dr}) {
			v[fmt.Sprintf("d%d_%s", i+1, name)] = x
		}
	}
	return v
}

func ex35(all map[string]example, _ inputs) values { return schedule(all, false) }

func ex38(all map[string]example, _ inputs) values { return schedule(all, true) }

func ex36(_ map[string]example, in inputs) values {
	v := values{}
	for _, crop := range []string{"onion", "tomato", "maize"} {
		for _, ground := range []string{"loamy_sand", "silt", "silty_clay"} {
			c, g := in.sub(crop), in.sub(ground)
			taw := soil.Soil{FC: g.f("FC"), WP: g.f("WP")}.TAW(c.f("Zr"))
			v[crop+"_"+ground+"_TAW"], v[crop+"_"+ground+"_RAW"] = taw, soil.RAW(c.f("p"), taw)
		}
	}
	return v
}

func ex37(_ map[string]example, in inputs) values {
	taw := soil.Soil{FC: in.f("theta_FC"), WP: in.f("theta_WP")}.TAW(in.f("Zr"))
	v := values{"TAW": taw, "RAW": soil.RAW(in.f("p"), taw)}
	s := State{Dr: in.f("Dr0")}
	for i := 1; i <= 10; i++ {
		var f Flux
		s, f = Step(s, Day{ET0: in.f("ET0"), Kcb: in.f("Kc"), Single: true, TAW: taw, Depletion: in.f("p"), Fixed: true})
		for name, x := range (values{"Dr_start": f.Start.Dr, "Ks": f.Ks, "ETc_adj": f.ET(), "Dr_end": s.Dr}) {
			v[fmt.Sprintf("d%d_%s", i, name)] = x
		}
	}
	return v
}

func ex39(_ map[string]example, in inputs) values {
	salt := soil.Salt{Threshold: in.f("threshold"), Slope: in.f("slope"), Ky: in.f("Ky")}.Stress(in.f("ECe"))
	v := values{"Ks_salinity": salt}
	for _, dr := range []float64{0, 35, 40, 44, 50, 60, 70, 80, 90, 100, 110} {
		ks := soil.Stress(dr, in.f("TAW"), in.f("RAW"))
		v[fmt.Sprintf("Ks_Dr%g", dr)], v[fmt.Sprintf("Ks_salt_Dr%g", dr)] = ks, ks*salt
	}
	return v
}

func ex44(_ map[string]example, in inputs) values {
	ks := soil.StressFromYield(in.f("Ky"), in.f("Ya")/in.f("Ym"))
	if math.Abs(soil.Yield(in.f("Ky"), ks)-in.f("Ya")/in.f("Ym")) > 1e-12 {
		return nil // the two are each other's inverse
	}
	return values{"Ks": ks}
}

func ex45(_ map[string]example, in inputs) values {
	return values{"Kc_mid": kc.Reduce(in.f("Kc_mid"), in.f("Kc_reduction")), "Kc_end": kc.Reduce(in.f("Kc_end"), in.f("Kc_reduction")),
		"Kcb_mid": kc.Reduce(in.f("Kcb_mid"), in.f("Kcb_reduction")), "Kcb_end": kc.Reduce(in.f("Kcb_end"), in.f("Kcb_reduction"))}
}
