package document

import (
	"dawnbrush/risk"
	"dawnbrush/risk/source"
)

// Param finds a number behind a limit by its dotted name: in the planting's crop
// first, then among those of the model. p may be nil.
func (d *Document) Param(p *risk.Planting, name string) (source.Param, bool) {
	if p != nil && p.Crop != nil {
		for i := range p.Crop.Params {
			if p.Crop.Params[i].Name == name {
				return p.Crop.Params[i], true
			}
		}
	}
	for i := range d.Constants {
		if d.Constants[i].Name == name {
			return d.Constants[i], true
		}
	}
	return source.Param{}, false
}

// Citation gives the text of a source, "" for an unknown key.
func (d *Document) Citation(key string) string {
	if d.Crops == nil {
		return ""
	}
	e, _ := d.Crops.Bibliography().Get(key)
	return e.Citation
}
