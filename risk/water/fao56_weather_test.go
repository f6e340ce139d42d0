package water

import (
	"fmt"
	"math"

	"dawnbrush/risk/air"
	"dawnbrush/risk/water/et0"
)

const rad = math.Pi / 180

func mm(mj float64) float64 { return et0.MMPerMJ * mj }

func ex02(_ map[string]example, in inputs) values {
	p := air.Pressure(in.f("z_m"))
	return values{"P": p, "gamma": air.Psychrometric(p)}
}

func ex03(_ map[string]example, in inputs) values {
	hi, lo := in.f("Tmax_C"), in.f("Tmin_C")
	return values{"e0_Tmax": air.SaturationPressure(hi), "e0_Tmin": air.SaturationPressure(lo),
		"es": et0.MeanSaturation(hi, lo), "e0_at_Tmean_19.75": air.SaturationPressure((hi + lo) / 2)}
}

func ex04(_ map[string]example, in inputs) values {
	p, wet := air.Pressure(in.f("z_m")), in.f("Twet_C")
	return values{"P": p, "e0_Twet": air.SaturationPressure(wet), "ea": air.Psychrometer(in.f("Tdry_C"), wet, p, air.Ventilated)}
}

func ex05(_ map[string]example, in inputs) values {
	hi, lo, rhmax, rhmin := in.f("Tmax_C"), in.f("Tmin_C"), in.f("RHmax"), in.f("RHmin")
	return values{"e0_Tmin": air.SaturationPressure(lo), "e0_Tmax": air.SaturationPressure(hi),
		"ea_eq17": et0.VapourFromRange(hi, lo, rhmax, rhmin), "ea_eq19_RHmean_68": et0.VapourFromMean(hi, lo, (rhmax+rhmin)/2)}
}

func ex06(_ map[string]example, in inputs) values {
	hi, lo := in.f("Tmax_C"), in.f("Tmin_C")
	return values{"vpd": et0.MeanSaturation(hi, lo) - et0.VapourFromRange(hi, lo, in.f("RHmax"), in.f("RHmin"))}
}

func ex07(_ map[string]example, in inputs) values {
	b, r := degrees(in["Bangkok"].(string)), degrees(in["Rio"].(string))
	return values{"bangkok_decimal": b, "bangkok_rad": b * rad, "rio_decimal": r, "rio_rad": r * rad}
}

func ex08(_ map[string]example, in inputs) values {
	lat, j := in.f("lat_deg"), int(in.f("J"))
	phi, d := lat*rad, et0.Declination(j)
	return values{"phi": phi, "dr": et0.Distance(j), "delta": d, "omega_s": et0.SunsetAngle(phi, d),
		"sin_sin": math.Sin(phi) * math.Sin(d), "cos_cos": math.Cos(phi) * math.Cos(d),
		"Ra": et0.Ra(lat, j), "Ra_mm": mm(et0.Ra(lat, j))}
}

func ex09(_ map[string]example, in inputs) values {
	return values{"N": et0.Daylight(in.f("lat_deg"), int(in.f("J")))}
}

func ex10(_ map[string]example, in inputs) values {
	lat, j := in.f("lat_deg"), int(in.f("J"))
	ra, hours, n := et0.Ra(lat, j), et0.Daylight(lat, j), in.f("sunshine_hours_month")/in.f("days")
	rs := et0.FromSunshine(n/hours, ra)
	return values{"Ra": ra, "N": hours, "n": n, "Rs_over_Ra": et0.FromSunshine(n/hours, 1), "Rs": rs, "Rs_mm": mm(rs)}
}

func ex11(all map[string]example, in inputs) values {
	hi, lo, ea := in.f("Tmax_C"), in.f("Tmin_C"), in.f("ea_kPa")
	from := ex10(all, all["ex10"].Inputs)
	rso := et0.ClearShare(0) * from["Ra"]
	clear := et0.ClearRatio(from["Rs"], rso)
	rnl := et0.NetLong(hi, lo, ea, clear)
	return values{"Rso": rso, "TmaxK": hi + 273.16, "sTmax4": et0.Emission(hi), "TminK": lo + 273.16, "sTmin4": et0.Emission(lo),
		"humidity_term": et0.HumidityTerm(ea), "Rs_over_Rso": clear, "cloud_term": et0.CloudTerm(clear), "Rnl": rnl, "Rnl_mm": mm(rnl)}
}

func ex12(all map[string]example, _ inputs) values {
	rns := et0.NetShort(ex10(all, all["ex10"].Inputs)["Rs"])
	rn := rns - ex11(all, all["ex11"].Inputs)["Rnl"]
	return values{"Rns": rns, "Rn": rn, "Rn_mm": mm(rn)}
}

func ex13(_ map[string]example, in inputs) values {
	g := et0.SoilHeatMonth(in.f("T_mar"), in.f("T_may"))
	return values{"G": g, "G_mm": mm(g)}
}

func ex14(_ map[string]example, in inputs) values {
	return values{"factor": air.WindAt2(in.f("z")), "u2": in.f("uz") * air.WindAt2(in.f("z"))}
}

func ex15(_ map[string]example, in inputs) values {
	lat, hi, lo := degrees(in["lat_text"].(string)), in.f("Tmax_C"), in.f("Tmin_C")
	ra := et0.Ra(lat, int(in.f("J")))
	rs := et0.FromRange(et0.Inland, hi, lo, ra)
	return values{"lat_decimal": lat, "lat_rad": lat * rad, "Ra": ra, "Rs_over_Ra": et0.FromRange(et0.Inland, hi, lo, 1), "Rs": rs, "Rs_mm": mm(rs)}
}

// balance gives the radiation of a day, with the names that the examples share.
func balance(hi, lo, ea, rs, rso float64) values {
	clear := et0.ClearRatio(rs, rso)
	rnl := et0.NetLong(hi, lo, ea, clear)
	rn := et0.NetShort(rs) - rnl
	return values{"Rs": rs, "Rso": rso, "Rs_over_Rso": clear, "Rns": et0.NetShort(rs), "sTmax4": et0.Emission(hi), "sTmin4": et0.Emission(lo),
		"mean_sT4": (et0.Emission(hi) + et0.Emission(lo)) / 2, "humidity_term": et0.HumidityTerm(ea), "cloud_term": et0.CloudTerm(clear),
		"Rnl": rnl, "Rn": rn, "Rn_mm": mm(rn)}
}

// reference gives the terms of a day's reference.
func (v values) reference(z, hi, lo, t, u2, ea, g float64) values {
	gamma, slope := air.Psychrometric(air.Pressure(z)), air.Slope(t)
	w := et0.Terms{Slope: slope, Gamma: gamma, T: t, Wind2: u2, VPD: et0.MeanSaturation(hi, lo) - ea, Net: v["Rn"] - g}
	below := slope + gamma*(1+0.34*u2)
	for name, x := range (values{"Tmean": t, "Delta": slope, "P": air.Pressure(z), "gamma": gamma, "one_plus_034u2": 1 + 0.34*u2,
		"Delta_weight": slope / below, "gamma_weight": gamma / below, "aero_factor": 900 / (t + 273) * u2,
		"e0_Tmax": air.SaturationPressure(hi), "e0_Tmin": air.SaturationPressure(lo), "es": et0.MeanSaturation(hi, lo), "ea": ea,
		"vpd": w.VPD, "G": g, "Rn_minus_G": w.Net, "Rn_minus_G_mm": mm(w.Net), "radiation_term": et0.Radiation(w),
		"aerodynamic_term": et0.Daily(w) - et0.Radiation(w), "ET0": et0.Daily(w), "ET0_1dp": et0.Daily(w)}) {
		v[name] = x
	}
	return v
}

func ex16(_ map[string]example, in inputs) values {
	ra := et0.Ra(degrees(in["lat_text"].(string)), int(in.f("J")))
	hi, lo := in.f("Tmax_C"), in.f("Tmin_C")
	v := balance(hi, lo, in.f("ea_kPa"), et0.FromRange(et0.Coastal, hi, lo, ra), 0.75*ra)
	v["Ra"] = ra
	return v
}

func ex17(_ map[string]example, in inputs) values {
	lat, j, hi, lo, z := degrees(in["lat_text"].(string)), int(in.f("J")), in.f("Tmax_C"), in.f("Tmin_C"), in.f("z_m")
	ra, hours := et0.Ra(lat, j), et0.Daylight(lat, j)
	v := balance(hi, lo, in.f("ea_kPa"), et0.FromSunshine(in.f("n_hours")/hours, ra), et0.ClearShare(z)*ra)
	v["Ra"], v["N"], v["n_over_N"] = ra, hours, in.f("n_hours")/hours
	g := et0.SoilHeatMonthSoFar(in.f("T_prev_month"), in.f("T_month"))
	return v.reference(z, hi, lo, in.f("T_month"), in.f("u2"), in.f("ea_kPa"), g)
}

func ex18(_ map[string]example, in inputs) values {
	lat, j, hi, lo, z := degrees(in["lat_text"].(string)), int(in.f("J")), in.f("Tmax_C"), in.f("Tmin_C"), in.f("z_m")
	ra, hours, uz := et0.Ra(lat, j), et0.Daylight(lat, j), in.f("wind_10m_kmh")/3.6
	ea := et0.VapourFromRange(hi, lo, in.f("RHmax"), in.f("RHmin"))
	v := balance(hi, lo, ea, et0.FromSunshine(in.f("n_hours")/hours, ra), et0.ClearShare(z)*ra)
	v["Ra"], v["N"], v["n_over_N"], v["uz"], v["u2"] = ra, hours, in.f("n_hours")/hours, uz, uz*air.WindAt2(10)
	v["TmaxK"], v["TminK"] = hi+273.16, lo+273.16
	return v.reference(z, hi, lo, (hi+lo)/2, v["u2"], ea, 0)
}

func ex20(_ map[string]example, in inputs) values {
	lat, j, hi, lo, z := in.f("lat_deg"), int(in.f("J")), in.f("Tmax_C"), in.f("Tmin_C"), in.f("z_m")
	ra, ea := et0.Ra(lat, j), et0.VapourFromLowest(lo)
	v := balance(hi, lo, ea, et0.FromRange(et0.Inland, hi, lo, ra), et0.ClearShare(z)*ra)
	v.reference(z, hi, lo, (hi+lo)/2, in.f("u2_assumed"), ea, 0)
	v["Ra"], v["RHmin_equiv"] = ra, et0.AfternoonHumidity(hi, lo)
	v["RHmean_equiv"] = (100 + v["RHmin_equiv"]) / 2
	site := et0.NewSite(lat, 0, z, 0)
	v["ET0_if_u2_1"], v["ET0_if_u2_3"] = site.FromMeans(hi, lo, ea, 1, v["Rs"], ra), site.FromMeans(hi, lo, ea, 3, v["Rs"], ra)
	v["ET0_Hargreaves_eq52"] = et0.Hargreaves(hi, lo, ra)
	return v
}

// hour gives what both halves of example 19 share; clear is the ratio to use. The
// printed hourly constant, 2.043e-10, is itself rounded; sT4 is of the daily one.
func hour(in inputs, clear float64) values {
	lat, j := degrees(in["lat_text"].(string)), int(in.f("J"))
	site := et0.NewSite(in.f("lat_deg_used"), -in.f("Lm_degW"), in.f("z_m"), -in.f("Lz_degW")/15)
	var sky et0.Sky
	site.Sky(&sky, j)
	h, t, u2, rs := int(in.f("t_mid")), in.f("T_C"), in.f("u2"), in.f("Rs")
	es := air.SaturationPressure(t)
	ea := es * in.f("RH") / 100
	ra := sky.Ra[h]
	if clear == 0 {
		clear = et0.ClearRatio(rs, et0.ClearShare(in.f("z_m"))*ra)
	}
	rnl := et0.EmissionHour(t) * et0.HumidityTerm(ea) * et0.CloudTerm(clear)
	rn := et0.NetShort(rs) - rnl
	g := et0.SoilHeatHour(rn, ra > 0)
	w := et0.Terms{Slope: air.Slope(t), Gamma: site.Gamma(), T: t, Wind2: u2, VPD: es - ea, Net: rn - g}
	omega := site.HourAngle(j, in.f("t_mid"))
	return values{"Delta": w.Slope, "gamma": w.Gamma, "e0": es, "ea": ea, "vpd": w.VPD, "phi": lat * rad, "dr": et0.Distance(j),
		"decl": et0.Declination(j), "b": 2 * math.Pi * float64(j-81) / 364, "Sc": et0.SeasonalCorrection(j),
		"omega": omega, "omega1": omega - math.Pi/24, "omega2": omega + math.Pi/24, "Ra": ra, "Rso": et0.ClearShare(in.f("z_m")) * ra,
		"Rns": et0.NetShort(rs), "sT4": et0.Emission(t) / 24, "humidity_term": et0.HumidityTerm(ea), "Rs_over_Rso": clear,
		"cloud_term": et0.CloudTerm(clear), "Rnl": rnl, "Rn": rn, "G": g, "Rn_minus_G": w.Net, "Rn_minus_G_mm": mm(w.Net),
		"radiation_term": et0.Radiation(w), "aerodynamic_term": et0.Hourly(w) - et0.Radiation(w), "ET0": et0.Hourly(w)}
}

func ex19night(_ map[string]example, in inputs) values { return hour(in, in.f("Rs_over_Rso_assumed")) }

func ex19day(all map[string]example, in inputs) values {
	in["lat_text"] = all["ex19_night"].Inputs["lat_text"]
	return hour(in, 0)
}

func windTable(_ map[string]example, in inputs) values {
	v := values{}
	for _, z := range in.list("heights_m") {
		v[fmt.Sprintf("factor_%.1fm", z)] = air.WindAt2(z)
	}
	return v
}

func emissionTable(_ map[string]example, in inputs) values {
	v := values{}
	for _, t := range in.list("T_C") {
		v[fmt.Sprintf("sT4_%g", t)] = et0.Emission(t)
	}
	return v
}

func slopeTable(map[string]example, inputs) values {
	v := values{}
	for t := 1.0; t <= 48.5; t += 0.5 {
		v[fmt.Sprintf("delta_%g", t)] = air.Slope(t)
	}
	return v
}
