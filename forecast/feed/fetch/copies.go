package fetch

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Copy tells of a stored document.
type Copy struct {
	URL        string
	Status     int       // of the answer it came with
	Fetched    time.Time // when the service last confirmed it
	FreshUntil time.Time // until then it is used without asking
	Bytes      int
}

// Copies lists the stored documents in no certain order; damaged ones, which a Get
// fetches anew, are counted.
func (c *Client) Copies() (list []Copy, damaged int, err error) {
	if c.Dir == "" {
		return nil, 0, nil
	}
	files, err := os.ReadDir(c.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, 0, nil
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), extension) {
			continue
		}
		e, err := read(filepath.Join(c.Dir, f.Name()))
		if err != nil {
			damaged++
			continue
		}
		list = append(list, Copy{e.URL, e.Status, e.Fetched, e.FreshUntil, len(e.body)})
	}
	return list, damaged, err
}
