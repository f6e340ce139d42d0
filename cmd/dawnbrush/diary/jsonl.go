package diary

import (
	"bytes"
	stdjson "encoding/json"
	"errors"
	"io"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"dawnbrush/risk/memory"
)

// WriteJSONL writes an entry a line. Read gives the same entries back, exactly.
func WriteJSONL(w io.Writer, entries []memory.Entry) error {
	out := stdjson.NewEncoder(w)
	out.SetEscapeHTML(false)
	for i := range entries {
		if err := out.Encode(&entries[i]); err != nil {
			return err
		}
	}
	return nil
}

// jsonLines reads an object a line. Fields nobody knows, fields given twice and
// text that is not UTF-8 are faults: what is not understood would be lost.
func (in *intake) jsonLines(doc []byte) {
	line := 0
	for text := range bytes.Lines(doc) {
		line++
		if text = bytes.TrimSpace(text); len(text) == 0 {
			continue
		}
		var e memory.Entry
		if err := json.Unmarshal(text, &e, json.RejectUnknownMembers(true)); err != nil {
			field, message := plainly(err)
			in.fault(line, field, "one entry a line, as dawnbrush note export --jsonl writes them", "%s", message)
			continue
		}
		in.take(e, line)
	}
}

// plainly says what is wrong with a line of JSON, and in which field.
func plainly(err error) (field, message string) {
	var syntax *jsontext.SyntacticError
	var meaning *json.SemanticError
	switch {
	case errors.Is(err, json.ErrUnknownName) && errors.As(err, &meaning):
		field = strings.TrimPrefix(string(meaning.JSONPointer), "/")
		return field, "there is no field " + said(field)
	case errors.Is(err, jsontext.ErrDuplicateName) && errors.As(err, &syntax):
		field = strings.TrimPrefix(string(syntax.JSONPointer), "/")
		return field, "the field " + said(field) + " stands twice"
	case errors.As(err, &syntax):
		return "", "the line is no JSON: " + syntax.Err.Error()
	case errors.As(err, &meaning):
		field = strings.TrimPrefix(string(meaning.JSONPointer), "/")
		return field, said(field) + " cannot be read"
	}
	return "", err.Error()
}
