package svg

import (
	"math"

	"ringtrack/gear/plane"
)

// affine maps (x, y) to (a x + c y + e, b x + d y + f).
type affine struct{ a, b, c, d, e, f float64 }

func identity() affine { return affine{a: 1, d: 1} }

// then returns the map that does n first and m after it: m's element encloses n's.
func (m affine) then(n affine) affine {
	return affine{
		a: m.a*n.a + m.c*n.b, b: m.b*n.a + m.d*n.b,
		c: m.a*n.c + m.c*n.d, d: m.b*n.c + m.d*n.d,
		e: m.a*n.e + m.c*n.f + m.e, f: m.b*n.e + m.d*n.f + m.f,
	}
}

func (m affine) point(p plane.Vec) plane.Vec {
	return plane.Vec{X: m.a*p.X + m.c*p.Y + m.e, Y: m.b*p.X + m.d*p.Y + m.f}
}

func (m affine) direction(p plane.Vec) plane.Vec {
	return plane.Vec{X: m.a*p.X + m.c*p.Y, Y: m.b*p.X + m.d*p.Y}
}

func (m affine) finite() bool {
	for _, v := range [...]float64{m.a, m.b, m.c, m.d, m.e, m.f} {
		if math.IsNaN(v) || math.Abs(v) > 1e12 {
			return false
		}
	}
	return true
}

// ellipse is the curve c + u cos t + v sin t from t0 over turn.
type ellipse struct {
	c, u, v  plane.Vec
	t0, turn float64
}

func (e ellipse) mapped(m affine) ellipse {
	e.c, e.u, e.v = m.point(e.c), m.direction(e.u), m.direction(e.v)
	return e
}

func (e ellipse) at(t float64) plane.Vec {
	s, c := math.Sincos(t)
	return e.c.Add(e.u.Mul(c)).Add(e.v.Mul(s))
}

// roundness is the relative difference of the two radii, and of their angle
// from a right one, up to which an ellipse is a circle: what rounding leaves.
const roundness = 1e-9

// arc returns the curve as a circular arc if it is one.
func (e ellipse) arc() (plane.Arc, bool) {
	lu, lv := e.u.Len(), e.v.Len()
	if !(lu > 0) || math.Abs(lu-lv) > roundness*lu || math.Abs(e.u.Dot(e.v)) > roundness*lu*lv {
		return plane.Arc{}, false
	}
	a := plane.Arc{C: e.c, R: lu, A0: e.at(e.t0).Sub(e.c).Angle(), Sweep: e.turn}
	if e.u.Cross(e.v) < 0 {
		a.Sweep = -e.turn
	}
	return a, true
}

// chords returns into how many equal steps of t the curve is divided so that
// no chord leaves it by more than chord: |second derivative| is at most the
// greater half axis.
func (e ellipse) chords(chord float64) float64 {
	uu, vv, uv := e.u.Dot(e.u), e.v.Dot(e.v), e.u.Dot(e.v)
	axis := math.Sqrt((uu + vv + math.Hypot(uu-vv, 2*uv)) / 2)
	return math.Max(1, math.Ceil(math.Abs(e.turn)*math.Sqrt(axis/(8*chord))))
}
