package config

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The table of the IANA time zone database, release 2025b, gives 418 rows with
// the place of each zone's principal town; checked here against the clocks of
// the same database. Outside: every one of these places must pass.
func TestEveryZoneTownKeepsItsTime(t *testing.T) {
	towns := zoneTowns()
	require.Len(t, towns, 418)
	swaps, signs, noticedSwaps, noticedSigns := 0, 0, 0, 0
	for _, z := range towns {
		zone, err := time.LoadLocation(z.zone)
		require.NoError(t, err)
		lat, lon := z.town.Lat, z.town.Lon
		_, ok := clockGap(lat, lon, zone, today.Year)
		assert.True(t, ok, "%s at %v, %v", z.zone, lat, lon)
		swaps++
		if _, ok := clockGap(lon, lat, zone, today.Year); !ok {
			noticedSwaps++
		}
		if lon > 60 || lon < -60 {
			signs++
			if _, ok := clockGap(lat, -lon, zone, today.Year); !ok {
				noticedSigns++
			}
		}
	}
	t.Logf("swaps noticed %d of %d, lost signs beyond 60 degrees %d of %d", noticedSwaps, swaps, noticedSigns, signs)
	// In the Americas a swap puts the place 60 degrees or more to the east.
	assert.Greater(t, noticedSwaps, swaps/2)
	assert.Greater(t, noticedSigns, signs*3/4)
}

// Rows of zone.tab read by hand: New York +404251-0740023, Lagos +0627+00324.
func TestZoneTownPlaces(t *testing.T) {
	found := 0
	for _, z := range zoneTowns() {
		switch z.zone {
		case "America/New_York":
			assert.InDelta(t, 40+42/60.0+51/3600.0, z.town.Lat, 1e-9)
			assert.InDelta(t, -(74 + 0/60.0 + 23/3600.0), z.town.Lon, 1e-9)
			found++
		case "Africa/Lagos":
			assert.InDelta(t, 6+27/60.0, z.town.Lat, 1e-9)
			assert.InDelta(t, 3+24/60.0, z.town.Lon, 1e-9)
			found++
		}
	}
	assert.Equal(t, 2, found)
}

func TestNearestZone(t *testing.T) {
	// Newark, Potsdam and Geelong lie within 100 km of their zone's town. [memory]
	assert.Equal(t, "America/New_York", NearestZone(40.74, -74.17))
	assert.Equal(t, "Europe/Berlin", NearestZone(52.40, 13.06))
	assert.Equal(t, "Australia/Melbourne", NearestZone(-38.15, 144.36))
}
