package published_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/published"
	"dawnbrush/risk/source"
)

const (
	head    = "id,subject,setting,published,low,high,unit,rule,rule_low,rule_high,model,verdict,standing,must,reason,source,where,status\n"
	fitHead = "fit,crops,parameters,way,row,value,redrawn,changes,note\n"
	hit     = "visits/a,cucumber,8 visits: set,enough,8,8,visits,>= 0.9,0.9,,0.95,hit,fitted,must,,MSU19,p. 14,read\n"
	miss    = "visits/b,bees,in wind,less,,,,direction: > 0,0,,-0.1,miss,unforced,,not in the model,Henn20,abstract,derived\n"
	aside   = "visits/c,bees,,a word,,,,,,,,aside,,,not in the model,memory,none,memory\n"
	fit     = "need,cucumber,need.set,middle,visits/a,10,9,visits/b -> hit,\n"
)

func parse(t *testing.T, table, fits string) (*published.Table, error) {
	t.Helper()
	bib, err := source.Load()
	require.NoError(t, err)
	return published.Parse([]byte(head+table), []byte(fitHead+fits), bib)
}

// What was written is read back to the last cell.
func TestRoundTrip(t *testing.T) {
	table, err := parse(t, hit+miss+aside, fit)
	require.NoError(t, err)
	text, err := published.Encode(table.Rows())
	require.NoError(t, err)
	assert.Equal(t, head+hit+miss+aside, string(text))
	text, err = published.EncodeFits(table.Fits())
	require.NoError(t, err)
	assert.Equal(t, fitHead+fit, string(text))
	assert.Equal(t, published.Score{Hits: 1, Rows: 2}, table.Count(func(*published.Row) bool { return true }))
	assert.Equal(t, []string{"bees", "cucumber"}, table.Subjects())
}

// Each planted fault is found and told with its line.
func TestFaults(t *testing.T) {
	for name, c := range map[string]struct{ table, fits, want string }{
		"twice":           {hit + hit, "", "stands here twice"},
		"source":          {strings.Replace(hit, "MSU19", "Nobody99", 1), "", `"Nobody99" is not in the bibliography`},
		"status":          {strings.Replace(hit, ",read", ",seen", 1), "", `status "seen"`},
		"verdict":         {strings.Replace(hit, ",hit,", ",well,", 1), "", `verdict "well"`},
		"standing":        {strings.Replace(hit, ",fitted,", ",bent,", 1), "", `standing "bent"`},
		"number":          {strings.Replace(hit, "0.95", "NaN", 1), "", `"NaN" is not a number`},
		"no model":        {strings.Replace(hit, "0.95", "", 1), "", "the model's value"},
		"must":            {strings.Replace(hit, ",must,", ",yes,", 1), "", `must is "yes"`},
		"no reason":       {strings.Replace(miss, "not in the model", "", 1), "", "a miss needs its reason"},
		"aside":           {strings.Replace(aside, "not in the model", "", 1), "", "needs its reason"},
		"aside with rule": {strings.Replace(aside, ",,,,,,,aside", ",,,x,,,,aside", 1), "", "has no rule"},
		"fit of nothing":  {hit, strings.Replace(fit, "visits/a", "visits/z", 1), `no row "visits/z"`},
		"fit of an aside": {hit + miss + aside, strings.Replace(fit, "visits/a", "visits/c", 1), "not held against"},
		"change":          {hit, fit, `"visits/b -> hit" is no change`},
		"silent fit":      {hit + miss, strings.Replace(fit, ",9,", ",,", 1), "no note says why"},
	} {
		_, err := parse(t, c.table, c.fits)
		require.Error(t, err, name)
		assert.Contains(t, err.Error(), c.want, name)
		assert.Contains(t, err.Error(), "line", name)
	}
	bib, err := source.Load()
	require.NoError(t, err)
	_, err = published.Parse([]byte("id\n"), []byte(fitHead), bib)
	assert.ErrorContains(t, err, "the columns are id")
}

func TestRowName(t *testing.T) {
	for row, want := range map[string]string{"": "", "visits_needed": "crops/summer_squash/visits_needed",
		"cucumber/x": "crops/cucumber/x", "hand:all/x": "hand/all/x"} {
		assert.Equal(t, want, published.RowName("summer-squash", row))
	}
	assert.Empty(t, published.RowName("", "visits_needed"), "a number of the model has no rows of its own")
}

// The table built into the program can be read.
func TestLoad(t *testing.T) {
	table, err := published.Load()
	require.NoError(t, err)
	assert.Greater(t, len(table.Rows()), 300)
}
