package app

import (
	"github.com/spf13/cobra"
)

func (p *program) week() *cobra.Command {
	days := 7
	c := &cobra.Command{
		Use:   "week",
		Short: "a row a day, and a word for each planting and day",
		Example: `  dawnbrush week
  COLUMNS=120 dawnbrush week > shed-door.txt`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			if days < 1 || days > mostDays {
				return usage("write a number from 1 to 10", "--days %d is not a plan", days)
			}
			d, err := p.document(days)
			if err != nil {
				return err
			}
			if err := p.show("week", d); err != nil {
				return err
			}
			return p.verdict(d, false)
		},
	}
	c.Flags().IntVar(&days, "days", 7, "`NUMBER` of days, at most 10")
	return c
}
