package assemble

import (
	"time"

	"dawnbrush/forecast"
)

// ChanceBlock is the length of a block that has a chance but no amount: the
// period of most rain amounts in these documents. [chosen]
const ChanceBlock = 6 * time.Hour

// addRain turns rain sums into blocks and into shares of the hours. The shares
// follow the hourly chance of rain where every hour of the block has one, and
// are equal otherwise; they always add up to the block.
func (b *Builder) addRain() {
	for _, sp := range b.rain {
		sp.Start, sp.End = b.clip(sp)
		mm, ok := sp.Value.Get()
		if !ok || !sp.End.After(sp.Start) {
			continue
		}
		first, _ := b.series.Index(sp.Start)
		last, _ := b.series.Index(sp.End.Add(-1))
		hours := b.series.Hours[first : last+1]
		weights, sum := weigh(hours, sp)
		for i := range hours {
			hours[i].Rain = forecast.Known(hours[i].Rain.Or(0) + mm*weights[i]/sum)
		}
		if b.origin(hours[0].Start) == forecast.OriginForecast {
			b.series.Blocks = append(b.series.Blocks, forecast.RainBlock{
				Start: sp.Start, End: sp.End, Amount: sp.Value, Prob: highestChance(hours)})
		}
	}
}

// weigh gives the weight of each hour in a rain sum: its chance of rain, or one
// where an hour has none or all are nil, times the part that the interval covers.
func weigh(hours []forecast.Hour, sp Span) (weights []float64, sum float64) {
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
func (b *Builder) clip(sp Span) (start, end time.Time) {
	start, end = sp.Start, sp.End
	if start.Before(b.series.Start()) {
		start = b.series.Start()
	}
	if end.After(b.series.End()) {
		end = b.series.End()
	}
	return start, end
}

// overlap gives the share of the hour that the interval covers.
func overlap(hour time.Time, sp Span) float64 {
	from, to := hour, hour.Add(time.Hour)
	if sp.Start.After(from) {
		from = sp.Start
	}
	if sp.End.Before(to) {
		to = sp.End
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
// most ChanceBlock long and counted from where the amounts stop.
func (b *Builder) addChances() {
	hs := b.series.Hours
	for i := 0; i < len(hs); {
		if hs[i].Rain.IsKnown() || !hs[i].RainProb.IsKnown() {
			i++
			continue
		}
		j := i + 1
		for j < len(hs) && hs[j].Start.Sub(hs[i].Start) < ChanceBlock && !hs[j].Rain.IsKnown() && hs[j].RainProb.IsKnown() {
			j++
		}
		b.series.Blocks = append(b.series.Blocks, forecast.RainBlock{
			Start: hs[i].Start, End: hs[i].Start.Add(time.Duration(j-i) * time.Hour), Prob: highestChance(hs[i:j])})
		i = j
	}
}

// cutBlock divides the block that now lies in, at the full hour, by the shares
// of its hours.
func (b *Builder) cutBlock(now time.Time) {
	now = now.UTC().Truncate(time.Hour)
	for i, x := range b.series.Blocks {
		if !now.After(x.Start) || !now.Before(x.End) {
			continue
		}
		first, _ := b.series.Index(x.Start)
		middle, _ := b.series.Index(now)
		last, _ := b.series.Index(x.End.Add(-1))
		hs := b.series.Hours
		over, left := x, x
		over.End, left.Start = now, now
		over.Prob, left.Prob = highestChance(hs[first:middle]), highestChance(hs[middle:last+1])
		if mm, ok := x.Amount.Get(); ok {
			gone := 0.0
			for _, h := range hs[first:middle] {
				gone += h.Rain.Or(0)
			}
			over.Amount, left.Amount = forecast.Known(min(gone, mm)), forecast.Known(max(0, mm-gone))
		}
		rest := append([]forecast.RainBlock{over, left}, b.series.Blocks[i+1:]...)
		b.series.Blocks = append(b.series.Blocks[:i:i], rest...)
		return
	}
}
