package picture_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/picture"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
)

func drawn(t *testing.T, d *document.Document, p picture.Palette) (image.Image, []byte) {
	t.Helper()
	w := picture.Of(d)
	require.NotNil(t, w)
	b, err := w.PNG(p)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(b))
	require.NoError(t, err)
	assert.Equal(t, image.Rect(0, 0, picture.Width, w.Height()), img.Bounds())
	return img, b
}

// The picture opens as a PNG, is small enough for a mail, is the same twice, and
// another plan gives another one.
func TestPicture(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	for _, p := range []picture.Palette{picture.Light, picture.Dark} {
		_, first := drawn(t, d, p)
		_, again := drawn(t, d, p)
		assert.True(t, bytes.Equal(first, again))
		assert.Less(t, len(first), 64<<10)
		other := *d
		other.Plans = append([]risk.DayPlan{}, d.Plans...)
		require.NotEmpty(t, other.Plans[0].Tasks)
		other.Plans[0].Tasks = nil
		_, changed := drawn(t, &other, p)
		assert.False(t, bytes.Equal(first, changed))
	}
	assert.Nil(t, picture.Of(&document.Document{}), "nothing flowers: no picture")
}

// What the picture says of a hand-written day is what that day is, letter by letter:
// the hours of reporttest's cucumbers, wind and rain.
func TestPictureSaysTheDay(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	w := picture.Of(d)
	require.Equal(t, 5, w.First)
	require.Equal(t, 9, w.Hours)
	letters := func(day int) (out []string) {
		for r, row := range w.Days[day].Marks {
			line := w.Rows[r].Name + " "
			for _, l := range row {
				line += [...]string{words.NotKnown: "?", words.NotAtAll: ".", words.Partly: w.Rows[r].Part, words.Fully: w.Rows[r].Full}[l]
			}
			out = append(out, line)
		}
		return out
	}
	assert.Equal(t, []string{
		"flowers .OOOOOO..", // open from 06:00 to 12:00
		"bees .BBb.....",    // 0.9 of full flight, 0.2 less each hour; at 0.3 they do not count as out
		"pollen .PPppp...",  // 1, 0.83, 0.66 less a rounding, ...
		"rain ....rR?..",    // 35 % at 09:00, 80 % at 10:00, not known at 11:00
		"by hand .XX......", // 06:09 to 08:00
	}, letters(0))
	assert.Equal(t, "Thu 16", w.Days[0].Short)
	alt := w.Alt()
	assert.Contains(t, alt, "05 to 14")
	assert.Contains(t, alt, "Thu 16 July: flowers open 06-12, bees at open flowers 06-09, pollen alive 06-11, rain possible 09-11 (not known 11-12), work by hand 06-08.")
}

// What is not known is drawn and said as not known, never as nothing.
func TestPictureOfTheUnknown(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	for i := range d.Plans[0].Day.Plantings[0].Hours {
		d.Plans[0].Day.Plantings[0].Hours[i].Air.Missing = air.Wind
	}
	alt := picture.Of(d).Alt()
	assert.Contains(t, alt, "flowers open 06-12, bees not known, pollen alive")
	d.Plans[0].Day.Plantings[0].Hours[0].Air.Missing = 0
	assert.Contains(t, picture.Of(d).Alt(), "bees at open flowers 06-07 (not known 07-12)")
	d.Plans[0].Day = nil
	d.Plans[1].Day.Plantings[0].Hours = reporttest.Fixed(t, risk.Metric).Plans[0].Day.Plantings[0].Hours
	assert.Contains(t, picture.Of(d).Alt(), "flowers not known, bees not known, pollen not known, rain not known, by hand not known")
}

// Letters can be read: ink on paper and on every colour has the contrast that WCAG 2.2
// asks of text, 4.5 to 1 (success criterion 1.4.3; from memory),
// and the frames and fills that a mark is told by stand out from the paper or carry a
// letter that does.
func TestPictureContrast(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	for _, p := range []picture.Palette{picture.Light, picture.Dark} {
		img, _ := drawn(t, d, p)
		paper := img.At(0, 0)
		counts := map[color.Color]int{}
		for y := range img.Bounds().Max.Y {
			for x := range img.Bounds().Max.X {
				counts[img.At(x, y)]++
			}
		}
		// the inks are the colours farthest from the paper and from the fills
		best := func(from color.Color) (most float64) {
			for c := range counts {
				most = math.Max(most, contrast(c, from))
			}
			return most
		}
		assert.GreaterOrEqual(t, best(paper), 4.5)
		fills := 0
		for c, n := range counts {
			if n > 3000 && c != paper && saturation(c) > 60 {
				fills++
				assert.GreaterOrEqual(t, contrast(c, color.RGBA{0x14, 0x18, 0x0f, 0xff}), 4.5, fmt.Sprint(c))
			}
		}
		assert.GreaterOrEqual(t, fills, 4)
	}
}

func saturation(c color.Color) int {
	r, g, b, _ := c.RGBA()
	return int(max(r, g, b)>>8) - int(min(r, g, b)>>8)
}

// contrast is the ratio of relative luminances: WCAG 2.2, definitions of relative luminance and
// contrast ratio; from memory.
func contrast(a, b color.Color) float64 {
	luminance := func(c color.Color) float64 {
		r, g, bl, _ := c.RGBA()
		lin := func(v uint32) float64 {
			s := float64(v) / 0xffff
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(bl)
	}
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// Dates in another language fit.
func TestPictureInAnotherLanguage(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	d.Dates, _ = words.DatesIn("pl")
	drawn(t, d, picture.Light)
	assert.True(t, strings.Contains(picture.Of(d).Alt(), "czw 16 lipca"))
}
