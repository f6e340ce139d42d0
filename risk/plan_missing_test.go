package risk

import (
	"math"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// layers can go missing from an hour, one at a time or all.
var layers = map[string]func(*forecast.Hour){
	"temperature":    func(h *forecast.Hour) { h.Temp = forecast.Value{} },
	"humidity":       func(h *forecast.Hour) { h.RH, h.DewPoint = forecast.Value{}, forecast.Value{} },
	"wind":           func(h *forecast.Hour) { h.Wind = forecast.Value{} },
	"sky":            func(h *forecast.Hour) { h.Sky, h.Radiation = forecast.Value{}, forecast.Value{} },
	"rain":           func(h *forecast.Hour) { h.Rain = forecast.Value{} },
	"chance of rain": func(h *forecast.Hour) { h.RainProb = forecast.Value{} },
	"any rain":       func(h *forecast.Hour) { h.Rain, h.RainProb = forecast.Value{}, forecast.Value{} },
	"all":            func(h *forecast.Hour) { *h = forecast.Hour{Start: h.Start, Origin: h.Origin} },
}

// No layer that is missing, for the whole document or for part of the day, puts
// a number that stands for "not known" or a time that is none into a plan.
func TestMissingLayersLeaveNoSentinel(t *testing.T) {
	l := newLab(t)
	spans := map[string][2]int{"always": {0, 24}, "night": {0, 5}, "dawn": {5, 8}, "morning": {8, 12}, "afternoon": {12, 20}}
	for layer, clear := range layers {
		for part, span := range spans {
			for _, hot := range []bool{false, true} {
				m := l.everything(hot)
				for i := range m.series.Hours {
					h := &m.series.Hours[i]
					if at := h.Start.In(heatField.zone).Hour(); at >= span[0] && at < span[1] {
						clear(h)
					}
				}
				if layer == "any rain" || layer == "all" {
					m.series.Blocks = nil
				}
				for _, plan := range m.plans(t, 2) {
					require.Len(t, plan.Day.Plantings, len(m.plantings))
					noSentinel(t, m.series, layer+" missing "+part, &plan)
				}
			}
		}
	}
}

// everything is a bed of each crop, open and covered, before a wet morning.
func (l *lab) everything(hot bool) morning {
	m := morning{at: heatField, series: issued(heatField, heatField.block(24+4, 6, forecast.Known(6), forecast.Known(0.7)))}
	for i := range m.series.Hours {
		if h := &m.series.Hours[i]; hot {
			h.Temp = forecast.Known(dawnCool(0, h.Start.In(heatField.zone).Hour()))
		}
	}
	for _, key := range allCrops {
		for _, cover := range []Cover{Open, RowCover, Tunnel} {
			m.plantings = append(m.plantings, Planting{Name: key + string(cover), Crop: l.crop(key), Cover: cover, Rows: 2})
		}
	}
	return m
}

// noSentinel walks over all numbers and times of a plan, its tasks, flags and
// hours; the crop data are not the plan's.
func noSentinel(t testing.TB, s *forecast.Series, name string, plan *DayPlan) {
	t.Helper()
	from, to := s.Start().Add(-day), s.End().Add(day)
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		if at, ok := timeOf(v); ok {
			require.True(t, at.IsZero() || at.After(from) && at.Before(to), "%s: %s is %v", name, path, at)
			return
		}
		switch v.Kind() {
		case reflect.Float64:
			x := v.Float()
			require.False(t, math.IsNaN(x) || math.Abs(x) > 1e4 || math.Abs(x) == 999 || math.Abs(x) == 9999, "%s: %s is %g", name, path, x)
		case reflect.Int:
			require.Less(t, v.Int(), int64(5000), "%s: %s", name, path)
		case reflect.Pointer:
			if !v.IsNil() && v.Type() != reflect.TypeFor[*Planting]() {
				walk(path, v.Elem())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(path, v.Index(i))
			}
		}
	}
	walk("plan", reflect.ValueOf(plan))
	for _, task := range plan.all() {
		require.NotNil(t, task.Planting, name)
		require.Equal(t, task.Kind.Work(), !task.To.IsZero(), "%s: %v ends at %v", name, task.Kind, task.To)
		require.False(t, task.To.IsZero() && !task.From.IsZero(), "%s: %v begins and never ends", name, task.Kind)
		require.Equal(t, task.Kind == LookFirst, !task.Look.At.IsZero(), "%s: %v", name, task.Kind)
	}
	for i := range plan.Day.Plantings {
		for _, f := range plan.Day.Plantings[i].Flags {
			require.Equal(t, f.From.IsZero(), f.To.IsZero(), "%s: %v", name, f.Kind)
			if v, ok := f.Value.Get(); ok {
				require.Greater(t, v, -50.0, "%s: %v says %g", name, f.Kind, v)
			}
		}
	}
}

// timeOf reads a time.Time that can be read.
func timeOf(v reflect.Value) (time.Time, bool) {
	if v.Type() != reflect.TypeFor[time.Time]() {
		return time.Time{}, false
	}
	if !v.CanInterface() {
		return time.Time{}, true
	}
	return v.Interface().(time.Time), true
}
