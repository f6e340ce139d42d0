package risk

import "time"

// leastShake is the share of a good day's pollen that shaking must win to be
// asked for. [chosen, status chosen] under a twentieth nobody would see it.
const leastShake = 0.05

// leastKernels is the share of kernels that shaking must win to be asked for where the
// first silk was seen. [chosen, status chosen] 25 of an ear's 500 are half an inch of tip.
const leastKernels = 0.05

// corn asks to shake tassels where the block is small or the air too still.
func (p *planner) corn(d *Day, pd *PlantingDay, t Task) []Task {
	t.Flowers = 0
	if pd.State == OtherAir || pd.State == NoTemperature || pd.State == NoSun {
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseUnknown}, Unsure
		switch pd.State {
		case OtherAir:
			t.Causes = []Cause{CauseOtherAir}
		case NoSun:
			t.Causes = []Cause{CauseNoSun}
		}
		return []Task{t}
	}
	if pd.State == SilksTooOld {
		t.Kind, t.Causes = NothingToGain, []Cause{CauseOldSilks}
		return []Task{t}
	}
	if p.over(d.Date, pd.Closes) {
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseOver}, VerySure
		return []Task{t}
	}
	small := pd.fewFor()
	calm := pd.Both.Mid-pd.Fill.Mid/pd.rowsShare() > 0.1 // what few rows cost is no want of wind
	around, all := p.shedSum(d, pd)
	switch {
	case pd.BestHour < 0 || pd.BestShare < hopeless:
		t.Kind = NothingToGain
		switch {
		case pd.has(HotPollen):
			t.Causes = append(t.Causes, CauseHotPollen)
		case pd.has(DampAir):
			t.Causes = append(t.Causes, CauseDampAir)
		default:
			t.Causes = append(t.Causes, CauseRainAhead)
		}
		return []Task{t}
	case pd.Ears.Known && pd.Ears.Wins() < leastKernels:
		t.Kind = LeaveToBees
		if pd.Ears.Dark == 0 && pd.Ears.winsMost() < leastKernels {
			t.Sure = VerySure
		}
		return []Task{t}
	case !pd.Ears.Known && !small && (!calm || around >= pd.Planting.Crop.Corn.GoodDays):
		t.Kind = LeaveToBees
		if calm && all {
			t.Sure = VerySure
		}
		return []Task{t}
	}
	if won := pd.Both.Mid - pd.Fill.Mid; !pd.Ears.Known && won < leastShake {
		t.Kind = LeaveToBees
		if pd.Fill.Mid < hopeless*2 && pd.has(HotPollen) {
			t.Kind, t.Causes = NothingToGain, []Cause{CauseHotPollen}
		}
		return []Task{t}
	}
	t.Kind = ShakeTassels
	if small {
		t.Causes = append(t.Causes, CauseSmallBlock)
	}
	if calm {
		t.Causes = append(t.Causes, CauseCalm)
	}
	from, to, ok := p.workable(d.Date, pd.BrushSpan[0], pd.BrushSpan[1])
	if !ok {
		t.Kind, t.Causes = LeaveToBees, []Cause{CauseOutsideHours}
		return []Task{t}
	}
	t.From, t.To, t.Minutes = from, to, 10
	t.Gain = pd.Both.Mid - pd.Fill.Mid
	if pd.Ears.Known {
		t.Gain = pd.Ears.Wins()
	}
	return []Task{t}
}

// selfing asks to tap trusses where the air is still or a roof keeps wind and
// bees out; a crop that pollinates itself in the bud is left alone.
func (p *planner) selfing(d *Day, pd *PlantingDay, t Task) []Task {
	t.Flowers = 0
	s := pd.Planting.Crop.Self
	from, to := d.Date.At(s.Tap.Low, p.zone), d.Date.At(s.Tap.High, p.zone)
	switch {
	case pd.State == OtherAir && d.Weather.Over105: // it is no cooler under a roof [Savage80, status read]
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseHotPollen, CauseOtherAir}, Unsure
		return []Task{t}
	case pd.State == OtherAir && (pd.HotOutside || pd.Factor.Or(1) < hopeless*2):
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseHotDays, CauseOtherAir}, Likely
		return []Task{t}
	case pd.State == OtherAir && !s.Tapped():
		t.Kind, t.Causes, t.Sure = LeaveToBees, []Cause{CauseOtherAir}, Unsure
		return []Task{t}
	case pd.State == OtherAir:
		t.Causes = []Cause{CauseOtherAir}
	case pd.State == NoTemperature || pd.State == NoSun || pd.State == StaysShut:
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseUnknown}, Unsure
		if pd.State == NoSun {
			t.Causes = []Cause{CauseNoSun}
		}
		return []Task{t}
	case p.over(d.Date, pd.Closes):
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseOver}, VerySure
		return []Task{t}
	case pd.Factor.IsKnown() && pd.Factor.Or(1) < hopeless*2:
		t.Kind, t.Causes = NothingToGain, []Cause{CauseHotDays}
		return []Task{t}
	case pd.BestHour < 0 && s.Tapped():
		t.Kind, t.Causes = NothingToGain, []Cause{CauseRainAhead}
		return []Task{t}
	case !s.Tapped() || pd.Both.Mid-pd.Set.Mid < 0.1:
		t.Kind = LeaveToBees
		if pd.State == HistoryUnknown {
			t.Causes = []Cause{CauseHistory}
		}
		return []Task{t}
	default:
		from, to = pd.BrushSpan[0], pd.BrushSpan[1]
		t.Causes = []Cause{CauseCalm}
	}
	if pd.State == HistoryUnknown {
		t.Causes = append(t.Causes, CauseHistory)
	}
	t.Kind, t.Minutes = TapTrusses, 5
	a, b, ok := p.workable(d.Date, from, to)
	if !ok { // better late in the day than not: trusses shed while it is dry
		a, b, ok = p.workable(d.Date, d.Date.At(s.ShedFrom, p.zone), d.Date.At(s.ShedTo, p.zone))
		t.Second = ok
	}
	if !ok {
		t.Kind, t.Causes = LeaveToBees, append([]Cause{CauseOutsideHours}, t.Causes...)
		return []Task{t}
	}
	if max := a.Add(2 * time.Hour); b.After(max) {
		b = max
	}
	t.From, t.To = a, b
	t.Gain = pd.Both.Mid - pd.Set.Mid
	return []Task{t}
}

// shedSum adds up the most good pollen that the days around d can bring whose silks
// are the same: silks take pollen for days, so one poor morning spoils no ear. A day
// whose weather is not held may be a good one.
func (p *planner) shedSum(d *Day, pd *PlantingDay) (sum float64, all bool) {
	all = true
	reach := int(pd.Planting.Crop.Corn.SilkDays) / 2
	for n := -reach; n <= reach; n++ {
		o, held := p.a.Day(d.Date.AddDays(n))
		if !held {
			sum, all = sum+1, false
			continue
		}
		for k := range o.Plantings {
			if q := &o.Plantings[k]; q.Planting == pd.Planting && q.Bloom.open() {
				sum += q.Fill.Mid
			}
		}
	}
	return sum, all
}
