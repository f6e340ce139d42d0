package openmeteo

import (
	"errors"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// Refusal is what the service writes instead of an answer: {"error":true,"reason":"..."}.
// [OpenMeteo]
type Refusal struct{ Reason string }

// said lists the reasons that have plainer words. The limits are those of one internet
// address; they end on the clock, with the minute, the hour, and the day in UTC. [OpenMeteo]
var said = []struct{ sign, words, remedy string }{
	{"minutely", "too many questions came from this internet address within a minute", "try again in a few minutes"},
	{"hourly", "too many questions came from this internet address within an hour", "try again after the next full hour"},
	{"daily", "the questions that are free in a day are used up at this internet address",
		"try again after midnight UTC, or choose another feed"},
	{"concurrent", "too many questions came from this internet address at once", "try again in a few minutes"},
	{"overloaded", "the service is overloaded", "try again in an hour"},
	{"invalid string value", "it does not know something that was asked for", "a newer version of this program may ask better; until then choose another feed"},
}

func (r *Refusal) Error() string {
	for _, s := range said {
		if strings.Contains(strings.ToLower(r.Reason), s.sign) {
			return s.words
		}
	}
	if reason := strings.TrimRight(strings.TrimSpace(r.Reason), "."); reason != "" {
		return "the service says \"" + cut(reason) + "\""
	}
	return "the service gives no reason"
}

// Hint gives the remedy.
func (r *Refusal) Hint() string {
	for _, s := range said {
		if strings.Contains(strings.ToLower(r.Reason), s.sign) {
			return s.remedy
		}
	}
	return "try again later, or choose another feed"
}

// cut shortens a reason: some are names of types inside the service, of any length.
func cut(s string) string {
	const most = 120 // [chosen: a line and a half]
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// nowhere is the reason for a place without data. [OpenMeteo]
const nowhere = "no data is available for this location"

// unavailable says in the grower's words why there is nothing from the service.
func unavailable(p forecast.Place, err error) error {
	r := refusal(err)
	switch {
	case r == nil:
		return feed.Unavailable(service, err)
	case strings.Contains(strings.ToLower(r.Reason), nowhere):
		return &feed.OutsideError{Service: service, Place: p,
			Remedy: "are latitude and longitude right? Otherwise choose another feed"}
	}
	return &feed.UnavailableError{Service: service, Reason: r.Error(), Err: err, Remedy: r.Hint()}
}

// refusal finds the service's reason in an error; nil when there is none.
func refusal(err error) *Refusal {
	var r *Refusal
	if errors.As(err, &r) {
		return r
	}
	var status *fetch.StatusError
	if !errors.As(err, &status) {
		return nil
	}
	var d document
	if decode(status.Body, &d) != nil || !d.Error || d.Reason == "" {
		return nil
	}
	return &Refusal{d.Reason}
}
