package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// seg is a stretch of an outline along which the radius about the ring's axis
// rises from the inner end 0 to the outer end 1. Its direction is outward,
// whichever way the loop runs. Points are relative to the ring's axis.
type seg struct {
	q0, q1 float64   // squared radii, q0 < q1
	d0, d1 float64   // signed distance of the outward tangent from the axis at both ends: positive where the axis lies to its left
	p0, p1 plane.Vec // the ends
	dir    plane.Vec // of a straight line: outward unit vector
	u0, u1 float64   // parameters on the element at both ends
	elem   int32     // index of the element
	curved bool
	in     bool // the loop runs inward along it
}

// stand is an outline where it stands: its elements, and what is added to their
// points to have them relative to the ring's axis.
type stand struct {
	elems []element
	shift plane.Vec
}

// distances returns the range of the tangent's distance on the segment. Along
// it the distance changes by curvature times the gain in radius, and curvature
// keeps its sign, so the ends bound it.
func (s *seg) distances() (lo, hi float64) {
	return math.Min(s.d0, s.d1), math.Max(s.d0, s.d1)
}

// spot is a point on a segment.
type spot struct {
	p plane.Vec // relative to the ring's axis
	d float64   // the tangent's distance there
	u float64   // parameter on the element
	k float64   // curvature, where solved; as for d, of the outward direction
}

// at returns the segment's point of squared radius q.
func (b stand) at(s *seg, q float64) spot {
	switch {
	case q <= s.q0:
		return spot{s.p0, s.d0, s.u0, 0}
	case q >= s.q1:
		return spot{s.p1, s.d1, s.u1, 0}
	case !s.curved:
		// p = w dir - d left(dir), with w >= 0 because the radius rises outward.
		w := math.Sqrt(math.Max(0, q-s.d0*s.d0))
		p := plane.Vec{X: w*s.dir.X + s.d0*s.dir.Y, Y: w*s.dir.Y - s.d0*s.dir.X}
		return spot{p, s.d0, s.along(p), 0}
	}
	return b.solve(s, q)
}

// along returns the parameter of a point of a straight segment.
func (s *seg) along(p plane.Vec) float64 {
	w, w0, w1 := p.Dot(s.dir), s.p0.Dot(s.dir), s.p1.Dot(s.dir)
	return s.u0 + (s.u1-s.u0)*(w-w0)/(w1-w0)
}

// solve finds the point of a curve by Newton's method on the squared radius,
// kept between the ends. A step below a billionth of the segment is the last:
// the one after it would be below rounding.
func (b stand) solve(s *seg, q float64) spot {
	piece := b.elems[s.elem].piece
	lo, hi := s.u0, s.u1 // the radius rises from lo to hi; either may be larger
	small := 1e-9 * math.Abs(hi-lo)
	u := lo + (hi-lo)*(q-s.q0)/(s.q1-s.q0)
	for range 60 {
		f := piece.Frame(u)
		p := f.P.Add(b.shift)
		miss := p.Dot(p) - q
		if miss > 0 {
			hi = u
		} else {
			lo = u
		}
		next := u - miss/(2*p.Dot(f.V))
		if !((next-lo)*(next-hi) <= 0) {
			next = (lo + hi) / 2
		}
		step := math.Abs(next - u)
		u = next
		if step <= small {
			break
		}
	}
	return b.curveAt(s, u)
}

// curveAt returns a curved segment's point at parameter u.
func (b stand) curveAt(s *seg, u float64) spot {
	f := b.elems[s.elem].piece.Frame(u)
	p := f.P.Add(b.shift)
	d, k := p.Cross(f.V)/math.Sqrt(f.V.Dot(f.V)), f.K
	if s.in {
		d, k = -d, -k
	}
	return spot{p, d, u, k}
}

// appendSegs appends element k's outward segments whose outer end lies beyond
// the squared radius floor: where the radius rises along the loop to out, where
// it falls to in. A stretch at a single radius belongs to neither: its ends are
// those of its neighbours.
func (st stand) appendSegs(out, in []seg, k int32, floor float64) (o, i []seg) {
	e, shift := &st.elems[k], st.shift
	a, b := e.a.Add(shift), e.b.Add(shift)
	qa, qb := a.Dot(a), b.Dot(b)
	below := max(qa, qb) <= floor
	if below && e.piece == nil {
		return out, in
	}
	da, db := a.Dot(e.ta), b.Dot(e.tb)
	if concentric(qa, qb, da, db) {
		return out, in
	}
	if (da > 0 && db < 0) || (da < 0 && db > 0) {
		return st.appendTurning(out, in, k, floor)
	}
	if below {
		return out, in
	}
	switch {
	case qa < qb:
		out = append(out, seg{
			q0: qa, q1: qb, d0: a.Cross(e.ta), d1: b.Cross(e.tb), p0: a, p1: b, dir: e.ta,
			u0: e.u0, u1: e.u1, elem: k, curved: e.piece != nil,
		})
	case qa > qb:
		in = append(in, seg{
			q0: qb, q1: qa, d0: -b.Cross(e.tb), d1: -a.Cross(e.ta), p0: b, p1: a, dir: e.ta.Mul(-1),
			u0: e.u1, u1: e.u0, elem: k, curved: e.piece != nil, in: true,
		})
	}
	return out, in
}

// concentric reports whether a stretch lies on a circle about the axis as far as
// rounding lets one see: its radius then turns anywhere and nowhere.
func concentric(qa, qb, da, db float64) bool {
	const noise = 1e-12
	return math.Abs(qa-qb) <= noise*qa && da*da <= noise*noise*qa && db*db <= noise*noise*qb
}

// appendTurning splits the element where its radius has an extreme.
func (st stand) appendTurning(out, in []seg, k int32, floor float64) (o, i []seg) {
	e, shift := &st.elems[k], st.shift
	u := e.turningPoint(shift.Mul(-1))
	if !(u > math.Min(e.u0, e.u1) && u < math.Max(e.u0, e.u1)) {
		return out, in
	}
	m := e.at(u).Add(shift)
	t := e.ta
	if e.piece != nil {
		t = direction(e.piece, e.piece.Frame(u), u)
	}
	qm, dm := m.Dot(m), m.Cross(t)
	half := func(p, tp plane.Vec, u0 float64, first bool) {
		q := p.Dot(p)
		if max(q, qm) <= floor || q == qm {
			return
		}
		s := seg{elem: k, curved: e.piece != nil, in: (q > qm) == first}
		sign := 1.0
		if s.in {
			sign = -1
		}
		s.dir = e.ta.Mul(sign)
		d, dMid := sign*p.Cross(tp), sign*dm
		if q > qm {
			s.q0, s.q1, s.d0, s.d1, s.p0, s.p1, s.u0, s.u1 = qm, q, dMid, d, m, p, u, u0
		} else {
			s.q0, s.q1, s.d0, s.d1, s.p0, s.p1, s.u0, s.u1 = q, qm, d, dMid, p, m, u0, u
		}
		if s.in {
			in = append(in, s)
		} else {
			out = append(out, s)
		}
	}
	half(e.a.Add(shift), e.ta, e.u0, true)
	half(e.b.Add(shift), e.tb, e.u1, false)
	return out, in
}

// corner reports whether the segment's point of parameter u is a corner.
func (b stand) corner(s *seg, u float64) bool {
	e := &b.elems[s.elem]
	return (u == e.u0 && e.cornerA) || (u == e.u1 && e.cornerB)
}
