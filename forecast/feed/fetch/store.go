package fetch

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// entry is a stored document: one file holding a checksum line, a line of
// metadata and the body, so that the three cannot part company.
type entry struct {
	URL          string    `json:"url"`       // asked for
	FinalURL     string    `json:"final_url"` // after redirects
	Status       int       `json:"status"`
	Fetched      time.Time `json:"fetched"` // last confirmed
	FreshUntil   time.Time `json:"fresh_until"`
	ETag         string    `json:"etag,omitempty"`
	LastModified string    `json:"last_modified,omitempty"`
	body         []byte
}

// magic begins every stored file and tells its form.
const magic = "dawnbrush-copy-1 "

// store is a folder of entries. The zero store keeps nothing.
type store struct{ dir string }

func (s store) path(url string) string {
	sum := sha256.Sum256([]byte(url))
	return filepath.Join(s.dir, hex.EncodeToString(sum[:16])+extension)
}

// extension ends the names of stored files.
const extension = ".copy"

var errDamaged = errors.New("the stored copy is damaged")

// load reads the entry of an address. There is none: nil, nil. It is torn,
// altered or another address's: nil and errDamaged.
func (s store) load(url string) (*entry, error) {
	if s.dir == "" {
		return nil, nil
	}
	e, err := read(s.path(url))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err == nil && e.URL != url:
		return nil, errDamaged
	}
	return e, err
}

// read reads a stored file.
func read(path string) (*entry, error) {
	raw, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	head, rest, ok := bytes.Cut(raw, []byte("\n"))
	want, isCopy := bytes.CutPrefix(head, []byte(magic))
	if !ok || !isCopy || string(want) != checksum(rest) {
		return nil, errDamaged
	}
	meta, body, ok := bytes.Cut(rest, []byte("\n"))
	e := &entry{body: body}
	if !ok || json.Unmarshal(meta, e) != nil {
		return nil, errDamaged
	}
	return e, nil
}

func checksum(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// save replaces the entry of its address in one step: whoever is killed in
// between leaves the old file.
func (s store) save(e *entry) (err error) {
	if s.dir == "" {
		return nil
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return err
	}
	meta, err := json.Marshal(e)
	if err != nil {
		return err
	}
	rest := append(append(meta, '\n'), e.body...)
	tmp, err := os.CreateTemp(s.dir, ".new-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = tmp.Close() // the first error is the one to tell
			_ = os.Remove(tmp.Name())
		}
	}()
	if _, err = fmt.Fprintf(tmp, "%s%s\n", magic, checksum(rest)); err != nil {
		return err
	}
	if _, err = tmp.Write(rest); err != nil {
		return err
	}
	if err = tmp.Sync(); err != nil {
		return err
	}
	if err = tmp.Close(); err != nil {
		return err
	}
	if err = os.Rename(tmp.Name(), s.path(e.URL)); err != nil {
		return err
	}
	return syncDir(s.dir)
}

// syncDir makes the new name last through a loss of power. Systems that cannot
// sync a folder are no worse off than before.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	_ = d.Sync()
	return d.Close()
}
