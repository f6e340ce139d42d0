package table

import (
	"strings"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk/ledger"
)

// water prints a row a bed with what it wants each day, and what its words mean.
func (k *week) water() error {
	if k.d.Water == nil || len(k.d.Water.Beds) == 0 {
		return nil
	}
	var dates []forecast.Date
	for i := range k.d.Plans {
		dates = append(dates, k.d.Plans[i].Date)
	}
	var rows [][]string
	var under []string
	not, used := map[ledger.Why][]string{}, map[ledger.Verdict]bool{}
	for i := range k.d.Water.Beds {
		b := &k.d.Water.Beds[i]
		if b.Why != ledger.Reckoned {
			not[b.Why] = append(not[b.Why], b.Bed.Name)
			continue
		}
		if b.Cover != "" {
			under = append(under, b.Bed.Name)
		}
		row := []string{k.split(b.Bed.Name, mostNameWidth)}
		for _, date := range dates {
			cell := []string{words.Unknown}
			if day, ok := b.Day(date); ok {
				cell = k.WaterCell(b, day)
				used[day.Advice.Verdict] = true
			}
			row = append(row, strings.Join(cell, "\n"))
		}
		rows = append(rows, row)
	}
	k.heading("Water")
	if len(rows) > 0 {
		if err := k.rows(rows); err != nil {
			return err
		}
		k.blank()
		k.para("  ", k.WaterCells(func(v ledger.Verdict) bool { return used[v] })+". Later days take it that each day's advice is followed and rain comes by its chance. "+
			"`dawnbrush water` tells more.")
	}
	if len(under) > 0 {
		k.hanging("  ", 4, words.List(under)+": "+k.UnderCover())
	}
	for y := ledger.NoDate; y <= ledger.NoWeather; y++ {
		if names := not[y]; len(names) > 0 {
			k.hanging("  ", 4, words.List(names)+": "+k.WaterNot(y))
		}
	}
	return nil
}

// rows prints rows of a name and a cell a day, cut into as many days as fit.
func (k *week) rows(rows [][]string) error {
	nameWidth := leastNameWidth
	for _, row := range rows {
		nameWidth = k.widthOf(row[:1], nameWidth)
	}
	for _, part := range k.parts(len(k.d.Plans), nameWidth) {
		if err := k.plantingPart(rows, part[0], part[1], nameWidth); err != nil {
			return err
		}
	}
	return nil
}
