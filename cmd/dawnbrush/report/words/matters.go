package words

import (
	"fmt"
	"strings"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// inputNames are what inputs are called on a screen. Numbers of a crop that are
// not here go by their dotted name.
var inputNames = map[string]string{
	"bees.supply": "bee visits to a flower", "bees.honey": "honey bees about", "bees.bumble": "bumble bees about", "bees.squash": "squash bees about",
	"hand.share": "brushed flowers that set", "garden.shelter": "shelter from wind", "planting.minutes_per_flower": "your pace with the brush",
	"planting.fruit_worth": "worth of a fruit", "planting.open": "open flowers", "planting.first_flower": "day of the first flower", "planting.rows": "rows side by side",
	"planting.rows_run": "how the rows run", "planting.first_male": "day tassels began to shed",
	"window.offer": "hour when males are empty", "window.receptive": "hours the stigma takes", "window.opens": "hour of opening", "window.closes": "hour of shutting",
	"window.opens_at_temp": "warmth flowers open at", "pollen.coupling": "drying of pollen in the flower", "pollen.age_rate": "ageing of pollen",
	"pollen.age_threshold": "dryness that ages pollen", "pollen.heat_full": "heat that begins to kill pollen", "pollen.heat_nil": "heat that kills all pollen",
	"pollen.tube_full": "heat that slows tubes", "pollen.tube_nil": "heat that stops tubes", "need.set": "pollen a fruit needs",
	"bees.honey.grains_per_visit": "pollen a honey bee brings", "bees.bumble.grains_per_visit": "pollen a bumble bee brings", "bees.squash.grains_per_visit": "pollen a squash bee brings",
	"corn.shed_from": "hour tassels begin to shed", "corn.shed_to": "hour tassels stop", "corn.rh_limit": "damp that stops tassels", "corn.heat_full": "heat that begins to kill pollen",
	"corn.heat_nil": "heat that kills all pollen", "corn.age_rate": "ageing of pollen", "corn.silk_fresh": "days that all silks take pollen", "corn.silk_days": "days that silks take pollen",
	"corn.heat_loss": "kernels that heat takes, by water", "corn.shed_drying": "drying that makes tassels shed",
	"self.mean": "heat this cultivar bears", "self.mean_night": "warm nights it bears", "self.night": "cold nights it bears", "self.acute_temp": "heat that ends set",
	"self.acute_hours": "hours of it that end set", "self.alone_temp": "one day's heat that ends set", "weather.temperature": "the forecast's warmth", "weather.wind": "the forecast's wind",
	"weather.humidity": "the forecast's humidity", "weather.wind_from": "the forecast's wind direction", "weather.cloud": "the forecast's cloud", "weather.rain": "whether it rains",
}

// Input names an input of the verdict.
func (w Words) Input(m *risk.Movement) string {
	if s, ok := inputNames[m.Input]; ok {
		return s
	}
	return m.Input
}

// Doubt writes the two ends of an input's doubt, in the system of units read.
func (w Words) Doubt(m *risk.Movement) string {
	r := m.Doubt.Range
	if r.Low == r.High {
		return "not in doubt"
	}
	switch unit := m.Doubt.Unit; {
	case strings.HasPrefix(m.Input, "bees.") && strings.HasPrefix(unit, "times"):
		return "none to many"
	case m.Input == "weather.rain":
		return "dry to wet"
	case m.Input == "planting.rows_run":
		return "north-south to east-west"
	case m.Input == "weather.temperature" || strings.HasPrefix(m.Input, "self.") && unit == "degC" && r.Low < 0:
		step := func(c float64) string {
			if w.us() {
				c *= 1.8
			}
			return fmt.Sprintf("%+.1f", c)
		}
		return step(r.Low) + " to " + step(r.High) + " " + w.TempUnit()
	case m.Input == "weather.wind":
		return "-" + w.Wind(r.High) + " to +" + w.Wind(r.High)
	case m.Input == "weather.cloud" || unit == "share":
		if r.Low < 0 {
			return fmt.Sprintf("%+.0f to %+.0f %%", 100*r.Low, 100*r.High)
		}
		return fmt.Sprintf("%.0f to %.0f %%", 100*r.Low, 100*r.High)
	case unit == "degC":
		return w.Temp(r.Low) + " to " + w.Temp(r.High)
	case m.Input == "weather.wind_from":
		return fmt.Sprintf("%+.0f to %+.0f degrees", r.Low, r.High)
	case m.Input == "weather.humidity":
		return fmt.Sprintf("%+.0f to %+.0f points", r.Low, r.High)
	case r.Low < 0:
		return fmt.Sprintf("%+.3g to %+.3g %s", r.Low, r.High, unit)
	case m.Input == "bees.supply":
		return fmt.Sprintf("%.1f to %.1f an hour", r.Low, r.High)
	case m.Input == "garden.shelter":
		return fmt.Sprintf("%g to %g of the wind", r.Low, r.High)
	case unit == "1":
		return fmt.Sprintf("%.3g to %.3g", r.Low, r.High)
	default:
		return fmt.Sprintf("%.4g to %.4g %s", r.Low, r.High, unit)
	}
}

// Moved writes what an input makes of the verdict between its ends: "3 to 92 %
// without help, 100 % with a brush".
func (w Words) Moved(m *risk.Movement, c *crop.Crop) string {
	return w.outcomes(c, m.From.Ears && m.To.Ears, [2]float64{m.From.Bees, m.To.Bees}, [2]float64{m.From.Brush, m.To.Brush})
}

// Planned writes the plan's verdict in the same words.
func (w Words) Planned(o *risk.Outcome, c *crop.Crop) string {
	return w.outcomes(c, o.Ears, [2]float64{o.Bees, o.Bees}, [2]float64{o.Brush, o.Brush})
}

func (w Words) outcomes(c *crop.Crop, ears bool, bees, brush [2]float64) string {
	span := func(x [2]float64) string {
		if lo, hi := percentNumber(x[0]), percentNumber(x[1]); lo != hi {
			return lo + " to " + hi + " %"
		}
		return percentNumber(x[0]) + " %"
	}
	if ears {
		return span(bees) + " of the kernels filled in the end, " + span(brush) + " if shaken"
	}
	switch c.Pollination {
	case crop.Self:
		if !c.Self.Tapped() {
			return span(bees) + " set"
		}
		return span(bees) + " set as they are, " + span(brush) + " with a shake"
	case crop.Wind:
		return span(bees) + " of a good day's pollen by the wind, " + span(brush) + " with shaking"
	}
	return span(bees) + " full without help, " + span(brush) + " with a brush"
}

// TaskAtEnds writes how the plan's task changes between the ends of a doubt, "" for
// a task that stays.
func (w Words) TaskAtEnds(m *risk.Movement, x *risk.Matters) string {
	p := x.Planting
	from, to, here := w.outcomeTask(&m.From, p), w.outcomeTask(&m.To, p), w.outcomeTask(&x.Now, p)
	switch {
	case !m.Flips:
		return ""
	case from == to || from != here && to != here:
		return from + ", " + here + " as planned, " + to
	}
	return from + " to " + to
}

func (w Words) outcomeTask(o *risk.Outcome, p *risk.Planting) string {
	if !o.Known {
		return "no verdict"
	}
	if !o.Tasked {
		return "nothing"
	}
	return w.DoFor(&risk.Task{Kind: o.Task, Planting: p})
}

// Narrow says what a grower can do to narrow an input's doubt, "" where it is not
// in doubt.
func (w Words) Narrow(m *risk.Movement, x *risk.Matters) string {
	if m.Doubt.Range.Low == m.Doubt.Range.High {
		return ""
	}
	name := x.Planting.Name
	switch m.Input {
	case "bees.supply":
		at := "in the flowers' first hours"
		if !x.LookAt.IsZero() {
			at = "at " + w.Clock(x.LookAt)
		}
		return "count the visits to ten flowers in 5 min " + at + ", and note how many: `dawnbrush note bees 5min 10 flowers 3 " + name + "`"
	case "hand.share":
		return "mark flowers that you brush on one day, and note how many set: `dawnbrush note set 7 of 10 by hand " + name + "`"
	case "need.set":
		return "mark flowers of one day and count what sets: `dawnbrush note forms` shows how to note it"
	case "pollen.coupling":
		return "mark flowers that you first brush three hours after they open, and see whether they set"
	case "window.offer":
		return "look at which hour the male flowers are empty of pollen"
	case "window.receptive":
		return "mark flowers brushed late in the morning, and see whether they set"
	case "window.opens", "window.opens_at_temp", "window.closes":
		return "note the hour at which the first flowers open and shut, and the warmth then"
	case "garden.shelter":
		return "hold a wind meter at flower height against the reported wind; tell `shelter` in the garden file"
	case "planting.minutes_per_flower":
		return "time yourself over ten flowers; tell it in the garden file"
	case "corn.heat_loss":
		return "tell its bed and the soil in the garden file, and note what you water: the account of its water then tells"
	case "planting.open":
		return "count the open female flowers in the morning"
	}
	switch m.Handle {
	case risk.CanTell:
		return "tell it in the garden file"
	case risk.CanCount, risk.CanMeasure:
		return "look and note what you see"
	case risk.CannotKnow:
		return "nobody knows before: look at the sky and ask again in the morning"
	}
	return "only a study narrows it; `dawnbrush sources " + x.Planting.Crop.Key + "` shows what there is"
}
