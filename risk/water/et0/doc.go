// Package et0 computes reference evapotranspiration, the water that a well
// watered lawn of 12 cm gives off, in mm: the weather's pull on every bed.
//
// The map from FAO Irrigation and Drainage Paper 56 (FAO56) to this package:
//
//	chapter 3, vapour pressure           risk/air and vapour.go
//	chapter 3, radiation                 radiation.go (days, months), sky.go (hours)
//	chapter 3, missing data              vapour.go, radiation.go
//	chapter 4, Penman-Monteith           penman.go; [Site.Run] for many days of hours
//	chapter 4, with temperatures alone   [Hargreaves]
//
// Three ways lead to the reference of a day, best first: the sum of its hours
// (eq. 53), one step of the day's means (eq. 6), and its highest and lowest
// temperature alone (eq. 52). [DayOf] takes the best that the known layers
// allow and says which it was; nothing unknown is guessed.
//
// What the paper leaves open and what is done here: in the hours of sunrise and
// sunset the hour angles are cut to the sunset angle (ASCE-EWRI 2005 does so
// too, from memory); the ratio of radiation to clear-sky radiation is held
// within 0.3 to 1; at night the last ratio of the day is carried on. Hours below
// nought are dew and are kept. The taller reference (alfalfa) is left out: FAO's
// crop coefficients are made for grass.
package et0
