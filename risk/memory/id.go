package memory

import (
	"strings"
	"time"
)

// An identity is 15 signs: nine for the milliseconds since 1970 and six more, so
// that entries sort by when they were recorded and two diaries can be merged. The
// alphabet has no I, L, O, U, which are misread: Crockford's base 32.
// [memory, status memory]
const (
	idSigns = "0123456789abcdefghjkmnpqrstvwxyz"
	idTime  = 9
	idRest  = 6
)

// MostRest is the largest number that the signs behind the time hold.
const MostRest = 1<<(5*idRest) - 1

// ID gives the identity of an entry recorded at t; rest, 0..MostRest, tells it
// from others of the same millisecond.
func ID(t time.Time, rest uint64) string {
	return spell(uint64(max(0, t.UnixMilli())), idTime) + spell(rest&MostRest, idRest)
}

// IDAfter gives the identity that follows last in the same millisecond. ok is
// false when last is of another one, or is the last there can be.
func IDAfter(last string, t time.Time) (id string, ok bool) {
	if len(last) != idTime+idRest || last[:idTime] != ID(t, 0)[:idTime] {
		return "", false
	}
	rest := uint64(0)
	for _, sign := range last[idTime:] {
		at := strings.IndexRune(idSigns, sign)
		if at < 0 {
			return "", false
		}
		rest = rest<<5 | uint64(at)
	}
	return ID(t, rest+1), rest < MostRest
}

func spell(n uint64, signs int) string {
	out := make([]byte, signs)
	for i := signs - 1; i >= 0; i-- {
		out[i] = idSigns[n&31]
		n >>= 5
	}
	return string(out)
}
