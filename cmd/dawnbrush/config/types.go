package config

import (
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// readType looks the type up among those of the crop. How the type usually sets fruit
// holds until the grower tells it, for the key of that stands behind.
func readType(in *reader, key string, v *node, s scope) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return
	}
	c := s.planting.Crop
	if c == nil {
		return // the crop's own fault comes first
	}
	if len(c.Types) == 0 {
		in.warn(v.offset, "leave it out", "%s is read for cucumbers only: no types of %s are known here", key, c.Name)
		return
	}
	if t, ok := c.FindType(v.text); ok {
		setType(s.planting, t)
		return
	}
	hint := wordHint(v.text, c.TypeWords())
	if _, near := Nearest(v.text, c.TypeWords()); !near {
		hint = "it can be " + list(typeKeys(c))
	}
	in.fault(v.offset, hint, "%s cannot be %s", key, said(v.text))
}

// setType gives a planting its type and how that usually sets fruit.
func setType(p *risk.Planting, t *crop.Type) {
	p.Type = t.Key
	p.Setting = usualSetting(p)
}

// usualSetting is how a planting sets fruit until the grower tells it.
func usualSetting(p *risk.Planting) crop.Setting {
	if p.Crop != nil {
		if t, ok := p.Crop.TypeOf(p.Type); ok && t.Sets != "" {
			return t.Sets
		}
	}
	return plantingDefaults(p.Crop).Setting
}

func typeKeys(c *crop.Crop) []string {
	keys := make([]string, len(c.Types))
	for i := range c.Types {
		keys[i] = c.Types[i].Key
	}
	return keys
}
