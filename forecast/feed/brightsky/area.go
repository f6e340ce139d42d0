package brightsky

import (
	"math"

	"dawnbrush/forecast"
)

// nearby is how far from Germany the service still finds stations: it looks for them within
// 50 km. [BrightSky]
const nearby = 50 // km

// corner is a point of an outline, in degrees.
type corner struct{ lat, lon float64 }

// germany is its outline with the islands, drawn with few corners: good to some 15 km. [memory]
var germany = [...]corner{
	{55.05, 8.4}, {54.85, 9.4}, {54.6, 10.95}, {54.2, 12.1}, {54.7, 13.4}, {53.9, 14.25}, {52.85, 14.15}, {52.3, 14.7},
	{51.3, 15.04}, {50.85, 14.7}, {50.9, 14.3}, {50.35, 12.7}, {50.2, 12.1}, {49.3, 13.0}, {48.75, 13.8}, {48.3, 13.2}, {47.6, 13.05},
	{47.4, 11.1}, {47.27, 10.2}, {47.55, 9.7}, {47.6, 7.6}, {48.95, 8.2}, {49.2, 6.7}, {50.1, 6.1}, {50.75, 6.0},
	{51.8, 5.95}, {51.95, 6.75}, {52.4, 7.0}, {53.2, 7.2}, {53.6, 6.65}, {54.15, 7.8},
}

// nearGermany tells whether a place lies in the outline or near it.
func nearGermany(p forecast.Place) bool {
	inside := false
	for i, b := range germany {
		a := germany[(i+len(germany)-1)%len(germany)]
		if (a.lat > p.Lat) != (b.lat > p.Lat) && p.Lon < a.lon+(p.Lat-a.lat)/(b.lat-a.lat)*(b.lon-a.lon) {
			inside = !inside // one more edge between the place and the far east
		}
		if p.DistanceKm(nearest(p, a, b)) <= nearby {
			return true
		}
	}
	return inside
}

// nearest gives the point of an edge that is nearest to a place, as on a flat map around it:
// good for distances of some 100 km.
func nearest(p forecast.Place, a, b corner) forecast.Place {
	shrink := math.Cos(p.Lat * math.Pi / 180) // of a degree of longitude
	x, y := (b.lon-a.lon)*shrink, b.lat-a.lat
	px, py := (p.Lon-a.lon)*shrink, p.Lat-a.lat
	along := max(0, min(1, (px*x+py*y)/(x*x+y*y)))
	return forecast.Place{Lat: a.lat + along*(b.lat-a.lat), Lon: a.lon + along*(b.lon-a.lon)}
}
