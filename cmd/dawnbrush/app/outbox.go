package app

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/risk"
)

const outboxLong = `Letters that wait to be handed on: since when, how often they were tried, what
the last fault was. Letters are kept in the garden's memory before they are
first tried; one that was put off is tried again with the next digest or --due,
after half an hour at the least and three hours at the most. A daily letter is
given up after a day, a weekly one after three.

--all lists those too that were sent, refused, given up or dropped. --due tries
those whose time has come, and says nothing where all goes well. --retry tries
the letters named now, or all that wait; also one that was refused or given up.
--drop lets the letters named go.`

// outboxOptions are the flags of outbox.
type outboxOptions struct{ all, due, retry, drop bool }

// acts counts the flags of which one alone makes sense.
func (o outboxOptions) acts() (n int) {
	for _, set := range []bool{o.all, o.due, o.retry, o.drop} {
		if set {
			n++
		}
	}
	return n
}

func (p *program) outbox() *cobra.Command {
	var o outboxOptions
	c := &cobra.Command{
		Use:     "outbox [ID...]",
		Short:   "letters that wait, since when, and why",
		Long:    outboxLong,
		Example: "  dawnbrush outbox\n  dawnbrush outbox --due\n  dawnbrush outbox --retry\n  dawnbrush outbox --drop ID",
		RunE: func(_ *cobra.Command, ids []string) error {
			switch {
			case o.acts() > 1:
				return usage("leave out all but one of them", "--all, --due, --retry and --drop do not go together")
			case o.due && len(ids) > 0:
				return usage("--retry tries the letters named", "--due takes no names")
			case o.drop && len(ids) == 0:
				return usage("name them: dawnbrush outbox --drop ID; `dawnbrush outbox` lists them", "--drop needs the letters to let go")
			case o.due:
				return p.withOutbox(false, p.sendDue)
			case o.retry:
				return p.withOutbox(false, func(file *config.File, s *store.Store) error { return p.retry(file, s, ids) })
			case o.drop:
				return p.withOutbox(false, func(_ *config.File, s *store.Store) error { return p.drop(s, ids) })
			case len(ids) > 0:
				return usage("write --retry or --drop before it", "what is to be done with %q?", ids[0])
			}
			return p.withOutbox(true, func(file *config.File, s *store.Store) error {
				list, err := s.Letters(p.ctx, o.all)
				if err != nil {
					return err
				}
				return p.printLetters(list, file.Garden.Place.Zone)
			})
		},
	}
	f := c.Flags()
	f.BoolVar(&o.all, "all", false, "those too that are settled")
	f.BoolVar(&o.due, "due", false, "try those whose time has come; for cron, between digests")
	f.BoolVar(&o.retry, "retry", false, "try now: the letters named, or all that wait")
	f.BoolVar(&o.drop, "drop", false, "let the letters named go")
	return c
}

// withOutbox runs f on the garden's memory, which must exist, and on its file.
func (p *program) withOutbox(readOnly bool, f func(*config.File, *store.Store) error) error {
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	return p.withMemory(readOnly, func(_ *risk.Garden, s *store.Store) error { return f(file, s) })
}

// retry hands letters on now.
func (p *program) retry(file *config.File, s *store.Store, ids []string) error {
	if _, err := p.hook(file, false); err != nil {
		return err
	}
	now, err := p.letterClock(file)
	if err != nil {
		return err
	}
	if len(ids) == 0 {
		list, err := s.Letters(p.ctx, false)
		if err != nil {
			return err
		}
		for _, l := range list {
			if l.State == store.LetterWaiting { // one that is on its way is another process's
				ids = append(ids, l.ID)
			}
		}
		if len(ids) == 0 {
			_, err := fmt.Fprintln(p.err, name+": no letter waits")
			return err
		}
	}
	for _, id := range ids {
		if _, err := s.RetryLetter(p.ctx, id, now()); err != nil {
			return err
		}
	}
	r, err := p.handOn(file, s, now)
	for _, t := range r.Tried {
		if t.State == store.LetterSent && file.Mail.Hook != config.HookStdout {
			if _, err := fmt.Fprintf(p.out, "sent the %s letter of %s to %s\n", t.Letter.Kind, t.Letter.Day, t.Letter.To); err != nil {
				return err
			}
		}
	}
	return err
}

// sendDue tries the letters whose time has come. It says nothing where all goes well.
func (p *program) sendDue(file *config.File, s *store.Store) error {
	now, err := p.letterClock(file)
	if err != nil {
		return err
	}
	_, err = p.handOn(file, s, now)
	return err
}

// letterClock gives the clock by which letters are tried: this machine's, or the time
// asked for.
func (p *program) letterClock(file *config.File) (func() time.Time, error) {
	if p.live() {
		return p.env.Now, nil
	}
	at, err := p.now(file.Garden.Place.Zone)
	return func() time.Time { return at }, err
}

func (p *program) drop(s *store.Store, ids []string) error {
	for _, id := range ids {
		l, err := s.DropLetter(p.ctx, id, p.env.Now())
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(p.out, "let go of the %s letter of %s to %s\n", l.Kind, l.Day, l.To); err != nil {
			return err
		}
	}
	return nil
}

// printLetters lists letters, oldest first.
func (p *program) printLetters(list []store.Posted, zone *time.Location) error {
	if p.options.json {
		return p.writeJSON(lettersJSON(list))
	}
	var b strings.Builder
	if len(list) == 0 {
		b.WriteString("no letter waits\n")
	}
	clock := func(t time.Time) string { return t.In(zone).Format("2006-01-02 15:04") }
	for i, l := range list {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s letter of %s to %s\n  id       %s\n  kept     %s\n", l.Kind, l.Day, l.To, l.ID, clock(l.Made))
		if l.Tries > 0 {
			fmt.Fprintf(&b, "  tried    %s, last at %s\n", words.Count(l.Tries, "time", "times"), clock(l.Began))
		}
		switch {
		case l.State == store.LetterTrying:
			b.WriteString("  on its way; if the program ended meanwhile it is tried again, and may have arrived\n")
		case l.State == store.LetterWaiting:
			fmt.Fprintf(&b, "  waits    until %s\n", clock(l.Next))
		default:
			state := string(l.State)
			if l.State == store.LetterExpired {
				state = "given up"
			}
			fmt.Fprintf(&b, "  %-8s %s\n", state, clock(l.Settled))
		}
		if l.Fault != "" {
			fmt.Fprintf(&b, "  fault    %s\n", l.Fault)
		}
		if l.Fault != "" && l.Hint != "" {
			fmt.Fprintf(&b, "  hint     %s\n", l.Hint)
		}
	}
	_, err := p.out.Write([]byte(b.String()))
	return err
}

type letterJSON struct {
	ID      string     `json:"id"`
	Kind    string     `json:"kind"`
	Day     string     `json:"day"`
	To      string     `json:"to"`
	State   string     `json:"state"`
	Made    time.Time  `json:"kept"`
	Tries   int        `json:"tries"`
	Began   *time.Time `json:"last_try"`
	Next    *time.Time `json:"next_try"`
	Settled *time.Time `json:"settled"`
	Fault   *string    `json:"fault"`
	Hint    *string    `json:"hint"`
}

// lettersJSON writes letters for programs.
func lettersJSON(list []store.Posted) any {
	told := func(t time.Time, ok bool) *time.Time {
		if !ok || t.IsZero() {
			return nil
		}
		return &t
	}
	some := func(s string) *string {
		if s == "" {
			return nil
		}
		return &s
	}
	out := make([]letterJSON, 0, len(list))
	for _, l := range list {
		out = append(out, letterJSON{ID: l.ID, Kind: l.Kind, Day: l.Day.String(), To: l.To, State: string(l.State), Made: l.Made, Tries: l.Tries,
			Began: told(l.Began, true), Next: told(l.Next, l.State == store.LetterWaiting), Settled: told(l.Settled, true), Fault: some(l.Fault), Hint: some(l.Hint)})
	}
	return struct {
		Schema  int          `json:"schema"`
		Report  string       `json:"report"`
		Letters []letterJSON `json:"letters"`
	}{jsonout.Schema, "outbox", out}
}
