// Package kc turns reference evapotranspiration into what a crop and the bare
// soil between its plants take, after FAO Irrigation and Drainage Paper 56
// (FAO56).
//
//	chapter 6, single coefficient        curve.go, adjust.go
//	chapter 7, dual coefficient          dual.go: what plants take and what the wet surface gives off
//	chapter 10, mulch                    mulch.go
//	tables 11, 12, 17, 20, 22, 24, 25    crop.go, from risk/water/table
//
// The dual coefficient is the main way: a garden bed is watered often and partly,
// and the single one (a curve in which an average evaporation of the soil is
// hidden) cannot tell a mulched drip line from a sprinkler. The single one is
// simpler, needs no state of the surface, and serves to plan a week of means.
//
// Left out: Kc ini from figures 29 and 30, which are graphs; cover crops and
// orchards of chapters 9 and 11.
package kc
