package ledger

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// byHand keeps tomatoes on a loam under a sprinkler by the equations and tables of
// FAO-56, written down here once more from the paper: nothing of packages water, kc
// and soil is used. One call is one day; the order is that of example 38, drainage
// first.
type byHand struct{ dr, de, fw float64 }

func (s *byHand) day(since, et0, u2, rhMin, rain, irrigation float64) (kcb, ks, drainage, et float64) {
	const (
		ini, dev, mid, late          = 35.0, 40.0, 50.0, 30.0 // table 11, tomato, April/May, California
		kcbIni, kcbMid, kcbEnd       = 0.15, 1.10, 0.70       // table 17, tomato; end 0.60 to 0.80
		height, root, p              = 0.6, 0.7, 0.40         // tables 12 and 22, tomato
		fieldCapacity, wilting       = 0.25, 0.095            // table 19, loam: 0.20 to 0.30, available 0.13 to 0.18
		rew, ze, kcMin, shallow, all = 9.0, 0.10, 0.15, 0.15, 1.0
	)
	move := func(h float64) float64 { // eq 62, 70 and 72
		return (0.04*(u2-2) - 0.004*(rhMin-45)) * math.Pow(math.Max(0.1, h)/3, 0.3)
	}
	top, end := kcbMid+move(height), kcbEnd+move(height) // eq 70
	grown := math.Min(1, math.Max(0, (since-ini)/dev))
	kcb = kcbIni + grown*(top-kcbIni) // eq 66
	if past := since - ini - dev - mid; past > 0 {
		kcb = top + math.Min(1, past/late)*(end-top)
	}
	h := height * math.Max(0.1, grown)
	kcMax := math.Max(1.2+move(h), kcb+0.05)                                   // eq 72
	fc := math.Pow(math.Max(0.01, kcb-kcMin)/(kcMax-kcMin), 1+0.5*h)           // eq 76
	tew := 1000 * (fieldCapacity - 0.5*wilting) * ze                           // eq 73
	taw := 1000 * (fieldCapacity - wilting) * (shallow + grown*(root-shallow)) // eq 82
	if rain < 0.2*et0 {                                                        // p 170
		et, rain = et+rain, 0
	}
	drainage = math.Max(0, rain+irrigation-s.dr) // eq 88, in the order of example 38
	s.dr = math.Max(0, s.dr-rain-irrigation)
	if irrigation > 0 || rain > 3 {
		s.fw = all // table 20: sprinkler and rain wet all of the ground
	}
	s.de = math.Max(0, s.de-rain-irrigation/s.fw) // eq 77
	few := math.Max(0.01, math.Min(1-fc, s.fw))   // eq 75
	kr := 1.0
	if s.de > rew {
		kr = math.Max(0, (tew-s.de)/(tew-rew)) // eq 74
	}
	ke := math.Max(0, math.Min(kr*(kcMax-kcb), few*kcMax)) // eq 71
	e := math.Min(ke*et0, (tew-s.de)*few)
	room := taw - s.dr                                              // eq 86; what it cuts off is not used
	raw := math.Max(0.1, math.Min(0.8, p+0.04*(5-kcb*et0-e))) * taw // table 22, eq 83
	ks = 1
	if s.dr > raw {
		ks = (taw - s.dr) / (taw - raw) // eq 84
	}
	e = math.Min(e, room)
	t := math.Min(ks*kcb*et0, room-e) // eq 80
	s.dr += e + t
	s.de = math.Min(tew, s.de+e/few)
	return kcb, ks, drainage, et + e + t
}

// The account of a season of tomatoes agrees, day by day, with the paper's
// equations written down by hand.
func TestAgainstTheEquationsByHand(t *testing.T) {
	g := plot(t, func(b *risk.Bed, _ *risk.Planting) { b.Watering, b.Flow = risk.Sprinkler, 0 })
	s := sky(g, june1, june1.AddDays(160), 1, 24)
	litres := map[int]float64{}
	entries := regular(g, 1, 1, 100)[:0]
	for k := 0; k < 160; k++ {
		if k%6 == 0 { // from the first day, so that the diary is taken to note all
			litres[k] = 250 + float64(k%5)*150
			entries = append(entries, watered(g, june1.AddDays(k), 7, litres[k]))
		}
		if k%11 == 4 {
			i, ok := s.Index(june1.AddDays(k).At(10, g.Place.Zone))
			require.True(t, ok)
			s.Hours[i].Rain = forecast.Known(float64(k%4) * 7.5)
		}
		if k%13 == 7 {
			i, _ := s.Index(june1.AddDays(k).At(10, g.Place.Zone))
			s.Hours[i].Rain = forecast.Known(0.6) // too little to count
		}
	}
	b := &Keep(g, s, entries, at(g, june1.AddDays(160), 6)).Beds[0]
	require.Equal(t, Reckoned, b.Why)
	u2 := 2.5 * 4.87 / math.Log(67.8*10-5.42) // eq 47
	hand := byHand{fw: 1}
	stressed, drained := 0, 0
	for k := 0; k < 160; k++ {
		d := &b.Days[k]
		require.InDelta(t, hand.dr, d.Lacks.Mid, 1e-6, "day %d", k)
		_, ks, drainage, et := hand.day(float64(k), d.ET0.Or(math.NaN()), u2, 60, d.Rain.Mid, litres[k]/10*0.7)
		require.InDelta(t, ks, d.Stress.Mid, 1e-6, "day %d", k)
		require.InDelta(t, drainage, d.Flux.Drainage, 1e-6, "day %d", k)
		require.InDelta(t, et, d.Flux.ET(), 1e-6, "day %d", k)
		if ks < 1 {
			stressed++
		}
		if drainage > 0 {
			drained++
		}
	}
	assert.True(t, stressed > 10 && drained > 10, "%d days of stress, %d of drainage: the season tries both", stressed, drained)
}

// The table of example 38 lets a day's water drain before the day takes its use: 40
// mm onto 23 lacking drain 17, and the use of the day is lacking at night. So does
// the account, of a watering and of rain alike.
func TestOrderOfExample38(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 1, 25)
	on := july20.AddDays(-4)
	lacks := day(t, kept(t, g, s, watered(g, june1, 7, 1)), on).Lacks.Mid
	require.Greater(t, lacks, 10.0)
	b := kept(t, g, s, watered(g, june1, 7, 1), watered(g, on, 7, (lacks+17)*10/0.9))
	d := day(t, b, on)
	assert.InDelta(t, lacks+17, d.Given, 1e-9)
	assert.InDelta(t, 17, d.Flux.Drainage, 1e-9)
	assert.InDelta(t, d.Flux.ET(), day(t, b, on.AddDays(1)).Lacks.Mid, 1e-9)
	i, _ := s.Index(on.At(9, g.Place.Zone))
	s.Hours[i].Rain = forecast.Known(lacks + 17)
	d = day(t, kept(t, g, s, watered(g, june1, 7, 1)), on)
	assert.InDelta(t, 17, d.Flux.Drainage, 1e-9)
}

// The simple account takes one coefficient for plants and bare soil: in mid-season that
// of tomatoes in table 12, 1.15 and 0.6 m high, moved by the air as eq 62 says.
func TestSimpleAccount(t *testing.T) {
	g := plot(t, func(b *risk.Bed, _ *risk.Planting) { b.Account = risk.SimpleAccount })
	on := june1.AddDays(85) // of 30 + 40 + 45 + 30 days (table 11), or less where bloom comes early
	s := sky(g, june1, on, 1, 24)
	b := &Keep(g, s, regular(g, 400, 3, -35), at(g, on, 6)).Beds[0]
	require.Equal(t, Reckoned, b.Why)
	d := day(t, b, on.AddDays(-1))
	u2 := 2.5 * 4.87 / math.Log(67.8*10-5.42)                     // eq 47
	kc := 1.15 + (0.04*(u2-2)-0.004*(60-45))*math.Pow(0.6/3, 0.3) // eq 62
	assert.InDelta(t, kc, d.Flux.Kcb, 1e-9)
	assert.InDelta(t, kc*d.ET0.Or(math.NaN())*d.Stress.Mid, d.Flux.ET(), 1e-9) // eq 81
	assert.Zero(t, d.Flux.Evaporation)
	assert.Zero(t, d.Flux.Ke)
}
