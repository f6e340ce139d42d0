package words

import (
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/bee"
)

// Topic is what a flag is about, for grouping.
type Topic uint8

// The topics, in the order in which they are told where nothing else decides.
const (
	TopicHeat Topic = iota
	TopicBees
	TopicRain
	TopicCold
	TopicNights
	TopicAir
	TopicBuds
	TopicLoad
	Topics int = iota
)

var topicNames = [Topics]string{"heat", "bees", "rain", "cold", "nights", "air", "buds", "fruit"}

// String gives the heading of the topic.
func (t Topic) String() string { return topicNames[t] }

// TopicOf sorts a flag under its topic.
func TopicOf(k risk.FlagKind) Topic {
	switch k {
	case risk.BeesIn:
		return TopicBees
	case risk.PollenWet, risk.PollenMould:
		return TopicRain
	case risk.ColdOpening:
		return TopicCold
	case risk.ColdNight, risk.HotNight, risk.CoolNight:
		return TopicNights
	case risk.DryAir, risk.DampAir:
		return TopicAir
	case risk.HeatOnBuds, risk.FewAhead, risk.Catface:
		return TopicBuds
	case risk.FullLoad, risk.OtherCorn:
		return TopicLoad
	}
	return TopicHeat
}

// Flag says what weather does, in one sentence without a full stop. Planting is
// the flower's day the flag stands in, nil for a flag of the whole garden; it
// lends the hours of the flower, so that "from 11:00" can be said for "from
// 11:00 until the flower shuts".
func (w Words) Flag(f *risk.Flag, p *risk.PlantingDay) string {
	when := w.within(f.From, f.To, p)
	switch f.Kind {
	case risk.Hot105:
		return w.hot105(f)
	case risk.HotPollen:
		return "too hot for pollen" + when + w.value(f.Value, w.Temp, ", up to ", "", "")
	case risk.HotTubes:
		if when == allHours {
			when = " at any hour"
		}
		return "flowers pollinated" + when + " meet" + w.value(f.Value, w.Temp, " ", "great heat", "") +
			" in the hours after, and few seeds start"
	case risk.PollenWet:
		return "rain on open flowers" + when + w.chance(f)
	case risk.PollenMould:
		return "flowers stay wet and mild" + w.value(f.Value, hoursLong, " for about ", "", "") + ": mould may take some pollen"
	case risk.BeesIn:
		return w.KeepsIn(f.Factor) + when + w.beeValue(f)
	case risk.ColdOpening:
		return "too cold for flowers to open" + when + w.value(f.Value, w.Temp, " (", "", ")") +
			w.value(f.Limit, w.Temp, "; they open from ", "", "")
	case risk.EarlyClose:
		return "heat shuts the flowers early" + when + w.value(f.Value, w.Temp, " (", "", ")")
	case risk.DryAir:
		return "air dry enough to kill pollen on its way" + when + w.value(f.Value, humidity, " (", "", ")")
	case risk.OtherCorn:
		return w.otherCorn(f, p)
	case risk.FullLoad:
		return w.loadFlag(f, p)
	case risk.DampAir:
		return "air too damp for pollen to come off" + when + w.value(f.Value, humidity, " (", "", ")")
	}
	return w.spell(f)
}

// spell says what whole days and nights do.
func (w Words) spell(f *risk.Flag) string {
	switch f.Kind {
	case risk.ColdNight:
		write := w.apart(f.Value, f.Limit)
		return "cold night" + w.value(f.Value, write, ", ", "", "") + ": fruit sets badly" + w.value(f.Limit, write, " under ", "", "")
	case risk.CoolNight:
		write := w.apart(f.Value, f.Limit)
		return "cool night" + w.value(f.Value, write, ", ", "", "") + ": less fruit sets" + w.value(f.Limit, write, " under ", "", "")
	case risk.HotNight:
		write := w.apart(f.Value, f.Limit)
		return "warm night" + w.value(f.Value, write, ", ", "", "") + ": fruit sets badly" + w.value(f.Limit, write, " over ", "", "")
	case risk.HotDays:
		return "heat" + w.days(" of ", f) + " leaves" + w.value(f.Value, about, " ", "few", "") + " of the fruit, whatever is done"
	case risk.HeatOnBuds:
		return w.hotSpell(f) + w.days(" of ", f) + " took female buds: few female flowers now"
	case risk.Catface:
		return "cool evenings" + w.value(f.Limit, w.Temp, " (", "", " and under)") + w.days(" of ", f) +
			": some fruit of these flowers may grow cat-faced, with scars and folds at the blossom end"
	case risk.FewAhead:
		return w.hotSpell(f) + " take female buds: few female flowers" + w.days(" ", f)
	}
	return ""
}

// apart chooses how to write a temperature and its limit: whole, and with a tenth
// where both would read alike and the sentence would say nothing.
func (w Words) apart(v, limit forecast.Value) func(float64) string {
	a, known := v.Get()
	b, told := limit.Get()
	if !known || !told || w.Temp(a) != w.Temp(b) {
		return w.Temp
	}
	return func(c float64) string {
		if w.us() {
			c = unit.CtoF(c)
		}
		return fmt.Sprintf("%.1f %s", c, w.TempUnit())
	}
}

// days names the days of a spell after a word, "" where they are not known.
func (w Words) days(before string, f *risk.Flag) string {
	if f.Since.IsZero() || f.Until.IsZero() {
		return ""
	}
	return before + w.Days(f.Since, f.Until)
}

// hotSpell says "3 days in a row over 32 C".
func (w Words) hotSpell(f *risk.Flag) string {
	n, ok := f.Value.Get()
	s := "hot days and nights"
	if ok {
		s = Count(int(n+0.5), "hot day and night", "hot days and nights in a row")
	}
	return s + w.value(f.Limit, w.Temp, " (days of ", "", " and more)")
}

func (w Words) hot105(f *risk.Flag) string {
	s := "high of" + w.value(f.Value, w.Temp, " ", "more than 105 F", "")
	if !f.From.IsZero() {
		s += ", too hot for pollen " + w.Hours(f.From, f.To)
	} else {
		s += ", too hot for pollen at its height"
	}
	// Both units once: growers quote the rule in Fahrenheit.
	return s + " (growers' rule: 105 F, 40.6 C)"
}

// allHours stands for every hour of the flower.
const allHours = " all the hours the flowers are open"

// within says when, against the hours of the flower: " from 11:00", " until
// 08:00", " 08:00-11:00", " while the flowers are open"; "" where no hours stand.
func (w Words) within(from, to time.Time, p *risk.PlantingDay) string {
	if from.IsZero() {
		return ""
	}
	if p != nil && !p.Opens.IsZero() {
		early, late := !from.After(p.Opens), !to.Before(lastUseful(p))
		switch {
		case early && late:
			return allHours
		case late:
			return " from " + w.Clock(from)
		case early:
			return " until " + w.ending(to)
		}
	}
	return " " + w.Hours(from, to)
}

// lastUseful is the end of the last hour in which the flower takes pollen.
func lastUseful(p *risk.PlantingDay) time.Time {
	end := p.Opens
	for i := range p.Hours {
		if h := &p.Hours[i]; h.Open > 0 && h.Receptive > 0 {
			end = h.Start.Add(time.Hour)
		}
	}
	if end.After(p.Closes) {
		return p.Closes
	}
	return end
}

// value writes before + value + after, or otherwise where it is unknown.
func (w Words) value(v forecast.Value, write func(float64) string, before, otherwise, after string) string {
	x, ok := v.Get()
	if !ok {
		if otherwise != "" {
			return " " + otherwise
		}
		return ""
	}
	return before + write(x) + after
}

func (w Words) chance(f *risk.Flag) string { return w.value(f.Prob, w.Percent, ", chance ", "", "") }

func (w Words) beeValue(f *risk.Flag) string {
	switch f.Factor {
	case bee.Cold, bee.Heat:
		return w.value(f.Value, w.Temp, " (", "", ")")
	case bee.Wind:
		return w.value(f.Value, w.Wind, " (", "", " over the crop)")
	case bee.Rain:
		return w.chance(f)
	}
	return ""
}

func humidity(v float64) string { return whole(v) + " % humidity" }

func hoursLong(v float64) string { return whole(v) + " h" }
