// Package soil says how much water the ground under a crop holds and when its
// plants begin to suffer, after chapter 8 of FAO Irrigation and Drainage Paper
// 56 (FAO56).
//
//	equations 73, 82, 83, 84             soil.go, stress.go
//	equations 90 to 93, 103              stress.go: yield and salt
//	table 19                             soil.go, from risk/water/table
//	raised beds, containers              bed.go
//
// Ground is described by field capacity, what it holds against gravity a day
// after a soaking, and wilting point, what roots cannot take, both m3 of water in
// m3 of soil.
package soil
