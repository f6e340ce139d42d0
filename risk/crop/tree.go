package crop

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// node is a JSON value that knows its line.
type node struct {
	line    int
	offset  int64
	value   any // string, json.Number, bool or nil; for lists and objects nil
	kind    nodeKind
	members []*member
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

// parser builds nodes. Duplicate keys are gathered, broken JSON stops it.
type parser struct {
	dec    *json.Decoder
	data   []byte
	line   int
	at     int64
	faults []Fault
}

// parseTree reads one JSON document.
func parseTree(data []byte) (*node, []Fault) {
	p := &parser{dec: json.NewDecoder(bytes.NewReader(data)), data: data, line: 1}
	p.dec.UseNumber()
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
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		return syntax.Offset
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

func (p *parser) token() (json.Token, error) {
	t, err := p.dec.Token()
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
	n := &node{line: p.line, offset: p.at, value: t}
	delim, ok := t.(json.Delim)
	if !ok {
		return n, nil
	}
	n.value = nil
	if delim == '[' {
		n.kind = list
		return n, p.list(n)
	}
	n.kind = object
	return n, p.object(n)
}

func (p *parser) list(n *node) error {
	for p.dec.More() {
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
	for p.dec.More() {
		t, err := p.token()
		if err != nil {
			return err
		}
		key, _ := t.(string)
		m := &member{key: key, line: p.line}
		if n.find(key) != nil {
			p.faults = append(p.faults, Fault{Line: p.line, Text: fmt.Sprintf("%q stands here twice", key)})
		}
		if m.node, err = p.next(); err != nil {
			return err
		}
		n.members = append(n.members, m)
	}
	_, err := p.token()
	return err
}

func (n *node) find(key string) *member {
	for _, m := range n.members {
		if m.key == key {
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
	num, ok := n.value.(json.Number)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(num.String(), 64)
	return v, err == nil
}
