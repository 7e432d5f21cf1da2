package plane

import "math"

// Frame is a piece's local geometry at one parameter.
type Frame struct {
	P Vec     // the point
	V Vec     // derivative by u: along the piece, its length is the speed
	K float64 // signed curvature, 1/mm, positive when the piece turns left
}

// Piece is one exact piece of a loop: a Line, an Arc or a Curve. It is
// described over a parameter u from 0 at its start to 1 at its end. The set of
// kinds is closed: exporters switch over them.
type Piece interface {
	// At returns the point at u.
	At(u float64) Vec
	// Frame returns point, derivative and curvature at u.
	Frame(u float64) Frame
	// Reverse returns the same points in the opposite direction.
	Reverse() Piece
	// Map returns the piece's image.
	Map(m Similarity) Piece
	// Cut returns the part from u0 to u1, 0 <= u0 < u1 <= 1.
	Cut(u0, u1 float64) Piece
	// Box returns a box that holds the piece; for lines and arcs the least one.
	Box() Box

	offset(d float64) []Piece
	length() float64
	areaTerm() float64 // half the integral of x dy - y dx
	nodes(chord float64) []float64
}

// Smooth is a smooth parametric curve given by numbers alone, so that the
// package that owns the curve need not know this one. At returns the point and
// its first and second derivatives by t; Span returns the range of t.
type Smooth interface {
	At(t float64) (x, y, dx, dy, ddx, ddy float64)
	Span() (t0, t1 float64)
}

// Line is the straight piece from A to B.
type Line struct{ A, B Vec }

// Arc is the part of the circle about C with radius R > 0 that starts at the
// polar angle A0 and turns by Sweep, positive counter-clockwise.
type Arc struct {
	C         Vec
	R         float64
	A0, Sweep float64
}

// Circle returns the whole circle as one arc, counter-clockwise, starting at angle 0.
func Circle(c Vec, r float64) Arc { return Arc{C: c, R: r, Sweep: 2 * math.Pi} }

// Curve is a piece of a smooth curve: the points of Base from T0 to T1 (either
// may be the larger), mapped by M, then moved by D to the right of the
// direction of travel.
type Curve struct {
	Base   Smooth
	T0, T1 float64
	M      Similarity
	D      float64
}

// NewCurve returns the whole of base as a piece, as it stands.
func NewCurve(base Smooth) Curve {
	t0, t1 := base.Span()
	return Curve{Base: base, T0: t0, T1: t1, M: Same()}
}

func (l Line) At(u float64) Vec {
	if u == 1 {
		return l.B
	}
	return l.A.Add(l.B.Sub(l.A).Mul(u))
}
func (l Line) Frame(u float64) Frame    { return Frame{P: l.At(u), V: l.B.Sub(l.A)} }
func (l Line) Reverse() Piece           { return Line{l.B, l.A} }
func (l Line) Map(m Similarity) Piece   { return Line{m.Point(l.A), m.Point(l.B)} }
func (l Line) Cut(u0, u1 float64) Piece { return Line{l.At(u0), l.At(u1)} }
func (l Line) Box() Box                 { return NoBox().Add(l.A).Add(l.B) }
func (l Line) length() float64          { return l.B.Sub(l.A).Len() }
func (l Line) areaTerm() float64        { return l.A.Cross(l.B) / 2 }
func (l Line) nodes(float64) []float64  { return []float64{0, 1} }
func (l Line) offset(d float64) []Piece {
	n := l.B.Sub(l.A).unit().Right().Mul(d)
	return []Piece{Line{l.A.Add(n), l.B.Add(n)}}
}

func (a Arc) At(u float64) Vec { return a.C.Add(Polar(a.R, a.A0+u*a.Sweep)) }
func (a Arc) Frame(u float64) Frame {
	r := Polar(a.R, a.A0+u*a.Sweep)
	k := 1 / a.R
	if a.Sweep < 0 {
		k = -k
	}
	return Frame{P: a.C.Add(r), V: Vec{-r.Y, r.X}.Mul(a.Sweep), K: k}
}
func (a Arc) Reverse() Piece { return Arc{a.C, a.R, a.A0 + a.Sweep, -a.Sweep} }
func (a Arc) Map(m Similarity) Piece {
	a0, sw := a.A0, a.Sweep
	if m.mirror {
		a0, sw = -a0, -sw
	}
	return Arc{m.Point(a.C), a.R * m.Scale(), a0 + m.angle(), sw}
}
func (a Arc) Cut(u0, u1 float64) Piece {
	return Arc{a.C, a.R, a.A0 + u0*a.Sweep, (u1 - u0) * a.Sweep}
}
func (a Arc) Box() Box {
	b := NoBox().Add(a.At(0)).Add(a.At(1))
	lo, hi := math.Min(a.A0, a.A0+a.Sweep), math.Max(a.A0, a.A0+a.Sweep)
	for q := math.Ceil(lo / (math.Pi / 2)); q*math.Pi/2 <= hi; q++ {
		b = b.Add(a.C.Add(Polar(a.R, q*math.Pi/2)))
	}
	return b
}
func (a Arc) length() float64 { return a.R * math.Abs(a.Sweep) }
func (a Arc) areaTerm() float64 {
	return (a.C.Cross(a.At(1).Sub(a.At(0))) + a.R*a.R*a.Sweep) / 2
}
func (a Arc) offset(d float64) []Piece {
	if a.Sweep < 0 {
		d = -d
	}
	if a.R+d <= 0 {
		return nil
	}
	a.R += d
	return []Piece{a}
}

// nodes divides the arc evenly: r (1 - cos(step/2)) <= chord.
func (a Arc) nodes(chord float64) []float64 {
	step := math.Pi / 2
	if c := 1 - chord/a.R; c > 0 {
		step = math.Min(step, 2*math.Acos(c))
	}
	if step < 1e-8 {
		step = 2 * math.Sqrt(2*chord/a.R)
	}
	return even(int(math.Ceil(math.Abs(a.Sweep)/step - 1e-9)))
}

func even(n int) []float64 {
	if n < 1 {
		n = 1
	}
	u := make([]float64, n+1)
	for i := range u {
		u[i] = float64(i) / float64(n)
	}
	return u
}

func (c Curve) At(u float64) Vec {
	if c.D != 0 {
		return c.Frame(u).P
	}
	x, y, _, _, _, _ := c.Base.At(c.t(u))
	return c.M.Point(Vec{x, y})
}

// t returns the base's parameter at u, T1 itself at the end.
func (c Curve) t(u float64) float64 {
	if u == 1 {
		return c.T1
	}
	return c.T0 + u*(c.T1-c.T0)
}

func (c Curve) Frame(u float64) Frame {
	x, y, dx, dy, ddx, ddy := c.Base.At(c.t(u))
	w := c.T1 - c.T0
	v := c.M.Direction(Vec{dx * w, dy * w})
	speed2 := dx*dx + dy*dy
	k := (dx*ddy - dy*ddx) / (speed2 * math.Sqrt(speed2)) / c.M.Scale()
	if (w < 0) != c.M.mirror {
		k = -k
	}
	f := Frame{P: c.M.Point(Vec{x, y}), V: v, K: k}
	if c.D != 0 {
		f.P = f.P.Add(v.unit().Right().Mul(c.D))
		g := 1 + c.D*k
		f.V = v.Mul(g)
		f.K = k / g
	}
	return f
}
func (c Curve) Reverse() Piece {
	c.T0, c.T1, c.D = c.T1, c.T0, -c.D
	return c
}
func (c Curve) Map(m Similarity) Piece {
	c.M = c.M.Then(m)
	c.D *= m.Scale()
	if m.mirror {
		c.D = -c.D
	}
	return c
}
func (c Curve) Cut(u0, u1 float64) Piece {
	c.T0, c.T1 = c.t(u0), c.t(u1)
	return c
}

// Box is the box of 17 points, grown by the sagitta that the curvature at
// them allows; it holds the piece when curvature and speed vary gently, as they
// do on every curve of this project.
func (c Curve) Box() Box {
	const n = 16
	b := NoBox()
	sag := 0.0
	for i := 0; i <= n; i++ {
		f := c.Frame(float64(i) / n)
		b = b.Add(f.P)
		l := f.V.Len() / n
		if bend := math.Abs(f.K) * l * l; bend < l { // neither at the cusp of an offset
			sag = math.Max(sag, bend)
		} else {
			sag = math.Max(sag, l)
		}
	}
	return b.Grow(sag)
}

// offset moves the curve by d and splits it where the offset turns back on
// itself (the radius of curvature is passed); the parts that run backwards can
// belong to no offset outline and are left out.
func (c Curve) offset(d float64) []Piece {
	c.D += d
	const n = 32
	g := func(u float64) float64 {
		b := c
		b.D = 0
		return 1 + c.D*b.Frame(u).K
	}
	var out []Piece
	start, open := 0.0, g(0) > 0
	for i := 1; i <= n; i++ {
		u := float64(i) / n
		if good := g(u) > 0; good != open {
			z := bisect(func(u float64) bool { return (g(u) > 0) == open }, u-1.0/n, u)
			if open && z > start {
				out = append(out, c.Cut(start, z))
			}
			start, open = z, good
		}
	}
	if open && start < 1 {
		out = append(out, c.Cut(start, 1))
	}
	return out
}

// bisect returns the u in [lo, hi] at which holds, true at lo, becomes false.
func bisect(holds func(float64) bool, lo, hi float64) float64 {
	for range 60 {
		m := (lo + hi) / 2
		if holds(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}
