package mail

import (
	"io"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/table"
)

// plainWidth is how wide the lines of the text are. [chosen: RFC 5322 section 2.1.1 asks
// for 78 at most, and a line that is quoted in an answer grows by two]
const plainWidth = 74

// Plain writes the text of a digest: what `today` or `week` prints, without colour.
func Plain(d *document.Document, kind Kind) (string, error) {
	plain := *d
	plain.Width, plain.Colour = plainWidth, false
	var b strings.Builder
	var write func(io.Writer, *document.Document) error = table.Today
	if kind == Weekly {
		write = table.Week
	}
	err := write(&b, &plain)
	return cleanLines(b.String()), err
}
