package config

import (
	"slices"

	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a value of the file is, in the words of the screen.
type kind string

const (
	kindBroken   kind = "unreadable" // a syntax fault was reported for it
	kindText     kind = "text"
	kindWhole    kind = "a whole number"
	kindNumber   kind = "a number"
	kindYesNo    kind = "true or false"
	kindDate     kind = "a date"
	kindTime     kind = "a time of day"
	kindDateTime kind = "a date with a time"
	kindList     kind = "a list"
	kindTable    kind = "a table"
)

// node is a value of the document with its place. Scalars keep their text:
// strings unquoted, the others as they stand in the file.
type node struct {
	kind    kind
	text    string
	offset  int            // of the value, or of its key where the parser tells none
	members []member       // of a table, in the order of the file
	index   map[string]int // key -> place in members
	items   []*node        // of a list
	header  bool           // the table has its own [header], the list its [[headers]]
}

// member is one key of a table. Its offset is that of the key.
type member struct {
	key    string
	offset int
	value  *node
}

func (n *node) find(key string) *member {
	if i, ok := n.index[key]; ok {
		return &n.members[i]
	}
	return nil
}

func (n *node) add(key string, offset int, value *node) *member {
	if n.index == nil {
		n.index = map[string]int{}
	}
	n.index[key] = len(n.members)
	n.members = append(n.members, member{key, offset, value})
	return &n.members[len(n.members)-1]
}

// part is one word of a dotted key with its place.
type part struct {
	key    string
	offset int
}

// builder puts the expressions of a document into one tree. It goes on after a
// fault, so that all faults show at once.
type builder struct {
	*collector
	root    *node
	current *node // the table that key = value lines fall into
}

// parseTree reads a whole document. Where it is faulty the tree holds what
// could be read.
func parseTree(c *collector) *node {
	b := &builder{collector: c, root: &node{kind: kindTable}}
	b.current = b.root
	var p unstable.Parser
	for base := 0; base < len(c.doc); {
		p.Reset(c.doc[base:])
		end := base // of the last expression understood
		for p.NextExpression() {
			end = b.expression(p.Expression(), base)
		}
		if p.Error() == nil {
			break
		}
		base = b.syntaxFault(p.Error(), end)
	}
	return b.root
}

// expression takes in one header or key = value and returns the offset behind
// its last known byte.
func (b *builder) expression(e *unstable.Node, base int) int {
	var parts []part
	end := base
	for it := e.Key(); it.Next(); {
		k := it.Node()
		at := base + int(k.Raw.Offset)
		parts = append(parts, part{string(k.Data), at})
		end = max(end, at+int(k.Raw.Length))
	}
	switch e.Kind {
	case unstable.Table, unstable.ArrayTable:
		b.header(parts, e.Kind == unstable.ArrayTable)
	case unstable.KeyValue:
		end = base + int(e.Raw.Offset+e.Raw.Length)
		b.insert(b.current, parts, b.value(e.Value(), base, parts[len(parts)-1].offset))
	}
	return end
}

// value copies a value out of the parser, whose memory the next expression
// takes again.
func (b *builder) value(v *unstable.Node, base, fallback int) *node {
	n := &node{kind: kindOf(v.Kind), text: string(v.Data), offset: fallback}
	if v.Raw.Length > 0 {
		n.offset = base + int(v.Raw.Offset)
	}
	switch v.Kind {
	case unstable.Array:
		for it := v.Children(); it.Next(); {
			n.items = append(n.items, b.value(it.Node(), base, fallback))
		}
	case unstable.InlineTable:
		for it := v.Children(); it.Next(); {
			kv := it.Node()
			var parts []part
			for k := kv.Key(); k.Next(); {
				parts = append(parts, part{string(k.Node().Data), base + int(k.Node().Raw.Offset)})
			}
			b.insert(n, parts, b.value(kv.Value(), base, parts[len(parts)-1].offset))
		}
	}
	return n
}

func kindOf(k unstable.Kind) kind {
	switch k {
	case unstable.String:
		return kindText
	case unstable.Integer:
		return kindWhole
	case unstable.Float:
		return kindNumber
	case unstable.Bool:
		return kindYesNo
	case unstable.LocalDate:
		return kindDate
	case unstable.LocalTime:
		return kindTime
	case unstable.LocalDateTime, unstable.DateTime:
		return kindDateTime
	case unstable.Array:
		return kindList
	case unstable.InlineTable:
		return kindTable
	}
	return kindBroken
}

// insert puts a value under a key that may be dotted.
func (b *builder) insert(table *node, parts []part, value *node) {
	for _, p := range parts[:len(parts)-1] {
		table = b.descend(table, p)
		if table == nil {
			return
		}
	}
	last := parts[len(parts)-1]
	if first := table.find(last.key); first != nil {
		b.fault(last.offset, "keep one of the two lines", "%s is given twice, first on line %d", plain(last.key), b.line(first.offset))
		return
	}
	table.add(last.key, last.offset, value)
}

// descend goes into the table under a key, which it makes where there is none.
// Of a list of tables it takes the last.
func (b *builder) descend(table *node, p part) *node {
	m := table.find(p.key)
	if m == nil {
		sub := &node{kind: kindTable, offset: p.offset}
		table.add(p.key, p.offset, sub)
		return sub
	}
	switch {
	case m.value.kind == kindTable:
		return m.value
	case m.value.kind == kindList && m.value.header:
		return m.value.items[len(m.value.items)-1]
	}
	b.fault(p.offset, "", "%s holds %s since line %d and cannot be a table too", plain(p.key), m.value.kind, b.line(m.offset))
	return nil
}

// header opens [table] or [[table]]. The wrong number of brackets is a fault,
// but the lines below are still read for what was meant.
func (b *builder) header(parts []part, double bool) {
	b.current = &node{kind: kindTable} // where the lines go when the header fails
	table, last := b.root, parts[len(parts)-1]
	for _, p := range parts[:len(parts)-1] {
		if table = b.descend(table, p); table == nil {
			return
		}
	}
	if len(parts) == 1 && double != many(last.key) && slices.Contains(tableNames(), last.key) {
		double = !double
		if double {
			b.fault(last.offset, "write [["+last.key+"]]: there can be several", "[%s] needs double brackets", last.key)
		} else {
			b.fault(last.offset, "write ["+last.key+"]: there is only one", "[[%s]] needs single brackets", last.key)
		}
	}
	m := table.find(last.key)
	if double {
		b.openItem(table, m, last)
	} else {
		b.openTable(table, m, last)
	}
}

func (b *builder) openItem(table *node, m *member, last part) {
	if m == nil {
		m = table.add(last.key, last.offset, &node{kind: kindList, offset: last.offset, header: true})
	}
	if m.value.kind != kindList || !m.value.header {
		b.fault(last.offset, "", "%s holds %s since line %d and cannot be [[%s]] too",
			plain(last.key), m.value.kind, b.line(m.offset), plain(last.key))
		return
	}
	b.current = &node{kind: kindTable, offset: last.offset, header: true}
	m.value.items = append(m.value.items, b.current)
}

func (b *builder) openTable(table *node, m *member, last part) {
	switch {
	case m == nil:
		b.current = &node{kind: kindTable, offset: last.offset, header: true}
		table.add(last.key, last.offset, b.current)
	case m.value.kind != kindTable:
		b.fault(last.offset, "", "%s holds %s since line %d and cannot be [%s] too",
			plain(last.key), m.value.kind, b.line(m.offset), plain(last.key))
	case m.value.header:
		b.fault(last.offset, "put all its lines under the first one", "[%s] stands here twice, first on line %d",
			plain(last.key), b.line(m.offset))
		b.current = m.value
	default:
		m.value.header = true
		b.current = m.value
	}
}
