package app

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
)

// Help has to fit a terminal of 80 columns, which is also what the tables take
// where nothing tells of another width. The pages of the completion scripts are the
// library's own words.
func TestHelpFitsEightyColumns(t *testing.T) {
	root, topics := Pages()
	var walk func(c *cobra.Command)
	seen := 0
	walk = func(c *cobra.Command) {
		if strings.HasPrefix(c.CommandPath(), "dawnbrush completion ") {
			return
		}
		seen++
		c.InitDefaultHelpFlag()
		fits(t, c.CommandPath(), c.Long+"\n"+c.UsageString())
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk(root)
	assert.Greater(t, seen, 25)
	for topic, text := range topics {
		fits(t, topic, text)
	}
}

func fits(t *testing.T, where, text string) {
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%s: %s", where, line)
	}
}
