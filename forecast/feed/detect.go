package feed

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
)

// Detect gives the reader that recognises a document. When none does, the
// *DocumentError says what the document looks like.
func Detect(doc []byte, readers []Reader) (Reader, error) {
	for _, r := range readers {
		if r.Recognise(doc) {
			return r, nil
		}
	}
	names := make([]string, len(readers))
	for i, r := range readers {
		names[i] = r.Info().Name
	}
	return nil, &DocumentError{What: "forecast", Fault: "it is " + lookOf(doc),
		Remedy: "save the forecast document of one of: " + strings.Join(names, "; ")}
}

// maxKeys is how many member names of an unknown object are told. [chosen]
const maxKeys = 5

// lookOf says in words what a document looks like.
func lookOf(doc []byte) string {
	text := bytes.TrimSpace(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")))
	head := strings.ToLower(string(text[:min(len(text), 512)]))
	switch {
	case len(text) == 0:
		return "empty"
	case strings.HasPrefix(head, "<!doctype html"), strings.HasPrefix(head, "<html"):
		return "a web page"
	case strings.HasPrefix(head, "<?xml"), strings.HasPrefix(head, "<"):
		return "an XML document"
	case bytes.HasPrefix(text, []byte("\x1f\x8b")):
		return "compressed; unpack it first"
	case text[0] == '[':
		return "a JSON list, where a forecast is an object"
	case text[0] == '{':
		return lookOfObject(text)
	case bytes.IndexByte(text[:min(len(text), 512)], 0) >= 0:
		return "not text"
	}
	return fmt.Sprintf("text that begins with %.30q", text)
}

// lookOfObject names the first members of a JSON object.
func lookOfObject(text []byte) string {
	dec := json.NewDecoder(bytes.NewReader(text))
	if _, err := dec.Token(); err != nil {
		return "not valid JSON"
	}
	var keys []string
	for dec.More() && len(keys) < maxKeys {
		key, err := dec.Token()
		var skip json.RawMessage
		if err == nil {
			err = dec.Decode(&skip)
		}
		if err != nil {
			return "JSON that breaks off or is damaged"
		}
		keys = append(keys, fmt.Sprintf("%.40q", key))
	}
	if len(keys) == 0 {
		return "an empty JSON object"
	}
	return "a JSON object of another kind, with the members " + strings.Join(keys, ", ")
}
