package risk

import (
	"math"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// How far sums of degree days to a first flower stray, as standard deviations of
// their logarithm, which are shares.
const (
	sumNoise   = 0.07 // of plantings of one cultivar in one garden [chosen, status chosen] between the 5 % to which such sums are called steady and the 10 % of the book's slack
	sumBetween = 0.10 // of cultivars of one kind [chosen, status chosen] growth takes the same slack for the book
	sumBook    = 0.10 // of a garden from the book [chosen, status chosen] the same
)

// FirstFlower is a first flower that was seen and the warmth it took.
type FirstFlower struct {
	Planting *Planting
	Female   bool
	Seen     forecast.Date
	Sum      float64 // degC days since sowing by the crop's way of reckoning; 0 where Why says why it is not known
	Why      string
}

// firstFlowers reckons the warmth of every first flower that was seen up to a day.
// A count of open flowers dates bloom but is no first flower, so it is left out.
func firstFlowers(g *Garden, entries []memory.Entry, today forecast.Date, days []growth.Day) []FirstFlower {
	var out []FirstFlower
	for i := range g.Plantings {
		p := &g.Plantings[i]
		for _, f := range []struct {
			female bool
			seen   forecast.Date
		}{{false, p.FirstMale}, {true, p.FirstFemale}} {
			if f.seen.IsZero() || f.seen.After(today) || f.female && onlyCounted(p, entries) || !f.female && !p.Crop.Flowers.MalesApart() {
				continue
			}
			x := FirstFlower{Planting: p, Female: f.female, Seen: f.seen}
			sum, err := growth.SumTo(p.Crop.Phenology, p.Species, p.Sown, f.seen, days)
			if x.Sum = sum; err != nil {
				x.Why = err.Error()
			}
			out = append(out, x)
		}
	}
	return out
}

// onlyCounted tells whether a planting's first female flower is only that of the
// first count of open ones.
func onlyCounted(p *Planting, entries []memory.Entry) bool {
	counted := false
	for i := range entries {
		e := &entries[i]
		if e.Planting != p.Name || e.Date != p.FirstFemale {
			continue
		}
		if e.Kind == memory.First && e.Sex != "male" {
			return false
		}
		counted = counted || e.Kind == memory.Opened
	}
	return counted
}

// sumOf gives what the garden's first flowers make of the sum of a crop's cultivar:
// those of the cultivar stray by sumNoise around it; the mean of another cultivar's,
// besides, by the difference of two cultivars. Known is false without any of the
// crop. Counted are the flowers it rests on.
func sumOf(seen []FirstFlower, c *crop.Crop, species, cultivar string, female bool) (belief memory.Normal, counted int) {
	book, femaleBook := growth.BookSum(c.Phenology, species)
	if female {
		book = femaleBook
	}
	if b, known := book.Get(); known && b > 0 {
		belief = memory.Around(math.Log(b), sumBook)
	}
	type others struct {
		sum float64
		n   int
	}
	rest := map[string]others{}
	var order []string
	for i := range seen {
		x := &seen[i]
		if x.Sum <= 0 || x.Female != female || x.Planting.Crop != c || x.Planting.Species != species {
			continue
		}
		counted++
		if name := cultivarKey(x.Planting.Cultivar); name != cultivarKey(cultivar) {
			o := rest[name]
			if o.n == 0 {
				order = append(order, name)
			}
			rest[name] = others{o.sum + math.Log(x.Sum), o.n + 1}
			continue
		}
		belief = belief.Update(math.Log(x.Sum), sumNoise)
	}
	for _, name := range order {
		o := rest[name]
		belief = belief.Update(o.sum/float64(o.n), math.Sqrt(2*sumBetween*sumBetween+sumNoise*sumNoise/float64(o.n)))
	}
	return belief, counted
}

// cultivarKey makes one word of the ways to write a cultivar. Plantings without one
// are of one unnamed cultivar.
func cultivarKey(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// tenth is the number of standard deviations that leave one in ten on either side.
const tenth = 1.2815515655446004 // [AS64 eq 26.2.23, status derived]

// sum gives the law of the next planting of a cultivar; zero where no first flower
// of the crop was seen.
func (l *Learned) sum(p *Planting, female bool) growth.Sum {
	if len(l.First) == 0 {
		return growth.Sum{}
	}
	belief, n := sumOf(l.First, p.Crop, p.Species, p.Cultivar, female)
	if n == 0 {
		return growth.Sum{}
	}
	spread := tenth * math.Hypot(belief.SD(), sumNoise)
	return growth.Sum{Middle: math.Exp(belief.Mean), Low: math.Exp(belief.Mean - spread), High: math.Exp(belief.Mean + spread), Plantings: n}
}

// CultivarView is what the diary tells of a cultivar beside others of its crop.
type CultivarView struct {
	Crop     *crop.Crop
	Species  string
	Cultivar string // as first written; "" for plantings without one
	Female   growth.Sum
	Sum      memory.Normal // of the logarithm of the sum, by its own first flowers alone; not known without any
	Seen     int           // first female flowers of its own
	Shares   memory.Shares // of flowers that set
}

// Cultivars lists the cultivars of which first female flowers or counts of set are
// known, in the garden's order. Entries are current ones.
func (l *Learned) Cultivars(g *Garden, entries []memory.Entry) []CultivarView {
	var out []CultivarView
	trials := memory.Trials(entries)
	done := map[string]bool{}
	for i := range g.Plantings {
		p := &g.Plantings[i]
		key := p.Crop.Key + "\x00" + p.Species + "\x00" + cultivarKey(p.Cultivar)
		if done[key] {
			continue
		}
		done[key] = true
		v := CultivarView{Crop: p.Crop, Species: p.Species, Cultivar: p.Cultivar, Female: l.sum(p, true)}
		for k := range l.First {
			if x := &l.First[k]; x.Female && x.Sum > 0 && sameCultivar(x.Planting, p) {
				v.Sum, v.Seen = v.Sum.Update(math.Log(x.Sum), sumNoise), v.Seen+1
			}
		}
		var own []memory.Trial
		for _, t := range trials {
			if k := plantingIndex(g, t.Planting); k >= 0 && sameCultivar(&g.Plantings[k], p) {
				own = append(own, t)
			}
		}
		v.Shares = memory.Compare(own, "", 0.5, handBook)
		if v.Seen > 0 || len(own) > 0 {
			out = append(out, v)
		}
	}
	return out
}

func plantingIndex(g *Garden, name string) int {
	for i := range g.Plantings {
		if g.Plantings[i].Name == name {
			return i
		}
	}
	return -1
}

func sameCultivar(a, b *Planting) bool {
	return a.Crop == b.Crop && a.Species == b.Species && cultivarKey(a.Cultivar) == cultivarKey(b.Cultivar)
}

// Teaches tells whether any first flower was seen that another planting can learn
// from or be compared with: without, no history is read.
func Teaches(g *Garden) bool {
	for i := range g.Plantings {
		if p := &g.Plantings[i]; !p.Sown.IsZero() && (!p.FirstFemale.IsZero() || !p.FirstMale.IsZero()) {
			return true
		}
	}
	return false
}
