package jsonout

import "io"

// Settings are those of a garden file, for programs.
type Settings struct {
	File   string
	Faults []Fault // warnings
	rows   []settingJSON
}

type settingJSON struct {
	Table string  `json:"table"`
	Key   string  `json:"key"`
	Value *string `json:"value"`
	From  *string `json:"from"`
	Line  *int    `json:"line"`
}

// Add adds a setting. Without an origin the value is not told and null.
func (s *Settings) Add(table, key, value, from string, line int) {
	row := settingJSON{Table: table, Key: key, Line: positive(line)}
	if from != "" {
		row.Value, row.From = &value, &from
	}
	s.rows = append(s.rows, row)
}

// Write writes the settings as one object.
func (s *Settings) Write(w io.Writer) error {
	if s.Faults == nil {
		s.Faults = []Fault{}
	}
	return write(w, struct {
		envelope
		File     string        `json:"file"`
		Settings []settingJSON `json:"settings"`
		Faults   []Fault       `json:"warnings"`
	}{envelope{Schema, "check"}, s.File, s.rows, s.Faults})
}
