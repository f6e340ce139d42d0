// Package water keeps the account of the water in a bed, day by day, after FAO
// Irrigation and Drainage Paper 56 (Allen, Pereira, Raes and Smith 1998; FAO56).
// The map from the paper to the packages:
//
//	chapters 2 to 4, reference            risk/water/et0 (and risk/air for vapour)
//	chapters 5 to 7, 10, coefficients     risk/water/kc
//	chapter 8, soil, stress, salt         risk/water/soil
//	chapter 8, balance and scheduling     this package
//	its tables                            risk/water/table
//	litres, cans, minutes                 risk/water/dose
//
// All terms are mm, litres on a square metre. The root zone is described by its
// depletion, what it lacks to field capacity.
//
// # The order of a day
//
// The paper contradicts itself. Equations 85, 86 and 88 let a day's use come
// before the excess drains: example 38 would then drain 11.1 mm on its first day
// and end it full. The example's own table drains first (17 mm) and takes the
// use afterwards (5 mm lacking at night), as its footnote says: water comes early
// in the day. This package follows the table, for gardens are watered in the
// morning and a soaked soil drains within the day:
//
//  1. rain that counts and irrigation enter, and what overfills the root zone
//     drains: DP = max(0, P - RO + I - Dr);
//  2. the state of the surface gives the evaporation, that of the root zone after
//     the wetting gives the stress;
//  3. evaporation and transpiration are taken out.
//
// The same table was printed from two passes of a calculation: in examples 35 and
// 38 its Kr and Ke of days 3 and 4 do not belong to its E, Kc and ETc. The tests
// list these cells.
//
// Two bounds are ours. The exposed soil never gives more than it holds, and plants
// never take more than is available; the paper cuts the depletion at TAW (eq. 86)
// and loses the rest. So rain + irrigation = runoff + ET + drainage + change of
// storage holds to the last digit.
//
// Left out: water rising from below (CR of eq. 85), runoff (given by the caller,
// else 0), snow and frost.
package water
