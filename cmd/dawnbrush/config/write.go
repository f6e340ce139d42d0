package config

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
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
	writeMail(&b, f)
	example(&b, garden)
	for i := range f.Garden.Plantings {
		writePlanting(&b, scope{file: f, planting: &f.Garden.Plantings[i]})
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

// example prints a planting with every key there is, as notes.
func example(b *bytes.Buffer, s scope) {
	b.WriteString("\n# One [[planting]] for each planting. Copy the lines you need and take their first # away;\n" +
		"# name and crop are all that must be there, a date makes the rest possible.\n#\n# [[planting]]\n")
	examples(b, plantingSettings(), s)
}

// writePlanting prints what differs from the defaults of the crop.
func writePlanting(b *bytes.Buffer, s scope) {
	b.WriteString("\n[[" + plantingTable + "]]\n")
	usual := plantingDefaults(s.planting.Crop)
	told(b, plantingSettings(), s, scope{file: s.file, planting: &usual})
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

// showLength writes metres in the grower's unit with the fewest digits that come
// back as the same metres. Division by 0.3048 rounds, so the neighbours of the
// quotient are tried too.
func showLength(m float64, u risk.Units) string {
	if u != risk.US {
		return decimal(m)
	}
	feet := unit.MToFt(m)
	for digits := 1; digits <= 17; digits++ {
		for _, near := range []float64{feet, math.Nextafter(feet, math.Inf(1)), math.Nextafter(feet, math.Inf(-1))} {
			short, err := strconv.ParseFloat(strconv.FormatFloat(near, 'g', digits, 64), 64)
			if err == nil && toMetres(short, u) == m {
				return decimal(short)
			}
		}
	}
	return decimal(feet)
}
