package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

func covered(t *testing.T, cover risk.Cover) *risk.Garden {
	return plot(t, func(_ *risk.Bed, p *risk.Planting) { p.Cover = cover })
}

// What papers measured or reckoned in there against outdoors lies within the doubt of
// a day's pull: abstracts and pages of de Palma et al. (film and agrotextile over
// vineyards), the University of California (pans in tunnels), Amiri et al. and Sujitha
// & Shanmugasundaram (pans of three sizes in glasshouse and greenhouse).
func TestSharesHoldWhatPapersFound(t *testing.T) {
	for cover, found := range map[risk.Cover][]float64{
		risk.Tunnel: {1 - 0.35, 1 - 0.31, 1 - 0.18},
		risk.House:  {0.64, 17.6 / 27.6, 20.3 / 27.6, 0.54, 0.57, 0.59},
	} {
		g := covered(t, cover)
		s := sky(g, june1, july20, 3, 25)
		open := today(t, &Keep(plot(t, nil), s, nil, at(g, july20, 6)).Beds[0])
		b := &Keep(g, s, nil, at(g, july20, 6)).Beds[0]
		d := today(t, b)
		require.Equal(t, cover, b.Cover)
		outside := open.ET0.Or(0)
		assert.Equal(t, open.ET0, d.Under.Outside)
		for _, share := range found {
			const printed = 0.005 // shares are printed in per cent
			assert.GreaterOrEqual(t, share, d.Under.Draws.Lo/outside-printed, "%s", cover)
			assert.LessOrEqual(t, share, d.Under.Draws.Hi/outside+printed, "%s", cover)
		}
		assert.InDelta(t, d.ET0.Or(0), d.Under.Draws.Mid, 1e-9)
		assert.False(t, d.Under.Logged)
	}
}

// No rain falls in there, the gauge outside tells nothing, and neither is waited for.
func TestNoRainUnderCover(t *testing.T) {
	g := covered(t, risk.House)
	s := sky(g, june1, july20, 5, 25)
	for i := range s.Hours {
		s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Known(2), forecast.Known(1)
	}
	b := &Keep(g, s, nil, at(g, july20, 6)).Beds[0]
	for i := range b.Days {
		d := &b.Days[i]
		require.Equal(t, RainNone, d.By)
		require.Zero(t, d.Rain)
		require.Zero(t, d.Caught)
		require.NotEqual(t, WaitForRain, d.Advice.Verdict)
		require.False(t, d.Advice.Gauge)
	}
}

// The doubt about the share stands in the litres: those for a day of soilless pots
// part just as the shares do. Advice under a cover is never sure.
func TestLitresUnderCoverAreARange(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		p.Cover = risk.House
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 20, PotVolume: 20, Soil: risk.Soilless, Watering: risk.Can}
	})
	for _, from := range []forecast.Date{june1, july20.AddDays(-5)} { // whatever is known of the time before
		a := today(t, &Keep(g, sky(g, from, july20, 2, 28), nil, at(g, july20, 6)).Beds[0]).Advice
		require.Equal(t, Water, a.Verdict)
		assert.InEpsilon(t, 0.74/0.64, a.Span.Hi/a.Litres, 1e-9)
		assert.InEpsilon(t, 0.54/0.64, a.Span.Lo/a.Litres, 1e-9)
		assert.InDelta(t, a.Litres, a.Span.Mid, 1e-9)
		assert.LessOrEqual(t, a.Sure, risk.Likely)
	}

	g = covered(t, risk.Tunnel)
	found := false
	b := &Keep(g, sky(g, june1, july20, 6, 28), regular(g, 200, 3, 9), at(g, july20, 6)).Beds[0]
	for i := range b.Days {
		if a := &b.Days[i].Advice; a.Verdict == Water {
			found = true
			assert.Less(t, a.Span.Lo, a.Litres)
			assert.Greater(t, a.Span.Hi, a.Litres)
		}
	}
	assert.True(t, found)
	open := today(t, &Keep(plot(t, nil), sky(g, june1, july20, 6, 28), regular(g, 200, 3, 9), at(g, july20, 6)).Beds[0]).Advice
	assert.Zero(t, open.Span)
}

// The two ways to the pull in there rest on other measurements and meet: the same
// warmth and humidity as outdoors, in still air under the light that plastic lets in,
// gives a share that the papers on shares found too.
func TestLoggerAndShareMeet(t *testing.T) {
	g := covered(t, risk.Tunnel)
	g.Plantings[0].Logger = "tunnel.csv"
	s := sky(g, june1, july20, 3, 25)
	log := forecast.New(s.Start(), july20.At(6, g.Place.Zone))
	for i := range log.Hours {
		log.Hours[i].Temp, log.Hours[i].RH = s.Hours[i].Temp, s.Hours[i].RH
	}
	g.Inside = map[string]*forecast.Series{"tunnel.csv": log}
	b := &Keep(g, s, nil, at(g, july20, 6)).Beds[0]
	d := day(t, b, july20.AddDays(-3))
	require.True(t, d.Under.Logged)
	outside := d.Under.Outside.Or(0)
	assert.Greater(t, d.Under.Draws.Mid/outside, houseLeast)
	assert.Less(t, d.Under.Draws.Mid/outside, tunnelMost)
	assert.Less(t, d.Under.Draws.Lo, d.Under.Draws.Mid)
	assert.Less(t, d.Under.Draws.Mid, d.Under.Draws.Hi)
	ahead := today(t, b)
	assert.False(t, ahead.Under.Logged, "what is to come is a share")
	assert.True(t, ahead.Under.Own, "that of the days which the logger told")
	assert.InEpsilon(t, d.Under.Draws.Mid/outside, ahead.Under.Draws.Mid/ahead.Under.Outside.Or(0), 0.05)

	short := *g
	short.Inside = map[string]*forecast.Series{"tunnel.csv": {Hours: log.Hours[:5*24]}}
	few := today(t, &Keep(&short, s, nil, at(g, july20, 6)).Beds[0])
	assert.False(t, few.Under.Own, "five days are no week")
	assert.InDelta(t, tunnelMid, few.Under.Draws.Mid/few.Under.Outside.Or(0), 1e-9)

	for i := range log.Hours { // drier and warmer air draws more
		log.Hours[i].Temp, log.Hours[i].RH = forecast.Known(s.Hours[i].Temp.Or(0)+5), forecast.Known(40)
	}
	warm := day(t, &Keep(g, s, nil, at(g, july20, 6)).Beds[0], july20.AddDays(-3))
	assert.Greater(t, warm.ET0.Or(0), d.ET0.Or(0))

	wrong := *g // degrees Fahrenheit taken for Celsius
	fahrenheit := forecast.New(s.Start(), july20.At(6, g.Place.Zone))
	for i := range fahrenheit.Hours {
		fahrenheit.Hours[i].Temp, fahrenheit.Hours[i].RH = forecast.Known(s.Hours[i].Temp.Or(0)*1.8+32), s.Hours[i].RH
	}
	wrong.Inside = map[string]*forecast.Series{"tunnel.csv": fahrenheit}
	assert.False(t, day(t, &Keep(&wrong, s, nil, at(g, july20, 6)).Beds[0], july20.AddDays(-3)).Under.Logged)

	for i := range log.Hours { // a logger without humidity cannot tell
		log.Hours[i].RH = forecast.Value{}
	}
	assert.False(t, day(t, &Keep(g, s, nil, at(g, july20, 6)).Beds[0], july20.AddDays(-3)).Under.Logged)
}
