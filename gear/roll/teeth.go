package roll

import (
	"math"
	"math/cmplx"

	"ringtrack/gear/plane"
)

// member is one outline made ready: its elements tooth by tooth.
type member struct {
	name            string
	centre          plane.Vec // of the loop, in the member's frame
	elems           []element // tooth after tooth, in the loop's order within each
	first           []int32   // tooth i holds elems[first[i]:first[i+1]]
	teeth           int
	pitch           float64 // 2 pi/teeth
	phase           float64 // polar angle about the centre: of tooth 0 (pinion) or of space 0 (ring), within half a pitch of 0
	alike           bool    // all teeth are one unit turned, and the centre is true
	least, greatest float64 // radii about the axis
	inner, outer    float64 // radii about the centre
	spaceFirst      bool    // the phase is that of a space
}

// newMember prepares a loop. given is the number of teeth, 0 to count them.
func newMember(name string, l plane.Loop, off plane.Vec, given int, spaceFirst bool, join float64) (*member, error) {
	if err := sound(name, l, join, spaceFirst); err != nil {
		return nil, err
	}
	m := &member{name: name, centre: off, spaceFirst: spaceFirst}
	all := elements(l, off)
	if len(all) < 3 {
		return nil, bad(name, "the loop is a point")
	}
	m.radii(all)
	if err := m.findTeeth(all, given); err != nil {
		return nil, err
	}
	m.alike = l.Turns() == m.teeth && off == (plane.Vec{})
	m.deal(m.cutAtBorders(all))
	different := m.teeth
	if l.Turns() == m.teeth {
		different = 1
	}
	if at, tooth, found := m.crossesItself(different); found {
		return nil, bad(name, "the outline crosses itself at tooth %d, near (%.6g, %.6g) mm", tooth, at.X, at.Y)
	}
	return m, nil
}

// sound refuses loops that are not closed, not finite or run the wrong way.
func sound(name string, l plane.Loop, join float64, clockwise bool) error {
	for i, p := range l.Unit {
		for _, u := range []float64{0, 0.5, 1} {
			if q := p.At(u); math.IsNaN(q.X+q.Y) || math.IsInf(q.X, 0) || math.IsInf(q.Y, 0) {
				return bad(name, "piece %d of the outline has a point that is not a number", i)
			}
		}
	}
	if math.IsNaN(l.Centre.X+l.Centre.Y) || math.IsInf(l.Centre.X, 0) || math.IsInf(l.Centre.Y, 0) {
		return bad(name, "the outline's centre is not a number")
	}
	if err := l.Check(join); err != nil {
		return bad(name, "the outline is not closed: %v", err)
	}
	switch area := l.Area(); {
	case clockwise && !(area < 0):
		return bad(name, "the outline must run clockwise, with the material outside")
	case !clockwise && !(area > 0):
		return bad(name, "the outline must run counter-clockwise, with the material inside")
	}
	return nil
}

// radii takes the bounds of the outline's radii about axis and centre.
func (m *member) radii(all []element) {
	m.least, m.inner = math.Inf(1), math.Inf(1)
	for i := range all {
		for _, about := range []struct {
			c        plane.Vec
			lo, high *float64
		}{{plane.Vec{}, &m.least, &m.greatest}, {m.centre, &m.inner, &m.outer}} {
			lo, hi := all[i].reach(about.c)
			*about.lo, *about.high = math.Min(*about.lo, lo), math.Max(*about.high, hi)
		}
	}
}

// reach returns the least and greatest distance of the element from c.
func (e *element) reach(c plane.Vec) (lo, hi float64) {
	pa, pb := e.a.Sub(c), e.b.Sub(c)
	la, lb := pa.Len(), pb.Len()
	lo, hi = math.Min(la, lb), math.Max(la, lb)
	if da, db := pa.Dot(e.ta), pb.Dot(e.tb); da*db < 0 {
		r := e.at(e.turningPoint(c)).Sub(c).Len()
		lo, hi = math.Min(lo, r), math.Max(hi, r)
	}
	return lo, hi
}

// turningPoint returns the parameter at which the distance from c has its
// extreme inside the element.
func (e *element) turningPoint(c plane.Vec) float64 {
	if e.piece == nil {
		v := e.b.Sub(e.a)
		return e.u0 + (e.u1-e.u0)*c.Sub(e.a).Dot(v)/v.Dot(v)
	}
	return signChange(func(u float64) float64 {
		f := e.piece.Frame(u)
		return f.P.Sub(c).Dot(f.V)
	}, e.u0, e.u1)
}

// findTeeth counts the teeth and finds their phase. A tooth is where the outline
// passes beyond half its depth: the middles between rising and falling crossings
// of the circle half-way between the least and the greatest radius.
func (m *member) findTeeth(all []element, given int) error {
	depth := m.outer - m.inner
	if !(depth > 1e-6*m.outer) {
		return bad(m.name, "the outline has no teeth: it is a circle of radius %.6g mm", m.outer)
	}
	rises, falls := m.crossings(all, (m.inner+m.outer)/2, depth/8)
	count := len(rises)
	if count == 0 || len(falls) != count {
		return bad(m.name, "the outline has no teeth")
	}
	m.teeth = count
	if given > 0 {
		m.teeth = given
	}
	if m.teeth < 3 {
		return bad(m.name, "the outline has %d teeth; at least 3 are needed", m.teeth)
	}
	m.pitch = 2 * math.Pi / float64(m.teeth)
	sum := complex(0, 0)
	for i := range rises {
		// Going counter-clockwise the radius rises, then falls: between lies a
		// tooth of the pinion, or a space of the ring.
		width := math.Mod(falls[i]-rises[i]+4*math.Pi, 2*math.Pi)
		sum += cmplx.Rect(1, float64(m.teeth)*(rises[i]+width/2))
	}
	if cmplx.Abs(sum) < 0.5*float64(count) {
		return bad(m.name, "its %d teeth are not spread evenly as %d teeth would be", count, m.teeth)
	}
	m.phase = cmplx.Phase(sum) / float64(m.teeth)
	return nil
}

// crossings returns the polar angles about the centre at which the outline,
// followed counter-clockwise, crosses the circle of radius mid outward and, in
// the same order, inward again. Only crossings that go on to leave the band of
// half-width around the circle count.
func (m *member) crossings(all []element, mid, half float64) (rises, falls []float64) {
	type pass struct {
		angle float64
		out   bool
	}
	var passes []pass
	state, seen := 0, 0.0 // state: -1 inside the band's inner edge, +1 outside the outer
	n := len(all)
	start := m.outermost(all)
	state = 1
	for k := range n {
		e := &all[(start+k)%n]
		ra, rb := e.a.Sub(m.centre).Len(), e.b.Sub(m.centre).Len()
		if (ra < mid) != (rb < mid) {
			u := signChange(func(u float64) float64 { return e.at(u).Sub(m.centre).Len() - mid }, e.u0, e.u1)
			seen = e.at(u).Sub(m.centre).Angle()
		}
		if state > 0 && rb < mid-half {
			state = -1
			passes = append(passes, pass{seen, m.spaceFirst})
		} else if state < 0 && rb > mid+half {
			state = 1
			passes = append(passes, pass{seen, !m.spaceFirst})
		}
	}
	// The pinion runs counter-clockwise and begins with a fall, the ring
	// clockwise and begins with what is a rise counter-clockwise.
	for i := range passes {
		if passes[i].out {
			rises = append(rises, passes[i].angle)
		} else {
			falls = append(falls, passes[i].angle)
		}
	}
	if len(falls) == len(rises) && len(falls) > 0 {
		// Both began outermost: a pinion's rise k belongs to fall k+1, and so
		// does, counter-clockwise, a ring's.
		if m.spaceFirst {
			rises = append(rises[1:], rises[0])
		} else {
			falls = append(falls[1:], falls[0])
		}
	}
	return rises, falls
}

// outermost returns the element that starts farthest from the centre.
func (m *member) outermost(all []element) int {
	best, at := -1.0, 0
	for i := range all {
		if r := all[i].a.Sub(m.centre).Len(); r > best {
			best, at = r, i
		}
	}
	return at
}
