package table

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
)

func TestShow(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	d.Constants = risk.Params()
	d.Focus.Date = reporttest.Today.AddDays(1)
	d.Focus.Crop = "cucumber"
	require.NoError(t, Workings(os.Stdout, d))
	d.Focus.Crop = ""
	require.NoError(t, Sources(os.Stdout, d))
}
