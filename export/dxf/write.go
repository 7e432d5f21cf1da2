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

// Form is the version of the format.
type Form int

// The forms.
const (
	R2000 Form = iota // AC1015, LWPOLYLINE; the file names its unit
	R12               // AC1009, POLYLINE; for old cutters. Only a comment names the unit
)

// Unit is what the file's numbers count.
type Unit int

// The units.
const (
	Millimetre Unit = iota
	Inch
)

// mm returns the unit's length.
func (u Unit) mm() float64 {
	if u == Inch {
		return 25.4
	}
	return 1
}

func (u Unit) String() string {
	if u == Inch {
		return "inch"
	}
	return "millimetre"
}

// Options of Write. The zero value is the default: R2000 in millimetres, arcs.
type Options struct {
	Form Form
	Unit Unit
	// Arc is the greatest distance in mm of an arc from the smooth piece that it
	// stands for; 0 is DefaultArc. At least plane.LeastArcTolerance.
	Arc float64
	// Chord, if not 0, asks for straight chords instead of arcs, with their ends
	// on the curve: the greatest distance in mm. At least figure.MinChord. Not
	// together with Arc.
	Chord float64
	// Decimals of every coordinate, 3..12; 0 is DefaultDecimals, for inches
	// InchDecimals.
	Decimals int
}

const (
	// DefaultArc in mm lies far below what cutters keep (common practice: 0.05 mm
	// and more), so that it never adds to their error.
	DefaultArc = 0.002
	// DefaultChord in mm is what chords are drawn to where nothing else is asked
	// for: below what printers and cutters keep.
	DefaultChord = 0.005
	// DefaultDecimals keeps a vertex within 1e-7 mm of its true place.
	DefaultDecimals = 7
	// InchDecimals keeps a vertex within 2e-8 mm of its true place.
	InchDecimals = 9
)

// bulgeDecimals of a bulge: over a chord of 1 m the arc is then true to 1e-9 mm.
const bulgeDecimals = 12

func (o Options) filled() (Options, error) {
	if o.Chord != 0 && o.Arc != 0 {
		return o, fmt.Errorf("tolerances for arcs and for chords; smooth pieces become one or the other")
	}
	if o.Chord == 0 && o.Arc == 0 {
		o.Arc = DefaultArc
	}
	if o.Decimals == 0 {
		o.Decimals = DefaultDecimals
		if o.Unit == Inch {
			o.Decimals = InchDecimals
		}
	}
	switch {
	case o.Decimals < 3 || o.Decimals > 12:
		return o, fmt.Errorf("%d decimals; 3 to 12 are allowed", o.Decimals)
	case o.Form != R2000 && o.Form != R12:
		return o, fmt.Errorf("form %d; R2000 and R12 are written", o.Form)
	case o.Unit != Millimetre && o.Unit != Inch:
		return o, fmt.Errorf("unit %d; millimetres and inches are written", o.Unit)
	}
	return o, nil
}

// polyline is one outline, or what bridges leave of it, as it goes into the
// file, in the file's unit.
type polyline struct {
	layer  figure.Layer
	steps  []figure.Step
	closed bool
}

// flag is group 70 of the polyline.
func (l polyline) flag() int {
	if l.closed {
		return 1
	}
	return 0
}

// Write writes the drawing, the outlines in their order. It buffers, reports
// the first write error and does not close w.
//
// Errors, before the first byte: an outline that does not close or has a
// coordinate that is not a number, a bridge off its outline, a layer name with
// characters other than letters, digits, _ - and $, a note of more than one
// line, a drawing without outlines, options out of range.
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
	f := file{printer: p, lines: lines, layers: layers(lines), unit: opt.Unit}
	f.comments(d.Notes, opt)
	if opt.Form == R12 {
		f.r12()
	} else {
		f.header()
		f.tables()
		f.blocks()
		f.entities()
		f.objects()
	}
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
	fine := figure.Fineness{Arc: opt.Arc, Chord: opt.Chord, Sweep: math.Pi, Decimals: opt.Decimals}
	var out []polyline
	for i, o := range d.Outlines {
		if err := checkLayer(o.Layer); err != nil {
			return nil, fmt.Errorf("outline %d: %w", i, err)
		}
		courses, err := figure.Courses(o, fine)
		if err != nil {
			return nil, fmt.Errorf("outline %d on layer %s: %w", i, o.Layer, err)
		}
		for _, c := range courses {
			out = append(out, polyline{o.Layer, inUnit(c.Steps, opt.Unit), c.Closed})
		}
	}
	return out, nil
}

// inUnit brings steps from mm to the file's unit.
func inUnit(steps []figure.Step, u Unit) []figure.Step {
	if u == Millimetre {
		return steps
	}
	out := make([]figure.Step, len(steps))
	for i, s := range steps {
		out[i] = figure.Step{At: plane.Vec{X: s.At.X / u.mm(), Y: s.At.Y / u.mm()}, Sweep: s.Sweep, R: s.R / u.mm()}
	}
	return out
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
		b = b.Union(figure.Box(l.steps)) // an open one ends with a straight step back: inside the box
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

// unitComment is the first comment of every file.
func unitComment(u Unit) string { return "ringtrack outlines. Unit: " + u.String() + ". True size." }

func (f *file) comments(notes []string, opt Options) {
	f.text(999, unitComment(opt.Unit))
	if opt.Arc > 0 {
		f.text(999, "Tolerance: arcs leave smooth curves by at most "+number.Format(opt.Arc, 7)+" mm and join without a corner; their ends lie on them. Lines and other arcs are exact.")
	} else {
		f.text(999, "Tolerance: chords leave smooth curves by at most "+number.Format(opt.Chord, 7)+" mm; vertices lie on them. Lines and arcs are exact.")
	}
	for _, n := range notes {
		f.text(999, encoded(n))
	}
}
