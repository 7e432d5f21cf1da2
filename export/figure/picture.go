package figure

import (
	"math"

	"ringtrack/gear/plane"
)

// Picture is marks that were made before, moved to another place: a part of a
// drawing on its page.
type Picture struct {
	Marks  []Mark
	Move   plane.Vec
	Window plane.Box // of the marks before they are moved; those outside are left out
}

func (p Picture) marks() ([]Mark, error) {
	m := plane.Moved(p.Move)
	var out []Mark
	for _, k := range p.Marks {
		if k.Path.box().Grow(k.Style.Width).Meets(p.Window) {
			k.Path = k.Path.mapped(m)
			out = append(out, k)
		}
	}
	return out, nil
}

// Extent returns a box that holds the marks and half the width of their lines.
func Extent(marks []Mark) plane.Box {
	b := plane.NoBox()
	for _, m := range marks {
		if len(m.Path) > 0 {
			b = b.Union(m.Path.box().Grow(m.Style.Width / 2))
		}
	}
	return b
}

// box returns a box that holds the path. A parabola lies between its ends and
// its control point.
func (p Path) box() plane.Box {
	b := plane.NoBox()
	for i, s := range p {
		b = b.Add(s.P)
		switch {
		case s.Op == QuadTo:
			b = b.Add(s.C)
		case s.Op == ArcTo && i > 0:
			v := p[i-1].P.Sub(s.C)
			b = b.Union(plane.Arc{C: s.C, R: v.Len(), A0: v.Angle(), Sweep: s.Sweep}.Box())
		}
	}
	return b
}

// stretchChord in mm is how far chords may leave arcs that were stretched into
// parts of ellipses.
const stretchChord = 0.002

// Stretched returns the figure with everything on it stretched about the middle
// of the paper by a factor for each direction; the paper and the width of lines
// stay. For a printer that prints 1.01 mm for 1 mm across, x is 1/1.01.
//
// Errors: those of Marks.
func (f Figure) Stretched(x, y float64) (Figure, error) {
	marks, err := f.Marks()
	if err != nil {
		return Figure{}, err
	}
	mid := plane.Vec{X: f.Width / 2, Y: f.Height / 2}
	at := func(v plane.Vec) plane.Vec {
		return plane.Vec{X: mid.X + (v.X-mid.X)*x, Y: mid.Y + (v.Y-mid.Y)*y}
	}
	window := plane.NoBox()
	for i := range marks {
		p := marks[i].Path
		if x != y {
			p = p.withoutArcs(stretchChord)
		}
		out := make(Path, len(p))
		for k, s := range p {
			s.P, s.C = at(s.P), at(s.C)
			out[k] = s
		}
		marks[i].Path = out
		window = window.Union(out.box())
	}
	f.Items = []Item{Picture{Marks: marks, Window: window.Grow(math.Max(f.Width, f.Height))}}
	return f, nil
}

// withoutArcs returns the path with chords for its arcs.
func (p Path) withoutArcs(chord float64) Path {
	var out Path
	for i, s := range p {
		if s.Op != ArcTo || i == 0 {
			out = append(out, s)
			continue
		}
		for _, v := range appendCurve([]plane.Vec{p[i-1].P}, s, chord)[1:] {
			out.Line(v)
		}
	}
	return out
}
