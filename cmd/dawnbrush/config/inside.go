package config

import "dawnbrush/risk"

// checkInside wants what speaks of a tunnel or house where there is one.
func (in *reader) checkInside(s scope) {
	if inside(s.planting) {
		return
	}
	const hint = `write cover = "tunnel" or cover = "house", or leave it out`
	if at, told := in.given[s.path+"logger"]; told {
		in.warn(at, hint, "logger is read for a tunnel or house only")
	}
	if at, told := in.given[s.path+"bumble_hive"]; told && s.planting.BumbleHive {
		in.warn(at, hint, "bumble_hive is read for a tunnel or house only")
	}
}

// inside tells whether a planting stands in a tunnel or house.
func inside(p *risk.Planting) bool { return p.Cover == risk.Tunnel || p.Cover == risk.House }

// insideOnly marks a setting that is shown for tunnels and houses alone.
func insideOnly(set setting) setting {
	set.inside = true
	return set
}
