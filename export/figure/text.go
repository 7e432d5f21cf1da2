package figure

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"ringtrack/gear/plane"
)

// face is the embedded font, read once and never changed.
type face struct {
	font *sfnt.Font
	unit fixed.Int26_6 // size at which coordinates are font units
	caps float64       // height of capital letters, font units
}

var readFace = sync.OnceValues(func() (face, error) {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return face{}, fmt.Errorf("the embedded font: %w", err)
	}
	out := face{font: f, unit: fixed.I(int(f.UnitsPerEm()))}
	m, err := f.Metrics(nil, out.unit, font.HintingNone)
	if err != nil || m.CapHeight <= 0 {
		return face{}, fmt.Errorf("the embedded font has no measure of its capitals: %v", err)
	}
	out.caps = units(m.CapHeight)
	return out, nil
})

func units(v fixed.Int26_6) float64 { return float64(v) / 64 }

// substitute returns a sign that the font has for one that it lacks.
func substitute(r rune) rune {
	switch r {
	case '⌀', '∅':
		return 'Ø'
	case '\t', '\n', '\r', '\u00a0', '\u202f', '\u2009':
		return ' '
	}
	return r
}

// outline sets one line of text at the origin, its capitals size mm high, and
// returns its length too.
func outline(s string, size float64) (Path, float64, error) {
	f, err := readFace()
	if err != nil {
		return nil, 0, err
	}
	var buf sfnt.Buffer
	var path Path
	k, x, last := size/f.caps, 0.0, sfnt.GlyphIndex(0)
	for i, r := range []rune(s) {
		g, err := f.font.GlyphIndex(&buf, substitute(r))
		if err != nil {
			return nil, 0, fmt.Errorf("letter %q: %w", r, err)
		}
		if i > 0 {
			if kern, err := f.font.Kern(&buf, last, g, f.unit, font.HintingNone); err == nil {
				x += units(kern)
			}
		}
		segs, err := f.font.LoadGlyph(&buf, g, f.unit, nil)
		if err != nil {
			return nil, 0, fmt.Errorf("letter %q: %w", r, err)
		}
		path = appendGlyph(path, segs, x, k)
		adv, err := f.font.GlyphAdvance(&buf, g, f.unit, font.HintingNone)
		if err != nil {
			return nil, 0, fmt.Errorf("letter %q: %w", r, err)
		}
		x, last = x+units(adv), g
	}
	return path, x * k, nil
}

// appendGlyph adds a letter at x; the font's y points down.
func appendGlyph(path Path, segs sfnt.Segments, x, k float64) Path {
	at := func(p fixed.Point26_6) plane.Vec {
		return plane.Vec{X: k * (x + units(p.X)), Y: -k * units(p.Y)}
	}
	for i, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				path.Close()
			}
			path.Move(at(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			path.Line(at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			path.Quad(at(s.Args[0]), at(s.Args[1]))
		}
	}
	if len(segs) > 0 {
		path.Close()
	}
	return path
}

// TextWidth returns the length in mm of a line of text with capitals size mm
// high. Errors: only if the embedded font is damaged.
func TextWidth(s string, size float64) (float64, error) {
	_, w, err := outline(s, size)
	return w, err
}

// Align says which part of a text stands at its place.
type Align uint8

// The first three are along the line, the others across it; Left and Base are
// what a Text has unless told otherwise.
const (
	Left Align = iota
	Middle
	Right
)

// Text is a line of words.
type Text struct {
	At     plane.Vec
	Size   float64 // mm, height of capitals; 0 is TextSize
	Angle  float64
	Along  Align // Left: At is its start; Middle; Right: its end
	Up     Align // Left: At is on the base line; Middle: half the capitals' height; Right: their top
	Text   string
	Colour Colour  // the zero colour is that of notes
	Halo   float64 // mm of white around the letters, so that they can be read on lines
}

// TextSize in mm is the least height that ISO 3098 gives for drawings.
const TextSize = 2.5

func (t Text) marks() ([]Mark, error) {
	if t.Size == 0 {
		t.Size = TextSize
	}
	if t.Colour.A == 0 {
		t.Colour = ink
	}
	p, w, err := outline(t.Text, t.Size)
	if err != nil {
		return nil, err
	}
	shift := plane.Vec{X: -w / 2 * float64(t.Along), Y: -t.Size / 2 * float64(t.Up)}
	p = p.mapped(plane.Moved(shift).Then(plane.Turned(t.Angle)).Then(plane.Moved(t.At)))
	var out []Mark
	if t.Halo > 0 {
		out = append(out, Mark{Path: p, Style: Style{Stroke: white, Width: 2 * t.Halo}})
	}
	return append(out, Mark{Path: p, Style: Style{Fill: t.Colour}, Label: t.Text}), nil
}
