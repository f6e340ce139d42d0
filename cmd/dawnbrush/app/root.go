package app

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"dawnbrush/cmd/dawnbrush/config"
)

const rootLong = `dawnbrush tells each morning, and a week ahead, which flowers the bees will not
finish, when to hand-pollinate, which pollen to save, and why. It reads an open
weather forecast and says how sure it is and where every number comes from.

Begin with:
  dawnbrush today --demo     a garden with invented weather, no network needed
  dawnbrush init             write a garden file of your own
  dawnbrush today            what to do today`

// root builds the command tree.
func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:           name,
		Short:         "which flowers the bees will not finish, and when to take a brush to them",
		Long:          rootLong,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,
		RunE:          p.bare,
	}
	root.SetOut(p.out)
	root.SetErr(p.err)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error { return flagFailure(c, err) })
	f := root.PersistentFlags()
	f.StringVarP(&p.options.config, "config", "c", "", "garden `FILE` to use")
	f.StringVar(&p.options.from, "from", "", "plan from a saved forecast `FILE`; - reads standard input")
	f.StringVar(&p.options.at, "at", "", "plan as if it were `TIME`: 2026-07-16, 2026-07-16T05:00, or RFC 3339")
	f.StringVar(&p.options.units, "units", "", "`SYSTEM` of units, metric or us, whatever the garden file says")
	f.BoolVar(&p.options.demo, "demo", false, "an invented garden, forecast and clock")
	f.BoolVar(&p.options.json, "json", false, "write JSON for programs; errors too, on stderr")
	f.BoolVar(&p.options.noColor, "no-color", false, "no colour")
	f.StringVar(&p.options.memory, "memory", "", "`FILE` of the garden's memory, whatever the garden's name")
	f.BoolVar(&p.options.noMemory, "no-memory", false, "leave the garden's memory out")
	var version bool
	root.Flags().BoolVar(&version, "version", false, "print the version")
	narrow := strings.NewReplacer(".FlagUsages ", ".FlagUsagesWrapped 80 ",
		`Use "{{.CommandPath}} [command] --help" for more information about a command.`, `"{{.CommandPath}} COMMAND --help" tells of one of them.`).Replace(root.UsageTemplate())
	root.SetUsageTemplate(narrow + "\nExit codes: " + name + " help exit-codes.\nReport faults to " + reportTo + ".\n")
	root.AddCommand(p.today(), p.week(), p.waterCommand(), p.workings(), p.sources(), p.init(), p.check(), p.feeds(), p.digest(), p.memory(), p.observe(), p.note(), p.outbox(), p.version())
	root.AddCommand(helpTopics()...)
	root.SetHelpCommand(helpCommand())
	plainCompletion(root)
	return root
}

// bare answers a line without a command, and one whose command nobody knows.
func (p *program) bare(c *cobra.Command, args []string) error {
	if v, err := c.Flags().GetBool("version"); err == nil && v {
		return p.printVersion()
	}
	var names []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			names = append(names, sub.Name())
		}
	}
	if len(args) > 0 {
		hint := "the commands are " + strings.Join(names, ", ")
		if near, ok := config.Nearest(args[0], names); ok {
			hint = "did you mean " + name + " " + near + "?"
		}
		return usage(hint, "there is no command %q", args[0])
	}
	if !p.options.json {
		fmt.Fprintf(p.err, "%s\n\n", rootLong)
	}
	return usage(name+" --help tells more", "which command? One of %s", strings.Join(names, ", "))
}

// flagFailure says what is wrong with a flag, with the nearest known one.
func flagFailure(c *cobra.Command, err error) error {
	lists := c.CommandPath() + " --help lists the flags"
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var odd *pflag.InvalidValueError
	switch {
	case errors.As(err, &bare):
		what, _ := pflag.UnquoteUsage(bare.GetFlag())
		return usage(lists, "--%s needs its %s", bare.GetFlag().Name, what)
	case errors.As(err, &odd):
		return usage(lists, "--%s cannot be %q: it is %s", odd.GetFlag().Name, odd.GetValue(), kindOfFlag(odd.GetFlag()))
	case !errors.As(err, &unknown):
		return usage(lists, "%s", err)
	case unknown.GetSpecifiedShortnames() != "":
		return usage(lists, "there is no flag -%s", unknown.GetSpecifiedName())
	}
	var names []string
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	word := "--" + unknown.GetSpecifiedName()
	if near, ok := config.Nearest(word, names); ok {
		lists = "did you mean " + near + "?"
	}
	return usage(lists, "there is no flag %s", word)
}

// kindOfFlag says what a flag takes.
func kindOfFlag(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "int":
		return "a whole number"
	case "bool":
		return "true or false"
	case "float64":
		return "a number"
	}
	return "a text"
}

// exactly wants a number of arguments, named in words.
func exactly(n int, what string) cobra.PositionalArgs { return between(n, n, what) }

// between wants from lo to hi arguments.
func between(lo, hi int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < lo:
			return usage("write "+c.UseLine(), "%s needs %s", c.CommandPath(), what)
		case len(args) > hi:
			return usage(insteadOf(c, args[hi]), "%s does not take %q", c.CommandPath(), args[hi])
		}
		return nil
	}
}

// insteadOf is what to write for a word that a command does not take: the nearest
// of the commands below it, else all of them, else how the line goes.
func insteadOf(c *cobra.Command, word string) string {
	below := commandsBelow(c)
	if len(below) == 0 {
		return "write " + c.UseLine()
	}
	if near, ok := config.Nearest(word, below); ok {
		return "did you mean " + c.CommandPath() + " " + near + "?"
	}
	return "write " + c.CommandPath() + " with one of " + strings.Join(below, ", ")
}

// commandsBelow names the commands and help topics under a command.
func commandsBelow(c *cobra.Command) []string {
	var names []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() || sub.IsAdditionalHelpTopicCommand() {
			names = append(names, sub.Name())
		}
	}
	return names
}
