package jsonout

import "dawnbrush/risk"

// earsJSON is what becomes of the ears of a planting of corn.
type earsJSON struct {
	Filled  rangeJSON `json:"filled"`
	Shaken  rangeJSON `json:"filled_if_shaken"`
	Butt    rangeJSON `json:"butt"`
	Middle  rangeJSON `json:"middle"`
	Tip     rangeJSON `json:"tip"`
	Heat    rangeJSON `json:"left_by_heat"`
	Open    float64   `json:"waiting"`
	Waits   string    `json:"waiting_part"`
	Unknown int       `json:"unknown_days"`
}

// overRowsJSON is how the wind goes over few rows of corn.
type overRowsJSON struct {
	Share float64 `json:"share"`
	Angle float64 `json:"angle_deg"`
}

// overRowsOf is nil where it is not known.
func overRowsOf(w *risk.OverRows) *overRowsJSON {
	if !w.Known {
		return nil
	}
	return &overRowsJSON{round(w.Share), round(w.Angle)}
}

// earsOf is nil where the ears are not known.
func earsOf(e *risk.Ears) *earsJSON {
	if !e.Known {
		return nil
	}
	r := func(x risk.Range) rangeJSON { return rangeJSON{round(x.Lo), round(x.Mid), round(x.Hi)} }
	return &earsJSON{r(e.Filled), r(e.Shaken), r(e.Part[risk.Butt]), r(e.Part[risk.Middle]), r(e.Part[risk.Tip]), r(e.HeatLeft), round(e.Open), e.Waits.String(), e.Dark}
}
