package jsonout

import "io"

// Failure is an error for programs.
type Failure struct {
	Code    int     `json:"code"`
	Message string  `json:"message"`
	Hint    string  `json:"hint"`
	Faults  []Fault `json:"faults"`
}

// Fault is one fault or warning of a garden file.
type Fault struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
	Warning bool   `json:"warning"`
}

// WriteFailure writes an error as one object.
func WriteFailure(w io.Writer, f Failure) error {
	if f.Faults == nil {
		f.Faults = []Fault{}
	}
	return write(w, struct {
		envelope
		Error Failure `json:"error"`
	}{envelope{Schema, "error"}, f})
}

// Version writes the program's name and version.
func Version(w io.Writer, name, version string) error {
	return write(w, struct {
		envelope
		Name    string `json:"name"`
		Version string `json:"version"`
	}{envelope{Schema, "version"}, name, version})
}

// Written says which file a command wrote.
func Written(w io.Writer, report, file string) error {
	return write(w, struct {
		envelope
		File string `json:"file"`
	}{envelope{Schema, report}, file})
}
