package kc

// Mulch is what covers the soil, each as a share of the ground, 0 to 1.
type Mulch struct{ Organic, Plastic float64 }

// The effect of mulch, as shares. Plastic values are the middle of the printed
// ranges 50 to 80, 5 to 15 and 10 to 30 %.
const (
	plasticEvaporation = 0.65 // [FAO56 table 25]
	plasticBasal       = 0.10 // [FAO56 p 196]
	plasticSingle      = 0.20 // [FAO56 p 196]
	organicEvaporation = 0.5  // 5 % for each tenth covered [FAO56 p 197]
)

// Evaporation gives the factor that mulch puts on evaporation from the soil.
func (m Mulch) Evaporation() float64 {
	return max(0, 1-organicEvaporation*m.Organic-plasticEvaporation*m.Plastic) // [FAO56 p 196, p 197]
}

// Basal gives the factor that mulch puts on the basal coefficient: plastic stops
// the last evaporation that hides in it.
func (m Mulch) Basal() float64 { return Reduce(1, plasticBasal*m.Plastic) } // [FAO56 p 196]

// Single puts mulch on single coefficients; basal are the same crop's. Plastic
// takes a fifth off mid and end and brings the first down to 0.1, organic mulch
// takes its share of what is evaporation.
func (m Mulch) Single(t, basal Triple) Triple {
	const least = 0.1 // [FAO56 p 196]
	o := organicEvaporation * m.Organic
	return Triple{
		Ini: Reduce(t.Ini, o)*(1-m.Plastic) + m.Plastic*min(t.Ini, least),
		Mid: Reduce(t.Mid-o*(t.Mid-basal.Mid), plasticSingle*m.Plastic),
		End: Reduce(t.End-o*(t.End-basal.End), plasticSingle*m.Plastic),
	}
}

// Reduce takes a share off a coefficient.
func Reduce(k, share float64) float64 { return k * (1 - share) } // [FAO56 p 196]
