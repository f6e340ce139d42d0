package config

import (
	"math"
	"strconv"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// plantingTable is the only table that can stand in a file several times.
const plantingTable = "planting"

func tableNames() []string { return []string{"place", "work", "bees", mailTable, plantingTable} }

// setting is one key of the garden file: how it is explained, read and shown.
type setting struct {
	key      string
	doc      string // one line for the grower; {length} stands for the unit of lengths
	example  string // as it stands in a file
	required bool
	quoted   bool                    // the value stands in quotes
	length   bool                    // the value has the unit of lengths
	when     func(c *crop.Crop) bool // the crops it says something about; nil: all
	inside   bool                    // it says something about a tunnel or house alone
	hooks    []Hook                  // the ways of mail that read it; nil: all
	read     func(in *reader, key string, v *node, s scope)
	show     func(s scope) string // the value without quotes; "" when it was not told
}

func (set setting) explain(s scope) string {
	return strings.ReplaceAll(set.doc, "{length}", lengthWord(s.file.Garden.Units))
}

// assignment writes the setting as a line of the file, "" when not told.
func (set setting) assignment(s scope) string {
	value := set.show(s)
	if value == "" {
		return ""
	}
	if set.quoted {
		value = quote(value)
	}
	return set.key + " = " + value
}

// gardenSettings are the keys above the first table.
func gardenSettings() []setting {
	return []setting{
		wordSetting("units", `"metric" or "us": how numbers are read here and shown everywhere`, `"metric"`,
			[]risk.Units{risk.Metric, risk.US}, func(s scope) *risk.Units { return &s.file.Garden.Units }),
		textSetting("name", "name of the garden, on top of every plan and mail", `"Back garden"`,
			func(s scope) *string { return &s.file.Garden.Name }),
		{key: "feed", doc: `weather feed, or "auto": one that serves the place and is free for everybody; "dawnbrush feeds" lists them`,
			example: `"auto"`, quoted: true,
			read: func(in *reader, key string, v *node, s scope) {
				if w, ok := in.word(key, v, in.known.feeds(Auto)); ok {
					s.file.Feed = w
				}
			},
			show: func(s scope) string { return s.file.Feed }},
		{key: "second_feed", doc: `feed asked beside it, to stand in and to show where forecasts differ; "none" for no other`,
			example: `"auto"`, quoted: true,
			read: func(in *reader, key string, v *node, s scope) {
				if w, ok := in.word(key, v, in.known.feeds(Auto, None)); ok {
					s.file.Second = w
				}
			},
			show: func(s scope) string { return s.file.Second }},
		{key: "sells", doc: "true when what grows here is sold: some feeds are free for those alone who do not sell",
			example: "false",
			read: func(in *reader, key string, v *node, s scope) {
				if yes, ok := in.yesNo(key, v); ok {
					s.file.Sells = No
					if yes {
						s.file.Sells = Yes
					}
				}
			},
			show: func(s scope) string { return [...]string{NotTold: "", Yes: "true", No: "false"}[s.file.Sells] }},
		{key: "contact", doc: "e-mail or web address that the weather service can write to when requests go wrong",
			example: `"grower@example.org"`, quoted: true, read: readContact,
			show: func(s scope) string { return s.file.Garden.Contact }},
		numberSetting("shelter", "wind at the plot against open land: 0.5 behind a dense hedge, 1 open, 1.4 on a ridge", "1",
			0.5, 1.4, func(s scope) *float64 { return &s.file.Garden.Shelter }),
	}
}

// placeSettings are the keys of [place].
func placeSettings() []setting {
	return []setting{
		// Its limits are left to checkPlace, which can tell a swap from a slip.
		coordinate("lat", "degrees north of the equator; south is negative", "40.71", math.MaxFloat64, func(s scope) *float64 { return &s.file.Garden.Place.Lat }),
		coordinate("lon", "degrees east of Greenwich; west, so all of America, is negative", "-74.01", mostDegrees, func(s scope) *float64 { return &s.file.Garden.Place.Lon }),
		{key: "elevation", doc: "height above the sea in {length}", example: "10", length: true,
			read: func(in *reader, key string, v *node, s scope) {
				u := s.file.Garden.Units
				// From the shore of the Dead Sea to the highest fields. [memory]
				if f, ok := in.number(key, v, fromMetres(-450, u), fromMetres(6000, u)); ok {
					s.file.Garden.Place.Elevation = forecast.Known(toMetres(f, u))
				}
			},
			show: func(s scope) string {
				m, ok := s.file.Garden.Place.Elevation.Get()
				if !ok {
					return ""
				}
				return showLength(m, s.file.Garden.Units)
			}},
		{key: "zone", doc: `time zone in its long form, region and town: "America/New_York", "Europe/Berlin"`,
			example: `"America/New_York"`, required: true, quoted: true, read: readZone,
			show: func(s scope) string {
				if s.file.Garden.Place.Zone == nil {
					return ""
				}
				return s.file.Garden.Place.Zone.String()
			}},
	}
}

// weekdays is the week as growers write it.
func weekdays() []time.Weekday {
	return []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}
}

// workSettings are the keys of [work], one a day of the week.
func workSettings() []setting {
	var out []setting
	for _, day := range weekdays() {
		out = append(out, setting{key: strings.ToLower(day.String()),
			doc:     `hours you can work on a ` + day.String() + `: "05:30-08:00, 18:00-20:30", or "none"`,
			example: `"05:30-08:00, 18:00-20:30"`, quoted: true,
			read: func(in *reader, key string, v *node, s scope) {
				if spans, ok := in.spans(key, v); ok {
					s.file.Garden.Work[day] = spans
				}
			},
			show: func(s scope) string { return showHours(s.file.Garden.Work[day]) }})
	}
	return out
}

// beesSettings are the keys of [bees].
func beesSettings() []setting {
	levels := []risk.Level{risk.None, risk.Few, risk.Normal, risk.Many}
	return []setting{
		wordSetting("honey", "honey bees on your flowers: none, few, normal or many; leave out what you do not know", `"normal"`,
			levels, func(s scope) *risk.Level { return &s.file.Garden.Bees.Honey }),
		wordSetting("bumble", "bumble bees, the same", `"few"`,
			levels, func(s scope) *risk.Level { return &s.file.Garden.Bees.Bumble }),
		wordSetting("squash", "squash bees, which visit squash before sunrise; they live in the Americas only", `"none"`,
			levels, func(s scope) *risk.Level { return &s.file.Garden.Bees.Squash }),
		// [chosen: beyond any apiary one stands beside]
		countSetting("hives", "hives of honey bees within a five minutes' walk", "2", 0, 1000,
			func(s scope) *int { return &s.file.Garden.Bees.Hives }),
	}
}

// homeOf tells where a key belongs that stands in the wrong table; "" for none.
func homeOf(key string) string {
	for _, t := range []struct {
		where    string
		settings []setting
	}{
		{"at the top of the file, above the first [table]", gardenSettings()},
		{"under [place]", placeSettings()},
		{"under [work]", workSettings()},
		{"under [bees]", beesSettings()},
		{"under [" + mailTable + "]", mailSettings()},
		{"under a [[" + mailTable + "." + recipientTable + "]]", recipientSettings()},
		{"under a [[" + plantingTable + "]]", plantingSettings()},
	} {
		for _, set := range t.settings {
			if set.key == key {
				return t.where
			}
		}
	}
	return ""
}

func textSetting(key, doc, example string, field func(scope) *string) setting {
	return setting{key: key, doc: doc, example: example, quoted: true,
		read: func(in *reader, key string, v *node, s scope) {
			if text, ok := in.text(key, v); ok {
				*field(s) = text
			}
		},
		show: func(s scope) string { return *field(s) }}
}

func wordSetting[T ~string](key, doc, example string, among []T, field func(scope) *T) setting {
	words := texts(among)
	return setting{key: key, doc: doc, example: example, quoted: true,
		read: func(in *reader, key string, v *node, s scope) {
			if w, ok := in.word(key, v, words); ok {
				*field(s) = T(w)
			}
		},
		show: func(s scope) string { return string(*field(s)) }}
}

func texts[T ~string](words []T) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return out
}

// numberSetting is a number for which 0 means that it was not told.
func numberSetting(key, doc, example string, lo, hi float64, field func(scope) *float64) setting {
	return setting{key: key, doc: doc, example: example,
		read: func(in *reader, key string, v *node, s scope) {
			if f, ok := in.number(key, v, lo, hi); ok {
				*field(s) = f
			}
		},
		show: func(s scope) string {
			if *field(s) == 0 {
				return ""
			}
			return decimal(*field(s))
		}}
}

// coordinate is a number of degrees, 0 included.
func coordinate(key, doc, example string, limit float64, field func(scope) *float64) setting {
	set := required(numberSetting(key, doc, example, -limit, limit, field))
	set.show = func(s scope) string { return decimal(*field(s)) }
	return set
}

func countSetting(key, doc, example string, lo, hi int, field func(scope) *int) setting {
	return setting{key: key, doc: doc, example: example,
		read: func(in *reader, key string, v *node, s scope) {
			if n, ok := in.count(key, v, lo, hi); ok {
				*field(s) = n
			}
		},
		show: func(s scope) string {
			if *field(s) == 0 {
				return ""
			}
			return strconv.Itoa(*field(s))
		}}
}

func dateSetting(key, doc, example string, field func(scope) *forecast.Date) setting {
	return setting{key: key, doc: doc, example: example,
		read: func(in *reader, key string, v *node, s scope) {
			if d, ok := in.date(key, v); ok {
				*field(s) = d
			}
		},
		show: func(s scope) string {
			if field(s).IsZero() {
				return ""
			}
			return field(s).String()
		}}
}

func lengthWord(u risk.Units) string {
	if u == risk.US {
		return "feet"
	}
	return "metres"
}

func toMetres(v float64, u risk.Units) float64 {
	if u == risk.US {
		return unit.FtToM(v)
	}
	return v
}

func fromMetres(m float64, u risk.Units) float64 {
	if u == risk.US {
		return unit.MToFt(m)
	}
	return m
}
