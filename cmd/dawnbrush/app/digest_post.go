package app

import (
	"errors"

	"dawnbrush/cmd/dawnbrush/outbox"
	"dawnbrush/cmd/dawnbrush/report/mail"
	"dawnbrush/cmd/dawnbrush/store"
)

// post hands finished letters on: to the printer when they are only to be shown, else
// into the outbox and, with those that wait there already, to the way that [mail] names.
// This is the one place where a digest leaves the program.
func (p *program) post(letters []*mail.Letter, o *digestOptions) error {
	if o.dryRun || p.options.demo {
		return p.print(letters)
	}
	switch {
	case !p.live() && p.options.memory == "":
		if len(letters) == 0 {
			return nil
		}
		return usage("print it with --dry-run", "a plan of another time or from a saved forecast is not sent")
	case p.file.Mail == nil && len(letters) == 0:
		return nil
	}
	if _, err := p.hook(p.file, false); err != nil {
		return err
	}
	s, err := p.openMemory(&p.file.Garden)
	if err != nil {
		return err
	}
	return errors.Join(p.keepAndSend(s, letters, o.again), s.Close())
}

// keepAndSend keeps letters and tries all that are due.
func (p *program) keepAndSend(s *store.Store, letters []*mail.Letter, again bool) error {
	for _, l := range letters {
		if _, _, err := s.Post(p.ctx, inOutbox(l), again); err != nil {
			return err
		}
	}
	now, err := p.letterClock(p.file)
	if err != nil {
		return err
	}
	_, err = p.handOn(p.file, s, now)
	return err
}

// print writes letters as text, several as a mailbox. That the stream takes no more is
// told when the run ends.
func (p *program) print(letters []*mail.Letter) error {
	now, err := p.now(p.file.Garden.Place.Zone)
	if err != nil {
		return err
	}
	h := outbox.Stdout{Out: p.out, Several: len(letters) > 1}
	for _, l := range letters {
		h.Send(p.ctx, inOutbox(l), now)
	}
	return nil
}

func inOutbox(l *mail.Letter) store.Letter {
	return store.Letter{ID: l.ID, To: l.To, From: l.From, Kind: l.Kind, Day: l.Day, Body: l.Body}
}
