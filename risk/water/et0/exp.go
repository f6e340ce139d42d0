package et0

import "math"

// exp is math.Exp for the exponents of saturation pressure, -20 to 20, to 1e-14
// of its value. Written out, it lets a processor work on several hours at once,
// which the call does not: the hour loop takes two thirds of the time.
func exp(x float64) float64 {
	const (
		steps = 32
		step  = math.Ln2 / steps
		whole = 3 << 51 // added to a number below 2^51, it rounds it to a whole one
	)
	z := x*(1/step) + whole
	n := int64(math.Float64bits(z))
	r := x - (z-whole)*step // within half a step of 0
	p := 1 + r + r*r*(0.5+r*(1.0/6)+r*r*(1.0/24+r*(1.0/120)))
	return p * math.Float64frombits(roots[n&(steps-1)]+uint64(n>>5)<<52)
}

// roots are the bits of 2^(i/32).
var roots = func() (bits [32]uint64) {
	for i := range bits {
		bits[i] = math.Float64bits(math.Exp2(float64(i) / 32))
	}
	return bits
}()
