package forecast

import (
	"math"
	"time"
)

// Place is a point on earth with its civil time zone.
type Place struct {
	Lat       float64 // degrees, north positive, -90..90
	Lon       float64 // degrees, east positive, -180..180
	Elevation Value   // m above sea level
	Zone      *time.Location
}

// earthRadius is the mean radius R1 in km. [IUGG80, status memory]
const earthRadius = 6371.0088

// DistanceKm gives the great-circle distance in km by the haversine formula.
func (p Place) DistanceKm(o Place) float64 {
	const rad = math.Pi / 180
	s1 := math.Sin((o.Lat - p.Lat) * rad / 2)
	s2 := math.Sin((o.Lon - p.Lon) * rad / 2)
	h := s1*s1 + math.Cos(p.Lat*rad)*math.Cos(o.Lat*rad)*s2*s2
	return 2 * earthRadius * math.Asin(math.Sqrt(math.Min(1, h)))
}
