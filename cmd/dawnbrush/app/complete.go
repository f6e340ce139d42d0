package app

import (
	"slices"

	"github.com/spf13/cobra"
)

// bedNames lists the beds for completion; none where the garden file cannot be read.
func (p *program) bedNames() (out []string) {
	file, _, err := p.readGarden()
	if err != nil {
		return nil
	}
	for i := range file.Garden.Beds {
		out = append(out, file.Garden.Beds[i].Name)
	}
	return out
}

// named lists what a command about plantings and beds can be asked, each once:
// beds, plantings, and the crops that the program knows.
func (p *program) named() (out []string) {
	for _, name := range slices.Concat(p.bedNames(), p.plantingNames(), cropKeys()) {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// completeBed offers beds, plantings and crops for the only word.
func (p *program) completeBed(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return p.named(), cobra.ShellCompDirectiveNoFileComp
}
