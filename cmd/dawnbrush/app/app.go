// Package app is the program: its commands, one a file, and what they share. It
// takes streams, clock and environment as values and keeps no state of its own.
package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/risk/crop"
)

// name of the program, in messages and in the header that weather services ask
// for.
const name = "dawnbrush"

// reportTo is where faults of the program are reported.
const reportTo = "the project's issue tracker"

// program is one run.
type program struct {
	env     Env
	ctx     context.Context
	out     *stream
	err     io.Writer
	options options
	// evidence is set by commands that show where numbers come from.
	evidence bool
	// unremembered tells what of the garden's memory could not be used.
	unremembered []string
	// file is the garden file of the plan under way.
	file *config.File
	// recalled is the memory of the plan under way; nil for none.
	recalled *recall
	// aside is work that goes on while the result is written.
	aside sync.WaitGroup
}

// options are the flags that every command takes.
type options struct {
	config  string
	from    string
	at      string
	units   string
	demo    bool
	json    bool
	noColor bool

	memory   string
	noMemory bool
}

// Main runs the program and gives its exit code.
func Main(args []string, env Env) int {
	ctx, stop := env.Context()
	defer stop()
	p := &program{env: env, ctx: ctx, out: &stream{w: env.Out}, err: env.Err}
	done := make(chan int, 1)
	go func() { done <- p.run(args) }()
	select {
	case code := <-done:
		return code
	case <-ctx.Done():
	}
	select {
	case code := <-done:
		return code
	case <-time.After(grace): // it waits for input that will not come
		fmt.Fprintf(env.Err, "%s: interrupted\n", name)
		return exitInterrupted
	}
}

// grace is how long an interrupted run may take to end by itself.
const grace = time.Second // [chosen]

// run executes the line and gives the exit code. A panic ends here, once.
func (p *program) run(args []string) (code int) {
	defer func() {
		if r := recover(); r != nil {
			code = p.bug(r)
		}
	}()
	// Errors are told as the flags say, also when the flags did not get parsed.
	p.options.json = wantsJSON(args)
	if !p.options.json && (slices.Contains(args, "week") || slices.Contains(args, "today")) {
		go crop.OpenShelf() // on the side while the line is read; library waits for it
	}
	root := p.root()
	root.SetArgs(args)
	defer p.aside.Wait()
	err := root.ExecuteContext(p.ctx)
	if p.out.err != nil {
		err = failed(p.out.err, "is the disk full?", "cannot write the result: %v", p.out.err)
	}
	return p.end(err)
}

func wantsJSON(args []string) bool {
	for _, a := range args {
		switch a {
		case "--json", "--json=true":
			return true
		case "--":
			return false
		}
	}
	return false
}

// end turns an error into words and a code.
func (p *program) end(err error) int {
	var code codeOnly
	switch {
	case err == nil:
		return exitDone
	case p.ctx.Err() != nil:
		err = context.Canceled
	case errors.As(err, &code):
		return int(code)
	}
	f := explain(err)
	p.tell(f)
	return f.code
}

// bug asks for a report of what should never happen.
func (p *program) bug(r any) int {
	what := fmt.Sprintf("a fault of %s itself: %v", name, r)
	p.tell(&failure{code: exitBug, message: what, hint: "please report it to " + reportTo + " with the lines below and, if you can, the garden file"})
	if !p.options.json {
		fmt.Fprintln(p.err, strings.TrimSpace(string(debug.Stack())))
	}
	return exitBug
}
