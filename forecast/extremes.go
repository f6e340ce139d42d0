package forecast

import "time"

// Extreme is a forecast extreme as issued for a stretch of a day. A day's
// highest temperature may exceed every full hour of it, because the hours hold
// single readings; for heat, take the larger of the two.
type Extreme struct {
	Start, End time.Time // UTC, End exclusive
	Temp       Value     // degC
}
