package brightsky

import (
	"errors"
	"fmt"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// Refusal is what the service writes instead of an answer: {"detail": "..."}, or a list of
// what is wrong with the question. [BrightSky]
type Refusal struct{ Reasons []string }

func (r *Refusal) Error() string {
	return fmt.Sprintf("the service says %q", strings.Join(r.Reasons, "; "))
}

// complaint is one thing that is wrong with a question.
type complaint struct {
	Where   []any  `json:"loc"` // "query" and the name of a parameter
	Message string `json:"msg"`
}

const (
	maxReasons = 3   // [chosen: enough to tell what is meant]
	maxReason  = 120 // letters [chosen: a line and a half]
)

// refusal reads the error of a document; nil when there is none that can be read.
func (d *document) refusal() *Refusal {
	if d.Detail == nil {
		return nil
	}
	var text string
	if decode(d.Detail, &text) == nil {
		return &Refusal{[]string{cut(text)}}
	}
	var all []complaint
	if decode(d.Detail, &all) != nil || len(all) == 0 {
		return nil
	}
	r := &Refusal{}
	for _, c := range all[:min(len(all), maxReasons)] {
		text := cut(c.Message)
		if n := len(c.Where); n > 0 {
			text = fmt.Sprintf("%v: %s", c.Where[n-1], text)
		}
		r.Reasons = append(r.Reasons, text)
	}
	return r
}

func cut(s string) string {
	s = strings.TrimRight(strings.TrimSpace(s), ".")
	if r := []rune(s); len(r) > maxReason {
		return string(r[:maxReason]) + "..."
	}
	return s
}

// refused finds the service's own words in an error; nil when there are none.
func refused(err error) *Refusal {
	var status *fetch.StatusError
	if !errors.As(err, &status) {
		return nil
	}
	var d document
	if decode(status.Body, &d) != nil {
		return nil
	}
	return d.refusal()
}

// noSources is how the service says that it has nothing within 50 km for the time asked for.
// [BrightSky]
const noSources = "no sources match"

// nothingThere tells whether the service answered that it has no source.
func nothingThere(err error) bool {
	var status *fetch.StatusError
	r := refused(err)
	return errors.As(err, &status) && status.Gone() && r != nil && strings.Contains(strings.ToLower(r.Reasons[0]), noSources)
}

// Answers of the service to a question that it does not take. [BrightSky]
const badRequest, unprocessable = 400, 422

// unavailable says in the grower's words why there is nothing from the service.
func unavailable(p forecast.Place, err error) error {
	var status *fetch.StatusError
	switch r := refused(err); {
	case nothingThere(err):
		return outside(p)
	case r != nil && errors.As(err, &status) && (status.Status == unprocessable || status.Status == badRequest):
		return &feed.UnavailableError{Service: service, Reason: "it does not take the question; " + r.Error(), Err: err,
			Remedy: "a newer version of this program may ask better; until then choose another feed"}
	}
	return feed.Unavailable(service, err)
}
