package document_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

func TestWaterings(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	names := func(list []document.Watering) (out []string) {
		for _, x := range list {
			out = append(out, x.Bed.Bed.Name)
		}
		return out
	}
	assert.Equal(t, []string{"north trellis", "bed 4", "patch", "block 2", "tubs"}, names(d.Beds(reporttest.Today)), "those that cannot be reckoned are left out")
	assert.Equal(t, []string{"north trellis", "bed 4", "tubs"}, names(d.Waterings(reporttest.Today)))
	assert.Equal(t, []string{"tubs"}, names(d.Waterings(reporttest.Today.AddDays(1))))
	assert.Empty(t, d.Waterings(reporttest.Today.AddDays(90)))
	d.Water = nil
	assert.Empty(t, d.Beds(reporttest.Today))
}

// Beds of one verdict and the same hours are one piece of work; all of it stands in
// order of the hour, and a watering without hours comes first.
func TestDayWork(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	say := func() (out []string) {
		for _, x := range d.DayWork(&d.Plans[0]) {
			if x.Task != nil {
				out = append(out, x.Task.Kind.String())
				continue
			}
			s := ""
			for _, b := range x.Beds {
				s += b.Bed.Bed.Name + ";"
			}
			out = append(out, s)
		}
		return out
	}
	assert.Equal(t, []string{"north trellis;tubs;", "bed 4;", "hand_pollinate", "look_first", "save_pollen"}, say())
	a := &d.Water.Beds[4].Days[9].Advice
	a.From, a.To = a.From.Add(90*time.Minute), a.To.Add(time.Hour)
	assert.Equal(t, []string{"north trellis;", "bed 4;", "hand_pollinate", "tubs;", "look_first", "save_pollen"}, say())
	a.From, a.To = time.Time{}, time.Time{}
	assert.Equal(t, "tubs;", say()[0])
}

// Water alone is work; waiting for rain is none.
func TestWaterIsWork(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	d.Plans[0].Tasks = nil
	for i := range d.Water.Beds {
		if b := &d.Water.Beds[i]; len(b.Days) > 0 {
			b.Days[9].Advice.Verdict = ledger.WaitForRain
		}
	}
	assert.False(t, d.Work())
	d.Water.Beds[0].Days[9].Advice.Verdict = ledger.Water
	assert.True(t, d.Work())
}

func TestBedsInFocus(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	in := func(f document.Focus) (n int) {
		for i := range d.Water.Beds {
			if f.InFocus(&d.Water.Beds[i]) {
				n++
			}
		}
		return n
	}
	require.Len(t, d.Water.Beds, 7)
	assert.Equal(t, 7, in(document.Focus{}))
	assert.Equal(t, 1, in(document.Focus{Bed: "PATCH"}))
	assert.Equal(t, 2, in(document.Focus{Planting: "cucumbers, north trellis"}), "its own bed, and the one it shares")
	assert.Equal(t, 1, in(document.Focus{Crop: "tomato"}))
	assert.False(t, document.Focus{Bed: "patch"}.Matches(&d.Garden.Plantings[2]), "whoever asks about a bed asks about its water")
}
