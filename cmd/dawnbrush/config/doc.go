// Package config reads, explains and writes the garden file: what a grower
// tells once about the place, the hours to work, the bees and the plantings.
//
// The file is TOML. Parse is strict: an unknown key or word is a fault with the
// nearest valid one as a hint, and every fault of a file is reported at once,
// in the order of its lines. A file with faults gives no garden; warnings do
// not stop it. What is left out takes the value of one function, Defaults, and
// Explain tells for every setting whether it was given, on which line, or is a
// default. Write prints a commented file that Parse reads back as the same
// garden.
//
// The settings of each table stand in one list (settings.go, planting.go) that
// serves reading, explaining and writing, so the three cannot drift apart.
//
// Lengths and heights are metres with units = "metric" and feet with
// units = "us"; inside they are metres. Hours are those of the garden's clock.
//
// Left out on purpose: secrets (passwords and keys of mail have their own files), names of
// commands, and anything that changes by the day; that belongs to the diary.
package config
