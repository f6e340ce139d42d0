package unit

// The US liquid gallon is 231 cubic inches, exactly. [memory]
const lPerGal = 231 * mmPerInch * mmPerInch * mmPerInch / 1e6

// GalToL converts US gallons to litres.
func GalToL(v float64) float64 { return v * lPerGal }

// LToGal converts litres to US gallons.
func LToGal(v float64) float64 { return v / lPerGal }

// SqFtToM2 converts square feet to square metres.
func SqFtToM2(v float64) float64 { return v * (mPerFoot * mPerFoot) }

// M2ToSqFt converts square metres to square feet.
func M2ToSqFt(v float64) float64 { return v / (mPerFoot * mPerFoot) }
