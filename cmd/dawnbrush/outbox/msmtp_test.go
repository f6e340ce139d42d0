//go:build unix

package outbox_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-smtp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
)

// msmtp, a mail program of others, takes letters from the command hook and tells by its
// exit status what became of them.
func TestCommandMsmtp(t *testing.T) {
	path, err := exec.LookPath("msmtp")
	if err != nil {
		t.Skip("msmtp is not installed")
	}
	reply := error(nil)
	o := &office{rcpt: func(string) error { return reply }}
	h, pem := o.startPEM(t, outbox.TLS)
	trust := filepath.Join(t.TempDir(), "trust.pem")
	require.NoError(t, os.WriteFile(trust, pem, 0o600))
	c := outbox.Command{Args: []string{path, "-t", "-oi", "--file=/dev/null", "--host=127.0.0.1", fmt.Sprintf("--port=%d", h.Port), "--from=garden@example.org",
		"--tls=on", "--tls-starttls=off", "--tls-trust-file=" + trust}, Env: []string{"PATH=/usr/bin:/bin", "HOME=" + t.TempDir()}, Timeout: 20 * time.Second}
	out := try(c)
	require.Equal(t, outbox.Sent, out.Result, out.Fault)
	require.Len(t, o.all(), 1)
	got := o.all()[0]
	assert.Equal(t, [2]string{"garden@example.org", "ann@example.org"}, [2]string{got.from, got.to})
	head, body, _ := strings.Cut(text, "\r\n\r\n")
	gotHead, gotBody, _ := strings.Cut(string(got.body), "\r\n\r\n")
	assert.Equal(t, body, gotBody)
	for line := range strings.SplitSeq(head, "\r\n") { // it may add some of its own
		assert.Equal(t, 1, strings.Count("\r\n"+gotHead+"\r\n", "\r\n"+line+"\r\n"), line)
	}

	reply = &smtp.SMTPError{Code: 451, EnhancedCode: smtp.NoEnhancedCode, Message: "greylisted"}
	out = try(c)
	assert.Equal(t, outbox.Later, out.Result, out.Fault)
	reply = &smtp.SMTPError{Code: 550, EnhancedCode: smtp.NoEnhancedCode, Message: "no such user"}
	out = try(c)
	assert.Equal(t, outbox.Refused, out.Result, out.Fault)
	assert.Contains(t, out.Fault, "550 no such user")
	c.Args[len(c.Args)-1] = "--tls-trust-file=/nowhere/at/all"
	out = try(c)
	assert.Equal(t, outbox.Later, out.Result, out.Fault)
}
