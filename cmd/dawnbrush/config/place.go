package config

import (
	"math"
	"net/url"
	"strings"
	"time"
	_ "time/tzdata" // zones must be known on a machine without a zone database too

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// mostDegrees is the largest longitude there is.
const mostDegrees = 180

// readContact takes what goes into a request header: plain ASCII, and an address
// that a person at the weather service can use.
func readContact(in *reader, key string, v *node, s scope) {
	text, ok := in.text(key, v)
	if !ok {
		return
	}
	hint := "write an e-mail address or a web address: " + key + ` = "grower@example.org"`
	for _, r := range text {
		if r > '~' || r <= ' ' {
			in.fault(v.offset, hint, "%s holds a space or a letter that no address has", key)
			return
		}
	}
	name, host, mail := strings.Cut(strings.TrimPrefix(text, "mailto:"), "@")
	u, err := url.Parse(text)
	web := err == nil && (u.Scheme == "https" || u.Scheme == "http") && u.Host != ""
	if !web && (!mail || name == "" || !strings.Contains(host, ".")) {
		in.fault(v.offset, hint, "%s is neither an e-mail address nor a web address", key)
		return
	}
	s.file.Garden.Contact = text
}

// readZone takes a name of the IANA time zone database.
func readZone(in *reader, key string, v *node, s scope) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return
	}
	name := strings.TrimSpace(v.text)
	nearby := func() string { // only a fault needs it
		if !in.sound["place.lat"] || !in.sound["place.lon"] {
			return ""
		}
		return NearestZone(s.file.Garden.Place.Lat, s.file.Garden.Place.Lon)
	}
	if short(name) {
		in.fault(v.offset, zoneHint(name, nearby()), "%s: %s is a short name that leaves the place and its summer time open", key, said(name))
		return
	}
	// "" and "Local" would load, as UTC and as the zone of this machine.
	loc, err := time.LoadLocation(name)
	if err != nil || name == "" || name == "Local" {
		in.fault(v.offset, zoneHint(name, nearby()), "there is no time zone %s", said(v.text))
		return
	}
	s.file.Garden.Place.Zone = loc
}

// short tells abbreviations such as EST, which the database keeps for old times'
// sake without summer time.
func short(name string) bool {
	return len(name) > 0 && len(name) <= 4 && name == strings.ToUpper(name) && name != "UTC" && name != "GMT"
}

// checkPlace finds coordinates out of range, swapped, or with a sign lost. The
// zone helps: its clocks tell roughly how far east it lies.
func (in *reader) checkPlace(f *File) {
	if !in.sound["place.lat"] {
		return
	}
	p, lonKnown := f.Garden.Place, in.sound["place.lon"]
	if math.Abs(p.Lat) > 90 {
		hint := "north is up to 90, south down to -90"
		if lonKnown && math.Abs(p.Lon) <= 90 && math.Abs(p.Lat) <= mostDegrees {
			hint = swapHint(p)
		}
		in.fault(in.given["place.lat"], hint, "lat cannot be %s", decimal(p.Lat))
		return
	}
	if !lonKnown || p.Zone == nil {
		return
	}
	year := in.known.year()
	gap, ok := clockGap(p.Lat, p.Lon, p.Zone, year)
	switch {
	case ok && gap > farthestClock:
		in.warn(in.given["place.zone"], nearbyHint(NearestZone(p.Lat, p.Lon)),
			"clocks in the zone %s are %.0f h from the sun here: the days of the plan would begin in the middle of one", p.Zone, gap)
		return
	case ok:
		return
	}
	in.fault(in.given["place.lat"], slipHint(p, year), "%s, %s is not in the zone %s",
		compass(p.Lat, "N", "S"), compass(p.Lon, "E", "W"), p.Zone)
}

func swapHint(p forecast.Place) string {
	return "are lat and lon swapped? lat = " + decimal(p.Lon) + ", lon = " + decimal(p.Lat)
}

// slipHint offers the slip that puts the place nearest to the zone's sun.
func slipHint(p forecast.Place, year int) string {
	best, hint := math.Inf(1), "check the zone: "+nearbyHint(NearestZone(p.Lat, p.Lon))
	for _, slip := range []struct {
		lat, lon float64
		hint     string
	}{
		{p.Lat, -p.Lon, "west is negative: is it lon = " + decimal(-p.Lon) + "?"},
		{-p.Lat, p.Lon, "south is negative: is it lat = " + decimal(-p.Lat) + "?"},
		{p.Lon, p.Lat, swapHint(p)},
	} {
		if gap, ok := clockGap(slip.lat, slip.lon, p.Zone, year); ok && gap < best {
			best, hint = gap, slip.hint
		}
	}
	return hint
}

// year gives the year whose clocks are looked at.
func (k Known) year() int {
	if k.Today.IsZero() {
		return 2026 // [chosen: offsets of standard time hardly ever change]
	}
	return k.Today.Year
}

func compass(degrees float64, positive, negative string) string {
	if degrees < 0 {
		return decimal(-degrees) + " " + negative
	}
	return decimal(degrees) + " " + positive
}

// checkWork says aloud which days keep the default hours.
func (in *reader) checkWork(work *node) {
	var untold []string
	for _, set := range workSettings() {
		if work.find(set.key) == nil {
			untold = append(untold, set.key)
		}
	}
	if len(untold) > 0 && len(untold) < len(weekdays()) {
		usual := showHours(Defaults().Garden.Work[time.Monday])
		in.warn(work.offset, `write `+untold[0]+` = "none" for a day off`, "no hours told for %s: %s is taken", strings.Join(untold, ", "), usual)
	}
}

// checkBees finds hives beside "no honey bees".
func (in *reader) checkBees(f *File) {
	if f.Garden.Bees.Hives > 0 && f.Garden.Bees.Honey == risk.None {
		in.warn(in.given["bees.honey"], "is the level one of another year?", "hives stand nearby, yet honey bees are told to be none")
	}
}
