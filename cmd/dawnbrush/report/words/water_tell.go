package words

import (
	"fmt"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water/et0"
)

// WaterNot says why a bed's water cannot be reckoned, "" where it can.
func (w Words) WaterNot(y ledger.Why) string {
	switch y {
	case ledger.Nothing:
		return "nothing grows in it"
	case ledger.NoDate:
		return "no day of sowing, planting out or first flower is told of what grows in it"
	case ledger.NoTable:
		return "no table of crops tells how much water this one takes"
	case ledger.NoWeather:
		return "not even the temperature is known"
	}
	return ""
}

// WaterStart says how full the soil was when the account began.
func (w Words) WaterStart(b ledger.StartBasis) string {
	switch b {
	case ledger.StartSown:
		return "full on the day of sowing or planting out, when it was watered in"
	case ledger.StartSoaked:
		return "full after a soaking"
	}
	return "anything between dry and full, until a soaking or a noted watering tells more"
}

// WaterUnder says what stands for the air under a bed's cover, "" under the open sky:
// "under a tunnel: 65 to 82 % of what evaporates outdoors, by papers that differ".
func (w Words) WaterUnder(b *ledger.Bed) string {
	if b.Cover == "" {
		return ""
	}
	logged, own := false, false
	for i := range b.Days {
		logged, own = logged || b.Days[i].Under.Logged, own || b.Days[i].Under.Own
	}
	s := "the air in the " + string(b.Cover) + " draws a share of what it draws outdoors, " + w.PercentNumber(forecast.Known(b.Share.Lo)) + " to " +
		w.Percent(b.Share.Hi) + " by papers that differ, for less light and wind get in; no rain does"
	if logged {
		s += ". On days that the logger tells, by its warmth and humidity, in still air under 60 to 80 % of the light"
	}
	if own {
		s += "; on the others by the share that those days had"
	}
	return s
}

// UnderCover says in short on what the litres of beds under a cover rest.
func (w Words) UnderCover() string {
	return "under a cover, by a share of outdoor evaporation; no rain counts"
}

// RainBy says who told the rain of a day, "" where that needs no word.
func (w Words) RainBy(by ledger.RainBasis) string {
	switch by {
	case ledger.RainGauge:
		return "rain gauge"
	case ledger.RainStation:
		return "measured near by"
	case ledger.RainForecast:
		return "forecast rain, not measured"
	case ledger.RainAhead:
		return "to come, by its chance"
	case ledger.RainUnknown:
		return "not known"
	case ledger.RainNone:
		return "none can fall there"
	}
	return ""
}

// RainByShort writes it for a column that a legend explains.
func (w Words) RainByShort(by ledger.RainBasis) string {
	switch by {
	case ledger.RainGauge:
		return "gauge"
	case ledger.RainStation:
		return "near by"
	case ledger.RainForecast:
		return "forecast"
	case ledger.RainUnknown:
		return Unknown
	case ledger.RainNone:
		return "roof"
	}
	return ""
}

// Pull says from what the pull of a day's air was worked out.
func (w Words) Pull(y et0.Way) string {
	switch y {
	case et0.ByHours:
		return "from warmth, humidity, wind and sun of every hour"
	case et0.ByHoursOfCloud:
		return "from warmth, humidity and wind of every hour, the sun from cloud cover"
	case et0.ByMeans:
		return "from the day's means, for some hours lack a value"
	case et0.ByTemperature:
		return "from the high and the low alone, for humidity, wind or sun are not known: less sure"
	}
	return "not known: taken from the days around, with wide doubt"
}

// Evenness says how evenly a bed was watered in the week, and what helps; "" where it
// is not known.
func (w Words) Evenness(b *risk.Bed, s ledger.Swing) string {
	if !s.Known {
		return ""
	}
	text := "this week its water swung by " + w.swung(s.Share) + " the plants can spare"
	if !s.Uneven {
		return text + ": even enough"
	}
	text += ": uneven by our own limit (no paper gives one). Uneven water is behind blossom-end rot and bent or pithy fruit: give less at once and more often"
	if b.Mulch == risk.Organic || b.Mulch == risk.Plastic {
		return text
	}
	return text + ", and mulch"
}

// Uneven says of a list of beds that their week was uneven.
func (w Words) Uneven(beds []string) string {
	return "uneven this week by our own limit: " + List(beds) + "; uneven water is behind blossom-end rot and bent or pithy fruit"
}

func (w Words) swung(x float64) string {
	switch {
	case x < 0.95:
		return w.Fraction(x) + " of what"
	case x < 1.15:
		return "all that"
	}
	return fmt.Sprintf("%.1f times what", x)
}

// brimful is the share of a full root zone from which on want begins so soon that
// the share says little. [chosen: under a fifth of it may go]
const brimful = 0.85

// Holds says how much water the roots reach when it is full, and when plants go short.
func (w Words) Holds(d *ledger.Day) string {
	s := "full, its roots reach " + w.Depth(d.TAW) + " of water; "
	if least := 1 - d.RAW/d.TAW; least < brimful {
		return s + "on a day like this plants go short when under " + w.Fraction(least) + " of it is left"
	}
	return s + "on a day like this that hardly lasts the day"
}

// Season compares what was given since the account began with the common rule of an
// inch a week, rain counted in both, and with what this account would have had given.
// Before a week is kept nothing is compared: a rule for the week says nothing of a day.
func (w Words) Season(s ledger.Season) string {
	switch {
	case s.Days <= 0 || s.Days < 7 && s.Noted:
		return ""
	case s.Days < 7:
		return "no watering is noted: " + w.NoteHint()
	}
	text := fmt.Sprintf("in %s the rule of an inch a week, rain counted, would have had you give %s, this account %s", Count(s.Days, "day", "days"), w.Litres(s.Rule), w.Litres(s.Wanted))
	if !s.Noted {
		return text + "; no watering is noted, so nothing is compared with it: " + w.NoteHint()
	}
	text += "; you noted " + w.Litres(s.Given) + ": "
	switch saved := s.Rule - s.Given; {
	case w.Litres(saved) == w.Litres(0) && w.Litres(-saved) == w.Litres(0):
		return text + "the same as by the rule"
	case saved > 0:
		return text + w.Litres(saved) + " saved against the rule"
	default:
		return text + w.Litres(-saved) + " more than by the rule, which is short in hot weather"
	}
}

// BedWhat says what a bed is: "raised bed, sandy loam, drip, mulched".
func (w Words) BedWhat(b *risk.Bed) string {
	var parts []string
	switch b.Kind {
	case risk.Pots:
		parts = append(parts, Count(b.Pots, "pot", "pots")+" of "+w.Litres(b.PotVolume))
	case risk.RaisedBed:
		parts = append(parts, "raised bed")
	default:
		parts = append(parts, "ground")
	}
	if b.Kind != risk.Pots && b.Area > 0 {
		parts = append(parts, w.area(b.Area))
	}
	if b.Soil != "" {
		parts = append(parts, string(b.Soil))
	}
	if b.Watering != "" {
		parts = append(parts, string(b.Watering))
	}
	switch b.Mulch {
	case risk.Organic:
		parts = append(parts, "mulched")
	case risk.Plastic:
		parts = append(parts, "under film or fabric")
	}
	return strings.Join(parts, ", ")
}

// area writes m2: "4 m2", "40 sq ft".
func (w Words) area(m2 float64) string {
	if w.us() {
		return tidy(unit.M2ToSqFt(m2)) + " sq ft"
	}
	return tidy(m2) + " m2"
}

// WaterCautions are the things to mind whatever a bed wants. Local rules come first.
func (w Words) WaterCautions() []string {
	return []string{
		"early: from before sunrise to mid-morning, at the foot of the plants; wet leaves and flowers bring disease and spoil pollen",
		"rules: local watering restrictions come first, and so do those of the well or the water company",
		"quality: nothing here tells whether water is fit to drink or too salty; where in doubt ask a laboratory or the local authority",
		"limits: an account errs; a wilting plant in the morning and a finger in the soil come before it",
	}
}

// WithoutWater says when the plants of a bed go short if nothing is given from today
// on: "they go short on Wed 22"; nothing where that is not known.
func (w Words) WithoutWater(b *ledger.Bed, today forecast.Date) string {
	d, ok := b.Day(today)
	if !ok || b.NoStore || b.Why != ledger.Reckoned || d.Advice.Verdict == ledger.LookFirst {
		return ""
	}
	switch days := d.Advice.Days; {
	case days < 0:
		return "they last the days that are forecast, rain by its chance"
	case days == 0:
		return "they go short today"
	default:
		return "they go short on " + w.ShortDay(today.AddDays(days))
	}
}
