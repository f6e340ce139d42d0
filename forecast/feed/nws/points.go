package nws

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// The two media types to ask with. A cache of the service keeps one copy for
// each, and has served an old forecast under one of them while the other was
// fresh: geo+json in 2020 to 2022 [pynws issue 50], the other in 2025
// [bitclock issue 15].
const (
	acceptGeo = "application/geo+json"
	acceptAny = "*/*"
)

const (
	// mappingAge is how long the cell of a place is taken from the store. The
	// mapping changes without notice, though rarely. [weather-gov/api issue 157]
	mappingAge = 7 * 24 * time.Hour // [chosen]

	// mappingStored is how long a stored mapping may stand in when the service
	// fails; the outline of the cell is checked anyway. [chosen]
	mappingStored = 30 * 24 * time.Hour
)

// cell names a grid cell, with the zone of the place.
type cell struct {
	office, x, y string
	zone         *time.Location // nil when not said
	stored       bool           // came from the store, so it may be out of date
}

func (c cell) path() string { return fmt.Sprintf("/gridpoints/%s/%s,%s", c.office, c.x, c.y) }

// pointDocument is the answer of /points/{lat},{lon}.
type pointDocument struct {
	Properties struct {
		GridID   string `json:"gridId"`
		GridX    text   `json:"gridX"`
		GridY    text   `json:"gridY"`
		TimeZone string `json:"timeZone"`
	} `json:"properties"`
}

func (r Reader) base() string {
	if r.Base != "" {
		return r.Base
	}
	return DefaultBase
}

// parsePoint reads a points document.
func parsePoint(doc []byte) (cell, error) {
	var d pointDocument
	if err := decode(doc, &d); err != nil {
		return cell{}, &feed.DocumentError{What: "points document of the " + service, Fault: "it cannot be read", Err: err}
	}
	p := d.Properties
	_, errX := strconv.ParseUint(string(p.GridX), 10, 16)
	_, errY := strconv.ParseUint(string(p.GridY), 10, 16)
	if !isOffice(p.GridID) || errX != nil || errY != nil {
		return cell{}, &feed.DocumentError{What: "points document of the " + service, Fault: "it names no grid cell"}
	}
	c := cell{office: p.GridID, x: string(p.GridX), y: string(p.GridY)}
	if p.TimeZone != "" {
		if zone, err := time.LoadLocation(p.TimeZone); err == nil {
			c.zone = zone
		}
	}
	return c, nil
}

// isOffice tells whether s can be an office's name: it becomes part of an
// address.
func isOffice(s string) bool {
	for _, r := range s {
		if r < 'A' || r > 'Z' {
			return false
		}
	}
	return len(s) == 3
}

// cell asks which grid cell the place lies in; again does so past the store.
func (r Reader) cell(ctx context.Context, g feed.Getter, req feed.Request, again bool) (cell, error) {
	if !r.Covers(req.Place) {
		return cell{}, outside(req.Place)
	}
	resp, err := g.Get(ctx, fetch.Request{
		URL:       r.base() + "/points/" + feed.Coordinate(req.Place.Lat) + "," + feed.Coordinate(req.Place.Lon),
		Accept:    acceptGeo,
		MinFresh:  mappingAge,
		MaxStored: mappingStored,
		Fresh:     again,
		Validate:  func(body []byte) error { _, err := parsePoint(body); return err },
	})
	if err != nil {
		var status *fetch.StatusError
		if errors.As(err, &status) && status.Gone() {
			return cell{}, outside(req.Place)
		}
		return cell{}, unavailable(err)
	}
	c, err := parsePoint(resp.Body)
	c.stored = resp.Cached
	return c, err
}

// unavailable says in the grower's words why there is no forecast.
func unavailable(err error) error {
	var status *fetch.StatusError
	if errors.As(err, &status) && status.Type == "ForecastGridExpired" {
		return &feed.UnavailableError{Service: service, Reason: "its local office is late with a new forecast and the old one has run out", Err: err,
			Remedy: "this can last from minutes to a day: try again in an hour"}
	}
	return feed.Unavailable(service, err)
}
