package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seasons is a garden file of two years: a finished sowing of the year before and
// one of the present year, of one butternut.
const seasons = `name = "Two years"
[place]
lat = 37.91
lon = -102.41
zone = "America/Denver"
[[planting]]
name = "old butternut"
crop = "butternut"
species = "moschata"
cultivar = "Porch Keeper"
sown = 2025-05-20
finished = 2025-09-20
[[planting]]
name = "new butternut"
crop = "butternut"
species = "moschata"
cultivar = "Porch Keeper"
sown = 2026-06-26
`

// A first flower of the year before, with the warmth that the garden's own station
// measured before it, moves the degree days by which this year's sowing is dated;
// without the station it counts by its days, and less.
func TestAFirstFlowerOfLastYearTeaches(t *testing.T) {
	s := newSummer(t)
	s.write("garden.toml", []byte(seasons))
	s.issue("2026-07-20")
	var b strings.Builder
	b.WriteString("time,temp_c\n")
	for h := range 24 * 80 { // 18 to 32 C every day: 25 C in the mean, 13 C days above 12 C
		at := time.Date(2025, 5, 15, 7, 0, 0, 0, time.UTC).Add(time.Duration(h) * time.Hour)
		fmt.Fprintf(&b, "%s,%.2f\n", at.Format(time.RFC3339), 25+7*math.Sin(2*math.Pi*float64(h%24-8)/24))
	}
	s.write("station.csv", []byte(b.String()))

	workings := func(more ...string) string {
		args := append([]string{"workings", "2026-07-20", "new butternut", "--from", s.path("forecast-2026-07-20.json"), "--at", "2026-07-20T04:30"}, more...)
		return strings.Join(strings.Fields(s.say(args...)), " ")
	}
	garden := regexp.MustCompile(`The book: 773 to 944 C degree days; 50 to 65 days from sowing\. The garden: (\d+) C degree days \(\d+ to \d+ C degree days\), n 1;`)
	sum := func() float64 {
		m := garden.FindStringSubmatch(workings())
		require.NotNil(t, m, workings())
		x, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		return x
	}
	assert.Contains(t, workings(), "The garden: no first flower noted yet")
	s.say("note", "first", "female", "old butternut", "--on", "2025-07-18")
	byDays := sum()
	assert.Greater(t, byDays, 858.0, "59 days where 57 are the middle of the book")
	s.say("observe", s.path("station.csv"))
	byWarmth := sum()
	// 59.5 days of 13 C days (the limits of 12 and 35 C are never passed) are 774;
	// the first sighting weighs 0.6 against the book's 858.6.
	want := math.Exp(0.4*math.Log(858.6) + 0.6*math.Log(59.5*13))
	assert.InDelta(t, want, byWarmth, 1)
	assert.Contains(t, workings("--units", "us"), fmt.Sprintf("The garden: %.0f F degree days", 1.8*want))

	learned := s.say("memory", "learned", "--at", "2026-07-20T04:30")
	assert.Contains(t, strings.Join(strings.Fields(learned), " "), "old butternut: first female flower on Fri 18 July, 59 days after sowing, 77")
}
