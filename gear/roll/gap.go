package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// Gap is the smallest distance between the two outlines with the ring in the
// middle of its play: where they come nearest to each other, flanks, tips and
// roots alike.
type Gap struct {
	Distance    float64 // mm; +Inf where every position binds
	PinionAngle float64
	RingAngle   float64
	OnPinion    plane.Vec // in the plane, the ring's axis at the origin
	OnRing      plane.Vec
	PinionTooth int
	RingTooth   int
}

// placed is an element in the ring's frame.
type placed struct {
	e     *element
	m     plane.Similarity
	same  bool      // m is the identity
	a, b  plane.Vec // its ends
	swell float64   // how far the element may leave its chord
	tooth int
}

// placeElements places elements, those left out that end inside the radius from.
func placeElements(elems []element, m plane.Similarity, same bool, tooth int, from float64, out []placed) []placed {
	for k := range elems {
		el := &elems[k]
		p := placed{e: el, m: m, same: same, tooth: tooth}
		p.a, p.b = p.point(el.a), p.point(el.b)
		if el.piece != nil {
			// An arc that turns by w leaves its chord c by c w/8; twice that for
			// stretches whose curvature is not constant.
			p.swell = el.b.Sub(el.a).Len() * maxTurn / 4
		}
		if r := from - p.swell; r > 0 && max(p.a.Dot(p.a), p.b.Dot(p.b)) < r*r {
			continue
		}
		out = append(out, p)
	}
	return out
}

func (p *placed) point(v plane.Vec) plane.Vec {
	if p.same {
		return v
	}
	return p.m.Point(v)
}

// frame returns point, derivative and curvature at u.
func (p *placed) frame(u float64) plane.Frame {
	var f plane.Frame
	if p.e.piece == nil {
		f = plane.Frame{P: p.e.at(u), V: p.e.b.Sub(p.e.a).Mul(1 / (p.e.u1 - p.e.u0))}
	} else {
		f = p.e.piece.Frame(u)
	}
	if !p.same {
		f.P, f.V = p.m.Point(f.P), p.m.Direction(f.V)
	}
	return f
}

// gap returns the smallest distance at the middle of the interval.
func (e *Engine) gap(v Interval) Gap {
	at := e.position(v.PinionAngle)
	ring := v.Mid()
	g := Gap{Distance: math.Inf(1), PinionAngle: v.PinionAngle, RingAngle: ring}
	m := plane.Turned(v.PinionAngle).Then(plane.Moved(plane.Vec{X: e.a})).Then(plane.Turned(-ring))
	// Half the play at the roots' radius bounds the distance from above.
	g.Distance = math.Max(0, v.Width())/2*e.ring.greatest*1.01 + 1e-9
	found := false
	var pins, rings []placed
	e.near(at, func(i int, alpha float64) {
		s, z := e.spaceOf(alpha, at), e.ring.teeth
		pins = placeElements(e.pinion.of(i), m, false, i, math.Sqrt(e.floor)-g.Distance, pins[:0])
		rings = rings[:0]
		for _, j := range [2]int{s, (s + z - 1) % z} {
			rings = placeElements(e.ring.of(j), plane.Same(), true, j, 0, rings)
		}
		found = nearest(pins, rings, &g) || found
	})
	if !found {
		g.Distance = math.Inf(1)
		return g
	}
	g.OnPinion, g.OnRing = g.OnPinion.Turn(ring), g.OnRing.Turn(ring)
	return g
}

// nearest lowers g to the smallest distance between two sets of elements: chords
// first, then the elements whose chords come near enough.
func nearest(pins, rings []placed, g *Gap) bool {
	found := false
	limit := g.Distance
	for i := range pins {
		p := &pins[i]
		for j := range rings {
			r := &rings[j]
			swell := p.swell + r.swell
			reach := math.Min(limit, g.Distance) + swell
			if apart(p.a, p.b, r.a, r.b, reach) {
				continue
			}
			c := math.Sqrt(chords(p.a, p.b, r.a, r.b))
			if c >= reach {
				continue
			}
			limit = math.Min(limit, c+swell)
			if a, b, dist := between(p, r); dist < g.Distance {
				found = true
				g.Distance, g.OnPinion, g.OnRing = dist, a, b
				g.PinionTooth, g.RingTooth = p.tooth, r.tooth
			}
		}
	}
	return found
}

// apart reports whether the boxes of two chords are farther apart than reach.
func apart(a, b, c, d plane.Vec, reach float64) bool {
	if min(a.X, b.X)-max(c.X, d.X) > reach || min(c.X, d.X)-max(a.X, b.X) > reach {
		return true
	}
	return min(a.Y, b.Y)-max(c.Y, d.Y) > reach || min(c.Y, d.Y)-max(a.Y, b.Y) > reach
}

// chords returns the squared distance of two lines that do not cross.
func chords(a, b, c, d plane.Vec) float64 {
	return min(toChord(a, c, d), toChord(b, c, d), toChord(c, a, b), toChord(d, a, b))
}

func toChord(p, a, b plane.Vec) float64 {
	d := p.Sub(onChord(p, a, b))
	return d.Dot(d)
}

// onChord returns the point of the line from a to b nearest to p.
func onChord(p, a, b plane.Vec) plane.Vec {
	v, w := b.Sub(a), p.Sub(a)
	t := w.Dot(v) / v.Dot(v)
	switch {
	case !(t > 0):
		return a
	case t >= 1:
		return b
	}
	return a.Add(v.Mul(t))
}

// between returns the nearest points of two elements: a common normal inside
// both, or one of the four ends against the other element.
func between(p, r *placed) (a, b plane.Vec, dist float64) {
	dist = math.Inf(1)
	keep := func(x, y plane.Vec) {
		if d := x.Sub(y).Len(); d < dist {
			a, b, dist = x, y, d
		}
	}
	keep(p.a, r.foot(p.a))
	keep(p.b, r.foot(p.b))
	keep(p.foot(r.a), r.a)
	keep(p.foot(r.b), r.b)
	if p.e.piece != nil || r.e.piece != nil {
		keep(commonNormal(p, r))
	}
	return a, b, dist
}

// foot returns the element's point nearest to x, by Newton's method on the
// projection, held to the element.
func (p *placed) foot(x plane.Vec) plane.Vec {
	if p.e.piece == nil {
		return onChord(x, p.a, p.b)
	}
	u := (p.e.u0 + p.e.u1) / 2
	for range 20 {
		f := p.frame(u)
		d := f.P.Sub(x)
		v2 := f.V.Dot(f.V)
		slope := v2 + d.Dot(plane.Vec{X: -f.V.Y, Y: f.V.X})*f.K*math.Sqrt(v2)
		if slope <= 0 {
			slope = v2
		}
		next := p.hold(u - d.Dot(f.V)/slope)
		if math.Abs(next-u) <= 1e-15*(math.Abs(u)+1) {
			break
		}
		u = next
	}
	return p.frame(u).P
}

// hold keeps a parameter on the element.
func (p *placed) hold(u float64) float64 {
	return math.Min(math.Max(u, math.Min(p.e.u0, p.e.u1)), math.Max(p.e.u0, p.e.u1))
}

// commonNormal looks for the points at which the line between the elements is
// normal to both, by Newton's method in both parameters, held to the elements.
func commonNormal(p, r *placed) (plane.Vec, plane.Vec) {
	u, v := (p.e.u0+p.e.u1)/2, (r.e.u0+r.e.u1)/2
	for range 12 {
		f, g := p.frame(u), r.frame(v)
		d := f.P.Sub(g.P)
		bend := func(h plane.Frame) float64 {
			return d.Dot(plane.Vec{X: -h.V.Y, Y: h.V.X}) * h.K * h.V.Len()
		}
		f1, f2 := d.Dot(f.V), -d.Dot(g.V)
		a, b := f.V.Dot(f.V)+bend(f), -f.V.Dot(g.V)
		c := g.V.Dot(g.V) - bend(g)
		det := a*c - b*b
		if det == 0 {
			break
		}
		nu, nv := p.hold(u-(f1*c-f2*b)/det), r.hold(v-(a*f2-b*f1)/det)
		if math.Abs(nu-u)+math.Abs(nv-v) <= 1e-15*(math.Abs(u)+math.Abs(v)+1) {
			break
		}
		u, v = nu, nv
	}
	return p.frame(u).P, r.frame(v).P
}
