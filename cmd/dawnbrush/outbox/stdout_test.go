package outbox_test

import (
	"bytes"
	"context"
	"errors"
	"net/mail"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
)

func TestStdoutIsTheMessage(t *testing.T) {
	var b bytes.Buffer
	require.Equal(t, outbox.Sent, try(outbox.Stdout{Out: &b}).Result)
	assert.Equal(t, strings.ReplaceAll(text, "\r\n", "\n"), b.String())
	m, err := mail.ReadMessage(&b)
	require.NoError(t, err)
	assert.Equal(t, "brush at dawn", m.Header.Get("Subject"))
}

// Several letters make a file that mail programs open: RFC 4155 appendix A.
func TestStdoutOfSeveralIsAnMbox(t *testing.T) {
	var b bytes.Buffer
	h := outbox.Stdout{Out: &b, Several: true}
	for _, who := range []string{"ann", "bob"} {
		require.Equal(t, outbox.Sent, h.Send(context.Background(), letter(who, who+"@example.org"), morning).Result)
	}
	got := b.String()
	assert.True(t, strings.HasPrefix(got, "From garden@example.org Thu Jul 16 05:00:00 2026\n"))
	assert.Equal(t, 2, strings.Count("\n"+got, "\nFrom garden@example.org "), "a line for each letter")
	assert.Equal(t, 2, strings.Count(got, "\n>From 06:30 brush"))
	assert.Equal(t, 2, strings.Count("\n"+got, "\nFrom "))
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestStdoutThatTakesNoMore(t *testing.T) {
	o := try(outbox.Stdout{Out: full{}})
	assert.Equal(t, outbox.Later, o.Result)
	assert.Equal(t, "standard output takes no more: no space left on device", o.Fault)
}
