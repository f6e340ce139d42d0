package nws

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"sort"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

const (
	maxStations = 3   // asked at most, nearest first [chosen]
	maxDistance = 60  // km; stations farther off see other weather [chosen]
	pageSize    = 500 // the service's own limit of a page [api.weather.gov OpenAPI, status quoted]
	maxPages    = 10  // two weeks of a report every five minutes are eight [chosen]

	// lateReports is how long after an hour its reports may still come in.
	lateReports = 2 * time.Hour // [chosen]
)

// stationDocument is the answer of /gridpoints/{office}/{x},{y}/stations.
type stationDocument struct {
	Features []struct {
		Geometry   geometry `json:"geometry"`
		Properties struct {
			ID   string `json:"stationIdentifier"`
			Name string `json:"name"`
		} `json:"properties"`
	} `json:"features"`
}

// station is a weather station near the garden.
type station struct {
	id, name string
	distance float64 // km
}

// Past asks the nearest stations for their reports. The nearest gives every hour
// it has a temperature for; hours it lacks come whole from the next one, with a
// note. See feed.Reader.
func (r Reader) Past(ctx context.Context, g feed.Getter, req feed.Request, since time.Time) (*forecast.Series, error) {
	if !since.Before(req.Now) {
		return forecast.New(since, since), nil
	}
	stations, err := r.stations(ctx, g, req)
	if err != nil {
		return nil, err
	}
	var out *forecast.Series
	var fail error
	for _, st := range stations {
		if out != nil && complete(out, since, req.Now.Add(-lateReports)) {
			break
		}
		s, err := r.reports(ctx, g, st, since, req.Now)
		switch {
		case err != nil && ctx.Err() != nil:
			return nil, err
		case err != nil:
			fail = errors.Join(fail, err)
		case out == nil:
			out = s
			out.Source += fmt.Sprintf(", %.0f km away", st.distance)
		default:
			out = supplement(out, s, st)
		}
	}
	if out == nil {
		return nil, noReports(fail)
	}
	return out, nil
}

// noReports says why there are no observed hours.
func noReports(cause error) error {
	reason := "no station nearby has sent a report"
	if cause == nil {
		reason = fmt.Sprintf("there is no station within %d km", maxDistance)
	}
	return &feed.UnavailableError{Service: service, Reason: reason, Err: cause,
		Remedy: "measured hours can also come from a logger or a rain gauge of your own"}
}

// complete tells whether every full hour between has a temperature.
func complete(s *forecast.Series, from, to time.Time) bool {
	for t := from.UTC().Truncate(time.Hour); t.Before(to.Add(-time.Hour)); t = t.Add(time.Hour) {
		i, ok := s.Index(t)
		if !ok || !s.Hours[i].Temp.IsKnown() {
			return false
		}
	}
	return true
}

// supplement fills hours without a temperature from another station.
func supplement(s, other *forecast.Series, st station) *forecast.Series {
	start, end := s.Start(), s.End()
	if other.Start().Before(start) {
		start = other.Start()
	}
	if other.End().After(end) {
		end = other.End()
	}
	out := forecast.New(start, end)
	out.Feed, out.Source, out.Attribution, out.Point, out.Notes = s.Feed, s.Source, s.Attribution, s.Point, s.Notes
	n := 0
	for i := range out.Hours {
		t := out.Hours[i].Start
		j, ok := s.Index(t)
		if ok {
			out.Hours[i] = s.Hours[j]
		}
		if k, has := other.Index(t); has && !out.Hours[i].Temp.IsKnown() && other.Hours[k].Temp.IsKnown() {
			out.Hours[i] = other.Hours[k]
			n++
		}
	}
	if n > 0 {
		out.Notes = append(out.Notes, forecast.Note{
			Text: fmt.Sprintf("hours taken from the station %s, %.0f km away, for want of nearer reports: %d", st.name, st.distance, n)})
	}
	return out
}

// stations asks for the stations around the place, nearest first.
func (r Reader) stations(ctx context.Context, g feed.Getter, req feed.Request) ([]station, error) {
	c, err := r.cell(ctx, g, req, false)
	if err != nil {
		return nil, err
	}
	resp, err := r.stationList(ctx, g, c)
	if c.stored && gone(err) {
		if c, err = r.cell(ctx, g, req, true); err != nil {
			return nil, err
		}
		resp, err = r.stationList(ctx, g, c)
	}
	if err != nil {
		return nil, unavailable(err)
	}
	return parseStations(resp.Body, req.Place)
}

func (r Reader) stationList(ctx context.Context, g feed.Getter, c cell) (*fetch.Response, error) {
	return g.Get(ctx, fetch.Request{URL: r.base() + c.path() + "/stations", Accept: acceptGeo,
		MinFresh: mappingAge, MaxStored: mappingStored,
		Validate: func(body []byte) error { _, err := parseStations(body, forecast.Place{}); return err }})
}

// parseStations gives the stations near enough, at most maxStations.
func parseStations(doc []byte, p forecast.Place) ([]station, error) {
	var d stationDocument
	if err := decode(doc, &d); err != nil {
		return nil, &feed.DocumentError{What: "list of stations of the " + service, Fault: "it cannot be read", Err: err}
	}
	var out []station
	for _, f := range d.Features {
		var at forecast.Place
		at.Lat, at.Lon = f.Geometry.centre()
		st := station{f.Properties.ID, f.Properties.Name, p.DistanceKm(at)}
		if isStation(st.id) && len(f.Geometry.Corners) > 0 && st.distance <= maxDistance {
			out = append(out, st)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].distance < out[j].distance })
	return out[:min(len(out), maxStations)], nil
}

// isStation tells whether s can be a station's name: it becomes part of an
// address.
func isStation(s string) bool {
	for _, r := range s {
		if (r < 'A' || r > 'Z') && (r < '0' || r > '9') {
			return false
		}
	}
	return s != ""
}

// reports asks for a station's reports, page by page. A page that fails after
// the first leaves what there is.
func (r Reader) reports(ctx context.Context, g feed.Getter, st station, since, now time.Time) (*forecast.Series, error) {
	next := r.base() + "/stations/" + st.id + "/observations?" + url.Values{
		"start": {since.UTC().Format(time.RFC3339)}, "end": {now.UTC().Format(time.RFC3339)},
		"limit": {fmt.Sprint(pageSize)}}.Encode()
	var all []reportFeature
	for page := 0; page < maxPages && next != ""; page++ {
		resp, err := g.Get(ctx, fetch.Request{URL: next, Accept: acceptGeo, NoStore: true,
			Validate: func(body []byte) error { _, err := decodeReports(body); return err }})
		if err != nil {
			if len(all) > 0 && ctx.Err() == nil {
				break
			}
			return nil, err
		}
		d, err := decodeReports(resp.Body)
		if err != nil {
			return nil, err
		}
		all = append(all, within(d.Features, since, now)...)
		if len(d.Features) == 0 || olderThan(d.Features, since) {
			break
		}
		next = r.onBase(d.Pagination.Next)
	}
	return adaptReports(all)
}

// within drops reports outside the time asked for: the cursor of a page may
// forget the start.
func within(features []reportFeature, since, now time.Time) []reportFeature {
	var out []reportFeature
	for _, f := range features {
		if t, err := parseTime(f.Properties.Timestamp); err == nil && !t.Before(since) && !t.After(now) {
			out = append(out, f)
		}
	}
	return out
}

// olderThan tells whether any report lies before the time.
func olderThan(features []reportFeature, t time.Time) bool {
	for _, f := range features {
		if at, err := parseTime(f.Properties.Timestamp); err == nil && at.Before(t) {
			return true
		}
	}
	return false
}

// onBase keeps the path and query of a page's address and asks our base for it,
// so that a document cannot send us elsewhere.
func (r Reader) onBase(next string) string {
	u, err := url.Parse(next)
	if next == "" || err != nil || u.Path == "" {
		return ""
	}
	return r.base() + u.RequestURI()
}
