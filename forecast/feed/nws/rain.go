package nws

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
)

// chanceBlock is the length of a block that has a chance but no amount: the
// period of most rain amounts in these documents. [chosen]
const chanceBlock = 6 * time.Hour

// rainMapping describes the rain layer: sums over intervals, never repeated.
var rainMapping = mapping{field: "Rain", words: "rain amount", quantity: unit.Depth, lo: 0, hi: maxRain, scale: 1}

// addRain turns rain sums into blocks and into shares of the hours. The shares
// follow the hourly chance of rain where every hour of the block has one, and
// are equal otherwise; they always add up to the block.
func (a *adapter) addRain(spans []span) {
	for _, sp := range spans {
		sp.start, sp.end = a.clip(sp)
		mm, ok := sp.value.Get()
		if !ok || !sp.end.After(sp.start) {
			continue
		}
		first, _ := a.series.Index(sp.start)
		last, _ := a.series.Index(sp.end.Add(-1))
		hours := a.series.Hours[first : last+1]
		weights, sum := weigh(hours, sp)
		for i := range hours {
			hours[i].Rain = forecast.Known(hours[i].Rain.Or(0) + mm*weights[i]/sum)
		}
		a.series.Blocks = append(a.series.Blocks, forecast.RainBlock{
			Start: sp.start, End: sp.end, Amount: sp.value, Prob: highestChance(hours)})
	}
}

// weigh gives the weight of each hour in a rain sum: its chance of rain, or one
// where an hour has none or all are nil, times the part that the interval covers.
func weigh(hours []forecast.Hour, sp span) (weights []float64, sum float64) {
	even := !highestChance(hours).IsKnown() || highestChance(hours).Or(0) == 0
	for _, h := range hours {
		even = even || !h.RainProb.IsKnown()
	}
	weights = make([]float64, len(hours))
	for i, h := range hours {
		weights[i] = overlap(h.Start, sp)
		if !even {
			weights[i] *= h.RainProb.Or(0)
		}
		sum += weights[i]
	}
	return weights, sum
}

// clip cuts an interval to the series.
func (a *adapter) clip(sp span) (start, end time.Time) {
	start, end = sp.start, sp.end
	if start.Before(a.series.Start()) {
		start = a.series.Start()
	}
	if end.After(a.series.End()) {
		end = a.series.End()
	}
	return start, end
}

// overlap gives the share of the hour that the interval covers.
func overlap(hour time.Time, sp span) float64 {
	from, to := hour, hour.Add(time.Hour)
	if sp.start.After(from) {
		from = sp.start
	}
	if sp.end.Before(to) {
		to = sp.end
	}
	return to.Sub(from).Hours()
}

// highestChance gives the block's chance of rain: the highest of its hours, the
// lower bound of what their joint chance can be. The service's own pages show a
// day's chance so. [weather.gov issue 1982, status quoted]
func highestChance(hours []forecast.Hour) forecast.Value {
	var best forecast.Value
	for _, h := range hours {
		if p, ok := h.RainProb.Get(); ok && (!best.IsKnown() || p > best.Or(0)) {
			best = h.RainProb
		}
	}
	return best
}

// addChances adds blocks of unknown amount where only the chance goes on, at
// most chanceBlock long and counted from where the amounts stop.
func (a *adapter) addChances() {
	hs := a.series.Hours
	for i := 0; i < len(hs); {
		if hs[i].Rain.IsKnown() || !hs[i].RainProb.IsKnown() {
			i++
			continue
		}
		j := i + 1
		for j < len(hs) && hs[j].Start.Sub(hs[i].Start) < chanceBlock && !hs[j].Rain.IsKnown() && hs[j].RainProb.IsKnown() {
			j++
		}
		a.series.Blocks = append(a.series.Blocks, forecast.RainBlock{
			Start: hs[i].Start, End: hs[i].Start.Add(time.Duration(j-i) * time.Hour), Prob: highestChance(hs[i:j])})
		i = j
	}
}

// cutBlock divides the block that now lies in, at the full hour, by the shares
// of its hours.
func (a *adapter) cutBlock(now time.Time) {
	now = now.UTC().Truncate(time.Hour)
	for i, b := range a.series.Blocks {
		if !now.After(b.Start) || !now.Before(b.End) {
			continue
		}
		first, _ := a.series.Index(b.Start)
		middle, _ := a.series.Index(now)
		last, _ := a.series.Index(b.End.Add(-1))
		hs := a.series.Hours
		over, left := b, b
		over.End, left.Start = now, now
		over.Prob, left.Prob = highestChance(hs[first:middle]), highestChance(hs[middle:last+1])
		if mm, ok := b.Amount.Get(); ok {
			gone := 0.0
			for _, h := range hs[first:middle] {
				gone += h.Rain.Or(0)
			}
			over.Amount, left.Amount = forecast.Known(min(gone, mm)), forecast.Known(max(0, mm-gone))
		}
		rest := append([]forecast.RainBlock{over, left}, a.series.Blocks[i+1:]...)
		a.series.Blocks = append(a.series.Blocks[:i:i], rest...)
		return
	}
}
