package air

import (
	"math"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
)

// Hour is what one hour of weather means near the ground. All numbers are
// finite. Unknown layers were filled by a Doubt and stand in Missing.
type Hour struct {
	T           float64 // air temperature, degC
	RH          float64 // relative humidity, %
	VPD         float64 // vapour pressure deficit, kPa
	Wind2       float64 // wind at 2 m times shelter, m/s
	Light       float64 // global radiation, W/m2
	ClearLight  float64 // the same under a clear sky, W/m2
	SinSun      float64 // sine of the sun's elevation at mid-hour
	Evaporation float64 // drying of a water film, mm/h
	Dew         bool    // dew forms in this hour
	Missing     Layers
}

// Layers is a set of weather layers.
type Layers uint8

// The layers the model needs.
const (
	Temp Layers = 1 << iota
	Humidity
	Wind
	Light
	Rain
)

// Has tells whether all layers of o are in l.
func (l Layers) Has(o Layers) bool { return l&o == o }

// Doubt says how an unknown layer is filled: as kindly or as harshly for
// pollination as weather commonly is. Two runs with both doubts bound what is
// not known; nothing is guessed silently.
type Doubt uint8

// The two doubts.
const (
	Kind Doubt = iota
	Harsh
)

// The fillings of unknown layers, kind and harsh: common summer extremes.
// [chosen, status chosen]
var (
	fillRH   = [2]float64{70, 95} // %
	fillWind = [2]float64{1, 7}   // m/s at 10 m
	fillSky  = [2]float64{0, 1}   // share
	fillTemp = [2]float64{22, 11} // degC; a day with unknown temperature gets no verdict
)

// Fill works out hours for one place, shelter and doubt into out, which is as
// long as hours. Sun position moves so slowly that its daily values are joined
// linearly (error under 0.003 degrees).
func Fill(out []Hour, hours []forecast.Hour, p forecast.Place, shelter float64, d Doubt, track *sun.Track) {
	w2 := WindProfile(BeeHeight) * shelter
	wf := WindProfile(FilmHeight) * shelter
	const rad = math.Pi / 180
	sinLat, cosLat := math.Sincos(p.Lat * rad)
	for i := range hours {
		f, h := &hours[i], &out[i]
		mid := f.Start.Add(30 * time.Minute)
		*h = Hour{SinSun: track.At(mid).SinElevation(mid, sinLat, cosLat, p.Lon)}
		fillHour(f, h, d, w2, wf)
	}
}

func fillHour(f *forecast.Hour, h *Hour, d Doubt, w2, wf float64) {
	var ok bool
	if h.T, ok = f.Temp.Get(); !ok {
		h.T, h.Missing = fillTemp[d], h.Missing|Temp
	}
	if h.RH, ok = f.RH.Get(); !ok {
		h.RH, h.Missing = fillRH[d], h.Missing|Humidity
	}
	u10, ok := f.Wind.Get()
	if !ok {
		u10, h.Missing = fillWind[d], h.Missing|Wind
	}
	h.ClearLight = sun.ClearSky(h.SinSun)
	if h.Light, ok = f.Radiation.Get(); !ok {
		sky, known := f.Sky.Get()
		if !known {
			sky, h.Missing = fillSky[d], h.Missing|Light
		}
		h.Light = h.ClearLight
		if sky > 0 && h.ClearLight > 0 {
			h.Light *= sun.CloudTransmission(sky)
		}
	}
	es := SaturationPressure(h.T)
	h.VPD = es * (1 - h.RH/100) // [FAO56 eq 11, eq 54]
	h.Wind2 = w2 * u10
	u := wf * u10
	h.Evaporation = filmEvaporation(h.T, es, h.VPD, h.Light, u)
	h.Dew = h.RH >= dewRH && h.Light < dewLight && u < dewWind
}
