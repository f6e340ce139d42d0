package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"dawnbrush/cmd/dawnbrush/report/words"
)

// Palette is the ground that the picture stands on.
type Palette uint8

// The palettes.
const (
	Light Palette = iota
	Dark          // for a screen that is dark before dawn
)

// ground are the colours that differ between palettes.
type ground struct{ paper, ink, faint, line color.RGBA }

var grounds = [...]ground{
	Light: {paper: rgb(0xfdfbf5), ink: rgb(0x22261f), faint: rgb(0xe4dfd0), line: rgb(0x8d897b)},
	Dark:  {paper: rgb(0x16191b), ink: rgb(0xe6e2d8), faint: rgb(0x33383a), line: rgb(0x7d8285)},
}

// Colours of the rows: those of Okabe and Ito, which people who confuse red and green
// tell apart [memory, status memory]; the letters say the same.
var rowColours = [...]color.RGBA{rowFlowers: rgb(0xe69f00), rowBees: rgb(0xf0e442), rowWind: rgb(0xf0e442), rowPollen: rgb(0xcc79a7), rowRain: rgb(0x56b4e9), rowHand: rgb(0x2fae84)}

// onColour is the ink on any of these. [chosen: dark on all of them, in both palettes]
var onColour = rgb(0x14180f)

func rgb(v uint32) color.RGBA {
	return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xff}
}

// Sizes in pixels: twice those of a screen 360 wide, on which a letter is to be 12
// high. [chosen]
const (
	Width = 720

	dayColumn = 84
	rowColumn = 104
	edge      = 6
	rowHeight = 34
	dayGap    = 16
	axis      = 40
	gap       = 2 // between cells

	sizeLabel = 25
	sizeMark  = 26
	sizeHour  = 24
)

// pen draws one picture.
type pen struct {
	img                 *image.RGBA
	g                   ground
	label, bold, letter font.Face
	small               font.Face
	cell                float64
	w                   *Week
}

// PNG draws the week, Width pixels wide. The same week gives the same bytes on one
// machine.
func (w *Week) PNG(p Palette) ([]byte, error) {
	k := &pen{g: grounds[p], w: w, cell: float64(Width-edge-dayColumn-rowColumn) / float64(w.Hours)}
	for face, of := range map[*font.Face]struct {
		ttf  []byte
		size float64
	}{&k.label: {goregular.TTF, sizeLabel}, &k.bold: {gobold.TTF, sizeLabel}, &k.letter: {gobold.TTF, sizeMark}, &k.small: {goregular.TTF, sizeHour}} {
		f, err := opentype.Parse(of.ttf)
		if err != nil {
			return nil, fmt.Errorf("cannot read the font of the picture: %w", err)
		}
		if *face, err = opentype.NewFace(f, &opentype.FaceOptions{Size: of.size, DPI: 72, Hinting: font.HintingFull}); err != nil {
			return nil, fmt.Errorf("cannot use the font of the picture: %w", err)
		}
	}
	k.img = image.NewRGBA(image.Rect(0, 0, Width, w.Height()))
	k.fill(k.img.Bounds(), k.g.paper)
	y := edge
	k.hours(y)
	y += axis
	for i := range w.Days {
		k.day(&w.Days[i], y)
		y += w.dayHeight()
	}
	k.hours(y)
	var out bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.DefaultCompression}
	if err := encoder.Encode(&out, k.paletted()); err != nil {
		return nil, fmt.Errorf("cannot write the picture: %w", err)
	}
	return out.Bytes(), nil
}

// blends is how many steps lie between a letter and its ground. [chosen: no edge is
// seen at twice a screen's pixels, and the file is a fifth of its size]
const blends = 8

// paletted gives the picture in the few colours it is made of, which makes a small
// file.
func (k *pen) paletted() *image.Paletted {
	var colours color.Palette
	between := func(from, to color.RGBA) {
		for i := range blends + 1 {
			mix := func(a, b uint8) uint8 { return uint8((int(a)*(blends-i) + int(b)*i) / blends) }
			colours = append(colours, color.RGBA{mix(from.R, to.R), mix(from.G, to.G), mix(from.B, to.B), 0xff})
		}
	}
	between(k.g.paper, k.g.ink)
	for _, c := range rowColours {
		between(c, onColour)
	}
	colours = append(colours, k.g.faint, k.g.line)
	out, near := image.NewPaletted(k.img.Bounds(), colours), map[color.RGBA]uint8{}
	for y := range out.Rect.Max.Y {
		for x := range out.Rect.Max.X {
			c := k.img.RGBAAt(x, y)
			i, ok := near[c]
			if !ok {
				i = uint8(colours.Index(c))
				near[c] = i
			}
			out.SetColorIndex(x, y, i)
		}
	}
	return out
}

func (w *Week) dayHeight() int { return len(w.Rows)*rowHeight + dayGap }

// Height is the height of the picture in pixels.
func (w *Week) Height() int { return 2*edge + 2*axis + len(w.Days)*w.dayHeight() }

// x is where an hour begins.
func (k *pen) x(hour int) int { return dayColumn + rowColumn + int(float64(hour)*k.cell) }

func (k *pen) fill(r image.Rectangle, c color.RGBA) {
	draw.Draw(k.img, r, image.NewUniform(c), image.Point{}, draw.Src)
}

// hours writes the clock over the columns, every second one where they are narrow.
func (k *pen) hours(y int) {
	step := 1
	if k.cell < 36 {
		step = 2
	}
	k.text("hour", k.small, k.g.ink, dayColumn, y+axis/2)
	for h := 0; h < k.w.Hours; h += step {
		k.centred(fmt.Sprintf("%02d", k.w.First+h), k.small, k.g.ink, (k.x(h)+k.x(h+1))/2, y+axis/2)
	}
}

func (k *pen) day(day *Day, y int) {
	k.fill(image.Rect(edge, y, Width-edge, y+2), k.g.line)
	y += dayGap / 2
	for i, word := range strings.Fields(day.Short) {
		k.text(word, k.bold, k.g.ink, edge, y+rowHeight*(2*i+1)/2)
	}
	for r, row := range day.Marks {
		top := y + r*rowHeight
		k.text(k.w.Rows[r].Name, k.label, k.g.ink, dayColumn, top+rowHeight/2)
		for h, level := range row {
			k.mark(&k.w.Rows[r], level, image.Rect(k.x(h)+gap, top+gap, k.x(h+1)-gap, top+rowHeight-gap))
		}
	}
}

// mark draws a cell: filled with a capital, framed with a small letter, a thin line for
// nothing, a question mark for what is not known.
func (k *pen) mark(row *Row, level words.Level, cell image.Rectangle) {
	c, x, y := rowColours[row.kind], (cell.Min.X+cell.Max.X)/2, (cell.Min.Y+cell.Max.Y)/2
	switch level {
	case words.Fully:
		k.fill(cell, c)
		k.centred(row.Full, k.letter, onColour, x, y)
	case words.Partly:
		k.fill(cell, c)
		k.fill(cell.Inset(4), k.g.paper)
		k.centred(row.Part, k.letter, k.g.ink, x, y-2) // room for the tail of a p
	case words.NotKnown:
		k.centred("?", k.letter, k.g.ink, x, y)
	default:
		k.fill(image.Rect(cell.Min.X, y-1, cell.Max.X, y+1), k.g.faint)
	}
}

// text writes a line whose capitals stand around the height y.
func (k *pen) text(s string, face font.Face, c color.RGBA, x, y int) {
	capital := face.Metrics().CapHeight.Ceil()
	d := font.Drawer{Dst: k.img, Src: image.NewUniform(c), Face: face, Dot: fixed.P(x, y+capital/2)}
	d.DrawString(s)
}

func (k *pen) centred(s string, face font.Face, c color.RGBA, x, y int) {
	k.text(s, face, c, x-font.MeasureString(face, s).Ceil()/2, y)
}
