package config

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// mail reads [mail] and its recipients.
func (in *reader) mail(t *node, f *File) {
	m := mailDefaults()
	f.Mail = m
	in.table(t, mailSettings(), scope{file: f, mail: m, path: mailTable + "."}, recipientTable)
	in.recipients(t, f)
	if in.sound[mailTable+".hook"] {
		in.checkMail(t, m)
	}
}

func (in *reader) recipients(t *node, f *File) {
	where := "[[" + mailTable + "." + recipientTable + "]]"
	hint := "write " + where + " on a line of its own and its keys below"
	to := t.find(recipientTable)
	switch {
	case to == nil || to.value.kind == kindList && len(to.value.items) == 0:
		in.warn(t.offset, "add "+where+` with address = "ann@example.org"`, "nobody gets the letters")
		return
	case to.value.kind == kindBroken:
		return
	case to.value.kind != kindList:
		in.fault(to.offset, hint, "%s.%s must be a list of tables, not %s", mailTable, recipientTable, to.value.kind)
		return
	case len(to.value.items) > mostRecipients:
		in.fault(to.offset, "a mailing list at your mail server is the place for so many", "%d recipients are more than the %d one file can hold", len(to.value.items), mostRecipients)
		return
	}
	first := map[string]int{}
	for _, item := range to.value.items {
		if item.kind != kindTable {
			in.fault(item.offset, hint, "a recipient must be a table, not %s", item.kind)
			continue
		}
		i := len(f.Mail.To)
		f.Mail.To = append(f.Mail.To, recipientDefaults())
		s := scope{file: f, mail: f.Mail, to: &f.Mail.To[i], path: recipientPath(i)}
		in.table(item, recipientSettings(), s)
		in.checkRecipient(first, s)
	}
}

func recipientPath(i int) string { return fmt.Sprintf("%s.%s[%d].", mailTable, recipientTable, i) }

// checkRecipient finds one who is named twice.
func (in *reader) checkRecipient(first map[string]int, s scope) {
	path := s.path + "address"
	if !in.sound[path] {
		return
	}
	at, key := in.given[path], strings.ToLower(s.to.Address)
	if line, taken := first[key]; taken {
		in.fault(at, "keep one of the two; kinds can hold both letters", "%s gets letters already, since line %d", s.to.Address, line)
		return
	}
	first[key] = in.line(at)
}

// checkMail wants what the hook needs and doubts what it does not read.
func (in *reader) checkMail(t *node, m *Mail) {
	told := func(key string) bool { return t.find(key) != nil }
	need := func(key, example string) {
		if !told(key) {
			in.fault(t.offset, "add "+key+" = "+example, "hook %s needs %s", said(string(m.Hook)), key)
		}
	}
	secret := func(file string) {
		if !told(file) && !told("credential") {
			in.fault(t.offset, `add `+file+` = "`+strings.ReplaceAll(file, "_file", "")+`", a file that nobody else may read, or credential`, "hook %s needs %s or credential", said(string(m.Hook)), file)
		} else if told(file) && told("credential") {
			in.warn(in.given[mailTable+".credential"], "leave one of them out", "%s is read, and credential is not", file)
		}
	}
	switch m.Hook {
	case HookCommand:
		need("command", `["/usr/sbin/sendmail", "-t", "-oi"]`)
	case HookSMTP:
		need("server", `"smtp.example.org"`)
		if told("user") {
			secret("password_file")
		} else if told("password_file") || told("credential") {
			in.fault(t.offset, `add user = "grower@example.org"`, "there is a password and no user")
		}
	case HookHTTPS:
		need("url", `"https://example.org/letters"`)
		secret("key_file")
	}
	in.checkPort(m)
	for _, set := range mailSettings() {
		if told(set.key) && set.hooks != nil && !slices.Contains(set.hooks, m.Hook) {
			in.warn(in.given[mailTable+"."+set.key], "leave it out", "%s is read with hook = %s only", set.key, list(quoteAll(texts(set.hooks))))
		}
	}
}

// checkPort doubts a port that goes with the other way of encryption.
func (in *reader) checkPort(m *Mail) {
	at, told := in.given[mailTable+".port"]
	if !told || m.Hook != HookSMTP {
		return
	}
	for _, other := range []struct {
		port               int
		security, expected string
	}{{portSTARTTLS, securityTLS, securitySTARTTLS}, {portTLS, securitySTARTTLS, securityTLS}} {
		if m.Port == other.port && m.Security == other.security {
			in.warn(at, "write security = "+quote(other.expected)+" unless the server wants it so", "port %d goes with %s, not with %s", m.Port, other.expected, m.Security)
		}
	}
}

func quoteAll(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = quote(w)
	}
	return out
}

// readDates takes a language of dates.
func readDates(in *reader, key string, v *node, s scope) {
	if in.known.Dates != nil {
		if w, ok := in.word(key, v, in.known.Dates); ok {
			s.to.Dates = w
		}
		return
	}
	if text, ok := in.text(key, v); ok {
		if !languageForm().MatchString(text) {
			in.fault(v.offset, `write a short one: "en", "de", "en-us"`, "%s cannot be %s", key, said(text))
			return
		}
		s.to.Dates = text
	}
}

// languageForm is that of short language tags, BCP 47.
var languageForm = lazily(`^[a-z]{2,3}(-[a-z0-9]{2,8})?$`)

// readKinds takes one kind of letter or a list of them.
func readKinds(in *reader, key string, v *node, s scope) {
	items := []*node{v}
	if v.kind == kindList && !v.header {
		items = v.items
	}
	before := in.errors
	var out []string
	for _, item := range items {
		w, ok := in.word(key, item, []string{Daily, Weekly})
		if ok && slices.Contains(out, w) {
			in.fault(item.offset, "keep one of the two", "%s holds %s twice", key, said(w))
		}
		out = append(out, w)
	}
	switch {
	case len(out) == 0:
		in.fault(v.offset, `write kinds = ["daily", "weekly"], or leave the recipient out`, "%s is empty", key)
	case in.errors == before:
		s.to.Kinds = out
	}
}

// explainMail lists the settings of mail where there is any.
func (f *File) explainMail() []Row {
	if f.Mail == nil {
		return nil
	}
	rows := f.explain(mailTable, scope{file: f, mail: f.Mail, path: mailTable + "."}, mailSettings())
	for i := range f.Mail.To {
		s := scope{file: f, mail: f.Mail, to: &f.Mail.To[i], path: recipientPath(i)}
		rows = append(rows, f.explain(mailTable+" to "+f.Mail.To[i].Address, s, recipientSettings())...)
	}
	return rows
}

// writeMail prints what is told of mail, or how to tell it as notes to be opened.
func writeMail(b *bytes.Buffer, f *File) {
	if f.Mail == nil {
		b.WriteString("\n# Letters: the plan by e-mail. Copy the lines you need and take their first # away;\n" +
			"# hook, from and what the hook reads must be there. Passwords have files of their own.\n#\n# [mail]\n")
		examples(b, mailSettings(), scope{file: f, mail: mailDefaults()})
		b.WriteString("#\n# [[mail.to]]\n")
		examples(b, recipientSettings(), scope{file: f, to: &Recipient{}})
		return
	}
	fmt.Fprintf(b, "\n[%s]\n", mailTable)
	told(b, mailSettings(), scope{file: f, mail: f.Mail}, scope{file: f, mail: mailDefaults()})
	for i := range f.Mail.To {
		fmt.Fprintf(b, "\n[[%s.%s]]\n", mailTable, recipientTable)
		usual := recipientDefaults()
		told(b, recipientSettings(), scope{file: f, to: &f.Mail.To[i]}, scope{file: f, to: &usual})
	}
}

// told prints what differs from the defaults.
func told(b *bytes.Buffer, settings []setting, s, def scope) {
	for _, set := range settings {
		line := set.assignment(s)
		if line != "" && (set.required || line != set.assignment(def)) {
			b.WriteString(line + "\n")
		}
	}
}

// examples prints every key there is as a note. A value and its explanation share a
// line, so that taking away the first # leaves both right.
func examples(b *bytes.Buffer, settings []setting, s scope) {
	for _, set := range settings {
		fmt.Fprintf(b, "# %-36s # %s\n", set.key+" = "+set.example, set.explain(s))
	}
}
