package words

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// Few females are told in full once; from the next day on the days alone are said.
func TestFewFemalesAreSaidShortLater(t *testing.T) {
	at := func(day int) forecast.Date { return forecast.Date{Year: 2026, Month: 7, Day: day} }
	ahead := risk.Flag{Kind: risk.FewAhead, Value: forecast.Known(8), Limit: forecast.Known(32), Since: at(20), Until: at(26)}
	now := risk.Flag{Kind: risk.HeatOnBuds, Value: forecast.Known(7), Limit: forecast.Known(32), Since: at(1), Until: at(7)}
	day := &risk.PlantingDay{Planting: &risk.Planting{Crop: &crop.Crop{}}, Flags: []risk.Flag{ahead, now}}
	task := &risk.Task{Kind: risk.FewFemales, Planting: day.Planting, Day: day, Sure: risk.Likely}
	w := New(risk.Metric, time.UTC)
	assert.Contains(t, w.Why(task), "8 hot days and nights in a row (days of 32 C and more) take female buds")
	assert.Equal(t, "likely", w.Sure(task))
	task.Told = true
	assert.Equal(t, "as before: few female flowers now and "+w.Days(at(20), at(26)), w.Why(task))
	assert.Empty(t, w.Sure(task))
	day.Flags = day.Flags[:1]
	assert.Equal(t, "as before: few female flowers "+w.Days(at(20), at(26)), w.Why(task))
	day.Flags = []risk.Flag{now}
	assert.Equal(t, "as before: few female flowers now", w.Why(task))
}
