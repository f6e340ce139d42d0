package config

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"time"

	"dawnbrush/forecast"
)

// zoneTab lists the zones of the world with the place of their principal town.
// It is the public domain table of the IANA time zone database, release 2025b.
//
//go:embed zone.tab
var zoneTab string

// zoneTown is a time zone and its principal town.
type zoneTown struct {
	zone string
	town forecast.Place
}

// zoneTowns reads the table: country, place as +DDMM+DDDMM or +DDMMSS+DDDMMSS,
// zone, notes.
func zoneTowns() []zoneTown {
	var out []zoneTown
	for line := range strings.Lines(zoneTab) {
		columns := strings.Split(strings.TrimSpace(line), "\t")
		if strings.HasPrefix(line, "#") || len(columns) < 3 {
			continue
		}
		at := columns[1]
		cut := 1 + strings.IndexAny(at[1:], "+-")
		lat, okLat := sexagesimal(at[:cut], 2)
		lon, okLon := sexagesimal(at[cut:], 3)
		if okLat && okLon {
			out = append(out, zoneTown{columns[2], forecast.Place{Lat: lat, Lon: lon}})
		}
	}
	return out
}

// sexagesimal reads a sign, degrees of so many digits, minutes and perhaps
// seconds.
func sexagesimal(s string, digits int) (float64, bool) {
	if len(s) < 1+digits {
		return 0, false
	}
	parts := []string{s[1 : 1+digits]}
	for rest := s[1+digits:]; len(rest) >= 2; rest = rest[2:] {
		parts = append(parts, rest[:2])
	}
	degrees, unit := 0.0, 1.0
	for _, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil {
			return 0, false
		}
		degrees += float64(n) / unit
		unit *= 60
	}
	if s[0] == '-' {
		degrees = -degrees
	}
	return degrees, true
}

func zoneNames() []string {
	var out []string
	for _, z := range zoneTowns() {
		out = append(out, z.zone)
	}
	return append(out, "UTC")
}

// NearestZone offers the time zone whose principal town lies nearest to a place
// in degrees. It is a guess for a person to confirm: near a border it can be
// the neighbour's.
func NearestZone(lat, lon float64) string {
	nearest, best := "", math.Inf(1)
	for _, z := range zoneTowns() {
		if km := z.town.DistanceKm(forecast.Place{Lat: lat, Lon: lon}); km < best {
			nearest, best = z.zone, km
		}
	}
	return nearest
}

func nearbyHint(zone string) string {
	return "the nearest town of the zone table keeps " + quote(zone)
}

// zoneHint offers the nearest name of a zone, also for a town alone; nearby is
// the zone of the place, "" when the place is not known.
func zoneHint(name, nearby string) string {
	name = strings.ReplaceAll(name, " ", "_")
	names := zoneNames()
	for _, z := range names {
		if town := z[strings.LastIndexByte(z, '/')+1:]; strings.EqualFold(town, name) {
			return "did you mean " + quote(z) + "?"
		}
	}
	if near, ok := Nearest(name, names); ok {
		return "did you mean " + quote(near) + "?"
	}
	if nearby != "" {
		return nearbyHint(nearby)
	}
	return `write region and town as the time zone database does: "America/Chicago", "Europe/Berlin"`
}

// latitudes bounds the regions of the zone names that are not too scattered to
// be bounded: Gavdos to Svalbard, Rote to Severnaya Zemlya, and so on. [memory]
func latitudes(region string) (south, north float64) {
	switch region {
	case "Africa":
		return -35, 38
	case "America":
		return -56, 84
	case "Asia":
		return -12, 82
	case "Australia":
		return -45, -9
	case "Europe":
		return 34, 82
	}
	return -90, 90
}

// farthestClock is the largest gap between a clock and the sun, in hours: the
// west of China is 3.1 h off, Attu in the Aleutians 2.5 h, no place more. [memory]
const farthestClock = 3.5

// clockGap gives the hours between the sun of a place and standard time in a
// zone, and whether the place can lie in it at all. Zones without a region, such
// as UTC, are let pass everywhere.
func clockGap(lat, lon float64, zone *time.Location, year int) (gap float64, ok bool) {
	region, _, named := strings.Cut(zone.String(), "/")
	// The smaller of both offsets is standard time on either hemisphere.
	_, january := time.Date(year, time.January, 1, 12, 0, 0, 0, time.UTC).In(zone).Zone()
	_, july := time.Date(year, time.July, 1, 12, 0, 0, 0, time.UTC).In(zone).Zone()
	gap = math.Abs(math.Remainder(lon/15-float64(min(january, july))/3600, 24))
	if !named || region == "Etc" {
		return gap, true
	}
	south, north := latitudes(region)
	return gap, gap <= farthestClock && lat >= south && lat <= north && math.Abs(lon) <= mostDegrees
}
