package app

import (
	"context"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strconv"
	"syscall"
	"time"

	"golang.org/x/term"
)

// Env is all that the program takes from outside. Tests make their own.
type Env struct {
	In     io.Reader
	Out    io.Writer
	Err    io.Writer
	Now    func() time.Time
	Getenv func(name string) string
	// Terminal tells whether a stream is a terminal and how many columns it has.
	Terminal func(stream any) (columns int, ok bool)
	// Context ends when the user interrupts.
	Context func() (context.Context, context.CancelFunc)
}

// heapBeforeGC is how large the heap may grow before garbage is collected: a
// run needs about 8 MiB and is over before a collection would pay.
const heapBeforeGC = 20 << 20

// System gives the process's own surroundings and keeps the collector out below
// heapBeforeGC.
func System() Env {
	debug.SetGCPercent(-1)
	debug.SetMemoryLimit(heapBeforeGC)
	return Env{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Now: time.Now, Getenv: os.Getenv, Terminal: terminal,
		Context: func() (context.Context, context.CancelFunc) {
			return signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
		}}
}

func terminal(stream any) (int, bool) {
	f, ok := stream.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return 0, false
	}
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		columns = 0
	}
	return columns, true
}

// set tells whether a variable is set and not empty.
func (e Env) set(name string) bool { return e.Getenv(name) != "" }

// width gives the columns to fill: COLUMNS, the terminal, else 0.
func (e Env) width() int {
	if n, err := strconv.Atoi(e.Getenv("COLUMNS")); err == nil && n > 0 {
		return n
	}
	columns, _ := e.Terminal(e.Out)
	return columns
}

// colour tells whether a stream takes colour: flag, NO_COLOR, force, terminal.
// [no-color.org; force after the common CLICOLOR_FORCE, memory]
func (e Env) colour(stream any, refused bool) bool {
	if refused || e.set("NO_COLOR") {
		return false
	}
	if v := e.Getenv("CLICOLOR_FORCE"); v != "" && v != "0" {
		return true
	}
	_, ok := e.Terminal(stream)
	return ok && e.Getenv("TERM") != "dumb"
}

// stream remembers the first error of writing, so that a full disk is told.
type stream struct {
	w   io.Writer
	err error
}

func (s *stream) Write(p []byte) (int, error) {
	n, err := s.w.Write(p)
	if err != nil && s.err == nil {
		s.err = err
	}
	return n, err
}
