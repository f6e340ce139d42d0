// Package risk says which flowers the bees will not finish and what to do about
// it: garden and weather in, verdicts and tasks out. It reads no clock, file or
// network; the same inputs give the same plan.
//
// Data flows one way: [Assess] works out every planting's day over the worlds
// that the chance of rain leaves open, [Plan] turns verdicts into at most seven
// tasks a day. Where each published family lives:
//
//	FAO 56 ch. 3 (vapour pressure, wind, evaporation)     risk/air
//	Meeus ch. 25, 28 (sun); Haurwitz; Kasten & Czeplak    forecast/sun
//	Vicens & Bosch; Burrill & Dietz; Hennessy (flight)    risk/bee flight.go
//	Gamma-Poisson supply of bees                          risk/bee supply.go
//	Wang & Robinson; Acta Hort. 1271:379 (pollen age)     risk/pollen
//	Bulger, Ellis & Madden (wetness and infection)        risk/pollen
//	Zalom; Baskerville & Emin; Perry & Wehner (warmth)    risk/growth
//	Savage (air of a tunnel); what a logger in one tells  inside*.go, rooms.go
//	one crop's flowers, pollen, need, heat                risk/crop/data/<crop>.json
//	bibliography, status of every number                  risk/source
//
// What is left out, with the reason: members of an ensemble and the error of
// temperature forecasts (they come with the chances), soil water (it comes with
// watering), what the diary teaches (it comes with the memory), fruit load and
// plant vigour (no input tells them yet), bees other than three groups; under cover,
// heating and the hours at which vents are opened, beyond what a logger's past shows.
package risk
