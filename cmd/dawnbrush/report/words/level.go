package words

import (
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/bee"
)

// Level is how much of something there is in an hour, for what is drawn by the hour.
type Level uint8

// The levels. The zero Level is not known.
const (
	NotKnown Level = iota
	NotAtAll
	Partly
	Fully
)

// Shares from which a level is full or partial. [chosen: two thirds serve, a fifth is
// worth a look]
const (
	levelFull = 0.66
	levelPart = 0.2
)

// Chances of rain from which rain stands fully or partly. [chosen]
const (
	rainFull = 0.6
	rainPart = 0.3
)

// LevelOf gives the level of a share of 0..1.
func LevelOf(share float64) Level { return levelFrom(share, levelPart, levelFull) }

func levelFrom(share, part, full float64) Level {
	switch {
	case share >= full:
		return Fully
	case share >= part:
		return Partly
	}
	return NotAtAll
}

// BeesLevel tells how much of some groups of bees is out in an hour of the flower.
func BeesLevel(h *risk.FlowerHour, groups []bee.Group) Level {
	return levelFrom(Out(h, groups), bee.OutShare, levelFull)
}

// RainLevel tells how likely rain is in an hour as the forecaster gives it, or
// whether it fell.
func RainLevel(h *forecast.Hour) Level {
	if mm, ok := h.Rain.Get(); ok && h.Origin != forecast.OriginForecast {
		if mm > 0 {
			return Fully
		}
		return NotAtAll
	}
	chance, ok := h.RainProb.Get()
	if !ok {
		return NotKnown
	}
	return levelFrom(chance, rainPart, rainFull)
}

// ByHand tells whether a task is pollination by hand, in whatever way the crop asks
// for.
func ByHand(k risk.TaskKind) bool {
	return k == risk.HandPollinate || k == risk.ShakeTassels || k == risk.TapTrusses
}
