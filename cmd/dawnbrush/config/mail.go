package config

import (
	"net/mail"
	"net/url"
	"path/filepath"
	"strings"

	"dawnbrush/risk"
)

// The tables of mail.
const (
	mailTable      = "mail"
	recipientTable = "to" // [[mail.to]]
)

// Hook is a way of handing letters on.
type Hook string

// The ways.
const (
	HookCommand Hook = "command" // a program that reads a message
	HookSMTP    Hook = "smtp"    // a mail server
	HookHTTPS   Hook = "https"   // an address on the web
	HookStdout  Hook = "stdout"
)

// Mail says how letters are handed on and to whom.
type Mail struct {
	Hook    Hook
	From    string   // address
	Command []string // program and arguments
	Server  string
	Port    int // 0: the usual one of Security; see SMTPPort
	// Security is "tls" or "starttls".
	Security     string
	User         string // "" when the server asks for none
	PasswordFile string // as the file tells it, which may be beside the garden file
	URL          string
	KeyFile      string // as PasswordFile
	Credential   string // name of the secret in the service manager's folder; the files come first
	Timeout      int    // s, for one letter
	To           []Recipient
}

// Recipient is one who gets letters.
type Recipient struct {
	Address string
	Units   risk.Units // "" for the garden's
	Dates   string     // language of dates; "" for the program's
	Kinds   []string   // of letters: Daily, Weekly
}

// The kinds of letters.
const (
	Daily  = "daily"
	Weekly = "weekly"
)

// Ways to encrypt the connection to a mail server, with their ports.
const (
	securityTLS      = "tls"
	securitySTARTTLS = "starttls"
	portTLS          = 465 // RFC 8314 section 7.3
	portSTARTTLS     = 587 // RFC 6409 section 3.1
)

// SMTPPort gives the mail server's port.
func (m *Mail) SMTPPort() int {
	switch {
	case m.Port != 0:
		return m.Port
	case m.Security == securitySTARTTLS:
		return portSTARTTLS
	}
	return portTLS
}

const (
	// mostLine bounds addresses of the web, paths and arguments. [chosen: a few lines]
	mostLine = 1000
	// mostArguments bounds those of a command. [chosen]
	mostArguments = 50
	// mostRecipients bounds one file's. [chosen: beyond a list of mail, which is another thing]
	mostRecipients = 100
)

// mailDefaults is [mail] before anything is told.
func mailDefaults() *Mail {
	return &Mail{Security: securityTLS, Timeout: 60} // [chosen: RFC 8314 section 3 prefers "tls"; a minute is long for a letter of some kilobytes]
}

// recipientDefaults is a [[mail.to]] before anything is told.
func recipientDefaults() Recipient {
	return Recipient{Kinds: []string{Daily}} // [chosen: the morning's work]
}

// mailSettings are the keys of [mail].
func mailSettings() []setting {
	m := func(s scope) *Mail { return s.mail }
	return []setting{
		required(wordSetting("hook", `how letters go out: "command" (a program that reads a message), "smtp" (a mail server), "https" or "stdout"`, `"smtp"`,
			[]Hook{HookCommand, HookSMTP, HookHTTPS, HookStdout}, func(s scope) *Hook { return &s.mail.Hook })),
		required(addressSetting("from", "address the letters come from", `"garden@example.org"`, func(s scope) *string { return &s.mail.From })),
		only(commandSetting(), HookCommand),
		only(lineSetting("server", "name of the mail server, as in its certificate", `"smtp.example.org"`, unfitServer, func(s scope) *string { return &m(s).Server }), HookSMTP),
		only(countSetting("port", "465 with tls and 587 with starttls, unless told", "465", 1, 65535, func(s scope) *int { return &m(s).Port }), HookSMTP),
		only(wordSetting("security", `"tls": encrypted from the first byte; "starttls": after a word in clear. There is no other`, `"tls"`,
			[]string{securityTLS, securitySTARTTLS}, func(s scope) *string { return &m(s).Security }), HookSMTP),
		only(lineSetting("user", "your name at the mail server", `"grower@example.org"`, nil, func(s scope) *string { return &m(s).User }), HookSMTP),
		only(lineSetting("password_file", "file that holds the password and that nobody else may read, beside this file; never the password itself", `"mail-password"`, nil,
			func(s scope) *string { return &m(s).PasswordFile }), HookSMTP),
		only(lineSetting("url", "address that letters are posted to", `"https://example.org/letters"`, unfitURL, func(s scope) *string { return &m(s).URL }), HookHTTPS),
		only(lineSetting("key_file", "file that holds the key letters are signed with, 32 characters or more, as password_file", `"mail-key"`, nil,
			func(s scope) *string { return &m(s).KeyFile }), HookHTTPS),
		only(lineSetting("credential", "instead of a file: name of the password or key in systemd's $CREDENTIALS_DIRECTORY", `"dawnbrush-mail"`, unfitCredential,
			func(s scope) *string { return &m(s).Credential }), HookSMTP, HookHTTPS),
		only(countSetting("timeout", "seconds that one letter may take", "60", 1, 600, func(s scope) *int { return &m(s).Timeout }), HookCommand, HookSMTP, HookHTTPS),
	}
}

// recipientSettings are the keys of a [[mail.to]].
func recipientSettings() []setting {
	return []setting{
		required(addressSetting("address", "who gets letters", `"ann@example.org"`, func(s scope) *string { return &s.to.Address })),
		wordSetting("units", `"metric" or "us", for this reader; else the garden's`, `"us"`, []risk.Units{risk.Metric, risk.US}, func(s scope) *risk.Units { return &s.to.Units }),
		{key: "dates", doc: "language of dates for this reader: en, en-us, de, fr, ...", example: `"en"`, quoted: true, read: readDates,
			show: func(s scope) string { return s.to.Dates }},
		{key: "kinds", doc: `which letters: "daily", "weekly" or both`, example: `["daily", "weekly"]`, read: readKinds,
			show: func(s scope) string { return quotedList(s.to.Kinds) }},
	}
}

// only marks a setting that some ways of mail read.
func only(set setting, hooks ...Hook) setting {
	set.hooks = hooks
	return set
}

// lineSetting is a text that may be longer than a name. unfit, which may be nil, tells
// what else is wrong with it and the remedy.
func lineSetting(key, doc, example string, unfit func(text string) (why, hint string), field func(scope) *string) setting {
	return setting{key: key, doc: doc, example: example, quoted: true,
		read: func(in *reader, key string, v *node, s scope) {
			if v.kind != kindText {
				in.wrong(key, v, kindText)
				return
			}
			why, hint := unfitWithin(v.text, mostLine), textHint(v.text)
			if why == "" && unfit != nil {
				why, hint = unfit(v.text)
			}
			if why != "" {
				in.fault(v.offset, hint, "%s %s", key, why)
				return
			}
			*field(s) = v.text
		},
		show: func(s scope) string { return *field(s) }}
}

func addressSetting(key, doc, example string, field func(scope) *string) setting {
	return lineSetting(key, doc, example, unfitAddress, field)
}

// mostAddress is the longest address that RFC 5321 section 4.5.3.1.3 lets through,
// without the angle brackets.
const mostAddress = 254

// unfitAddress takes plain addresses of ASCII: anything else in a header or before a
// mail server could be read as more than one address.
func unfitAddress(text string) (why, hint string) {
	hint = `write one plain address: "ann@example.org"`
	for _, r := range text {
		if r > '~' || r <= ' ' || strings.ContainsRune(`<>()[],;:\"`, r) {
			return "holds a sign that no plain address has", hint
		}
	}
	a, err := mail.ParseAddress(text)
	switch {
	case err != nil || a.Address != text:
		return "is not an e-mail address", hint
	case len(text) > mostAddress:
		return "is longer than any address", hint
	}
	return "", ""
}

func unfitServer(text string) (why, hint string) {
	for _, r := range text {
		if !(r == '.' || r == '-' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z') {
			return "is not the name of a computer", `write its name alone: server = "smtp.example.org"; the port has a key of its own`
		}
	}
	return "", ""
}

func unfitURL(text string) (why, hint string) {
	hint = `write url = "https://example.org/letters"`
	u, err := url.Parse(text)
	switch {
	case err != nil:
		return "is not an address on the web", hint
	case u.Scheme != "https" || u.Host == "":
		return "does not begin with https://", hint
	case u.User != nil:
		return "holds a password", hint + "; the key has a file of its own"
	case u.Fragment != "":
		return "holds a #", hint
	}
	return "", ""
}

func unfitCredential(text string) (why, hint string) {
	if text == "." || text == ".." || strings.ContainsAny(text, "/\\:") {
		return "is not the name of a credential", "write its name alone, as in LoadCredential=NAME:FILE"
	}
	return "", ""
}

// commandSetting is a program with its arguments.
func commandSetting() setting {
	return setting{key: "command", doc: "program that reads a message and its arguments; no shell reads them", example: `["/usr/sbin/sendmail", "-t", "-oi"]`,
		read: func(in *reader, key string, v *node, s scope) {
			if words, ok := in.words(key, v); ok {
				s.mail.Command = words
			}
		},
		show: func(s scope) string { return quotedList(s.mail.Command) }}
}

const hintCommand = `write command = ["/usr/sbin/sendmail", "-t", "-oi"]; no shell reads it`

// words reads the words of a command.
func (in *reader) words(key string, v *node) ([]string, bool) {
	before := in.errors
	switch {
	case v.kind != kindList || v.header:
		in.fault(v.offset, hintCommand, "%s must be a list of words, not %s", key, v.kind)
		return nil, false
	case len(v.items) == 0:
		in.fault(v.offset, hintCommand, "%s is empty", key)
		return nil, false
	case len(v.items) > mostArguments:
		in.fault(v.offset, hintCommand, "%s has %d words, the most is %d", key, len(v.items), mostArguments)
		return nil, false
	}
	var out []string
	for _, item := range v.items {
		switch {
		case item.kind != kindText:
			in.fault(item.offset, hintCommand, "%s must be words in quotes, not %s", key, item.kind)
		case strings.ContainsFunc(item.text, hidden):
			in.fault(item.offset, hintCommand, "a word of %s holds a line break or a character that cannot be seen", key)
		case len(item.text) > mostLine:
			in.fault(item.offset, hintCommand, "a word of %s is longer than %d bytes", key, mostLine)
		}
		out = append(out, item.text)
	}
	if first := v.items[0]; in.errors == before && !filepath.IsAbs(first.text) {
		in.fault(first.offset, "write its whole path, for cron looks in few folders: "+hintCommand, "%s is not the path of a program", said(first.text))
	}
	return out, in.errors == before
}

// quotedList writes a TOML list of texts; "" for none.
func quotedList(words []string) string {
	if len(words) == 0 {
		return ""
	}
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = quote(w)
	}
	return "[" + strings.Join(out, ", ") + "]"
}
