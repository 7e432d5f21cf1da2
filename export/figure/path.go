package figure

import (
	"math"

	"ringtrack/gear/plane"
)

// Op is what a segment of a path does.
type Op uint8

const (
	MoveTo  Op = iota // begin a run at P
	LineTo            // straight to P
	QuadTo            // a parabola to P with the control point C
	ArcTo             // about C by Sweep to P
	CloseTo           // straight to the start P of the run
)

// Segment is one step of a path.
type Segment struct {
	Op    Op
	P, C  plane.Vec
	Sweep float64 // radians, of ArcTo
}

// Path is a list of runs, open or closed. Closed runs may be filled; where
// they overlap, those in opposite directions cancel.
type Path []Segment

// Move begins a run at p.
func (p *Path) Move(at plane.Vec) { *p = append(*p, Segment{Op: MoveTo, P: at}) }

// Line goes straight to a point.
func (p *Path) Line(to plane.Vec) { *p = append(*p, Segment{Op: LineTo, P: to}) }

// Quad goes along a parabola with the control point c.
func (p *Path) Quad(c, to plane.Vec) { *p = append(*p, Segment{Op: QuadTo, P: to, C: c}) }

// Arc goes about c by sweep, positive counter-clockwise.
func (p *Path) Arc(c plane.Vec, sweep float64) {
	from := p.at()
	*p = append(*p, Segment{Op: ArcTo, P: c.Add(from.Sub(c).Turn(sweep)), C: c, Sweep: sweep})
}

// Close ends the run where it began.
func (p *Path) Close() {
	for i := len(*p) - 1; i >= 0; i-- {
		if (*p)[i].Op == MoveTo {
			*p = append(*p, Segment{Op: CloseTo, P: (*p)[i].P})
			return
		}
	}
}

func (p Path) at() plane.Vec {
	if len(p) == 0 {
		return plane.Vec{}
	}
	return p[len(p)-1].P
}

// Lines returns an open run through the points.
func Lines(pts ...plane.Vec) Path {
	var p Path
	for i, v := range pts {
		if i == 0 {
			p.Move(v)
		} else {
			p.Line(v)
		}
	}
	return p
}

// Polygon returns a closed run through the points.
func Polygon(pts ...plane.Vec) Path {
	p := Lines(pts...)
	p.Close()
	return p
}

// Rectangle returns a rectangle by two opposite corners, counter-clockwise.
func Rectangle(a, b plane.Vec) Path {
	return Polygon(a, plane.Vec{X: b.X, Y: a.Y}, b, plane.Vec{X: a.X, Y: b.Y})
}

// Circle returns a whole circle.
func Circle(c plane.Vec, r float64) Path {
	var p Path
	p.Move(c.Add(plane.Vec{X: r}))
	p.Arc(c, 2*math.Pi)
	p.Close()
	return p
}

// Arc returns an open arc about c from angle a0 by sweep.
func Arc(c plane.Vec, r, a0, sweep float64) Path {
	var p Path
	p.Move(c.Add(plane.Polar(r, a0)))
	p.Arc(c, sweep)
	return p
}

// PaperChord in mm is how far chords of smooth pieces may leave them on paper:
// a tenth of the finest line that can be seen (common practice).
const PaperChord = 0.01

// Loops returns the loops' images under m as closed runs; smooth pieces become
// chords within chord mm of paper, 0 is PaperChord.
func Loops(m plane.Similarity, chord float64, loops ...plane.Loop) Path {
	if chord == 0 {
		chord = PaperChord
	}
	var p Path
	for _, l := range loops {
		first := true
		for q := range Chords(l, chord/m.Scale()).All() {
			q = q.Map(m)
			if first {
				p.Move(q.At(0))
				first = false
			}
			if a, ok := q.(plane.Arc); ok {
				p = append(p, Segment{Op: ArcTo, P: q.At(1), C: a.C, Sweep: a.Sweep})
			} else {
				p.Line(q.At(1))
			}
		}
		p.Close()
	}
	return p
}

// mapped returns the path's image.
func (p Path) mapped(m plane.Similarity) Path {
	out := make(Path, len(p))
	for i, s := range p {
		s.P, s.C = m.Point(s.P), m.Point(s.C)
		if m.Mirrors() {
			s.Sweep = -s.Sweep
		}
		out[i] = s
	}
	return out
}

// Run is a path's run as points.
type Run struct {
	Points []plane.Vec
	Closed bool // the last point is joined to the first, which is not repeated
}

// Runs returns the path as points, curves in chords within tol mm, tol > 0.
func (p Path) Runs(tol float64) []Run {
	var out []Run
	var cur Run
	end := func() {
		if len(cur.Points) > 1 {
			out = append(out, cur)
		}
		cur = Run{}
	}
	for _, s := range p {
		switch s.Op {
		case MoveTo:
			end()
			cur.Points = append(cur.Points, s.P)
		case CloseTo:
			if n := len(cur.Points); n > 1 && cur.Points[n-1].Sub(s.P).Len() < 1e-9 {
				cur.Points = cur.Points[:n-1]
			}
			cur.Closed = true
			end()
			cur.Points = append(cur.Points, s.P)
		case LineTo:
			cur.Points = append(cur.Points, s.P)
		case QuadTo, ArcTo:
			cur.Points = appendCurve(cur.Points, s, tol)
		}
	}
	end()
	return out
}

// mostChords of one segment: enough for any circle on paper.
const mostChords = 10000

func appendCurve(pts []plane.Vec, s Segment, tol float64) []plane.Vec {
	if len(pts) == 0 {
		return append(pts, s.P)
	}
	a := pts[len(pts)-1]
	if s.Op == QuadTo {
		bend := a.Sub(s.C.Mul(2)).Add(s.P).Len()
		n := steps(math.Sqrt(bend / (4 * tol)))
		for i := 1; i < n; i++ {
			u := float64(i) / float64(n)
			w := 1 - u
			pts = append(pts, a.Mul(w*w).Add(s.C.Mul(2*u*w)).Add(s.P.Mul(u*u)))
		}
		return append(pts, s.P)
	}
	r := a.Sub(s.C)
	n := steps(math.Abs(s.Sweep) * math.Sqrt(r.Len()/(8*tol)))
	for i := 1; i < n; i++ {
		pts = append(pts, s.C.Add(r.Turn(s.Sweep*float64(i)/float64(n))))
	}
	return append(pts, s.P)
}

func steps(n float64) int {
	if !(n < mostChords) {
		return mostChords
	}
	return max(1, int(math.Ceil(n)))
}
