package words

import (
	"fmt"
	"math"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

const (
	// behind is the age from which a logger's last reading is told as old: who reads
	// one out by hand does so at the weekend.
	behind = 72 * time.Hour // [chosen: three days]

	// manyHoles is how many hours may lack between the first and the last reading
	// before it is told.
	manyHoles = 24 // [chosen: one day without readings]
)

// LoggerNotes says what a logger leaves unknown. bad tells that what it measured
// cannot be believed or is old.
func (w Words) LoggerNotes(in *risk.Inside, now time.Time) (notes []string, bad bool) {
	d, file := &in.Difference, "the logger's file "+in.Logger
	switch {
	case d.Fault == "clock":
		return []string{file + " is not used: the warmth it tells does not follow the sun; its clock seems to be " + hoursOff(d.ClockBy) +
			": write the garden's own time, or the offset with every time"}, true
	case d.Fault == "fahrenheit":
		return []string{file + " is not used: it is " + w.Spread(math.Abs(d.MeanDifference)) + " off the air outside in the mean; are these degrees Fahrenheit read as Celsius, or the other way round"}, true
	case !d.Known:
		notes = append(notes, fmt.Sprintf("%s tells what was; what is to come in there is not known before %d days have both its readings and measured weather outside, and there are %d", file, risk.LeastLearn, d.Days))
	}
	if now.Sub(in.Last) > behind {
		how := "the hours since are worked out from the outside"
		if !d.Known {
			how = "nothing is known of the hours since"
		}
		notes, bad = append(notes, file+" ends "+w.Moment(in.Last)+"; "+how), true
	}
	if in.Holes > manyHoles {
		notes = append(notes, fmt.Sprintf("%s lacks %d hours between its first and last", file, in.Holes))
	}
	return notes, bad
}

// WithoutLogger says in short what is not known of plantings whose air nothing tells
// of, and what holds all the same.
func (w Words) WithoutLogger(names []string) string {
	return List(names) + ": how warm and damp it is inside, and how many bees come in, is not known without a logger named in the garden file; " +
		"what holds: no rain wets the flowers, no wind shakes them, bees come through open sides only, and heat outside is heat inside unless it is shaded or cooled"
}

func hoursOff(by int) string {
	if by < 0 {
		return Count(-by, "hour", "hours") + " slow"
	}
	return Count(by, "hour", "hours") + " fast"
}

// Spread writes a difference of temperature: "4.2 C" or "7.6 F".
func (w Words) Spread(x float64) string {
	if w.units == risk.US {
		x *= 1.8
	}
	return fmt.Sprintf("%.1f %s", x, w.TempUnit())
}

// Inside tells of the air that a verdict under a tunnel or house rests on, sentences
// for workings; none in the open.
func (w Words) Inside(p *risk.PlantingDay) []string {
	switch in := p.Inside; {
	case in != nil && in.Difference.Fault != "":
		notes, _ := w.LoggerNotes(in, in.Last)
		return append([]string{sentence(notes[0])}, w.holds(p)...)
	case in != nil && p.State != risk.OtherAir:
		return w.logged(in)
	case in != nil:
		return append([]string{fmt.Sprintf("Logger %s: %s measured inside, the last before %s. They decide what looks back; the air inside on this day is not known.",
			in.Logger, Count(in.Measured, "hour", "hours"), w.Moment(in.Last))}, w.holds(p)...)
	case p.State == risk.OtherAir:
		return w.holds(p)
	}
	return nil
}

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }

// logged says how the inside was worked out and how good that is.
func (w Words) logged(in *risk.Inside) []string {
	d := &in.Difference
	out := []string{fmt.Sprintf("Air inside: %s by the logger %s, the last before %s; other hours are foretold from the outside.",
		Count(in.Measured, "hour", "hours"), in.Logger, w.Moment(in.Last))}
	if d.Known {
		how := map[risk.Way]string{risk.SameAsOutside: "taken as the outside's, for nothing did better",
			risk.ByHour: "the outside's plus the mean difference of the hour", risk.BySun: "the outside's plus the mean difference of the hour and what sun and warmth add to it"}[d.Way]
		out = append(out, fmt.Sprintf("Foretold: %s, learned from %d days. Each day left out in turn, it errs by %s; the mean difference by %s, the outside's own air by %s. The error widens the range; the forecast's own comes on top.",
			how, d.Days, w.Spread(d.Errors[d.Way]), w.Spread(d.Errors[risk.ByHour]), w.Spread(d.Errors[risk.SameAsOutside])))
	}
	out = append(out, "No rain falls on flowers in there, no wind shakes them, light is less, and few bees find the open sides.")
	if !in.Humidity {
		out = append(out, "The logger tells no humidity: how fast pollen ages in there is known in part.")
	}
	return out
}

// holds says what cannot be known without a logger, and what holds all the same.
func (w Words) holds(p *risk.PlantingDay) []string {
	out := []string{"Not known: how warm it gets inside, how damp, and how many bees come in.",
		"What still holds: it is hardly colder inside than outside at night, and warmer by day (" + w.Spread(risk.WarmerHigh) + " at the highest and " + w.Spread(risk.WarmerLow) +
			" at the lowest in one plastic tunnel [Savage80, read]): heat outside is heat inside. No rain wets the flowers.",
		"Bees come through open sides only. [common-practice]"}
	if high, ok := p.Planting.Crop.Limits.DayHigh.Get(); ok {
		out = append(out, fmt.Sprintf("Open vents and sides on days over %s outside: by that tunnel's measure it then passes %s inside, the crop's limit by day. [Savage80, derived]",
			w.Temp(high-risk.WarmerHigh), w.Temp(high)))
	}
	if p.Planting.Crop.Pollination == crop.Self && p.Planting.Crop.Self.Tapped() {
		out = append(out, "The wind in there does not shake trusses: tap them about mid-day. [SDSUtun, read]")
	}
	if p.HotOutside {
		out = append(out, "It is too hot even outside.")
	}
	return out
}

// InsideHour says where an hour's air inside comes from: "measured", "foretold".
func InsideHour(h *forecast.Hour) string {
	switch h.Origin {
	case forecast.OriginLogger:
		return "measured"
	case forecast.OriginForecast:
		return "foretold"
	}
	return Unknown
}
