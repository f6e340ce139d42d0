package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
)

// weather sums the day up.
func (a *assessor) weather(w *Weather) {
	f, s := &a.frame, a.s
	var rain, sky, prob float64
	rainKnown, someRain, light := true, false, 0
	for i := f.day; i < f.n; i++ {
		h := &s.Hours[f.first+i]
		if t, ok := h.Temp.Get(); ok {
			if v, had := w.Max.Get(); !had || t > v {
				w.Max, w.MaxAt = forecast.Known(t), h.Start
			}
			if v, had := w.Min.Get(); !had || t < v {
				w.Min = forecast.Known(t)
			}
		} else {
			w.MissingTempHrs++
		}
		if r, ok := h.Rain.Get(); ok {
			rain += r
			someRain = true
		} else {
			rainKnown = false
		}
		p, ok := h.RainProb.Get()
		if r := h.Rain.Or(0); h.Origin != forecast.OriginForecast && r > 0 {
			p, ok = 1, true
		}
		if ok {
			prob = max(prob, p)
			if p >= flagWetChance && w.RainFrom.IsZero() {
				w.RainFrom = h.Start
			}
			w.RainProb = forecast.Known(prob)
		}
		if c, ok := h.Sky.Get(); ok && f.hours[0][i].SinSun > 0 {
			sky += c
			light++
		}
	}
	if rainKnown {
		w.Rain = forecast.Known(rain)
	}
	if someRain {
		w.RainAtLeast = forecast.Known(rain)
	}
	if light > 0 {
		w.Sky = forecast.Known(sky / float64(light))
	}
	if w.Max.IsKnown() && f.tmax > w.Max.Or(f.tmax) {
		w.Max = forecast.Known(f.tmax)
	}
	if d, ok := a.past.at(f.past); ok && d.nightKnown {
		w.NightMin = forecast.Known(d.nightMin)
	}
	if !f.polar {
		a.beeHours(w)
	}
}

// beeHours counts the hours from sunrise to noon (local) in which each group is
// out, expected over the worlds, and finds the morning's strongest wind.
func (a *assessor) beeHours(w *Weather) {
	f := &a.frame
	noon := f.date.At(12, a.g.Place.Zone).Sub(f.start).Hours()
	w.MorningHours = max(0, noon-f.sunrise)
	for i := max(f.day, int(f.sunrise)); i < f.n && float64(i) < noon; i++ {
		part := min(float64(i)+1, noon) - max(float64(i), f.sunrise)
		if u, ok := a.s.Hours[f.first+i].Wind.Get(); ok {
			if v, had := w.Wind.Get(); !had || u > v {
				w.Wind = forecast.Known(u)
			}
		}
		for g := range bee.Groups {
			for j := range f.worlds {
				if f.worlds[j].flight[g][i] >= bee.OutShare {
					w.BeeHours[g] += part * f.worlds[j].weight
				}
			}
		}
	}
}
