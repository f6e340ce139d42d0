package openmeteo

import (
	"context"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
)

// Run is what was forecast of the hours a number of days before each of them.
type Run struct {
	Days             int // 24 h each, 1 to 7; 0 for the newest forecast, the nearest to what came
	*forecast.Series     // its hours are forecasts; chances of rain and gusts are not kept by the service
}

// firstPrevious is the first day whose earlier runs the service keeps. [OpenMeteo]
var firstPrevious = time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)

// PreviousRuns asks what was forecast of the hours from since to req.Now, one series for
// each number of days ahead, as far as the service has them: by them a forecast's error at
// the garden is measured. The question counts as several of those that are free in a day,
// one for every ten variables and fortnight: about six. [OpenMeteo] Errors are those of
// feed.Reader.
func (r Reader) PreviousRuns(ctx context.Context, g feed.Getter, req feed.Request, since time.Time) ([]Run, error) {
	if !r.Covers(req.Place) {
		return nil, feed.NotOnEarth(service, req.Place)
	}
	if since.Before(firstPrevious) {
		since = firstPrevious
	}
	if !since.Before(req.Now) {
		return nil, nil
	}
	leads := []string{""}
	for i := 1; i <= maxLead; i++ {
		leads = append(leads, fmt.Sprint(leadMark, i))
	}
	ask := address(or(r.Previous, DefaultPrevious), "/v1/forecast", req.Place, names(onPrevious, leads...), between(since.UTC(), req.Now.UTC()))
	var runs []Run
	err := get(ctx, g, req.Place, ask, func(body []byte) (err error) {
		runs, err = ParsePreviousRuns(body)
		return err
	})
	if err != nil {
		return nil, err
	}
	var out []Run
	for _, run := range runs {
		if assemble.Past(run.Series, since, req.Now); len(run.Hours) > 0 {
			out = append(out, run)
		}
	}
	return out, nil
}
