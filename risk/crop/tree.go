package crop

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// node is a JSON value that knows its line.
type node struct {
	line    int
	offset  int64
	value   any // string, float64, bool or nil; for lists and objects nil
	kind    nodeKind
	members []member
	items   []*node
}

type nodeKind uint8

const (
	scalar nodeKind = iota
	object
	list
)

type member struct {
	key  string
	line int
	node *node
	used bool
}

// parser builds nodes. Duplicate keys are gathered, broken JSON stops it. It runs
// at every start, so nodes come from a store and plain strings share the text.
type parser struct {
	dec    *jsontext.Decoder
	data   []byte
	whole  string // data as a string
	line   int
	at     int64 // end of the last token
	from   int64 // end of the one before
	store  []node
	faults []Fault
}

// parseTree reads one JSON document.
func parseTree(data []byte) (*node, []Fault) {
	p := &parser{dec: jsontext.NewDecoder(bytes.NewBuffer(data), jsontext.AllowDuplicateNames(true)), data: data, whole: string(data), line: 1}
	root, err := p.next()
	if err == nil {
		if _, more := p.token(); !errors.Is(more, io.EOF) {
			err = errors.New("something follows the closing brace")
		}
	}
	if err != nil {
		return nil, append(p.faults, Fault{Line: p.lineAt(p.errorOffset(err)), Text: "not valid JSON: " + err.Error()})
	}
	return root, p.faults
}

func (p *parser) errorOffset(err error) int64 {
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		return syntax.ByteOffset
	}
	return p.dec.InputOffset()
}

func (p *parser) lineAt(offset int64) int {
	offset = min(offset, int64(len(p.data)))
	if offset > p.at {
		p.line += bytes.Count(p.data[p.at:offset], []byte("\n"))
		p.at = offset
	}
	return p.line
}

func (p *parser) token() (jsontext.Token, error) {
	p.from = p.at
	t, err := p.dec.ReadToken()
	if err == nil {
		p.lineAt(p.dec.InputOffset())
	}
	return t, err
}

func (p *parser) next() (*node, error) {
	t, err := p.token()
	if err != nil {
		return nil, err
	}
	if len(p.store) == 0 {
		p.store = make([]node, 128)
	}
	n := &p.store[0]
	p.store = p.store[1:]
	n.line, n.offset = p.line, p.at
	switch t.Kind() {
	case '[':
		n.kind = list
		return n, p.list(n)
	case '{':
		n.kind = object
		return n, p.object(n)
	case '"':
		n.value = p.text(t)
	case '0':
		if v, err := t.Float(); err == nil { // one too large stays nil: no number
			n.value = v
		}
	case 't', 'f':
		n.value = t.Bool()
	}
	return n, nil
}

func (p *parser) list(n *node) error {
	for p.dec.PeekKind() != ']' {
		item, err := p.next()
		if err != nil {
			return err
		}
		n.items = append(n.items, item)
	}
	_, err := p.token()
	return err
}

func (p *parser) object(n *node) error {
	for p.dec.PeekKind() != '}' {
		t, err := p.token()
		if err != nil {
			return err
		}
		m := member{key: p.text(t), line: p.line}
		if n.find(m.key) != nil {
			p.faults = append(p.faults, Fault{Line: p.line, Text: fmt.Sprintf("%q stands here twice", m.key)})
		}
		if m.node, err = p.next(); err != nil {
			return err
		}
		n.members = append(n.members, m)
	}
	_, err := p.token()
	return err
}

// text gives the string of the token just read, out of the text itself where
// nothing is escaped in it.
func (p *parser) text(t jsontext.Token) string {
	raw := p.whole[p.from:p.at]
	if open := strings.IndexByte(raw, '"'); open >= 0 && open < len(raw)-1 && strings.IndexByte(raw, '\\') < 0 {
		return raw[open+1 : len(raw)-1]
	}
	return t.String()
}

func (n *node) find(key string) *member {
	for i := range n.members {
		if m := &n.members[i]; m.key == key {
			return m
		}
	}
	return nil
}

// text gives the string of a node.
func (n *node) text() (string, bool) {
	s, ok := n.value.(string)
	return s, ok
}

// number gives the finite number of a node.
func (n *node) number() (float64, bool) {
	v, ok := n.value.(float64)
	return v, ok
}
