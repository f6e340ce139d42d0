package heat

import "dawnbrush/risk/source"

// Params lists the edges of the bands with their origin.
func Params() []source.Param {
	var out []source.Param
	for b := Caution; b <= ExtremeDanger; b++ {
		p := source.Param{Name: "heat." + b.key(), Value: edges[b], Unit: "degF", Key: "NWSheatindex", Where: "classes of danger", Status: source.Quoted, Note: "lower end of the band"}
		if old, differs := map[Band]float64{Danger: 105, ExtremeDanger: 130}[b]; differs {
			p.Others = []source.Alternative{{Value: &old, Unit: "degF", Text: "older charts of the same service", Key: "NWSheatindex", Where: "chart", Status: source.Quoted}}
		}
		out = append(out, p)
	}
	return out
}

func (b Band) key() string {
	return [...]string{"none", "caution", "extreme_caution", "danger", "extreme_danger"}[b]
}
