package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// element is a short stretch of one piece: a straight line, or a stretch of a
// curve that turns by at most maxTurn one way. Points are in the member's frame,
// its axis at the origin. Neighbours share their common point to the last bit.
type element struct {
	a, b    plane.Vec
	ta, tb  plane.Vec   // unit tangents along the loop at a and b
	piece   plane.Piece // in the member's frame; nil for a straight line
	u0, u1  float64     // range on the piece
	from    Ref         // where it comes from; U is that of a
	toU     float64     // the source piece's parameter at b
	tooth   int32
	cornerA bool // the direction jumps at a
	cornerB bool
}

// Ref names a place on a loop: the piece of the unit, which turn of the unit,
// and the parameter on it.
type Ref struct {
	Turn, Piece int
	U           float64
}

// maxTurn is the most a stretch of curve may turn.
const maxTurn = 0.1

// cornerAngle is the jump of direction from which two neighbours form a corner.
const cornerAngle = 1e-7

// elements divides the loop, its centre moved to off, into elements in order.
func elements(l plane.Loop, off plane.Vec) []element {
	out := make([]element, 0, len(l.Unit)*l.Turns())
	for i := range l.Turns() {
		m := plane.Moved(l.Centre.Mul(-1))
		if l.Turns() > 1 {
			m = m.Then(plane.Turned(2 * math.Pi / float64(l.Fold) * float64(i)))
		}
		m = m.Then(plane.Moved(off))
		for k, p := range l.Unit {
			if line, ok := p.(plane.Line); ok {
				out = appendLine(out, m.Point(line.A), m.Point(line.B), Ref{Turn: i, Piece: k})
			} else {
				out = appendCurve(out, p.Map(m), Ref{Turn: i, Piece: k})
			}
		}
	}
	return joined(out)
}

func appendLine(out []element, a, b plane.Vec, from Ref) []element {
	v := b.Sub(a)
	n := v.Len()
	if n == 0 {
		return out
	}
	t := v.Mul(1 / n)
	return append(out, element{a: a, b: b, ta: t, tb: t, u1: 1, from: from, toU: 1})
}

func appendCurve(out []element, p plane.Piece, from Ref) []element {
	us := division(p)
	f := p.Frame(us[0])
	for i := 1; i < len(us); i++ {
		g := p.Frame(us[i])
		from.U = us[i-1]
		if f.P != g.P {
			out = append(out, element{
				a: f.P, b: g.P, ta: direction(p, f, us[i-1]), tb: direction(p, g, us[i]),
				piece: p, u0: us[i-1], u1: us[i], from: from, toU: us[i],
			})
		}
		f = g
	}
	return out
}

// direction returns the unit tangent at u; where the speed vanishes, that of a
// point a millionth of the piece inside.
func direction(p plane.Piece, f plane.Frame, u float64) plane.Vec {
	n := f.V.Len()
	if n > 0 {
		return f.V.Mul(1 / n)
	}
	inside := math.Min(math.Max(u, 1e-6), 1-1e-6)
	v := p.Frame(inside).V
	return v.Mul(1 / v.Len())
}

// division returns parameters from 0 to 1 between which the curve turns by at
// most maxTurn and keeps the sign of its curvature.
func division(p plane.Piece) []float64 {
	const probe = 8
	us := []float64{0}
	f := p.Frame(0)
	for i := 1; i <= probe; i++ {
		u0, u1 := float64(i-1)/probe, float64(i)/probe
		g := p.Frame(u1)
		if f.K*g.K < 0 {
			us = append(us, signChange(func(u float64) float64 { return p.Frame(u).K }, u0, u1))
		}
		if n := int(turned(f.V, g.V) / maxTurn); n > 0 {
			for k := 1; k <= n; k++ {
				if u := u0 + (u1-u0)*float64(k)/float64(n+1); u > us[len(us)-1] {
					us = append(us, u)
				}
			}
		}
		us = append(us, u1)
		f = g
	}
	return thinned(p, us)
}

// thinned drops nodes of gently turning curves: what is left turns by at most
// maxTurn between nodes, or is one step of the probe.
func thinned(p plane.Piece, us []float64) []float64 {
	out := us[:1]
	last := p.Frame(us[0])
	for i := 1; i < len(us); i++ {
		if i+1 < len(us) {
			next := p.Frame(us[i+1])
			if turned(last.V, next.V) < maxTurn && last.K*next.K > 0 {
				continue
			}
		}
		out = append(out, us[i])
		last = p.Frame(us[i])
	}
	return out
}

// turned returns the angle between two directions, 0 where one has no length.
func turned(v, w plane.Vec) float64 {
	return math.Abs(math.Atan2(v.Cross(w), v.Dot(w)))
}

// joined makes neighbours share their end points and finds the corners.
func joined(e []element) []element {
	for i := range e {
		next := (i + 1) % len(e)
		e[next].a = e[i].b
		corner := turned(e[i].tb, e[next].ta) > cornerAngle
		e[i].cornerB, e[next].cornerA = corner, corner
	}
	return e
}

// at returns the element's point at parameter u of its own range.
func (e *element) at(u float64) plane.Vec {
	switch {
	case u == e.u0:
		return e.a
	case u == e.u1:
		return e.b
	case e.piece == nil:
		return e.a.Add(e.b.Sub(e.a).Mul((u - e.u0) / (e.u1 - e.u0)))
	}
	return e.piece.At(u)
}

// split returns the two parts before and after parameter u.
func (e element) split(u float64) (element, element) {
	f, g := e, e
	f.b, f.u1 = e.at(u), u
	g.a, g.u0 = f.b, u
	if e.piece != nil {
		t := direction(e.piece, e.piece.Frame(u), u)
		f.tb, g.ta = t, t
	}
	f.toU, g.from.U = u, u
	f.cornerB, g.cornerA = false, false
	return f, g
}

// signChange returns where f changes sign between lo and hi, by false position
// with bisection, to the last bits of the parameter.
func signChange(f func(float64) float64, lo, hi float64) float64 {
	a, b := f(lo), f(hi)
	if a == 0 {
		return lo
	}
	if b == 0 {
		return hi
	}
	side := 0
	for range 80 {
		m := (lo*b - hi*a) / (b - a)
		if !(m > lo && m < hi) {
			m = (lo + hi) / 2
		}
		v := f(m)
		if v == 0 || hi-lo < 4e-16*(math.Abs(lo)+math.Abs(hi)) {
			return m
		}
		if (v > 0) == (b > 0) {
			hi, b = m, v
			if side == 1 {
				a /= 2
			}
			side = 1
		} else {
			lo, a = m, v
			if side == -1 {
				b /= 2
			}
			side = -1
		}
	}
	return (lo + hi) / 2
}
