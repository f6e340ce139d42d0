package app

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/forecast/feed"
)

// failure ends the run with a code, a message for the grower and a remedy.
type failure struct {
	code    int
	message string
	hint    string
	also    []string      // further messages, a line each
	faults  config.Faults // of a garden file
	cause   error
}

func (f *failure) Error() string { return f.message }

func (f *failure) Unwrap() error { return f.cause }

func usage(hint, format string, args ...any) error {
	return &failure{code: exitUsage, message: fmt.Sprintf(format, args...), hint: hint}
}

func failed(cause error, hint, format string, args ...any) error {
	return &failure{code: exitFailed, message: fmt.Sprintf(format, args...), hint: hint, cause: cause}
}

// codeOnly ends the run with a code and no message: the plan told it already.
type codeOnly int

func (c codeOnly) Error() string { return fmt.Sprintf("exit code %d", int(c)) }

// explain turns any error into a failure. The feed's errors are those of "no
// forecast to be had", unless the place or the document is at fault.
func explain(err error) *failure {
	var f *failure
	if errors.As(err, &f) {
		return f
	}
	out := &failure{code: exitFailed, message: err.Error(), cause: err}
	var hinted interface{ Hint() string }
	if errors.As(err, &hinted) {
		out.hint = hinted.Hint()
	}
	var unavailable *feed.UnavailableError
	var stale *feed.StaleError
	switch {
	case errors.Is(err, context.Canceled):
		out.code, out.message, out.hint = exitInterrupted, "interrupted", ""
	case errors.As(err, &unavailable), errors.As(err, &stale), errors.Is(err, context.DeadlineExceeded):
		out.code = exitNoForecast
	}
	return out
}

// tell writes a failure: on lines for people, as one object for programs.
func (p *program) tell(f *failure) {
	if p.options.json {
		out := jsonout.Failure{Code: f.code, Message: strings.Join(append([]string{f.message}, f.also...), "; "), Hint: f.hint}
		for _, x := range f.faults {
			out.Faults = append(out.Faults, jsonout.Fault{File: x.File, Line: x.Line, Column: x.Column, Message: x.Message, Hint: x.Hint, Warning: x.Warning})
		}
		_ = jsonout.WriteFailure(p.err, out) // nowhere left to tell
		return
	}
	p.tellFaults(f.faults)
	for _, line := range append([]string{f.message}, f.also...) {
		fmt.Fprintf(p.err, "%s: %s\n", name, strings.TrimRight(line, "\n"))
	}
	if f.hint != "" {
		fmt.Fprintf(p.err, "hint: %s\n", f.hint)
	}
}

// tellFaults writes all faults of a garden file, each with its remedy.
func (p *program) tellFaults(faults config.Faults) {
	for _, x := range faults {
		kind := ""
		if x.Warning {
			kind = "worth a look: "
		}
		fmt.Fprintf(p.err, "%s: %s:%d:%d: %s%s\n", name, x.File, x.Line, x.Column, kind, x.Message)
		if x.Hint != "" {
			fmt.Fprintf(p.err, "hint: %s\n", x.Hint)
		}
	}
}
