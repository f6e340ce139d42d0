package openmeteo

import (
	"context"
	"errors"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/fetch"
)

const (
	// archiveDelay is how many days back the archive's newest whole day lies: ERA5 comes
	// five days late, and the fifth may be there in part. [OpenMeteo]
	archiveDelay = 6

	// overlap is how many days more are asked of the forecasts, should the archive be later
	// than that. [chosen: as long again as the archive's last day can be missing]
	overlap = 4

	// The reanalysis with the finer land model inside it. [OpenMeteo]
	archiveModel = "models=era5_seamless"
)

// Past gives the hours from since to req.Now: as worked out afterwards by ERA5 where that
// has come, and for the last six days as the newest forecasts said. Each hour tells its
// origin. When one of the two fails the other is given, with a note. See feed.Reader.
func (r Reader) Past(ctx context.Context, g feed.Getter, req feed.Request, since time.Time) (*forecast.Series, error) {
	if !since.Before(req.Now) {
		return &forecast.Series{}, nil
	}
	if !r.Covers(req.Place) {
		return nil, feed.NotOnEarth(service, req.Place)
	}
	if since.Before(earliest) {
		since = earliest
	}
	today := req.Now.UTC().Truncate(day)
	last := today.AddDate(0, 0, -archiveDelay)
	// Rain of the last hour is told at the midnight that the archive no longer has.
	cut := last.Add(day - time.Hour)

	var old, recent *forecast.Series
	var failOld, failRecent error
	from := last.AddDate(0, 0, -overlap)
	if since.Before(cut) {
		old, failOld = r.archived(ctx, g, req, since, last)
	}
	if since.After(from) {
		from = since.UTC().Truncate(day)
	}
	days := int(today.Sub(from) / day)
	recent, failRecent = r.hours(ctx, g, req, r.forecastAddress(req.Place, days, 1), part{hosts: onForecast, origin: forecast.OriginForecast})
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case old == nil && recent == nil:
		return nil, noPast(errors.Join(failOld, failRecent), failRecent)
	}
	out := join(old, recent, cut)
	for _, part := range []struct {
		what string
		err  error
	}{{"hours worked out afterwards", failOld}, {"the last days", failRecent}} {
		if part.err != nil {
			out.Notes = append(out.Notes, forecast.Note{Text: fmt.Sprintf("%s could not be had: %v", part.what, part.err)})
		}
	}
	assemble.Past(out, since, req.Now)
	return out, nil
}

// noPast says why there are no past hours.
func noPast(all, last error) error {
	var outside *feed.OutsideError
	if errors.As(all, &outside) {
		return outside
	}
	var none *feed.UnavailableError
	if errors.As(last, &none) {
		return &feed.UnavailableError{Service: service, Reason: none.Reason, Err: all, Remedy: none.Remedy}
	}
	return last
}

// join puts what was worked out afterwards before what was forecast.
func join(old, recent *forecast.Series, cut time.Time) *forecast.Series {
	if old == nil || recent == nil {
		return forecast.Join(old, recent, cut)
	}
	out := forecast.Join(old, recent, cut)
	out.Source, out.Attribution = old.Source+", the last days from forecasts", old.Attribution
	return out
}

// archived asks for hours that were worked out afterwards.
func (r Reader) archived(ctx context.Context, g feed.Getter, req feed.Request, since, last time.Time) (*forecast.Series, error) {
	ask := address(or(r.Archive, DefaultArchive), "/v1/archive", req.Place, names(onArchive, ""), between(since.UTC(), last)+"&"+archiveModel)
	s, err := r.hours(ctx, g, req, ask, part{hosts: onArchive, origin: forecast.OriginReanalysis})
	if err != nil {
		return nil, err
	}
	s.Source, s.Attribution = sourcePast, attributionPast
	return s, nil
}

// hours asks for a document and takes one series from it.
func (r Reader) hours(ctx context.Context, g feed.Getter, req feed.Request, ask string, p part) (*forecast.Series, error) {
	var out *forecast.Series
	err := get(ctx, g, req.Place, ask, func(body []byte) error {
		d, err := decodeDocument(body)
		if err == nil {
			out, err = d.series(p)
		}
		return err
	})
	return out, err
}

// get asks for a document about the past, which has to be readable. The same question is
// asked again on the same day only, so a stored copy stands in for one of that age.
func get(ctx context.Context, g feed.Getter, p forecast.Place, ask string, read func(body []byte) error) error {
	resp, err := g.Get(ctx, fetch.Request{URL: ask, Accept: mediaType, MinFresh: renewed, MaxStored: feed.MaxStored, Validate: read})
	if err == nil {
		err = read(resp.Body)
	}
	if err != nil {
		return unavailable(p, err)
	}
	return nil
}
