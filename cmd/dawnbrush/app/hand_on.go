package app

import (
	"fmt"
	"path/filepath"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/outbox"
	"dawnbrush/cmd/dawnbrush/store"
)

// hook makes the way that the garden file names for letters. several tells that more
// than one may be written to standard output.
func (p *program) hook(file *config.File, several bool) (outbox.Hook, error) {
	m := file.Mail
	if m == nil {
		return nil, &failure{code: exitGarden, message: file.Name + " does not tell how letters are sent", hint: "add [mail] with hook and from, and [[mail.to]] with address; the manual's page on mail shows each way"}
	}
	timeout := time.Duration(m.Timeout) * time.Second
	switch m.Hook {
	case config.HookCommand:
		return outbox.Command{Args: m.Command, Env: p.mailEnvironment(), Timeout: timeout}, nil
	case config.HookSMTP:
		return outbox.SMTP{Server: m.Server, Port: m.SMTPPort(), Security: outbox.Security(m.Security), User: m.User, Password: p.kept(m, m.PasswordFile), Timeout: timeout}, nil
	case config.HookHTTPS:
		return outbox.HTTPS{URL: m.URL, Key: p.kept(m, m.KeyFile), Timeout: timeout}, nil
	case config.HookStdout:
		return outbox.Stdout{Out: p.out, Several: several}, nil
	}
	panic("no hook " + string(m.Hook))
}

// kept says where a secret is: in a file, beside the garden file unless its whole path
// is told, or among the service manager's credentials.
func (p *program) kept(m *config.Mail, file string) outbox.Keep {
	if file != "" && !filepath.IsAbs(file) {
		file = filepath.Join(filepath.Dir(p.gardenPath()), file)
	}
	return outbox.Keep{File: file, Credential: m.Credential, Folder: p.env.Getenv("CREDENTIALS_DIRECTORY")}
}

// mailEnvironment is what a mail command finds in its environment: where programs and
// the user's files are, language and zone, and no more.
func (p *program) mailEnvironment() []string {
	var out []string
	for _, name := range []string{"PATH", "HOME", "USER", "LOGNAME", "LANG", "LC_ALL", "TZ", "TMPDIR", "XDG_CONFIG_HOME", "XDG_RUNTIME_DIR", "CREDENTIALS_DIRECTORY"} {
		if v := p.env.Getenv(name); v != "" {
			out = append(out, name+"="+v)
		}
	}
	return out
}

// handOn tries every letter that is due. The error tells of those that were not handed
// on; they are safe.
func (p *program) handOn(file *config.File, s *store.Store, now func() time.Time) (outbox.Report, error) {
	due, err := s.Letters(p.ctx, false)
	if err != nil {
		return outbox.Report{}, err
	}
	h, err := p.hook(file, len(due) > 1)
	if err != nil {
		return outbox.Report{}, err
	}
	r, err := outbox.Deliver(p.ctx, s, h, now)
	if err == nil {
		err = undelivered(r, file.Garden.Place.Zone)
	}
	return r, err
}

// undelivered turns letters that were not handed on into a failure with a line each.
func undelivered(r outbox.Report, zone *time.Location) error {
	err := r.Err(zone)
	if err == nil {
		return nil
	}
	u := err.(*outbox.Undelivered)
	return &failure{code: exitFailed, message: u.Lines[0], also: u.Lines[1:], hint: u.Hint(), cause: err}
}

// lostFor is how long plans tell of a letter that was refused or given up.
// [chosen: three mornings, so that one of them is read]
const lostFor = 3 * 24 * time.Hour

// lostLetters are notes on letters that did not go out.
func (m *recall) lostLetters() (notes []string) {
	if m == nil {
		return nil
	}
	for _, p := range m.lost {
		what := "was refused"
		if p.State == store.LetterExpired {
			what = "was given up"
		}
		notes = append(notes, fmt.Sprintf("the %s letter of %s to %s %s: %s", p.Kind, p.Day, p.To, what, p.Fault))
	}
	return notes
}
