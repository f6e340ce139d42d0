package metno

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/feed/feedtest"
)

// shape is the part of a schema that is checked: kinds, required members, listed words,
// shortest lists.
type shape struct {
	Ref        string           `json:"$ref"`
	Type       string           `json:"type"`
	Properties map[string]shape `json:"properties"`
	Required   []string         `json:"required"`
	Items      *shape           `json:"items"`
	Enum       []any            `json:"enum"`
	MinItems   int              `json:"minItems"`
}

// schema is the service's own, by name.
type schema map[string]shape

// faults lists where a value departs from its shape. Steps of a list are not told apart.
func (s schema) faults(is shape, v any, where string) (out []string) {
	if is.Ref != "" {
		return s.faults(s[is.Ref[strings.LastIndexByte(is.Ref, '/')+1:]], v, where)
	}
	kind := "other"
	switch v := v.(type) {
	case map[string]any:
		kind = "object"
		for _, name := range is.Required {
			if _, ok := v[name]; !ok {
				out = append(out, where+" lacks "+name)
			}
		}
		for name, member := range v {
			if known, ok := is.Properties[name]; ok {
				out = append(out, s.faults(known, member, where+"/"+name)...)
			}
		}
	case []any:
		kind = "array"
		if len(v) < is.MinItems {
			out = append(out, where+" is too short")
		}
		for _, member := range v {
			if is.Items != nil {
				out = append(out, s.faults(*is.Items, member, where+"/*")...)
			}
		}
	case string:
		kind = "string"
	case float64:
		kind = "number"
	}
	if is.Type != "" && is.Type != kind {
		out = append(out, fmt.Sprintf("%s is of kind %s, not %s", where, kind, is.Type))
	}
	if is.Enum != nil && !slices.Contains(is.Enum, v) {
		out = append(out, fmt.Sprintf("%s is %v", where, v))
	}
	return out
}

// check gives the departures of a document, each once.
func check(t *testing.T, doc []byte) []string {
	t.Helper()
	var s schema
	require.NoError(t, json.Unmarshal(feedtest.Recording(t, "metno/schema_METJSONForecast.json"), &s))
	require.Contains(t, s, "METJSONForecast")
	var v any
	require.NoError(t, json.Unmarshal(doc, &v))
	out := s.faults(shape{Ref: "METJSONForecast"}, v, "")
	slices.Sort(out)
	return slices.Compact(out)
}

// The invented documents have the form that the service's schema asks for, and the
// recorded ones too but for one member: the schema requires details of twelve hours, and
// documents without chances have only a summary there.
func TestDocumentsFitTheSchema(t *testing.T) {
	assert.Empty(t, check(t, small(t)))
	assert.Empty(t, check(t, invented(issued).bytes(t)))
	const twelve = "/properties/timeseries/*/data/next_12_hours lacks details"
	for i, want := range [][]string{{twelve}, nil, {twelve}} {
		assert.Equal(t, want, check(t, recording(t, i)), recorded[i].name)
	}
}

// The checker itself finds departures.
func TestSchemaCheckerFinds(t *testing.T) {
	d := invented(issued)
	delete(d.in("properties", "meta"), "updated_at")
	d["type"] = "FeatureCollection"
	d.in("geometry")["coordinates"] = []any{10.5}
	delete(d.steps()[3], "time")
	d.steps()[4].in("data")["instant"] = []any{}
	assert.Equal(t, []string{
		"/geometry/coordinates is too short",
		"/properties/meta lacks updated_at",
		"/properties/timeseries/* lacks time",
		"/properties/timeseries/*/data/instant is of kind array, not object",
		"/type is FeatureCollection",
	}, check(t, d.bytes(t)))
}
