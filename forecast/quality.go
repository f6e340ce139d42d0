package forecast

// SpikeTemp is the difference (degC) to both neighbours from which a single
// hour's temperature is taken for an instrument's fault. In a year of hourly
// reports from Phoenix (2015) the one false reading stands 8.3 and 13.9 away;
// the largest true one-hour dip is 3.3. [chosen, status chosen]
const SpikeTemp = 7.0

// ClearSpikes makes single hours unknown whose temperature jumps away from both
// neighbours in the same direction, and counts them. Humidity goes with the
// temperature it was measured at. A fall that stays, as in a thunderstorm, is
// left alone.
func ClearSpikes(hours []Hour) (n int) {
	for i := 1; i+1 < len(hours); i++ {
		p, ok1 := hours[i-1].Temp.Get()
		t, ok2 := hours[i].Temp.Get()
		q, ok3 := hours[i+1].Temp.Get()
		if !ok1 || !ok2 || !ok3 {
			continue
		}
		up := min(t-p, t-q)
		down := min(p-t, q-t)
		if max(up, down) >= SpikeTemp {
			hours[i].Temp, hours[i].RH, hours[i].DewPoint = Value{}, Value{}, Value{}
			n++
		}
	}
	return n
}
