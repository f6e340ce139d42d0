package main

import (
	"bytes"
	"encoding/base64"
	"image/png"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// digested gives the subject, the text, the page and the pictures of a message.
func digested(t *testing.T, message string) (subject, text, page string, pictures [][]byte) {
	t.Helper()
	m, err := mail.ReadMessage(strings.NewReader(message))
	require.NoError(t, err)
	subject, err = new(mime.WordDecoder).DecodeHeader(m.Header.Get("Subject"))
	require.NoError(t, err)
	var read func(contentType, encoding string, r io.Reader)
	read = func(contentType, encoding string, r io.Reader) {
		kind, params, err := mime.ParseMediaType(contentType)
		require.NoError(t, err)
		switch {
		case strings.HasPrefix(kind, "multipart/"):
			parts := multipart.NewReader(r, params["boundary"])
			for {
				p, err := parts.NextRawPart()
				if err == io.EOF {
					return
				}
				require.NoError(t, err)
				read(p.Header.Get("Content-Type"), p.Header.Get("Content-Transfer-Encoding"), p)
			}
		case encoding == "quoted-printable":
			r = quotedprintable.NewReader(r)
		case encoding == "base64":
			r = base64.NewDecoder(base64.StdEncoding, r)
		}
		b, err := io.ReadAll(r)
		require.NoError(t, err)
		lines := strings.ReplaceAll(string(b), "\r\n", "\n")
		switch kind {
		case "text/plain":
			text = lines
		case "text/html":
			page = lines
		case "image/png":
			pictures = append(pictures, b)
		}
	}
	read(m.Header.Get("Content-Type"), "", m.Body)
	return subject, text, page, pictures
}

// The digest of the demo: its text and page are kept to be read in review, its text is
// what the command prints at that width, its pictures open.
func TestDigestOfTheDemo(t *testing.T) {
	for _, kind := range []string{"daily", "weekly"} {
		t.Run(kind, func(t *testing.T) {
			args := []string{"digest", "--demo", "--dry-run"}
			command := "today"
			if kind == "weekly" {
				args, command = append(args, "--weekly"), "week"
			}
			message := shown(t, args...)
			assert.Equal(t, message, shown(t, args...), "the same morning's digest differs from itself")
			subject, text, page, pictures := digested(t, message)
			golden(t, "digest_"+kind+".txt", "Subject: "+subject+"\n\n"+text)
			golden(t, "digest_"+kind+".html", page)
			require.Len(t, pictures, 2)
			for _, p := range pictures {
				img, err := png.Decode(bytes.NewReader(p))
				require.NoError(t, err)
				assert.Equal(t, 720, img.Bounds().Dx())
				assert.Less(t, len(p), 64<<10)
			}
			printed := shown(t, command, "--demo")
			if kind == "daily" { // narrower
				assert.Equal(t, counts(printed), counts(text))
			} else {
				assert.Equal(t, printed, text)
			}
		})
	}
}

// counts gives how often each word stands in a text: a narrower one breaks lines
// elsewhere and sets fewer strips beside each other.
func counts(s string) map[string]int {
	out := map[string]int{}
	for _, w := range strings.Fields(s) {
		out[w]++
	}
	return out
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "renew it with -update")
	assert.Equal(t, string(want), got, "renew %s with -update and read it", path)
}
