package source

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// Kind tells which fields of a Param hold its content.
type Kind uint8

// The kinds of Param. The zero Kind is a single number.
const (
	Number Kind = iota // Value, perhaps with the published Range around it
	Span               // Range alone: from .. to, no middle was published
	Points             // Curve, a line through points
	Words              // Text, a fact told in words
)

// Interval is a closed range of numbers, Low <= High.
type Interval struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Param is one number, range, curve or fact of the model with its origin.
type Param struct {
	Name   string        `json:"name"` // dotted, unique within its crop or package: "window.opens"
	Kind   Kind          `json:"-"`
	Value  float64       `json:"-"`               // written by MarshalJSON, a zero too
	Range  *Interval     `json:"range,omitempty"` // published range; nil when none
	Curve  [][2]float64  `json:"curve,omitempty"` // {x, y}, x rising
	X      string        `json:"x,omitempty"`     // unit of the curve's x
	Text   string        `json:"text,omitempty"`
	Unit   string        `json:"unit,omitempty"` // unit of Value, Range and the curve's y; "1" for a pure number
	Key    string        `json:"source"`
	Where  string        `json:"where,omitempty"` // place in the source
	Status Status        `json:"status"`
	Note   string        `json:"note,omitempty"` // rationale of a choice, way of a derivation
	Row    string        `json:"-"`              // row of the evidence table the number was taken from
	Others []Alternative `json:"others,omitempty"`
}

// Choice gives a number that no source tells, with the reason for taking it.
func Choice(name string, v float64, unit, reason string) Param {
	return Param{Name: name, Value: v, Unit: unit, Key: KeyChosen, Status: Chosen, Note: reason}
}

// Alternative is conflicting or supporting evidence that was not taken.
type Alternative struct {
	Value  *float64  `json:"value,omitempty"`
	Range  *Interval `json:"range,omitempty"`
	Text   string    `json:"text,omitempty"`
	Unit   string    `json:"unit,omitempty"` // empty: the unit of the Param
	Key    string    `json:"source"`
	Where  string    `json:"where,omitempty"`
	Status Status    `json:"status"`
	Row    string    `json:"-"`
}

// MarshalJSON writes the number only where p is one: a threshold of 0 is a value,
// the empty Value of a range is not.
func (p Param) MarshalJSON() ([]byte, error) {
	type fields Param
	out := struct {
		fields
		Value *float64 `json:"value,omitempty"`
	}{fields: fields(p)}
	if p.Kind == Number {
		out.Value = &p.Value
	}
	return json.Marshal(out)
}

// Validate checks that p has a unit, a source the bibliography knows, a place in
// it where one is due, a status no better than the source allows, and finite
// content. All faults come at once, without p.Name, joined.
func (p Param) Validate(bib *Bibliography) error {
	faults := originFaults(bib, p.Key, p.Where, p.Status)
	if p.Status == Chosen && p.Note == "" {
		faults = append(faults, errors.New("a chosen value needs a note with the reason"))
	}
	if p.Status == Derived && p.Note == "" {
		faults = append(faults, errors.New("a derived value needs a note with the way it was computed"))
	}
	if p.Kind != Words && p.Unit == "" {
		faults = append(faults, errors.New("unit is missing"))
	}
	faults = append(faults, p.contentFaults()...)
	for i, o := range p.Others {
		if o.Value == nil && o.Range == nil && o.Text == "" {
			faults = append(faults, fmt.Errorf("others %d: neither value nor range nor text", i+1))
		}
		for _, err := range originFaults(bib, o.Key, o.Where, o.Status) {
			faults = append(faults, fmt.Errorf("others %d: %w", i+1, err))
		}
	}
	return errors.Join(faults...)
}

func (p Param) contentFaults() []error {
	var faults []error
	switch p.Kind {
	case Number:
		faults = append(faults, finite(p.Value), within(p.Value, p.Range))
	case Span:
		if p.Range == nil {
			faults = append(faults, errors.New("range is missing"))
		}
	case Points:
		faults = append(faults, curveFaults(p.Curve, p.X))
	case Words:
		if p.Text == "" {
			faults = append(faults, errors.New("text is missing"))
		}
	}
	if r := p.Range; r != nil {
		faults = append(faults, finite(r.Low), finite(r.High))
		if r.Low > r.High {
			faults = append(faults, fmt.Errorf("low %g is above high %g", r.Low, r.High))
		}
	}
	return faults
}

func within(v float64, r *Interval) error {
	if r != nil && (v < r.Low || v > r.High) {
		return fmt.Errorf("value %g is outside its own range %g to %g", v, r.Low, r.High)
	}
	return nil
}

func curveFaults(points [][2]float64, x string) error {
	if len(points) < 2 {
		return errors.New("a curve needs at least two points")
	}
	if x == "" {
		return errors.New("x, the unit along the curve, is missing")
	}
	for i, p := range points {
		if err := errors.Join(finite(p[0]), finite(p[1])); err != nil {
			return err
		}
		if i > 0 && p[0] == points[i-1][0] {
			return fmt.Errorf("two points of the curve stand at %g", p[0])
		}
	}
	return nil
}

func finite(v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return errors.New("number is not finite")
	}
	return nil
}

// NoStatus is the text of the fault of a missing status.
const NoStatus = "status is missing"

// originFaults checks the triple source, place, status.
func originFaults(bib *Bibliography, key, where string, status Status) []error {
	var faults []error
	if !status.Valid() {
		faults = append(faults, errors.New(NoStatus))
	}
	if key == "" {
		return append(faults, errors.New("source is missing"))
	}
	entry, ok := bib.Get(key)
	if !ok {
		return append(faults, fmt.Errorf("source %q is not in the bibliography", key))
	}
	special := map[string]Status{KeyChosen: Chosen, KeyCommonPractice: CommonPractice, KeyMemory: Memory}
	want, isSpecial := special[key]
	switch {
	case isSpecial && status.Valid() && status != want:
		faults = append(faults, fmt.Errorf("source %q goes with status %s, not %s", key, want, status))
	case !isSpecial && (status == Chosen || status == CommonPractice):
		faults = append(faults, fmt.Errorf("status %s goes with source %q, not %q", status, status, key))
	case !isSpecial && (!status.Valid() || status > Memory) && where == "":
		faults = append(faults, fmt.Errorf("place in %s is missing", key))
	}
	if entry.Status.Valid() && status > entry.Status {
		faults = append(faults, fmt.Errorf("status %s is better than %s, the best that %s was seen", status, entry.Status, key))
	}
	return faults
}
