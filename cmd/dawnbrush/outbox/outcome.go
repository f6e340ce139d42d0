package outbox

import (
	"context"
	"fmt"
	"strings"
	"time"
	"unicode"

	"dawnbrush/cmd/dawnbrush/store"
)

// Hook hands one letter on.
type Hook interface {
	// Send tries once, at the instant now, and says what became of it. It ends soon
	// after ctx does.
	Send(ctx context.Context, l store.Letter, now time.Time) Outcome
}

// Result is how a try ended.
type Result uint8

// The results. Their zero value is none of them.
const (
	_       Result = iota
	Sent           // the other side took the letter
	Later          // not now, or nobody knows
	Refused        // the letter or its recipient was judged and turned away
)

// Outcome is what became of a try.
type Outcome struct {
	Result Result
	Fault  string        // in the grower's words; "" when it was sent
	Hint   string        // the remedy; may be empty
	After  time.Duration // the least wait that the other side asks for
	// Way tells that the way itself is at fault: other letters would fare no better.
	Way bool
}

func sent() Outcome { return Outcome{Result: Sent} }

// later puts a letter off.
func later(hint, format string, args ...any) Outcome {
	return Outcome{Result: Later, Fault: fmt.Sprintf(format, args...), Hint: hint}
}

// blocked puts a letter off, and others with it.
func blocked(hint, format string, args ...any) Outcome {
	o := later(hint, format, args...)
	o.Way = true
	return o
}

func refused(hint, format string, args ...any) Outcome {
	return Outcome{Result: Refused, Fault: fmt.Sprintf(format, args...), Hint: hint}
}

// mostSaid bounds what is repeated of what others say.
const mostSaid = 200 // characters [chosen: two lines on a screen]

// said makes what another program or server said fit for one line of a screen.
func said(text string) string {
	words := strings.FieldsFunc(strings.ToValidUTF8(text, "?"), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
	})
	out := []rune(strings.Join(words, " "))
	if len(out) > mostSaid {
		out = append(out[:mostSaid], []rune("...")...)
	}
	return string(out)
}

// with adds what another side said, where it said anything.
func with(text string) string {
	if text = said(text); text != "" {
		return ": " + text
	}
	return ""
}

// limit gives a try the time it may take.
func limit(ctx context.Context, timeout time.Duration) (context.Context, context.CancelFunc) {
	if timeout <= 0 || timeout > MostTimeout {
		timeout = MostTimeout
	}
	return context.WithTimeout(ctx, timeout)
}
