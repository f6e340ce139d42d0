package app

import (
	"os"
	"path/filepath"
	"strings"
)

// gardenPath finds the garden file: flag, DAWNBRUSH_CONFIG, the folder a service
// manager names, XDG, home.
func (p *program) gardenPath() string {
	e := p.env
	switch {
	case p.options.config != "":
		return p.options.config
	case e.set("DAWNBRUSH_CONFIG"):
		return e.Getenv("DAWNBRUSH_CONFIG")
	}
	const file = "garden.toml"
	if dir := firstDir(e.Getenv("CONFIGURATION_DIRECTORY")); dir != "" {
		return filepath.Join(dir, file)
	}
	dir := p.base("XDG_CONFIG_HOME", ".config")
	if dir == "" {
		return file
	}
	return filepath.Join(dir, name, file)
}

// cacheDir finds the folder for forecasts already fetched; "" keeps none.
func (p *program) cacheDir() string {
	if dir := firstDir(p.env.Getenv("CACHE_DIRECTORY")); dir != "" {
		return dir
	}
	dir := p.base("XDG_CACHE_HOME", ".cache")
	if dir == "" {
		return ""
	}
	return filepath.Join(dir, name)
}

// base gives an XDG folder. Relative values count as not set.
// [XDG Base Directory Specification 0.8 section 3]
func (p *program) base(variable, below string) string {
	if dir := p.env.Getenv(variable); filepath.IsAbs(dir) {
		return dir
	}
	if home := p.env.Getenv("HOME"); home != "" {
		return filepath.Join(home, below)
	}
	return ""
}

// firstDir takes the first of several folders that a service manager may name.
func firstDir(list string) string {
	dir, _, _ := strings.Cut(list, ":")
	return dir
}

// writeWhole replaces a file in one step, so that it is never half written.
func writeWhole(path string, text []byte) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".dawnbrush-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return err
	}
	if err = os.Chmod(f.Name(), 0o644); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
