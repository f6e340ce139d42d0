package risk

import (
	"math"
	"time"

	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// openHours bounds the hours in which one flower is open.
const openHours = 16

// handShare is how near to the best an hour must come to be advised: nine
// tenths of it. [chosen, status chosen]
const handShare = 0.9

// insectModel is one planting of a crop that insects pollinate, compiled.
type insectModel struct {
	c         *crop.Crop
	clock     *crop.Window // the crop's, or that of the species
	ageing    pollen.Ageing
	bees      supply
	set       [bee.Groups]hits    // chance that one visit sets a fruit
	full      [bee.Groups]float64 // grains of one visit as a share of what a full fruit takes
	handShare float64             // flowers that a brush sets at its best, by trials and the diary, 0..1
	seeds     float64             // exponent of full seed per need of a full fruit
	rise      [2]form             // of set and of full fruit
}

// hits is the chance 1 - exp(-a q) that one visit sets a fruit at quality q
// (0..1), tabled: a line between 65 points is within a*a/32768 of it.
type hits [65]float64

func newHits(a float64) (h hits) {
	for i := range h {
		h[i] = 1 - math.Exp(-a*float64(i)/64)
	}
	return h
}

func (h *hits) at(q float64) float64 {
	x := q * 64
	i := int(x)
	if i >= 64 {
		return h[64]
	}
	return h[i] + (x-float64(i))*(h[i+1]-h[i])
}

func newInsectModel(c *crop.Crop, b Bees, l *Learned, known *[]law) *insectModel {
	m := &insectModel{c: c, clock: &c.Window, ageing: pollen.Ageing{Rate: c.Pollen.AgeRate, Threshold: c.Pollen.AgeThreshold}, bees: newSupply(c, b, l, known), handShare: handSet(c) * l.handShare()}
	m.rise = [2]form{anyVisit, wholeNeed}
	need := fullShare * c.Need.Set
	if c.Need.Straight { // no fruit is misshapen for want of visits: it is there or not [Walt05, status read]
		m.rise, need = [2]form{straight, straight}, c.Need.Set
	}
	for g, data := range [bee.Groups]*crop.Group{c.Bees.Honey, c.Bees.Bumble, c.Bees.Squash} {
		if data == nil {
			m.bees.rate[g] = 0
			continue
		}
		m.set[g] = newHits(3 * data.GrainsPerVisit / c.Need.Set) // need is for 95 % set: 1 - exp(-3) = 0.95 [Ali14, status read] obeys the form
		m.full[g] = data.GrainsPerVisit / need
	}
	m.seeds = 3 * need / c.Need.Set / c.Need.FillFactor
	return m
}

// flowerBase is one hour of the flower in one sky: what holds in every world.
type flowerBase struct {
	open, alive, heat, tube, receptive, offer float64
	stay                                      float64 // visits still paid, of those to a flower with all its pollen
	age                                       float64
	quality                                   float64 // alive * heat * tube * receptive
	set                                       [bee.Groups]float64
}

// flowerDay is a flower's day in one sky.
type flowerDay struct {
	first, n      int // frame hours
	opens, closes float64
	hour          [openHours]flowerBase
}

// scratch is what a day of a planting is worked out in, reused from day to day.
type scratch struct {
	sky [2]flowerDay
	mix [2]mixture
}

// window finds when the flower opens: at its hour after sunrise or in the first
// later hour that is warm enough. ok is false when it stays shut.
func (m *insectModel) window(f *frame, hours []air.Hour, d *flowerDay) (ok bool) {
	d.opens = f.sunrise + m.clock.Opens
	d.closes = min(f.sunrise+m.clock.Closes, float64(f.n))
	i := max(0, int(math.Floor(d.opens)))
	for i < f.n && hours[i].T < m.clock.OpensAtTemp {
		i++
	}
	d.opens = max(d.opens, float64(i))
	if d.opens >= d.closes {
		return false
	}
	d.first = int(d.opens)
	d.n = min(int(math.Ceil(d.closes))-d.first, openHours, f.n-d.first)
	return d.n > 0
}

// day works out the flower's hours in one sky.
func (m *insectModel) day(f *frame, hours []air.Hour, d *flowerDay) {
	w := m.clock
	hot := 0.0
	if !w.HotDay.Empty() {
		hot = w.HotDay.At(f.tmax)
	}
	age, still := 0.0, 1.0
	// A flower that cold opens late is as young as one that opened on time: its
	// curves start when it opens. [chosen, status chosen] the curves are published
	// for mornings on which flowers open by the clock.
	late := d.opens - (f.sunrise + w.Opens)
	for k := range d.n {
		i := d.first + k
		h, b := &hours[i], &d.hour[k]
		t := float64(i) + 0.5 - f.sunrise - late
		part := min(float64(i)+1, d.closes) - max(float64(i), d.opens)
		if !w.CloseHeat.Empty() && t > w.CloseHeatAfter {
			still = min(still, w.CloseHeat.At(h.T)) // once shut it stays shut [RDW97]
		}
		b.open = part * still
		speed := m.ageing.Speed(h.VPD, m.c.Pollen.Coupling)
		b.age = age + speed*part/2 // mid-hour
		age += speed * part
		b.alive = pollen.Viability(b.age)
		b.heat = pollen.HeatShare(h.T, m.c.Pollen.HeatFull, m.c.Pollen.HeatNil)
		b.tube = m.tube(hours, i)
		b.receptive = w.Receptive.At(t)
		if hot > 0 {
			b.receptive += hot * (w.ReceptiveHot.At(t) - b.receptive)
		}
		b.offer = w.Offer.At(t)
		b.quality = b.alive * b.heat * b.tube * b.receptive
		b.stay = m.staying(b.offer)
		m.visit(b, &b.set, b.quality*b.offer/b.stay)
	}
}

// staying gives the share of visits still paid once so much pollen is on offer: who
// gathers pollen leaves with it. What is brought follows the offer, so each of the
// fewer visits brings the more.
func (m *insectModel) staying(offer float64) float64 {
	return m.c.Bees.Stay + (1-m.c.Bees.Stay)*offer
}

// visit gives the chance that one visit of each group sets a fruit at quality q.
func (m *insectModel) visit(b *flowerBase, set *[bee.Groups]float64, q float64) {
	if q <= 0 || b.open <= 0 {
		*set = [bee.Groups]float64{}
		return
	}
	for g := range bee.Groups {
		if m.bees.rate[g] > 0 {
			set[g] = m.set[g].at(q)
		}
	}
}

// tube gives the share that heat in the hours after deposit leaves of the
// tubes' growth. Hours beyond the series count as those within.
func (m *insectModel) tube(hours []air.Hour, i int) float64 {
	p := &m.c.Pollen
	if p.TubeNil <= p.TubeFull {
		return 1
	}
	sum, n := 0.0, 0
	for j := i + 1; j < len(hours) && j <= i+int(p.TubeHours); j++ {
		sum += pollen.HeatShare(hours[j].T, p.TubeFull, p.TubeNil)
		n++
	}
	if n == 0 {
		return 1
	}
	return sum / float64(n)
}

// judge works out the verdict for one day into out; scratch and slab are the
// caller's, so that nothing is allocated here.
func (m *insectModel) judge(f *frame, scratch *scratch, out *PlantingDay, slab []FlowerHour) {
	skies := 1
	if f.missing != 0 {
		skies = 2
	}
	shut := 0
	for x := range skies {
		if !m.window(f, f.hours[x], &scratch.sky[x]) {
			scratch.sky[x].n = 0
			shut++
			continue
		}
		m.day(f, f.hours[x], &scratch.sky[x])
	}
	out.BestHour = -1
	if shut == skies {
		out.State = StaysShut
		return
	}
	main := &scratch.sky[0]
	if main.n == 0 {
		main = &scratch.sky[skies-1]
	}
	out.Opens = f.at(main.opens)
	out.Closes = f.at(main.closes)
	out.Hours = slab[:main.n]
	m.expect(f, scratch, main, out)
	m.bestHours(out)
	m.mix(f, scratch, main, out)
}

// expect fills the hours with what is expected over the worlds.
func (m *insectModel) expect(f *frame, scratch *scratch, main *flowerDay, out *PlantingDay) {
	for k := range out.Hours {
		i := main.first + k
		b, h := &main.hour[k], &out.Hours[k]
		*h = FlowerHour{Start: f.starts[i].Start, Open: b.open, Alive: b.alive, Heat: b.heat,
			Tube: b.tube, Receptive: b.receptive, Offer: b.offer, Age: b.age, Air: &f.hours[air.Kind][i]}
		for j := range f.worlds {
			w := &f.worlds[j]
			h.Dry += w.weight * w.dry[i]
			if w.rain[i] > pollen.RainStops {
				h.Wet += w.weight
			}
			for g := range bee.Groups {
				h.Flight[g] += w.weight * w.flight[g][i]
			}
			h.Hand += w.weight * m.handShare * handIn(w, &scratch.sky[w.doubt], i, f.n)
		}
	}
}

// handIn gives the share that a brush in frame hour i sets in one world: it
// needs live pollen, a taking stigma, and a next hour without rain.
func handIn(w *world, d *flowerDay, i, n int) float64 {
	k := i - d.first
	if k < 0 || k >= d.n {
		return 0
	}
	if i+1 < n && w.rain[i+1] > pollen.RainStops {
		return 0
	}
	b := &d.hour[k]
	if b.open < 0.5 {
		return 0
	}
	return b.quality * w.dry[i]
}

// bestHours finds the earliest hour within a thousandth of the best for the
// brush and the run of hours around it that comes near it.
func (m *insectModel) bestHours(out *PlantingDay) {
	best := 0.0
	for k := range out.Hours {
		best = max(best, out.Hours[k].Hand)
	}
	if best <= 0 {
		return
	}
	k := 0
	for out.Hours[k].Hand < best*0.999 {
		k++
	}
	out.BestHour, out.BestShare = k, out.Hours[k].Hand
	lo, hi := k, k
	for lo > 0 && out.Hours[lo-1].Hand >= handShare*best {
		lo--
	}
	for hi+1 < len(out.Hours) && out.Hours[hi+1].Hand >= handShare*best {
		hi++
	}
	from, to := out.Hours[lo].Start, out.Hours[hi].Start.Add(time.Hour)
	if from.Before(out.Opens) {
		from = out.Opens
	}
	if to.After(out.Closes) {
		to = out.Closes
	}
	// The practice's limit after opening holds where the best hour lies within it.
	if h, ok := m.c.Hand.WithinOpening.Get(); ok {
		if end := out.Opens.Add(time.Duration(h * float64(time.Hour))); end.After(out.Hours[k].Start.Add(30*time.Minute)) && end.Before(to) {
			to = end
		}
	}
	out.BrushSpan = [2]time.Time{clock(from.Add(4 * time.Minute)), clock(to)}
}

// clock cuts an instant to five minutes, as one reads a clock.
func clock(t time.Time) time.Time { return t.Truncate(5 * time.Minute) }

// mix sums the visits of each world and gives the ranges.
func (m *insectModel) mix(f *frame, scratch *scratch, main *flowerDay, out *PlantingDay) {
	set, fill := scratch.mix[0].reset(m.rise[0]), scratch.mix[1].reset(m.rise[1])
	total := 0.0
	best := -1
	if out.BestHour >= 0 {
		best = main.first + out.BestHour
	}
	for j := range f.worlds {
		w := &f.worlds[j]
		d := &scratch.sky[w.doubt]
		v := m.world(f, w, d, main, out.Hours)
		hand := 0.0
		if best >= 0 {
			hand = m.handShare * handIn(w, d, best, f.n)
		}
		if m.rise[0] == straight {
			set.add(w.weight, v.needs, v.portion(), hand)
		} else {
			set.add(w.weight, v.set, 0, hand)
		}
		fill.add(w.weight, v.needs, v.portion(), hand)
		total += w.weight * v.needs
		out.Seeds += w.weight * (1 - math.Exp(-m.seeds*v.needs))
		out.Visits += w.weight * v.visits
		out.look.got += w.weight * v.needs
		out.look.unit += w.weight * v.portion()
		out.look.form = m.rise[1]
	}
	out.Set, out.BothSet = set.ranges(&m.bees)
	out.Fill, out.Both = fill.ranges(&m.bees)
	if total > 0 {
		for k := range out.Hours {
			out.Hours[k].Bees /= total
		}
	}
}

// fullShare is what a well-shaped fruit takes, as a share of the need for 95 %
// set: the low end of the 8 to 12 visits for marketable cucumbers, whose middle
// is the need. [MSU19, status derived]
const fullShare = 0.8
