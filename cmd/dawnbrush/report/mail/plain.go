package mail

import (
	"io"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/table"
)

// Widths of the lines of the text.
const (
	// [chosen: RFC 5322 section 2.1.1 asks for 78 at most, and a line that is quoted in
	// an answer grows by two]
	dayWidth = 74

	// [chosen: seven days stand beside each other; in the message these lines are folded
	// as quoted-printable asks]
	weekTextWidth = 80
)

// Plain writes the text of a digest: what `today` or `week` prints, without colour.
func Plain(d *document.Document, kind Kind) (string, error) {
	plain := *d
	plain.Width, plain.Colour = dayWidth, false
	var b strings.Builder
	var write func(io.Writer, *document.Document) error = table.Today
	if kind == Weekly {
		write, plain.Width = table.Week, weekTextWidth
	}
	err := write(&b, &plain)
	return cleanLines(b.String()), err
}
