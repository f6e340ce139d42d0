package et0

import "dawnbrush/risk/source"

// Params lists the numbers of this package that are not part of an equation, with
// their origin.
func Params() []source.Param {
	return []source.Param{
		{Name: "water.least_wind", Value: LeastWind, Unit: "m/s at 2 m", Key: "FAO56", Where: "p. 63", Status: source.Read, Note: "floor of the wind in the reference"},
		{Name: "water.least_clear", Value: leastClear, Unit: "share", Key: "ASCEET05", Where: "eq. 18", Status: source.Memory, Note: "floor of radiation over clear-sky radiation in eq. 39"},
		{Name: "water.high_sun", Value: highSun, Unit: "sine of elevation", Key: "ASCEET05", Where: "p. 34", Status: source.Memory, Note: "sine of 0.3 rad; below it an hour does not tell the cloud of the day"},
		{Name: "water.first_night", Value: FirstNight, Unit: "share", Key: "FAO56", Where: "eq. 39, hourly", Status: source.Derived, Note: "between the 0.4 to 0.6 of humid and the 0.7 to 0.8 of dry nights, before a first day is seen"},
		{Name: "water.least_known", Value: leastKnown, Unit: "share", Key: source.KeyChosen, Status: source.Chosen, Note: "of a day's hours that must be known before their mean stands for the day: with a quarter missing the mean temperature of a clear day strays by a degree or two"},
	}
}
