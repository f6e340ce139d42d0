package config

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// Write prints a garden as a commented file. Every key is explained in one line;
// what is not told stands there as a note to be opened by taking the # away, and
// so does a planting to copy. Parse reads the result back as the same garden,
// provided that its texts are ones Parse accepts.
func Write(f *File) []byte {
	var b bytes.Buffer
	b.WriteString("# The garden file of dawnbrush. A line that begins with # is a note;\n" +
		"# take the # away to use the setting in it. `dawnbrush check` tells what is wrong.\n\n")
	garden := scope{file: f}
	section(&b, "", gardenSettings(), garden)
	section(&b, "[place]", placeSettings(), garden)
	section(&b, "[work]", workSettings(), garden)
	section(&b, "[bees]", beesSettings(), garden)
	example(&b, bedTable, "# One [[bed]] for each bed whose water is to be reckoned; plantings name it.\n", bedSettings(), garden)
	for i := range f.Garden.Beds {
		usual := bedDefaults()
		writeItem(&b, bedTable, bedSettings(), scope{file: f, bed: &f.Garden.Beds[i]}, scope{file: f, bed: &usual})
	}
	example(&b, plantingTable, "# One [[planting]] for each planting. Copy the lines you need and take their first # away;\n"+
		"# name and crop are all that must be there, a date makes the rest possible.\n", plantingSettings(), garden)
	for i := range f.Garden.Plantings {
		p := &f.Garden.Plantings[i]
		usual := plantingDefaults(p.Crop)
		usual.Setting = usualSetting(p)
		writeItem(&b, plantingTable, plantingSettings(), scope{file: f, planting: p}, scope{file: f, planting: &usual})
	}
	return b.Bytes()
}

func section(b *bytes.Buffer, header string, settings []setting, s scope) {
	if header != "" {
		fmt.Fprintf(b, "\n%s\n", header)
	}
	for _, set := range settings {
		line := set.assignment(s)
		if line == "" {
			line = "# " + set.key + " = " + set.example
		}
		fmt.Fprintf(b, "# %s\n%s\n", set.explain(s), line)
	}
}

// example prints a table that can stand several times with every key there is, as
// notes. A value and its explanation share a line, so that taking away the first #
// leaves both right.
func example(b *bytes.Buffer, table, text string, settings []setting, s scope) {
	b.WriteString("\n" + text + "#\n# [[" + table + "]]\n")
	for _, set := range settings {
		fmt.Fprintf(b, "# %-36s # %s\n", set.key+" = "+set.example, set.explain(s))
	}
}

// writeItem prints what differs from the usual.
func writeItem(b *bytes.Buffer, table string, settings []setting, s, usual scope) {
	b.WriteString("\n[[" + table + "]]\n")
	for _, set := range settings {
		line := set.assignment(s)
		if line != "" && (set.required || line != set.assignment(usual)) {
			b.WriteString(line + "\n")
		}
	}
}

// quote writes a TOML basic string.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case hidden(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// decimal writes the shortest number without exponent that reads back equal.
func decimal(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }
