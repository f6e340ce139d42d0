package dose

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Depths to volumes and minutes, 1e-3 of the arithmetic of the collection.
func TestWaterVolume(t *testing.T) {
	f, err := os.Open("testdata/water_volume.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 9)
	for _, r := range rows[1:] {
		n := func(i int) float64 {
			v, err := strconv.ParseFloat(r[i], 64)
			require.NoError(t, err)
			return v
		}
		net := Litres(n(0), n(1)) * n(2)
		gross, err := Gross(net, Efficiency(n(3)))
		require.NoError(t, err)
		run, err := Drips{int(n(7)), n(8)}.Run(gross)
		require.NoError(t, err)
		assert.InDelta(t, n(4), net, 1e-3, "%v", r)
		assert.InDelta(t, n(5), gross, 1e-3, "%v", r)
		assert.InDelta(t, n(6), Gallons(gross), 1e-3, "%v", r)
		assert.InDelta(t, n(9), run.Minutes(), 1e-3, "%v", r)
	}
}

// An inch on a square foot is 231 cubic inches out of 144: 0.623 US gallons. A
// garden line of 2 l/h drippers 30 cm apart on 1 m beds gives 6.7 mm/h.
func TestKnownRates(t *testing.T) {
	assert.InDelta(t, 144.0/231, Gallons(Litres(25.4, 0.09290304)), 1e-9)
	assert.InDelta(t, 6.7, Rate(2, 0.3, 1), 0.05)
	_, err := Gross(1, 0)
	require.Error(t, err)
	_, err = Drips{0, 2}.Run(10)
	require.Error(t, err)
}

func ExampleDrips_Run() {
	litres, _ := Gross(Litres(12, 4.8), Drip) // 12 mm on a bed of 4 by 1.2 m
	run, _ := Drips{Count: 16, Flow: 2}.Run(litres)
	fmt.Printf("%.0f l, %.1f gal or %.1f cans; %v of drip\n", litres, Gallons(litres), Cans(litres, CanLitres), run)
	// Output: 64 l, 16.9 gal or 6.4 cans; 2h0m0s of drip
}
