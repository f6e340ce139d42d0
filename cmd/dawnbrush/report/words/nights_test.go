package words

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// A cool night says less than a cold one, and from where on nights cost nothing.
func TestCoolNightIsSaid(t *testing.T) {
	cool := &risk.Flag{Kind: risk.CoolNight, Value: forecast.Known(14), Limit: forecast.Known(15.6)}
	cold := &risk.Flag{Kind: risk.ColdNight, Value: forecast.Known(11), Limit: forecast.Known(12.8)}
	assert.Equal(t, "cool night, 14 C: less fruit sets under 16 C", New(risk.Metric, time.UTC).Flag(cool, nil))
	assert.Equal(t, "cool night, 57 F: less fruit sets under 60 F", New(risk.US, time.UTC).Flag(cool, nil))
	assert.Equal(t, "cold night, 52 F: fruit sets badly under 55 F", New(risk.US, time.UTC).Flag(cold, nil))
	assert.Equal(t, TopicNights, TopicOf(cool.Kind))
}
