package app

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/mail"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// digestOptions are the flags of digest.
type digestOptions struct {
	weekly, always, dryRun, again bool
	to                            []string
	sender, dates, leave          string
}

// recipient is one who gets a digest.
type recipient struct {
	address string
	units   risk.Units  // "" for the plan's
	dates   words.Dates // the language of dates
	leave   string      // where to say that no more is wanted; "" for none
}

const digestLong = `Write the plan as one mail message: the text of "today", the same as a page
that reads on a phone, in the light and in the dark, and the week as a picture.
It fetches nothing when it is read.

The daily digest is silent when there is nothing to do today, unless --always
asks for it; the weekly one comes each time. The subject names the one or two
actions that are worth most.

It goes to those whom the garden file names for that kind under [[mail.to]], in
the way that [mail] tells, once a day unless --again asks for it. A letter that
cannot be handed on waits in the outbox and is tried with the next digest:
"dawnbrush outbox" tells. --dry-run prints the message and sends nothing, ready
for a program such as "sendmail -t"; with several recipients it prints a
mailbox.

A recipient is an address, with a name or without, and, after semicolons, units
and the language of dates where they are not the garden's:

  --to 'Ada <ada@example.org>;units=us;dates=en-us'

The Message-ID is the same for the same garden, kind, recipient and day, unless
--again asks for another.`

func (p *program) digest() *cobra.Command {
	var o digestOptions
	c := &cobra.Command{
		Use:   "digest",
		Short: "the plan as a mail message, with the week as a picture",
		Long:  digestLong,
		Example: `  dawnbrush digest --demo --dry-run > digest.eml
  dawnbrush digest --dry-run --to you@example.org | sendmail -t
  dawnbrush digest --weekly --dry-run`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error { return p.runDigest(&o) },
	}
	f := c.Flags()
	f.BoolVar(&o.weekly, "weekly", false, "tell the week, not the day")
	f.BoolVar(&o.always, "always", false, "write also when there is nothing to do")
	f.BoolVar(&o.again, "again", false, "send also what went out already today")
	f.BoolVar(&o.dryRun, "dry-run", false, "print the message and send nothing")
	f.StringArrayVar(&o.to, "to", nil, "`ADDRESS` that it goes to; more than once for several (default: those of [[mail.to]], else the contact)")
	f.StringVar(&o.sender, "sender", "", "`ADDRESS` that it comes from (default: that of [mail], else the contact)")
	f.StringVar(&o.dates, "dates", "", "`LANGUAGE` of dates, one of "+strings.Join(words.DateKeys(), ", "))
	f.StringVar(&o.leave, "unsubscribe", "", "mailto: or https: `ADDRESS` for recipients who want no more of it (default: a mail to the sender)")
	return c
}

func (p *program) runDigest(o *digestOptions) error {
	if p.options.json {
		return usage("leave out --json; `dawnbrush today --json` writes the plan for programs", "a digest is a mail message and not JSON")
	}
	to, err := o.recipients()
	if err != nil {
		return err
	}
	d, err := p.document(7) // the picture shows the week
	if err != nil {
		return err
	}
	if err := p.recalled.settle(); err != nil {
		return err
	}
	d.Notes = append(d.Notes, p.unremembered...)
	kind := mail.Daily
	if o.weekly {
		kind = mail.Weekly
	}
	if kind == mail.Daily && !o.always && !d.Work() {
		if err := p.post(nil, o); err != nil {
			return err
		}
		p.warnIncomplete(d)
		return p.verdict(d, false)
	}
	from, to, err := o.ends(d, p.file.Mail, kind, to)
	if err != nil {
		return err
	}
	var letters []*mail.Letter
	for _, r := range to {
		l, err := o.letterTo(d, kind, from, r)
		if err != nil {
			return badAddress(err)
		}
		letters = append(letters, l)
	}
	if err := p.post(letters, o); err != nil {
		return err
	}
	p.warnIncomplete(d)
	return p.verdict(d, false)
}

// letterTo writes the message to one recipient, in the units and dates asked for.
func (o *digestOptions) letterTo(d *document.Document, kind mail.Kind, from string, r recipient) (*mail.Letter, error) {
	own := *d
	own.Dates = r.dates
	if r.units != "" {
		own.Units = r.units
	}
	id, err := mail.ID(d.Garden.Name, kind, d.Plans[0].Date, from, r.address)
	if err != nil {
		return nil, err
	}
	if o.again {
		id = mail.Again(id, d.Now)
	}
	return mail.Make(&own, mail.Envelope{Kind: kind, From: from, To: r.address, ID: id, Date: d.Now.In(d.Zone()), Unsubscribe: r.leave})
}

// recipients reads the flags.
func (o *digestOptions) recipients() ([]recipient, error) {
	dates, err := datesNamed(o.dates)
	if err != nil {
		return nil, err
	}
	var out []recipient
	for _, s := range o.to {
		parts := strings.Split(s, ";")
		r := recipient{address: strings.TrimSpace(parts[0]), dates: dates, leave: o.leave}
		for _, part := range parts[1:] {
			key, value, _ := strings.Cut(strings.TrimSpace(part), "=")
			switch key {
			case "units":
				if r.units = risk.Units(value); r.units != risk.Metric && r.units != risk.US {
					return nil, usage("write units=metric or units=us", "there are no units %q", value)
				}
			case "dates":
				if r.dates, err = datesNamed(value); err != nil {
					return nil, err
				}
			default:
				return nil, usage("after the address may stand ;units=us and ;dates=de", "a recipient has no %q", key)
			}
		}
		out = append(out, r)
	}
	return out, nil
}

func datesNamed(key string) (words.Dates, error) {
	if key == "" {
		return words.Dates(0), nil
	}
	d, ok := words.DatesIn(key)
	if ok {
		return d, nil
	}
	hint := "it can be " + strings.Join(words.DateKeys(), ", ")
	if near, ok := config.Nearest(key, words.DateKeys()); ok {
		hint = "did you mean " + near + "?"
	}
	return d, usage(hint, "dates cannot be written in %q", key)
}

// ends gives the sender and the recipients: those of the flags, else of [mail], else the
// contact of the garden file. Who is not the sender is told how to have no more of it.
func (o *digestOptions) ends(d *document.Document, m *config.Mail, kind mail.Kind, to []recipient) (from string, out []recipient, err error) {
	contact := strings.TrimPrefix(d.Garden.Contact, "mailto:")
	if !strings.Contains(contact, "@") || strings.Contains(contact, "/") {
		contact = "" // a web address
	}
	from = o.sender
	if from == "" && m != nil {
		from = m.From
	}
	if from == "" {
		from = contact
	}
	if from == "" {
		return "", nil, usage(`add contact = "you@example.org" to the garden file, or use --sender`, "no mail address that the digest comes from")
	}
	if len(to) == 0 {
		to, err = o.usual(m, kind, cmp.Or(contact, from))
	}
	if err != nil {
		return "", nil, err
	}
	for i := range to {
		other, err := mail.Differ(from, to[i].address)
		if err != nil {
			return "", nil, badAddress(err)
		}
		if other && to[i].leave == "" {
			to[i].leave, _ = mail.WriteBack(from, d.Garden.Name)
		}
	}
	return from, to, nil
}

// usual gives the recipients whom no flag names.
func (o *digestOptions) usual(m *config.Mail, kind mail.Kind, contact string) (out []recipient, err error) {
	dates, err := datesNamed(o.dates)
	if err != nil {
		return nil, err
	}
	if m == nil || len(m.To) == 0 {
		return []recipient{{address: contact, dates: dates, leave: o.leave}}, nil
	}
	for _, r := range m.To {
		if !slices.Contains(r.Kinds, string(kind)) {
			continue
		}
		own := recipient{address: r.Address, units: r.Units, dates: dates, leave: o.leave}
		if r.Dates != "" {
			if own.dates, err = datesNamed(r.Dates); err != nil {
				return nil, err
			}
		}
		out = append(out, own)
	}
	if len(out) == 0 {
		return nil, &failure{code: exitGarden, message: fmt.Sprintf("nobody in the garden file gets the %s digest", kind), hint: `add kinds = ["daily", "weekly"] to a [[mail.to]], or use --to`}
	}
	return out, nil
}

// badAddress makes a fault of an address one of usage.
func badAddress(err error) error {
	var bad *mail.AddressError
	if errors.As(err, &bad) {
		return usage(bad.Hint(), "%s", bad.Error())
	}
	return err
}
