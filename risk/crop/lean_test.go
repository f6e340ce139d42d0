package crop

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"path"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the lean copies of the crop files anew")

// unread are the members that planning never looks at; origins are those that it
// looks at for texts alone.
var (
	unread  = map[string]bool{"note": true, "others": true, "row": true, "evidence": true, "x": true, "sources": true}
	origins = map[string]bool{"source": true, "where": true, "status": true}
)

// lean writes a value without what planning does not read.
func lean(t *testing.T, e *jsontext.Encoder, n *node) {
	t.Helper()
	put := func(tok jsontext.Token) { require.NoError(t, e.WriteToken(tok)) }
	switch n.kind {
	case object:
		put(jsontext.BeginObject)
		for _, m := range n.members {
			if unread[m.key] || origins[m.key] && n.find("text") == nil {
				continue
			}
			put(jsontext.String(m.key))
			lean(t, e, m.node)
		}
		put(jsontext.EndObject)
	case list:
		put(jsontext.BeginArray)
		for _, item := range n.items {
			lean(t, e, item)
		}
		put(jsontext.EndArray)
	default:
		switch v := n.value.(type) {
		case string:
			put(jsontext.String(v))
		case float64:
			put(jsontext.Float(v))
		case bool:
			put(jsontext.Bool(v))
		default:
			put(jsontext.Null)
		}
	}
}

// The lean copies that programs start from are made of the crop files: renew them
// with go test ./risk/crop -update.
func TestLeanCopiesAreFresh(t *testing.T) {
	names, err := fs.Glob(embedded, "data/*.json")
	require.NoError(t, err)
	have, err := fs.Glob(embedded, "lean/*.json")
	require.NoError(t, err)
	if !*update {
		require.Len(t, have, len(names), "renew them with -update")
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		tree, faults := parseTree(data)
		require.Empty(t, faults, name)
		var b bytes.Buffer
		lean(t, jsontext.NewEncoder(&b), tree)
		copied := path.Join("lean", path.Base(name))
		if *update {
			require.NoError(t, os.MkdirAll("lean", 0o755))
			require.NoError(t, os.WriteFile(copied, b.Bytes(), 0o644))
			continue
		}
		got, err := fs.ReadFile(embedded, copied)
		require.NoError(t, err, "renew it with -update")
		assert.Equal(t, b.String(), string(got), "%s: renew it with -update", copied)
	}
}
