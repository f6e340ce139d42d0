package outbox

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"time"

	"dawnbrush/cmd/dawnbrush/store"
)

// Command gives a letter to a program that reads a message, such as sendmail -t -oi.
// No shell has a hand in it.
type Command struct {
	Args    []string      // the program's path and its arguments
	Env     []string      // its whole environment, NAME=value
	Timeout time.Duration // what one letter may take; MostTimeout at the most
}

const (
	// settle is what a stopped program has to let go of its streams. [chosen]
	settle = 2 * time.Second
	// mostHeard bounds what is kept of a program's output. [chosen: the first lines tell]
	mostHeard = 4 << 10
)

// Exit statuses of programs that take mail. [sysexits.h 8.1; which of them end a letter: chosen]
const (
	exitUsage    = 64 // EX_USAGE, the first that has a name
	exitData     = 65 // EX_DATAERR, the letter is at fault
	exitNoUser   = 67 // EX_NOUSER, there is no such recipient
	exitTempFail = 75 // EX_TEMPFAIL, try again later
	exitConfig   = 78 // EX_CONFIG, the last
	exitNoExec   = 126
	exitNotFound = 127
)

// Send runs the command once with the letter on its standard input, lines ended as
// text files have them. Exit status 0 is sent, 65 and 67 are refused; the others from
// 64 to 78, and 126 and 127, speak of the way and mean later; anything else is refused. A command that cannot be
// run, hangs, is killed or ends before it has read the letter leaves it for later.
func (c Command) Send(parent context.Context, l store.Letter, _ time.Time) Outcome {
	ctx, cancel := limit(parent, c.Timeout)
	defer cancel()
	name := c.Args[0]
	cmd := exec.CommandContext(ctx, name, c.Args[1:]...)
	cmd.Env = append([]string{}, c.Env...)
	cmd.WaitDelay = settle
	group(cmd)
	var heard listener
	cmd.Stdout, cmd.Stderr = &heard, &heard
	in, err := whole(localLines(l.Body))
	if err != nil {
		return blocked("is the disk full?", "the letter cannot be laid out for the mail command: %v", reason(err))
	}
	defer in.close()
	cmd.Stdin = in.File
	if err := cmd.Start(); err != nil {
		return blocked("see that it is there and can be run, or name another one in command under [mail]", "the mail command %s cannot be run: %v", name, plainly(err))
	}
	err = cmd.Wait()
	unread := in.unread()
	switch {
	case err == nil && !unread:
		return sent()
	case parent.Err() != nil:
		return later("", "interrupted while the mail command had it")
	case ctx.Err() != nil:
		return blocked("run it by hand with a message; timeout under [mail] gives it longer", "the mail command %s did not end in time and was stopped%s", name, with(heard.String()))
	}
	return c.judge(err, unread, heard.String())
}

// judge tells what the end of a command means.
func (c Command) judge(err error, unread bool, heard string) Outcome {
	name, words := c.Args[0], with(heard)
	var exit *exec.ExitError
	switch {
	case err == nil, errors.Is(err, exec.ErrWaitDelay): // a child of it keeps its streams
		if unread {
			return blocked("does it read a message on its standard input?", "the mail command %s ended before it had read the letter%s", name, words)
		}
		return sent()
	case !errors.As(err, &exit):
		return blocked("", "the mail command %s failed: %v", name, err)
	}
	code := exit.ExitCode()
	switch {
	case code < 0:
		return blocked("run it by hand with a message to see why", "the mail command %s was ended by a signal (%s)%s", name, exit.ProcessState, words)
	case code == exitTempFail:
		return later("", "the mail command %s put it off (exit status %d)%s", name, code, words)
	case code == exitNoUser:
		return refused("mend the address under [[mail.to]]", "the mail command %s knows no such recipient (exit status %d)%s", name, code, words)
	case code == exitData:
		return refused("", "the mail command %s does not take the letter (exit status %d)%s", name, code, words)
	case code >= exitUsage && code <= exitConfig, code == exitNoExec, code == exitNotFound:
		return blocked("run it by hand with a message to see why", "the mail command %s cannot send now (exit status %d)%s", name, code, words)
	}
	return refused("run it by hand with a message; a command that wants to be asked again later ends with 75",
		"the mail command %s failed (exit status %d)%s", name, code, words)
}

// letterFile is a letter as a program reads it on its standard input: a file that
// nobody else can open. In a pipe a letter would break off where a run is killed
// while it writes, and the program would take the half for the whole.
type letterFile struct {
	*os.File
	size int64
}

// whole lays a letter out. The file is gone as soon as nobody has it open.
func whole(body []byte) (letterFile, error) {
	f, err := os.CreateTemp("", "letter-*")
	if err != nil {
		return letterFile{}, err
	}
	in := letterFile{f, int64(len(body))}
	_ = os.Remove(f.Name()) // where a name in use cannot go, close takes it away
	_, err = f.Write(body)
	if err == nil {
		_, err = f.Seek(0, io.SeekStart)
	}
	if err != nil {
		in.close()
	}
	return in, err
}

// unread tells whether the program ended before the end of the letter: it moves the
// place in the file that it shares with us.
func (in letterFile) unread() bool {
	at, err := in.Seek(0, io.SeekCurrent)
	return err == nil && at < in.size
}

func (in letterFile) close() {
	_ = in.Close() // nothing of it is kept
	_ = os.Remove(in.Name())
}

// plainly leaves out the path, which the message holds already.
func plainly(err error) error {
	var e *exec.Error
	if errors.As(err, &e) {
		return e.Err
	}
	return reason(err)
}

// localLines ends lines as text files do, which is what sendmail and its like read.
// [common-practice]
func localLines(body []byte) []byte { return bytes.ReplaceAll(body, []byte("\r\n"), []byte("\n")) }

// listener keeps the first of what a program says and takes the rest, so that the
// program is not held up.
type listener struct{ kept bytes.Buffer }

func (l *listener) Write(p []byte) (int, error) {
	if room := mostHeard - l.kept.Len(); room > 0 {
		l.kept.Write(p[:min(room, len(p))])
	}
	return len(p), nil
}

func (l *listener) String() string { return l.kept.String() }
