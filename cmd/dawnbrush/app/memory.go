package app

import (
	"path/filepath"
	"strings"
	"unicode"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/risk"
)

// dataDir finds the folder for what must not be lost; "" when nothing names one.
func (p *program) dataDir() string {
	if dir := firstDir(p.env.Getenv("STATE_DIRECTORY")); dir != "" {
		return dir
	}
	dir := p.base("XDG_DATA_HOME", filepath.Join(".local", "share"))
	if dir == "" {
		return ""
	}
	return filepath.Join(dir, name)
}

// withoutMemory tells whether the garden's memory is to be left out.
func (p *program) withoutMemory() bool { return p.options.noMemory || p.env.set("DAWNBRUSH_NO_MEMORY") }

// memoryPath finds the garden's memory: --memory, else a file named after the
// garden in the data folder. It is "" when it is left out, for the demo, and when
// nothing names a folder.
func (p *program) memoryPath(g *risk.Garden) string {
	switch dir := p.dataDir(); {
	case p.options.memory != "":
		return p.options.memory
	case p.withoutMemory(), p.options.demo, dir == "":
		return ""
	default:
		return filepath.Join(dir, slug(g.Name)+".db")
	}
}

// openMemory opens the garden's memory for a command that cannot do without,
// making it where there is none.
func (p *program) openMemory(g *risk.Garden) (*store.Store, error) {
	path := p.memoryPath(g)
	switch {
	case path != "":
	case p.withoutMemory():
		return nil, usage("leave out --no-memory and DAWNBRUSH_NO_MEMORY", "this command works on the garden's memory, which is to be left out")
	case p.options.demo:
		return nil, usage("name a file for it: --memory FILE", "the invented garden has no memory")
	default:
		return nil, usage("set HOME or XDG_DATA_HOME, or name a file: --memory FILE", "no folder is known for the garden's memory")
	}
	return store.Open(p.ctx, path, store.Options{Now: p.env.Now, Zone: g.Place.Zone})
}

// mostSlug keeps file names short of every file system's limit of 255 bytes.
const mostSlug = 80 // [chosen: room for signs of up to three bytes]

// slug makes a file name of a garden's: letters and digits in lower case, one
// dash for everything between.
func slug(garden string) string {
	var b strings.Builder
	dash := false
	for _, r := range strings.ToLower(garden) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			dash = b.Len() > 0
			continue
		}
		if b.Len() > mostSlug {
			break
		}
		if dash {
			b.WriteByte('-')
			dash = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "garden"
	}
	return b.String()
}
