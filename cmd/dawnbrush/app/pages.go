package app

import (
	"io"

	"github.com/spf13/cobra"
)

// Pages gives the command tree and the texts that a manual adds to it, to write
// manual pages and completions from. Nothing of it runs.
func Pages() (root *cobra.Command, topics map[string]string) {
	p := &program{out: &stream{w: io.Discard}, err: io.Discard}
	root = p.root()
	root.InitDefaultCompletionCmd()
	return root, map[string]string{
		"environment": environmentHelp,
		"exit-codes":  exitHelp(),
		"cron":        cronHelp,
	}
}

// Version is the version that a build has which nothing else names.
func Version() string { return release }
