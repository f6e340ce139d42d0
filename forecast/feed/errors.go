package feed

import (
	"fmt"
	"math"
	"time"

	"dawnbrush/forecast"
)

// OutsideError says that a feed does not serve the place. Asking again is in
// vain.
type OutsideError struct {
	Service string
	Place   forecast.Place
	Swapped bool   // with latitude and longitude exchanged, or a sign turned, it would be served
	Remedy  string // a hint of the reader's own; "" for the usual one
}

func (e *OutsideError) Error() string {
	return fmt.Sprintf("the %s has no forecast for latitude %.4f, longitude %.4f",
		e.Service, e.Place.Lat, e.Place.Lon)
}

// Hint gives the remedy.
func (e *OutsideError) Hint() string {
	switch {
	case e.Remedy != "":
		return e.Remedy
	case e.Swapped:
		return "are latitude and longitude swapped, or is a minus sign missing? North and east count positive, " +
			"so a garden in the United States has a negative longitude"
	}
	return "choose a feed that serves the whole world"
}

// NotOnEarth refuses a place that no feed serves.
func NotOnEarth(service string, p forecast.Place) error {
	remedy := "latitudes lie between -90 and 90, longitudes between -180 and 180"
	if OnEarth(forecast.Place{Lat: p.Lon, Lon: p.Lat}) {
		remedy = "are latitude and longitude swapped? Latitudes lie between -90 and 90"
	}
	return &OutsideError{Service: service, Place: p, Remedy: remedy}
}

// UnavailableError says that there is no forecast to be had now.
type UnavailableError struct {
	Service string
	Reason  string // in plain words
	Err     error
	Remedy  string // "" for the usual hint
}

func (e *UnavailableError) Error() string {
	return fmt.Sprintf("no forecast from the %s: %s", e.Service, e.Reason)
}

// Unwrap gives the cause, for the log.
func (e *UnavailableError) Unwrap() error { return e.Err }

// Hint gives the remedy.
func (e *UnavailableError) Hint() string {
	if e.Remedy != "" {
		return e.Remedy
	}
	return "try again in an hour, or read a saved document"
}

// StaleError says that the service answered with an old forecast.
type StaleError struct {
	Service string
	Issued  time.Time
	Age     time.Duration
}

func (e *StaleError) Error() string {
	return fmt.Sprintf("the forecast of the %s is %s old", e.Service, Hours(e.Age))
}

// Hint gives the remedy.
func (e *StaleError) Hint() string {
	return "the service is sending an old forecast; it usually mends itself within hours, so try again later"
}

// DocumentError says that a document is not what it should be.
type DocumentError struct {
	What   string // what it should be, in words, such as "forecast of the ..."
	Fault  string // what is wrong
	Err    error
	Remedy string // "" for the usual hint
}

func (e *DocumentError) Error() string {
	return fmt.Sprintf("this is not a usable %s: %s", e.What, e.Fault)
}

// Unwrap gives the cause, for the log.
func (e *DocumentError) Unwrap() error { return e.Err }

// Hint gives the remedy.
func (e *DocumentError) Hint() string {
	if e.Remedy != "" {
		return e.Remedy
	}
	return "fetch the document again; it may have been cut short or changed"
}

// Hours writes a duration as "40 min", "5 h" or "89 h".
func Hours(d time.Duration) string {
	if d < time.Hour {
		return fmt.Sprintf("%.0f min", math.Max(0, d.Minutes()))
	}
	return fmt.Sprintf("%.0f h", math.Round(d.Hours()))
}
