package app

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/risk"
)

// mostAsked is how often a question is put before init gives up. [chosen: two slips
// are forgiven]
const mostAsked = 3

// ask puts the questions that no flag answered, on stderr, so that stdout stays
// the result. What the garden file could not take is asked again, with the reason:
// nobody has to give the other answers anew for one slip.
func (p *program) ask(a *answers) error {
	in := bufio.NewReader(p.env.In)
	for _, q := range []struct {
		into            *string
		text, otherwise string
		must            bool
	}{
		{&a.name, "Name of the garden", "garden", false},
		{&a.units, "Units, metric or us", string(risk.Metric), false},
		{&a.lat, "Degrees north (south is negative)", "", true},
		{&a.lon, "Degrees east (west, so all of America, is negative)", "", true},
		{&a.zone, "Time zone", "", true},
		{&a.contact, "E-mail or web address the weather service may write to", "", false},
	} {
		if *q.into != "" {
			continue // a flag told
		}
		if q.into == &a.zone {
			q.otherwise = guessZone(a)
		}
		err := p.askFor(in, q.text, q.otherwise, q.must, func(word string) error {
			if *q.into = word; q.into == &a.units {
				*q.into = strings.ToLower(word)
			}
			return p.wouldDo(*a)
		})
		if err != nil {
			return err
		}
	}
	if len(a.crops) > 0 {
		return nil
	}
	return p.askFor(in, "Crops, with commas between (may stay empty)", "", false, func(list string) error {
		a.crops = nil
		for word := range strings.SplitSeq(list, ",") {
			if word = strings.TrimSpace(word); word != "" {
				a.crops = append(a.crops, word)
			}
		}
		return p.wouldDo(*a)
	})
}

// askFor puts one question until take accepts the answer.
func (p *program) askFor(in *bufio.Reader, text, otherwise string, must bool, take func(string) error) error {
	if otherwise != "" {
		text += " [" + otherwise + "]"
	}
	var last error
	for try := range mostAsked {
		fmt.Fprintf(p.err, "%s: ", text)
		line, err := in.ReadString('\n')
		if err != nil && (!errors.Is(err, io.EOF) || line == "") {
			return failed(err, "give the answers as flags; see dawnbrush init --help", "no answer")
		}
		word := strings.TrimSpace(line)
		if word == "" {
			word = otherwise
		}
		if word == "" && must {
			last = usage("give it as a flag, or answer; see dawnbrush init --help", "this one cannot stay empty")
		} else if last = take(word); last == nil {
			return nil
		}
		if try+1 < mostAsked { // the last one is told as the error of the run
			p.tell(explain(last))
		}
	}
	return last
}

// wouldDo tells whether a garden file could be written of the answers so far.
func (p *program) wouldDo(a answers) error {
	for _, missing := range []struct {
		answer *string
		any    string
	}{{&a.lat, "0"}, {&a.lon, "0"}, {&a.zone, "UTC"}} {
		if *missing.answer == "" {
			*missing.answer = missing.any
		}
	}
	_, err := p.gardenText(a)
	return err
}

// guessZone offers the zone of the nearest town for the grower to confirm.
func guessZone(a *answers) string {
	var lat, lon float64
	if _, err := fmt.Sscan(a.lat, &lat); err != nil {
		return ""
	}
	if _, err := fmt.Sscan(a.lon, &lon); err != nil {
		return ""
	}
	return config.NearestZone(lat, lon)
}
