package soil

// Share gives the share of the available water that may go before plants suffer,
// from that of the table and the crop's use of the day (mm): less on a thirsty day.
func Share(table, etc float64) float64 {
	return max(0.1, min(0.8, table+0.04*(5-etc))) // [FAO56 table 22]
}

// RAW gives the water (mm) that may go before plants suffer.
func RAW(share, taw float64) float64 {
	return share * taw // [FAO56 eq 83]
}

// Stress gives the factor by which want of water cuts transpiration: 1 up to RAW,
// 0 when all available water is gone.
func Stress(dr, taw, raw float64) float64 {
	if dr <= raw {
		return 1
	}
	if taw <= raw {
		return 0
	}
	return max(0, min(1, (taw-dr)/(taw-raw))) // [FAO56 eq 84], (1 - p) TAW = TAW - RAW
}

// Salt is how a crop answers to salt in its root zone. [FAO56 table 23]
type Salt struct {
	Threshold float64 // electrical conductivity from which yield falls, dS/m
	Slope     float64 // loss of yield beyond it, % for each dS/m
	Ky        float64 // answer of yield to want of water [FAO56 table 24]
}

// Stress gives the factor by which salt alone cuts transpiration at a
// conductivity of ece dS/m of the soil's extract.
func (s Salt) Stress(ece float64) float64 {
	if ece <= s.Threshold {
		return 1
	}
	return max(0, 1-s.Slope*(ece-s.Threshold)/(100*s.Ky)) // [FAO56 eq 91, eq 92]
}

// Yield gives the share of the best yield that is left when a crop could use a
// share of the water it wanted; ky is the answer of table 24.
func Yield(ky, used float64) float64 {
	return max(0, 1-ky*(1-used)) // [FAO56 eq 90]
}

// StressFromYield is the inverse of Yield: the share of water used that explains
// a share of yield.
func StressFromYield(ky, yield float64) float64 {
	return 1 - (1-yield)/ky // [FAO56 eq 103]
}
