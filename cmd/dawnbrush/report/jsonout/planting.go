package jsonout

import (
	"time"

	"dawnbrush/risk"
)

type plantingJSON struct {
	Name      string           `json:"name"`
	Crop      string           `json:"crop"`
	Type      *string          `json:"type"`
	Bloom     string           `json:"bloom"`
	Basis     string           `json:"bloom_basis"`
	State     string           `json:"state"`
	Set       *rangeJSON       `json:"set"`
	Fill      *rangeJSON       `json:"fill"`
	Both      *rangeJSON       `json:"fill_with_brush"`
	BothSet   *rangeJSON       `json:"set_with_brush"`
	BrushFrom *time.Time       `json:"brush_from"`
	BrushTo   *time.Time       `json:"brush_to"`
	BestShare float64          `json:"brush_share"`
	Opens     *time.Time       `json:"opens"`
	Closes    *time.Time       `json:"closes"`
	Factor    *float64         `json:"days_before_leave"`
	Load      *loadJSON        `json:"load"`
	Ears      *earsJSON        `json:"ears"`
	DrySoil   *drySoilJSON     `json:"dry_soil"`
	OverRows  *overRowsJSON    `json:"wind_over_rows"`
	Layers    []string         `json:"unknown_layers"`
	Inside    *insideJSON      `json:"inside"`
	Hot       bool             `json:"too_hot_outside"`
	Flags     []flagJSON       `json:"flags"`
	Hours     []flowerHourJSON `json:"hours"`
}

// loadJSON is the growing fruit of a planting.
type loadJSON struct {
	PerPlant float64 `json:"fruits_per_plant"`
	AtLeast  bool    `json:"at_least"`
	Low      float64 `json:"limit_low"`
	High     float64 `json:"limit_high"`
	Kept     float64 `json:"new_fruit_kept"`
}

// loadOf is nil where the load is not known.
func loadOf(p *risk.PlantingDay) *loadJSON {
	n, ok := p.Load.PerPlant.Get()
	if !ok {
		return nil
	}
	limit := p.Planting.Crop.Load.Limit
	return &loadJSON{round(n), p.Load.AtLeast, limit.Low, limit.High, round(p.Load.Kept)}
}

// drySoilJSON is what want of water leaves of a planting's set.
type drySoilJSON struct {
	Ks   rangeJSON `json:"ks"`
	Kept rangeJSON `json:"set_kept"`
}

// drySoilOf is nil where no account tells.
func drySoilOf(d *risk.DrySoil) *drySoilJSON {
	if !d.Known {
		return nil
	}
	return &drySoilJSON{plainRange(d.Ks), plainRange(d.Kept)}
}

type flowerHourJSON struct {
	Start     *time.Time         `json:"start"`
	Open      float64            `json:"open"`
	Alive     float64            `json:"pollen_alive"`
	Heat      float64            `json:"heat"`
	Tube      float64            `json:"tube"`
	Receptive float64            `json:"receptive"`
	Offer     float64            `json:"offer"`
	Dry       float64            `json:"dry"`
	Wet       float64            `json:"rain_chance"`
	Hand      float64            `json:"brush"`
	Flight    map[string]float64 `json:"flight"`
	Bees      float64            `json:"share_of_bees_work"`
}

func (m *maker) planting(p *risk.PlantingDay) plantingJSON {
	out := plantingJSON{Bloom: p.Bloom.String(), Basis: p.BloomBasis, State: p.State.String(), Set: rangeOf(p.Set, p.State), Fill: rangeOf(p.Fill, p.State),
		Both: rangeOf(p.Both, p.State), BothSet: rangeOf(p.BothSet, p.State), BrushFrom: m.at(p.BrushSpan[0]), BrushTo: m.at(p.BrushSpan[1]), BestShare: round(p.BestShare),
		Opens: m.at(p.Opens), Closes: m.at(p.Closes), Factor: number(p.Factor), Load: loadOf(p), Ears: earsOf(&p.Ears), DrySoil: drySoilOf(&p.DrySoil), OverRows: overRowsOf(&p.OverRows), Layers: layers(p.Missing), Inside: m.inside(p, false, nil), Hot: p.HotOutside, Hours: []flowerHourJSON{}}
	if p.Planting != nil {
		out.Name = p.Planting.Name
		if p.Planting.Crop != nil {
			out.Crop = p.Planting.Crop.Key
			if p.Planting.Type != "" {
				out.Type = &p.Planting.Type
			}
		}
	}
	out.Flags = m.flags(p.Flags, p)
	for i := range p.Hours {
		h := &p.Hours[i]
		out.Hours = append(out.Hours, flowerHourJSON{m.at(h.Start), round(h.Open), round(h.Alive), round(h.Heat), round(h.Tube), round(h.Receptive),
			round(h.Offer), round(h.Dry), round(h.Wet), round(h.Hand), groups(h.Flight), round(h.Bees)})
	}
	return out
}

type flagJSON struct {
	Kind      string     `json:"kind"`
	KeptInBy  *string    `json:"kept_in_by"`
	From      *time.Time `json:"from"`
	To        *time.Time `json:"to"`
	Value     *float64   `json:"value"`
	Limit     *float64   `json:"limit"`
	Unit      string     `json:"unit"`
	Chance    *float64   `json:"chance"`
	SinceDate *string    `json:"since_date"`
	UntilDate *string    `json:"until_date"`
	Param     string     `json:"param"`
	Source    *string    `json:"source"`
	Where     *string    `json:"where"`
	Status    *string    `json:"status"`
	Text      string     `json:"text"`
}

// flagUnits says in what a flag's value and limit are.
func flagUnit(f *risk.Flag) string {
	switch f.Kind {
	case risk.PollenWet:
		return "mm/h"
	case risk.PollenMould:
		return "h"
	case risk.DryAir, risk.DampAir:
		return "%"
	case risk.HotDays:
		return "share"
	case risk.FullLoad:
		return "fruits per plant"
	case risk.OtherCorn:
		return "m"
	case risk.HeatOnBuds, risk.FewAhead, risk.Catface:
		return "days; limit degC"
	case risk.BeesIn:
		return beeUnits[f.Factor.String()]
	}
	return "degC"
}

var beeUnits = map[string]string{"cold": "degC", "heat": "degC", "light": "share of clear sky", "wind": "m/s at 2 m", "rain": "mm/h", "wet": ""}

func (m *maker) flags(list []risk.Flag, p *risk.PlantingDay) []flagJSON {
	out := []flagJSON{}
	for i := range list {
		f := &list[i]
		j := flagJSON{Kind: f.Kind.String(), From: m.at(f.From), To: m.at(f.To), Value: number(f.Value), Limit: number(f.Limit), Unit: flagUnit(f),
			Chance: number(f.Prob), SinceDate: date(f.Since), UntilDate: date(f.Until), Param: f.Param, Text: m.words.Flag(f, p)}
		if f.Kind == risk.BeesIn {
			factor := f.Factor.String()
			j.KeptInBy = &factor
		}
		var planting *risk.Planting
		if p != nil {
			planting = p.Planting
		}
		if param, ok := m.d.Param(planting, f.Param); ok {
			status := param.Status.String()
			j.Source, j.Status = m.cite(param.Key), &status
			if param.Where != "" {
				j.Where = &param.Where
			}
		}
		out = append(out, j)
	}
	return out
}
