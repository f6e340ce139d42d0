package growth

import (
	"fmt"
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// How the spread of a book's range, as a variance, is shared out. A range holds
// gardens, cultivars and sowings together; each of the last two alone fills it:
// 866 cucumbers in one trial took 26 to 45 days, and one squash cultivar's sowings
// lay up to 20 days apart, as wide as the crop file's range.
// [RDW97, status read] [NeSmith94]
const (
	gardenShare   = 0.2 // [chosen: less than either, for the grower sows when the books say]
	cultivarShare = 0.4 // [chosen: as much as the sowings]
	sowingShare   = 0.4 // [chosen: as much as the cultivars]
)

const (
	// sumSpread is the spread of a published sum's logarithm: sumSlack either way
	// read as the middle 90 %.
	sumSpread = 2 * sumSlack / bothTails // [chosen: the same tenth that dates from sums allow]

	// climateSpread is how far the warmth of a garden's sowings strays from that
	// behind the book's days, in the logarithm: rateSlack read the same way.
	climateSpread = 2 * rateSlack / bothTails // [chosen: the same fifth that dates allow for the warmth to come]
)

// Norm is a number of the book and what the garden's sightings make of it. Ranges
// are the middle 90 % of the next planting.
type Norm struct {
	Book   crop.Range // zero where the book has none
	Garden crop.Range // zero where nothing was learned
	Mid    float64    // median of Garden
	N, Own int        // sightings used; of them, of the planting's own cultivar
	levels memory.Levels
	sowing float64 // how far a sowing strays from its cultivar, in the logarithm
	law    memory.Normal
	fit    *memory.Fit
}

// Learned tells whether a sighting has changed the book's number.
func (n *Norm) Learned() bool { return n.N > 0 }

// Norms are those of one first flower of a cultivar: its degree days (degC day
// from sowing) and its days from sowing.
type Norms struct{ Sum, Days Norm }

// NormsOf works out what sightings teach about a cultivar's first flower: of its own
// cultivar fully, of others of the crop (of the same species, where it has several)
// less. All sightings must be of the crop.
func NormsOf(ph crop.Phenology, species, cultivar string, sex Sex, sightings []Sighting) Norms {
	var of []Sighting
	for _, s := range sightings {
		if s.Sex == sex && s.Species == species && s.Fault.Teaches() {
			of = append(of, s)
		}
	}
	book := spanOf(ph, Planting{}, sex).days
	published, slack := bookSum(ph, species, sex)
	out := Norms{Sum: Norm{Book: slack}, Days: Norm{Book: book}}
	mid, sd := middle(book)
	if len(of) == 0 || mid == 0 {
		return out
	}
	levels := memory.Levels{Mean: math.Log(mid), Garden: sd * math.Sqrt(gardenShare), Cultivar: sd * math.Sqrt(cultivarShare)}
	sowing := sd * math.Sqrt(sowingShare)
	out.Days.levels, out.Days.sowing = levels, sowing
	out.Days.learn(cultivar, out.Days.seen(of), of)
	out.Sum.learnSum(published, mid, sd, cultivar, of)
	return out
}

// seen gives the sightings' days on the scale of the book's days from sowing:
// where the book has other days from transplanting, as far above or below.
func (n *Norm) seen(of []Sighting) []memory.Seen {
	var out []memory.Seen
	for _, s := range of {
		shift, sd := n.scale(s.Book, s.Aged)
		out = append(out, memory.Seen{Cultivar: key(s.Cultivar), Value: math.Log(s.Days) - shift, SD: sd})
	}
	return out
}

// scale gives how far the logarithm of days under a book range lies from those
// under the norm's own, and how far one sowing strays under it: what a wider range
// holds beyond gardens and cultivars is the sowing's.
func (n *Norm) scale(book crop.Range, aged float64) (shift, sd float64) {
	mid, wide := middle(book)
	l := n.levels
	sowing := math.Sqrt(math.Max(n.sowing*n.sowing, wide*wide-l.Garden*l.Garden-l.Cultivar*l.Cultivar))
	return math.Log(mid) - l.Mean, math.Hypot(sowing, aged)
}

// after gives the days of a planting from the start of its span, the middle 90 %.
func (n *Norm) after(b span) crop.Range {
	shift, sd := n.scale(b.days, b.aged)
	next := n.law.Plus(memory.Normal{Mean: shift, SD: sd})
	return crop.Range{Low: math.Exp(next.Quantile(0.05)), High: math.Exp(next.Quantile(0.95))}
}

// learnSum learns degree days. A published sum is the prior where there is one,
// and days without temperatures then count as so much more or less of it. Else the
// prior is the book's days at the mean warmth of the days of the sightings.
func (n *Norm) learnSum(published, mid, sd float64, cultivar string, of []Sighting) {
	var seen []memory.Seen
	var used []Sighting
	sum, days := 0.0, 0.0
	for _, s := range of {
		if v, ok := s.Sum.Get(); ok {
			seen, used = append(seen, memory.Seen{Cultivar: key(s.Cultivar), Value: math.Log(v)}), append(used, s)
			sum, days = sum+v, days+s.Days
		} else if m, wide := middle(s.Book); published > 0 {
			seen = append(seen, memory.Seen{Cultivar: key(s.Cultivar), Value: math.Log(published * s.Days / m),
				SD: math.Sqrt(sumSpread*sumSpread*sowingShare + climateSpread*climateSpread + wide*wide*sowingShare + s.Aged*s.Aged)})
			used = append(used, s)
		}
	}
	if len(used) == 0 {
		return
	}
	n.levels = memory.Levels{Mean: math.Log(published), Garden: sumSpread * math.Sqrt(gardenShare), Cultivar: sumSpread * math.Sqrt(cultivarShare)}
	n.sowing = sumSpread * math.Sqrt(sowingShare)
	if published == 0 {
		n.levels = memory.Levels{Mean: math.Log(mid * sum / days), Garden: math.Hypot(sd*math.Sqrt(gardenShare), climateSpread), Cultivar: sd * math.Sqrt(cultivarShare)}
		n.sowing = sumSpread // sums were steadier than days over ten sowings of cucumber [WehGun04]
	}
	for i := range seen {
		if seen[i].SD == 0 {
			seen[i].SD = n.sowing
		}
	}
	n.learn(cultivar, seen, used)
}

// learn fills the norm from readings.
func (n *Norm) learn(cultivar string, seen []memory.Seen, of []Sighting) {
	n.fit, n.N = n.levels.Learn(seen), len(of)
	for _, s := range of {
		if SameCultivar(s.Cultivar, cultivar) {
			n.Own++
		}
	}
	n.law = n.fit.Of(key(cultivar))
	next := n.law.Plus(memory.Normal{SD: n.sowing}) // a planting to come strays as well
	n.Garden = crop.Range{Low: math.Exp(next.Quantile(0.05)), High: math.Exp(next.Quantile(0.95))}
	n.Mid = math.Exp(next.Mean)
}

// by tells, for the words of a date, that the garden and not the book speaks.
func (n *Norm) by() string {
	if n.N == 1 {
		return ", by one first flower of this garden"
	}
	return fmt.Sprintf(", by %d first flowers of this garden", n.N)
}

// Cultivar gives the middle and the middle 90 % of what the cultivar itself takes,
// without the straying of single sowings.
func (n *Norm) Cultivar() (mid float64, r crop.Range) {
	return math.Exp(n.law.Mean), crop.Range{Low: math.Exp(n.law.Quantile(0.05)), High: math.Exp(n.law.Quantile(0.95))}
}

// Earlier gives the chance that cultivar a takes less than b.
func (n *Norm) Earlier(a, b string) float64 {
	if n.fit == nil {
		return 0.5
	}
	d := n.fit.Less(key(a), key(b))
	return d.Under(0)
}

// bookSum gives a published sum (degC day) and its slack; zero where there is none.
func bookSum(ph crop.Phenology, species string, sex Sex) (float64, crop.Range) {
	dd, ok := degreeDaysOf(ph, species)
	v, known := sumTold(dd, sex).Get()
	if !ok || !known || v <= 0 {
		return 0, crop.Range{}
	}
	return v, crop.Range{Low: v * (1 - sumSlack), High: v * (1 + sumSlack)}
}

// reckoning gives the way a crop's degree days are reckoned; false when it has
// none.
func reckoning(ph crop.Phenology, species string) (m Method, base, upper float64, ok bool) {
	dd, ok := degreeDaysOf(ph, species)
	if !ok {
		return 0, 0, 0, false
	}
	m, err := ParseMethod(dd.Method)
	base, known := dd.Base.Get()
	return m, base, dd.Upper.Or(math.Inf(1)), err == nil && known
}

func sumTold(dd crop.DegreeDays, sex Sex) forecast.Value {
	if sex == Male {
		return dd.ToMale
	}
	return dd.ToFemale
}
