package et0_test

import (
	"fmt"

	"dawnbrush/risk/air"
	"dawnbrush/risk/water/et0"
)

// FAO-56 example 18, Uccle near Brussels on 6 July: 3.88 mm.
func ExampleSite_FromMeans() {
	lat := 50.8
	ra := et0.Ra(lat, 187)
	rs := et0.FromSunshine(9.25/et0.Daylight(lat, 187), ra)
	ea := et0.VapourFromRange(21.5, 12.3, 84, 63)
	site := et0.NewSite(lat, 4.35, 100, 1)
	fmt.Printf("%.2f mm\n", site.FromMeans(21.5, 12.3, ea, 10/3.6*air.WindAt2(10), rs, ra))
	// Output: 3.88 mm
}

// FAO-56 example 19, N'Diaye in Senegal on 1 October from 14 to 15 h: 0.63 mm.
func ExampleHourly() {
	site := et0.NewSite(16.22, -16.25, 8, -1)
	var sky et0.Sky
	site.Sky(&sky, 274)
	es := air.SaturationPressure(38)
	ea := es * 52 / 100
	rs := 2.45
	clear := et0.ClearRatio(rs, et0.ClearShare(8)*sky.Ra[14])
	rn := et0.NetShort(rs) - et0.EmissionHour(38)*et0.HumidityTerm(ea)*et0.CloudTerm(clear)
	fmt.Printf("%.2f mm\n", et0.Hourly(et0.Terms{Slope: air.Slope(38), Gamma: site.Gamma(), T: 38, Wind2: 3.3, VPD: es - ea,
		Net: rn - et0.SoilHeatHour(rn, true)}))
	// Output: 0.63 mm
}

// FAO-56 example 20, Lyon in July from temperatures alone: 5.0 mm.
func ExampleHargreaves() {
	fmt.Printf("%.1f mm\n", et0.Hargreaves(26.6, 14.8, et0.Ra(45.72, 196)))
	// Output: 5.0 mm
}

// FAO-56 example 8, 20 degrees south on 3 September: 32.2 MJ m-2.
func ExampleRa() {
	fmt.Printf("%.1f MJ\n", et0.Ra(-20, 246))
	// Output: 32.2 MJ
}
