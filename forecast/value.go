package forecast

import (
	"encoding/json"
	"math"
)

// Value is a number that may be unknown. The zero Value is unknown. Its unit is
// fixed by the field that holds it.
type Value struct {
	v     float64
	known bool
}

// Known wraps a number. NaN and the infinities are not weather and give an
// unknown Value.
func Known(v float64) Value {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Value{}
	}
	return Value{v: v, known: true}
}

// Within wraps a number that has to lie in [lo, hi]; anything else (a sentinel
// such as -9999, a humidity of 140) gives an unknown Value.
func Within(v, lo, hi float64) Value {
	if !(v >= lo && v <= hi) {
		return Value{}
	}
	return Known(v)
}

// Get returns the number and whether it is known.
func (v Value) Get() (float64, bool) { return v.v, v.known }

// IsKnown tells whether there is a number.
func (v Value) IsKnown() bool { return v.known }

// Or returns the number, or otherwise where it is unknown. Callers say aloud
// that they fell back.
func (v Value) Or(otherwise float64) float64 {
	if v.known {
		return v.v
	}
	return otherwise
}

// MarshalJSON writes the number, or null where it is unknown.
func (v Value) MarshalJSON() ([]byte, error) {
	if !v.known {
		return []byte("null"), nil
	}
	return json.Marshal(v.v)
}

// UnmarshalJSON reads a number, or null for an unknown one.
func (v *Value) UnmarshalJSON(b []byte) error {
	if string(b) == "null" {
		*v = Value{}
		return nil
	}
	var x float64
	if err := json.Unmarshal(b, &x); err != nil {
		return err
	}
	*v = Known(x)
	return nil
}

// IsZero tells that the value is unknown, so that omitzero leaves it out.
func (v Value) IsZero() bool { return !v.known }
