package bee

import "dawnbrush/risk/source"

// Params lists every number of the flight curves with its origin.
func Params() []source.Param {
	h, b, s := curves[Honey], curves[Bumble], curves[Squash]
	span := func(v [2]float64) *source.Interval { return &source.Interval{Low: v[0], High: v[1]} }
	num := func(v float64) *float64 { return &v }
	return []source.Param{
		{Name: "bee.cold", Kind: source.Span, Range: span(h.cold), Unit: "degC", Key: "BurDietz81", Where: "as relayed by in-vitro chapter sec. 4.1.9", Status: source.Derived,
			Note: "honey bees: nil to full flight; full from the middle of the end of the rise over 12 to 20 degC and of the 16 degC from which growers' guides put useful flight",
			Others: []source.Alternative{
				{Range: &source.Interval{Low: 13, High: 16}, Text: "useful foraging from 55 to 60 degF", Key: "common-practice", Status: source.CommonPractice},
				{Range: &source.Interval{Low: 12, High: 14}, Text: "fully active in an apple orchard", Key: "VicBos00", Where: "abstract", Status: source.Read},
				{Value: num(12.8), Text: "do not fly much below 55 degF", Key: "UDel18", Where: "column text", Status: source.Read}}},
		{Name: "bee.heat", Kind: source.Span, Range: span(h.heat), Unit: "degC", Key: "chosen", Status: source.Chosen,
			Note:   "honey bees: full to a fifth; foraging for pollen falls between 35 and 40 degC, returning bees carry cooling water",
			Others: []source.Alternative{{Range: &source.Interval{Low: 35, High: 40}, Key: "Cooper85", Where: "abstract", Status: source.Read}}},
		{Name: "bee.light", Value: h.light, Unit: "W/m2", Key: "VicBos00", Where: "abstract", Status: source.Derived,
			Note:   "honey bees: full activity at 300 W/m2, read as 95 %",
			Others: []source.Alternative{{Value: num(460), Text: "activity falls above this", Key: "BurDietz81", Where: "as relayed by in-vitro chapter sec. 4.1.9", Status: source.Derived}}},
		{Name: "bee.wind", Value: windSlope, Unit: "share per m/s at 2 m", Key: "Henn20", Where: "abstract", Status: source.Derived,
			Note: "3.73 against 5.45 flowers per 90 s at 3 m/s; straight on to nil at bee.wind_stop",
			Others: []source.Alternative{
				{Value: num(6.7), Unit: "m/s", Text: "15 mph: flights reduced significantly", Key: "UDel18", Where: "column text", Status: source.Read},
				{Range: &source.Interval{Low: 7.2, High: 9.4}, Unit: "m/s", Text: "16 to 21 mph cut flights by 28 %", Key: "Lundie25", Where: "p. 19", Status: source.Memory},
				{Text: "no effect of wind found in Brazil", Key: "Polatto14", Where: "abstract", Status: source.Read}}},
		{Name: "bee.wind_stop", Value: windStop, Unit: "m/s at 2 m", Key: "Wenner63", Where: "as relayed", Status: source.Quoted,
			Note:   "flight speed unloaded 7.5 to 7.8 m/s: against this wind a bee gets nowhere",
			Others: []source.Alternative{{Value: num(5.4), Text: "12 mph stops flight from the entrance", Key: "common-practice", Status: source.CommonPractice}}},
		{Name: "bee.rain", Kind: source.Span, Range: span(h.rain), Unit: "mm/h", Key: "chosen", Status: source.Chosen,
			Note:   "honey bees: full to nil; each shower cuts exits (Lundie25), no threshold is published",
			Others: []source.Alternative{{Value: num(0.1), Text: "any measurable rain", Key: "common-practice", Status: source.CommonPractice}}},
		{Name: "bee.wet_flowers", Value: h.wetLeft, Unit: "share", Key: "chosen", Status: source.Chosen,
			Note:   "honey bees on wet flowers; stands for \"not seen above 90 % humidity\", which counted the dawn twice",
			Others: []source.Alternative{{Value: num(90), Unit: "%", Text: "not seen above this humidity in an orchard", Key: "VicBos00", Where: "abstract", Status: source.Read}}},
		{Name: "bee.bumble_cold", Kind: source.Span, Range: span(b.cold), Unit: "degC", Key: "memory", Status: source.Memory,
			Others: []source.Alternative{{Value: num(10), Text: "50 degF and sometimes lower", Key: "Holland", Where: "column text", Status: source.Quoted}}},
		{Name: "bee.bumble_heat", Kind: source.Span, Range: span(b.heat), Unit: "degC", Key: "BT32", Where: "abstract", Status: source.Derived, Note: "trips a worker are fewer at 32 than at 24 degC: the fall begins midway; how far it goes by 40 degC (to 0.3) is a judgement",
			Others: []source.Alternative{{Value: num(27), Text: "flight on a mill falls above", Key: "Kenna21", Where: "the first author's account of the paper", Status: source.Read}}},
		{Name: "bee.bumble_light", Value: b.light, Unit: "W/m2", Key: "chosen", Status: source.Chosen, Note: "half the honey bee's: they work at dawn and dusk (from memory), then at a fifth of full activity"},
		{Name: "bee.bumble_wind", Value: b.windPart, Unit: "share of the honey bee's loss", Key: "chosen", Status: source.Chosen, Note: "less affected by weather than honey bees; the size is a judgement; squash bees alike",
			Others: []source.Alternative{{Text: "less sensitive to weather than honey bees in seven orchards", Key: "Karb23", Where: "abstract", Status: source.Read}}},
		{Name: "bee.bumble_wind_stop", Kind: source.Span, Range: span(b.windEnd), Unit: "m/s at 2 m", Key: "memory", Status: source.Memory, Note: "flight ends over this range; squash bees alike"},
		{Name: "bee.bumble_rain", Value: b.rainLeft, Unit: "share left in rain of 1 mm/h", Key: "chosen", Status: source.Chosen, Note: "no size is published",
			Others: []source.Alternative{{Text: "less flying and more resting in simulated rain", Key: "Reeves24", Where: "abstract", Status: source.Read}}},
		{Name: "bee.bumble_wet", Value: b.wetLeft, Unit: "share", Key: "chosen", Status: source.Chosen, Note: "hairy and warm: less kept off by wet flowers than honey bees; squash bees alike"},
		{Name: "bee.squash_cold", Value: s.cold[0], Range: &source.Interval{Low: s.cold[0], High: s.cold[1]}, Unit: "degC", Key: "WilKev95", Where: "abstract", Status: source.Derived, Note: "both sexes forage from about 10 degC; full at 14 is a judgement"},
		{Name: "bee.squash_sun", Value: s.sun, Range: &source.Interval{Low: s.sun, High: s.sunFull}, Unit: "degrees of the sun's elevation", Key: "Sampson", Where: "text", Status: source.Derived, Note: "females gather pollen before sunrise: nil at the start of civil twilight, full just before sunrise"},
		{Name: "bee.squash_rain", Value: s.rainLeft, Unit: "share left in rain of 0.5 mm/h", Key: "chosen", Status: source.Chosen, Note: "they shelter in the flowers they work"},
		{Name: "bee.out", Value: OutShare, Unit: "share of full activity", Key: "chosen", Status: source.Chosen, Note: "an hour is called \"bees out\" from a third of full activity, enough for visits worth counting"},
	}
}
