package app

import (
	"bytes"
	"fmt"
	"time"

	"dawnbrush/cmd/dawnbrush/report/mail"
)

// post hands finished letters on: to the printer when they are only to be shown. This
// is the one place where a digest leaves the program.
func (p *program) post(letters []*mail.Letter, made time.Time, show bool) error {
	if !show {
		return failed(nil, "print it with --dry-run and hand it on: dawnbrush digest --dry-run | sendmail -t", "no way to send mail is known here yet")
	}
	for _, l := range letters {
		text := bytes.ReplaceAll(l.Body, []byte("\r\n"), []byte("\n")) // what sendmail -t and mailboxes want
		if len(letters) > 1 {
			text = inMailbox(l, text, made)
		}
		if _, err := p.out.Write(text); err != nil {
			return err
		}
	}
	return nil
}

// inMailbox writes a message as one of several in a file: a line "From " before it, an
// empty one after it, and such lines in it set off. [RFC 4155 appendix A, "mboxrd"]
func inMailbox(l *mail.Letter, text []byte, made time.Time) []byte {
	out := fmt.Appendf(nil, "From %s %s\n", l.From, made.UTC().Format(time.ANSIC))
	for line := range bytes.Lines(text) {
		if bytes.HasPrefix(bytes.TrimLeft(line, ">"), []byte("From ")) {
			out = append(out, '>')
		}
		out = append(out, line...)
	}
	return append(out, '\n')
}
