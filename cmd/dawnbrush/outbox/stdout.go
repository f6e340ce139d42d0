package outbox

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/store"
)

// Stdout writes letters to a stream.
type Stdout struct {
	Out io.Writer
	// Several puts a line in front of each letter that tells it from the one before
	// (RFC 4155, the default mbox format); mail programs open such a file.
	Several bool
}

// Send writes the letter, lines ended as text files have them.
func (s Stdout) Send(_ context.Context, l store.Letter, now time.Time) Outcome {
	text := localLines(l.Body)
	if s.Several {
		text = mbox(l, text, now)
	}
	if _, err := s.Out.Write(text); err != nil {
		return blocked("is the disk full?", "standard output takes no more: %v", reason(err))
	}
	return sent()
}

// mbox writes a letter as RFC 4155 appendix A has it, with ">" before a line that
// would look like the next one's beginning.
func mbox(l store.Letter, text []byte, now time.Time) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "From %s %s\n", strings.ReplaceAll(bare(l.From), " ", "-"), now.UTC().Format(time.ANSIC))
	for line := range bytes.Lines(text) {
		if bytes.HasPrefix(bytes.TrimLeft(line, ">"), []byte("From ")) {
			b.WriteByte('>')
		}
		b.Write(line)
	}
	if !bytes.HasSuffix(text, []byte("\n")) {
		b.WriteByte('\n')
	}
	b.WriteByte('\n')
	return b.Bytes()
}
