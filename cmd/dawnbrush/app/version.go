package app

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/report/jsonout"
)

// release is the version of a build that nothing else names.
const release = "0.1.0"

// version gives the version of the build.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && len(info.Main.Version) > 1 && info.Main.Version != "(devel)" {
		return info.Main.Version[1:]
	}
	return release
}

func (p *program) version() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "print the version",
		Args:  exactly(0, "nothing more"),
		RunE:  func(*cobra.Command, []string) error { return p.printVersion() },
	}
}

// printVersion writes "name version", to be read after the last blank.
// [GNU Coding Standards section 4.8.1]
func (p *program) printVersion() error {
	if p.options.json {
		return jsonout.Version(p.out, name, version())
	}
	_, err := fmt.Fprintf(p.out, "%s %s\n", name, version())
	return err
}
