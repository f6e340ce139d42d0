package main

import (
	"context"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

// TestOutboxScript tells letters that wait, tries them and lets them go.
func TestOutboxScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Files:         []string{"testdata/outbox.txtar"},
		UpdateScripts: *update,
		Setup:         setup,
		Cmds:          map[string]func(ts *testscript.TestScript, neg bool, args []string){"code": code, "letter": keepLetter},
	})
}

// keepLetter puts a letter into a memory: "letter MEMORY ID TO 2026-07-16T05:00:00Z".
func keepLetter(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 4 {
		ts.Fatalf("usage: letter MEMORY ID TO TIME")
	}
	at, err := time.Parse(time.RFC3339, args[3])
	ts.Check(err)
	ctx := context.Background()
	s, err := store.Open(ctx, ts.MkAbs(args[0]), store.Options{Now: func() time.Time { return at }})
	ts.Check(err)
	_, _, err = s.Post(ctx, store.Letter{ID: args[1], To: args[2], From: "garden@example.org", Kind: "daily", Day: forecast.DateOf(at, time.UTC),
		Body: []byte("From: garden@example.org\r\nTo: " + args[2] + "\r\nMessage-ID: <" + args[1] + ">\r\nSubject: brush at dawn\r\n\r\nbrush at 06:30\r\n")}, false)
	ts.Check(err)
	ts.Check(s.Close())
}
