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
	require.NoError(t, Week(os.Stdout, d))
	for range 3 {
		d.Plans = d.Plans[1:]
		require.NoError(t, Today(os.Stdout, d))
		require.NoError(t, Quiet(os.Stdout, d))
	}
}
