package app

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
)

// helpTopics are pages that are no commands.
func helpTopics() []*cobra.Command {
	topic := func(name, short, long string) *cobra.Command {
		return &cobra.Command{Use: name, Short: short, Long: long}
	}
	return []*cobra.Command{
		topic("environment", "variables that are read", environmentHelp),
		topic("exit-codes", "what the exit codes mean", exitHelp()),
		topic("cron", "a line for cron", cronHelp),
	}
}

// helpCommand tells of a command or topic, and which there are where nobody
// knows the word: the library's own answers with the help of the whole program
// and code 0.
func helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND | TOPIC]",
		Short: "help about a command or a topic",
		Long:  "Tells of a command, as " + name + " COMMAND --help does, or of a topic.",
		Example: `  dawnbrush help today
  dawnbrush help note list
  dawnbrush help exit-codes`,
		ValidArgsFunction: completeHelp,
		RunE: func(c *cobra.Command, args []string) error {
			of, rest := c.Root(), args
			for len(rest) > 0 {
				sub, _, err := of.Find(rest[:1])
				if err != nil || sub == of {
					return usage(insteadOfTopic(of, rest[0]), "there is no help on %q", strings.Join(args, " "))
				}
				of, rest = sub, rest[1:]
			}
			of.InitDefaultHelpFlag()
			of.SetContext(c.Context())
			return of.Help()
		},
	}
}

// insteadOfTopic is what to write for a word that nothing tells of.
func insteadOfTopic(of *cobra.Command, word string) string {
	below := commandsBelow(of)
	if near, ok := config.Nearest(word, below); ok {
		words := append([]string{name, "help"}, strings.Fields(of.CommandPath())[1:]...)
		return "did you mean " + strings.Join(append(words, near), " ") + "?"
	}
	return of.CommandPath() + " --help lists what there is"
}

func completeHelp(c *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	of, _, err := c.Root().Find(args)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var found []string
	for _, sub := range commandsBelow(of) {
		if strings.HasPrefix(sub, word) {
			found = append(found, sub)
		}
	}
	return found, cobra.ShellCompDirectiveNoFileComp
}

// plainCompletion words the library's completion command as the others are, and
// refuses a shell that it does not know: its own answers with help and code 0.
func plainCompletion(root *cobra.Command) {
	root.InitDefaultCompletionCmd()
	c, _, err := root.Find([]string{"completion"})
	if err != nil || c == root {
		return
	}
	c.Use = "completion SHELL"
	c.Short = "print what a shell needs to complete commands, plantings and crops"
	c.Long = "Prints the script that makes a shell complete commands, plantings and crops.\nThe help of each shell's own tells where to put it."
	c.Example = `  dawnbrush completion fish > ~/.config/fish/completions/dawnbrush.fish
  dawnbrush completion zsh --help`
	c.Args = func(c *cobra.Command, args []string) error {
		if len(args) == 0 {
			return usage("write "+c.CommandPath()+" with one of "+strings.Join(commandsBelow(c), ", "), "%s needs the name of a shell", c.CommandPath())
		}
		return usage(insteadOf(c, args[0]), "there is no completion for the shell %q", args[0])
	}
	c.RunE = func(*cobra.Command, []string) error { return nil } // its Args let nothing through
	for _, shell := range c.Commands() {
		shell.Short = "the script for " + shell.Name()
		shell.Args = exactly(0, "nothing more")
	}
}

const environmentHelp = `Variables that are read. A flag goes before a variable, a variable before the
garden file.

  DAWNBRUSH_CONFIG         the garden file
  CONFIGURATION_DIRECTORY  folder of garden.toml, set by a service manager
  XDG_CONFIG_HOME          folder of dawnbrush/garden.toml; ~/.config when not
                           set
  CACHE_DIRECTORY          folder of forecasts already fetched, set by a service
                           manager
  XDG_CACHE_HOME           folder of dawnbrush/, the same; ~/.cache when not set
  STATE_DIRECTORY          folder of the garden's memory, set by a service
                           manager
  XDG_DATA_HOME            folder of dawnbrush/, the same; ~/.local/share when
                           not set
  DAWNBRUSH_NO_MEMORY      leave the garden's memory out when set and not empty
  CREDENTIALS_DIRECTORY    folder of the password or key that [mail] names as
                           its credential, set by a service manager
  DAWNBRUSH_NWS_URL        another address of a weather feed, such as a mirror;
                           so for each key of "dawnbrush feeds", in capitals
  COLUMNS                  width of tables
  NO_COLOR                 no colour when set and not empty
  CLICOLOR_FORCE           colour even when not on a terminal
  TERM                     dumb means no colour

The time zone is that of the garden file; TZ and LANG are not read. Deleting the
folder of forecasts loses nothing; the garden's memory is what you wrote down.`

const cronHelp = `A line for cron, at a minute that is not the full hour, when everybody asks the
weather services. cron mails what is printed; --quiet prints nothing when there
is nothing to do; else at most seven lines and the forecast's credit.

  MAILTO=you@example.org
  37 4 * * *  dawnbrush today --quiet

cron keeps its own clock: choose a time before sunrise in the garden's zone. To
run on some days only, set the day of the week or the day of the month, not
both: cron runs a job when either matches. No flag needs a %, which cron turns
into a new line. Give the full path of dawnbrush if cron does not find it. Exit
codes: dawnbrush help exit-codes.`

// exitHelp tables the exit codes from the list the program itself uses.
func exitHelp() string {
	var b strings.Builder
	b.WriteString("Exit codes. Read an unknown code as failure.\n\n")
	for _, c := range exitCodes() {
		lines := wrapAt(c.meaning, 60)
		fmt.Fprintf(&b, "  %3d  %s\n", c.code, strings.Join(lines, "\n       "))
		fmt.Fprintf(&b, "       -> %s\n", c.remedy)
	}
	b.WriteString("\n10 goes before 11. A chance of rain without an amount, as services give it from\nthe fourth day on, is shown and not signalled.")
	return b.String()
}

// wrapAt breaks a text at blanks.
func wrapAt(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > width {
			lines, line = append(lines, line), word
			continue
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}
