package figure

import (
	"fmt"
	"math"

	"ringtrack/export/number"
	"ringtrack/gear/plane"
)

// Layer says what is to be done along an outline. In a file it is the layer's
// name; letters, digits, _ - and $ only, so that old readers admit it.
type Layer string

// The layers of a part's drawing.
const (
	CutOutside Layer = "CUT_OUTSIDE" // cut through, the part is inside
	CutInside  Layer = "CUT_INSIDE"  // cut through, the part is outside: bores, holes
	Engrave    Layer = "ENGRAVE"     // mark the surface
	Notes      Layer = "NOTES"       // to be read, not to be made
	Reference  Layer = "REFERENCE"   // circles to measure by, not to be made
)

// Outline is one closed outline at true size, in mm.
type Outline struct {
	Layer   Layer
	Loop    plane.Loop
	Bridges []Bridge // where it is not cut
	Line    int      // in the file that it was read from, 0 when it was not
}

// Drawing is what a part's drawing file holds: outlines at true size, in the
// order in which they are to be made, and notes, one line of text each.
type Drawing struct {
	Outlines []Outline
	Notes    []string
}

// Part returns the drawing of a region: first the holes, while the part is
// still held by the sheet around it, then its outside.
func Part(r plane.Region) Drawing {
	var d Drawing
	for _, h := range r.Holes {
		d.Outlines = append(d.Outlines, Outline{Layer: CutInside, Loop: h})
	}
	d.Outlines = append(d.Outlines, Outline{Layer: CutOutside, Loop: r.Outer})
	return d
}

// Chords returns the loop with every smooth piece replaced by chords, none of
// which leaves it by more than chord mm, chord > 0. Vertices lie on the curve;
// lines and arcs stay as they are, and so does the symmetry.
func Chords(l plane.Loop, chord float64) plane.Loop {
	out := plane.Loop{Fold: l.Fold, Centre: l.Centre, Unit: make([]plane.Piece, 0, len(l.Unit))}
	for _, p := range l.Unit {
		if _, smooth := p.(plane.Curve); !smooth {
			out.Unit = append(out.Unit, p)
			continue
		}
		pts := plane.Loop{Unit: []plane.Piece{p}, Fold: 1}.Flatten(chord)
		pts = append(pts, p.At(1))
		for i := 1; i < len(pts); i++ {
			out.Unit = append(out.Unit, plane.Line{A: pts[i-1], B: pts[i]})
		}
	}
	return out
}

// Step is a vertex of an outline made of lines and arcs, and how the outline
// goes on from it: along a straight line when Sweep is 0, otherwise along an
// arc of radius R that turns by Sweep, positive counter-clockwise.
type Step struct {
	At       plane.Vec
	Sweep, R float64
}

// Fineness is how an outline is turned into the numbers of a file.
type Fineness struct {
	Arc      float64 // mm, greatest distance of an arc from a smooth piece; 0: chords
	Chord    float64 // mm, greatest distance of a chord from a smooth piece; MinChord or more
	Sweep    float64 // radians, arcs that turn further are split evenly
	Decimals int     // of a coordinate
}

// MinChord is the finest chordal tolerance in mm: finer ones are lost in the
// decimals of every format.
const MinChord = 1e-6

// Steps returns the vertices of the loop, in order, the first not repeated.
// Pieces whose ends are the same number in the file are left out.
//
// Errors: a tolerance out of range, the loop does not close to the last
// decimal, a coordinate is not a number, or nothing is left at these decimals.
func Steps(l plane.Loop, f Fineness) ([]Step, error) {
	if err := finite(l); err != nil {
		return nil, err
	}
	if err := l.Check(math.Pow(10, -float64(f.Decimals))); err != nil {
		return nil, err
	}
	l, err := plain(l, f)
	if err != nil {
		return nil, err
	}
	var out []Step
	for p := range l.All() {
		out = appendSteps(out, p, f.Sweep)
	}
	out = distinct(out, f.Decimals)
	if straight(out) && len(out) < 3 || len(out) < 2 {
		return nil, fmt.Errorf("nothing is left of the outline at %d decimals", f.Decimals)
	}
	return out, nil
}

// plain returns the loop in lines and arcs alone.
func plain(l plane.Loop, f Fineness) (plane.Loop, error) {
	if f.Arc != 0 {
		fit, err := l.Arcs(f.Arc)
		return fit.Loop, err
	}
	if !(f.Chord >= MinChord) || math.IsInf(f.Chord, 0) {
		return l, fmt.Errorf("a chordal tolerance of %g mm; it must be at least %g", f.Chord, MinChord)
	}
	return Chords(l, f.Chord), nil
}

// finite returns an error when a piece of the unit has an end or a middle that
// is not a number.
func finite(l plane.Loop) error {
	for i, p := range l.Unit {
		for _, u := range [...]float64{0, 0.5, 1} {
			if v := p.At(u); !number.Finite(v.X, v.Y) {
				return fmt.Errorf("piece %d has a point (%g, %g)", i, v.X, v.Y)
			}
		}
	}
	return nil
}

func appendSteps(out []Step, p plane.Piece, sweep float64) []Step {
	a, ok := p.(plane.Arc)
	if !ok {
		return append(out, Step{At: p.At(0)})
	}
	n := max(1, int(math.Ceil(math.Abs(a.Sweep)/sweep-1e-9)))
	for i := range n {
		out = append(out, Step{At: a.At(float64(i) / float64(n)), Sweep: a.Sweep / float64(n), R: a.R})
	}
	return out
}

// distinct drops every step that ends where it starts, as the file has it.
func distinct(steps []Step, decimals int) []Step {
	same := func(a, b plane.Vec) bool {
		return number.Round(a.X, decimals) == number.Round(b.X, decimals) &&
			number.Round(a.Y, decimals) == number.Round(b.Y, decimals)
	}
	out := make([]Step, 0, len(steps))
	for i, s := range steps {
		// A dropped step's neighbour starts at the same number, so looking
		// one step ahead is enough.
		if next := steps[(i+1)%len(steps)].At; !same(s.At, next) {
			out = append(out, s)
		}
	}
	return out
}

// Box returns the least box that holds the outline of the steps.
func Box(steps []Step) plane.Box {
	b := plane.NoBox()
	for i, s := range steps {
		b = b.Add(s.At)
		if s.Sweep != 0 {
			b = b.Union(ArcBetween(s.At, steps[(i+1)%len(steps)].At, s.Sweep).Box())
		}
	}
	return b
}

// ArcBetween returns the arc from a to b, different points, that turns by
// sweep, 0 < |sweep| < 2 pi.
func ArcBetween(a, b plane.Vec, sweep float64) plane.Arc {
	c := b.Sub(a)
	// The centre stands off the chord's middle by half the chord over
	// tan(sweep/2), to the left of the chord for a small turn to the left.
	h := 0.5 / math.Tan(sweep/2)
	centre := a.Add(c.Mul(0.5)).Add(plane.Vec{X: -c.Y, Y: c.X}.Mul(h))
	r := a.Sub(centre)
	return plane.Arc{C: centre, R: r.Len(), A0: r.Angle(), Sweep: sweep}
}

func straight(steps []Step) bool {
	for _, s := range steps {
		if s.Sweep != 0 {
			return false
		}
	}
	return true
}

// Close makes a loop of pieces read from a file, each meant to start where the
// one before it ends. Where ends differ by up to join mm, a straight piece is
// moved to meet its neighbour, or a short straight piece bridges the gap;
// differences below 1e-9 mm are rounding and stay.
//
// Errors: a wider gap, with its place; an outline of no area by its kind, such
// as two straight lines.
func Close(pieces []plane.Piece, join float64) (plane.Loop, error) {
	var out []plane.Piece
	for i, p := range pieces {
		next := pieces[(i+1)%len(pieces)]
		end, start := p.At(1), next.At(0)
		gap := end.Sub(start).Len()
		if !(gap <= join) {
			return plane.Loop{}, fmt.Errorf("the outline is open: %.3g mm from (%.6g, %.6g) to (%.6g, %.6g)", gap, end.X, end.Y, start.X, start.Y)
		}
		line, ok := p.(plane.Line)
		switch {
		case gap <= 1e-9:
			out = append(out, p)
		case ok && line.A != start:
			out = append(out, plane.Line{A: line.A, B: start})
		default:
			out = append(out, p, plane.Line{A: end, B: start})
		}
	}
	return plane.Loop{Unit: out, Fold: 1}, enclosing(out)
}

// enclosing returns an error for a chain that cannot enclose anything.
func enclosing(pieces []plane.Piece) error {
	arcs := 0
	for _, p := range pieces {
		if a, ok := p.(plane.Arc); ok {
			arcs++
			if math.Abs(a.Sweep) >= 2*math.Pi-1e-12 {
				return nil
			}
		}
	}
	if len(pieces) < 2 || arcs == 0 && len(pieces) < 3 {
		return fmt.Errorf("the outline encloses nothing")
	}
	return nil
}
