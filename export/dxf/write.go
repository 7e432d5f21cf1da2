package dxf

import (
	"fmt"
	"io"
	"math"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/export/number"
	"ringtrack/gear/plane"
)

// Drawing is what a file holds: outlines by layer, and notes.
type Drawing = figure.Drawing

// Options of Write. The zero value is the default.
type Options struct {
	// Chord is the greatest distance of a drawn chord from a smooth piece, mm;
	// 0 is DefaultChord. At least figure.MinChord.
	Chord float64
	// Decimals of every coordinate, 3..12; 0 is DefaultDecimals.
	Decimals int
}

const (
	// DefaultChord in mm lies far below what printers and cutters keep
	// (common practice: 0.05 mm and more), so that it never adds to their error.
	DefaultChord = 0.005
	// DefaultDecimals keeps a vertex within 1e-7 mm of its true place.
	DefaultDecimals = 7
)

// bulgeDecimals of a bulge: over a chord of 1 m the arc is then true to 1e-9 mm.
const bulgeDecimals = 12

func (o Options) filled() (Options, error) {
	if o.Chord == 0 {
		o.Chord = DefaultChord
	}
	if o.Decimals == 0 {
		o.Decimals = DefaultDecimals
	}
	if o.Decimals < 3 || o.Decimals > 12 {
		return o, fmt.Errorf("%d decimals; 3 to 12 are allowed", o.Decimals)
	}
	return o, nil
}

// polyline is one outline as it goes into the file.
type polyline struct {
	layer figure.Layer
	steps []figure.Step
}

// Write writes the drawing as one R2000 file in millimetres, the outlines in
// their order. It buffers, reports the first write error and does not close w.
//
// Errors, before the first byte: an outline that does not close or has a
// coordinate that is not a number, a layer name with characters other than
// letters, digits, _ - and $, a note of more than one line, a drawing without
// outlines, options out of range.
func Write(w io.Writer, d Drawing, opt Options) error {
	opt, err := opt.filled()
	if err != nil {
		return fmt.Errorf("dxf: %w", err)
	}
	lines, err := polylines(d, opt)
	if err != nil {
		return fmt.Errorf("dxf: %w", err)
	}
	p := newPrinter(w, opt.Decimals)
	f := file{printer: p, lines: lines, layers: layers(lines)}
	f.comments(d.Notes, opt)
	f.header()
	f.tables()
	f.blocks()
	f.entities()
	f.objects()
	p.text(0, "EOF")
	return p.flush()
}

func polylines(d Drawing, opt Options) ([]polyline, error) {
	if len(d.Outlines) == 0 {
		return nil, fmt.Errorf("the drawing has no outlines")
	}
	for i, n := range d.Notes {
		if strings.ContainsFunc(n, func(r rune) bool { return r < ' ' }) {
			return nil, fmt.Errorf("note %d is not one line of text", i)
		}
	}
	fine := figure.Fineness{Chord: opt.Chord, Sweep: math.Pi, Decimals: opt.Decimals}
	var out []polyline
	for i, o := range d.Outlines {
		if err := checkLayer(o.Layer); err != nil {
			return nil, fmt.Errorf("outline %d: %w", i, err)
		}
		steps, err := figure.Steps(o.Loop, fine)
		if err != nil {
			return nil, fmt.Errorf("outline %d on layer %s: %w", i, o.Layer, err)
		}
		out = append(out, polyline{o.Layer, steps})
	}
	return out, nil
}

// checkLayer admits the names that R12 readers admit too.
func checkLayer(l figure.Layer) error {
	if len(l) == 0 || len(l) > 31 {
		return fmt.Errorf("a layer name of %d letters; 1 to 31 are allowed", len(l))
	}
	for _, r := range string(l) {
		ok := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("_-$", r)
		if !ok {
			return fmt.Errorf("layer name %q: letters, digits, _ - and $ are allowed", string(l))
		}
	}
	return nil
}

// layers returns the layers in use, in order of their first use.
func layers(lines []polyline) []figure.Layer {
	var out []figure.Layer
	seen := map[figure.Layer]bool{"0": true}
	for _, l := range lines {
		if !seen[l.layer] {
			seen[l.layer] = true
			out = append(out, l.layer)
		}
	}
	return out
}

// colour returns the colour number that a layer is shown in: outsides in the
// screen's own black or white, the others apart from it and from each other.
func colour(l figure.Layer) int {
	switch l {
	case figure.CutInside:
		return 1
	case figure.Engrave:
		return 5
	case figure.Notes:
		return 8
	case figure.Reference:
		return 3
	}
	return 7
}

func box(lines []polyline) plane.Box {
	b := plane.NoBox()
	for _, l := range lines {
		b = b.Union(figure.Box(l.steps))
	}
	return b
}

// encoded returns s in the characters of every code page: others are written
// by their number, as the format provides.
func encoded(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < 0x7f:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

func (f *file) comments(notes []string, opt Options) {
	f.text(999, "ringtrack outlines. Unit: millimetre. True size.")
	f.text(999, "Tolerance: chords leave smooth curves by at most "+number.Format(opt.Chord, 7)+" mm; vertices lie on them. Lines and arcs are exact.")
	for _, n := range notes {
		f.text(999, encoded(n))
	}
}
