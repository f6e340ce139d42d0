package app

import (
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

func (p *program) workings() *cobra.Command {
	var matters bool
	c := &cobra.Command{
		Use:   "workings DATE PLANTING|BED",
		Short: "walk one day and planting from hour to verdict",
		Long: `Walks one day and planting from the hours as read to the verdict, with every
equation, number and source. DATE is like 2026-07-16, or today, tomorrow or
yesterday. PLANTING is the name of a planting, or a crop for all plantings of
it; the water of their beds comes with them. BED is the name of a bed, for its
water alone.

With --what-matters it lists instead which inputs move the verdict most, so that
you know what to count: each moved alone between the ends of its doubt.`,
		Example: `  dawnbrush workings tomorrow cucumber
  dawnbrush workings 2026-07-22 "cucumbers on the fence" --demo
  dawnbrush workings tomorrow cucumber --what-matters`,
		Args: exactly(2, "a date and a planting or bed"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			switch len(args) {
			case 0:
				return []string{"today", "tomorrow", "yesterday"}, cobra.ShellCompDirectiveNoFileComp
			case 1:
				return p.named(), cobra.ShellCompDirectiveNoFileComp
			}
			return nil, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			p.evidence = true
			d, err := p.document(mostDays)
			if err != nil {
				return err
			}
			if d.Focus.Date, err = dayNamed(args[0], d); err != nil {
				return err
			}
			err = focus(d, args[1])
			switch bed := err != nil && bedNamed(d, args[1]); {
			case bed && matters:
				return usage("name a planting or a crop", "%q is a bed: what matters is told of plantings", args[1])
			case err != nil && !bed:
				return err
			}
			if matters {
				whatMatters(d)
				return p.show("what-matters", d)
			}
			return p.show("workings", d)
		},
	}
	c.Flags().BoolVar(&matters, "what-matters", false, "list which inputs move the verdict most")
	return c
}

// whatMatters works out what moves the verdicts in focus.
func whatMatters(d *document.Document) {
	for i := range d.Garden.Plantings {
		if p := &d.Garden.Plantings[i]; d.Focus.Matches(p) {
			d.Matters = append(d.Matters, risk.WhatMatters(d.Assessment, d.Focus.Date, p, risk.PlanOptions{Now: d.Now, Asked: d.Forecast.Fetched}))
		}
	}
}

// dayNamed reads a date, today, tomorrow or yesterday; it must lie within the weather.
func dayNamed(word string, d *document.Document) (forecast.Date, error) {
	day := d.Plans[0].Date
	switch strings.ToLower(word) {
	case "today":
	case "tomorrow":
		day = day.AddDays(1)
	case "yesterday":
		day = day.AddDays(-1)
	default:
		var err error
		if day, err = forecast.ParseDate(word); err != nil {
			return day, usage("write it as 2026-07-16, or today, tomorrow or yesterday", "%v", err)
		}
	}
	days := d.Assessment.Days
	if _, ok := d.Assessment.Day(day); !ok {
		return day, usage("the days known run from "+days[0].Date.String()+" to "+days[len(days)-1].Date.String(), "there is no weather for %s", day)
	}
	return day, nil
}

// focus finds what is asked about: a planting by its name, or a crop.
func focus(d *document.Document, word string) error {
	var names []string
	for i := range d.Garden.Plantings {
		name := d.Garden.Plantings[i].Name
		if strings.EqualFold(name, word) {
			d.Focus.Planting = name
			return nil
		}
		names = append(names, name)
	}
	planting := strings.Join(names, ", ")
	if c, ok := d.Crops.Find(word); ok {
		if !planted(d.Garden, c.Key) {
			return usage("planted are "+planting, "no %s is planted in this garden", c.Name)
		}
		d.Focus.Crop = c.Key
		return nil
	}
	for _, c := range d.Crops.Crops() {
		if planted(d.Garden, c.Key) {
			names = append(names, c.Words()...)
		}
	}
	for i := range d.Garden.Beds {
		names = append(names, d.Garden.Beds[i].Name)
	}
	if near, ok := config.Nearest(word, names); ok {
		return usage("did you mean "+near+"?", "there is no planting, crop or bed %q", word)
	}
	return usage("`dawnbrush check` lists the plantings and beds", "there is no planting, crop or bed %q", word)
}

func planted(g *risk.Garden, key string) bool {
	for i := range g.Plantings {
		if g.Plantings[i].Crop.Key == key {
			return true
		}
	}
	return false
}
