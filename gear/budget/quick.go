package budget

import "math"

// quick finds the least and greatest play of an assembly over all meetings in
// closed form, from tables made once.
type quick struct {
	m         *model
	runout    float64  // mm of play that the ring's eccentricity swings either way
	ovalMid   float64  // mean and swing of the oval's part
	ovalSwing float64  //
	ring      []Effect // run-out and oval together, over their relative direction
	pinion    []Effect // run-out and tilt of the pinion, likewise
	turns     int      // pinion phases that come to one place of the ring
	joints    []float64
}

// tableSize is the number of relative directions in a table, turnSize that of
// the positions looked at for each.
const (
	tableSize = 180
	turnSize  = 72
)

// fewPhases is the number of pinion phases at one place of the ring below which
// they are looked at one by one; with more, a phase within 1/18 of a turn of
// every other comes, and the bound over all phases is taken.
const fewPhases = 9

func (m *model) quick() *quick {
	q := &quick{m: m, runout: m.s.RingRunout.Value * m.tanW, turns: m.turns()}
	o := m.ovality()
	q.ovalMid, q.ovalSwing = (o.Greatest+o.Least)/2, (o.Greatest-o.Least)/2
	q.ring = table(func(x, phase float64) float64 {
		return q.runout*math.Cos(x) + q.ovalSwing*math.Cos(2*x-phase)
	})
	q.pinion = table(func(x, phase float64) float64 { return m.pinionPart(x, 0, phase) })
	for _, j := range m.joints {
		q.joints = append(q.joints, 2*math.Pi*float64(j)/float64(m.z2))
	}
	return q
}

// pinionPart returns what the pinion's run-out and tilt add to the play at the
// pinion's angle phi, to first order.
func (m *model) pinionPart(phi, runout, tilt float64) float64 {
	return -m.s.PinionRunout.Value*m.tanW*math.Cos(phi+runout) + m.tilted(phi+tilt)
}

// table takes the extremes of f over x for every phase.
func table(f func(x, phase float64) float64) []Effect {
	out := make([]Effect, tableSize)
	for i := range out {
		phase := 2 * math.Pi * float64(i) / tableSize
		out[i] = Effect{math.Inf(1), math.Inf(-1)}
		for k := range turnSize {
			out[i] = out[i].hull(f(2*math.Pi*float64(k)/turnSize, phase))
		}
	}
	return out
}

// hull widens the effect to hold v on both sides.
func (e Effect) hull(v float64) Effect {
	return Effect{math.Min(e.Least, v), math.Max(e.Greatest, v)}
}

// at reads a table between its entries.
func at(t []Effect, phase float64) Effect {
	u := phase / (2 * math.Pi)
	u = (u - math.Floor(u)) * tableSize
	i := int(u)
	f := u - float64(i)
	a, b := t[i%tableSize], t[(i+1)%tableSize]
	return Effect{a.Least + f*(b.Least-a.Least), a.Greatest + f*(b.Greatest-a.Greatest)}
}

// part is a play in the making: what moves the axes, as an arc, and what does not.
type part struct{ radial, other float64 }

func (p part) sum() float64 { return p.radial + p.other }

// found is the least and the greatest so far.
type found struct {
	least, greatest part
	atJoint         bool // the least one lies at a joint
}

func (f *found) add(p part, joint bool) {
	if p.sum() < f.least.sum() {
		f.least, f.atJoint = p, joint
	}
	if p.sum() > f.greatest.sum() {
		f.greatest = p
	}
}

// extremes returns the least and greatest play of the assembly, and whether the
// least one lies at a joint.
func (q *quick) extremes(b *assembly) (e Effect, atJoint bool) {
	m := q.m
	c, pitch := m.changeOf(b)
	reach := m.reaches(c)
	f := q.smooth(b)
	for i, s := range b.steps {
		if s != 0 {
			q.near(b, q.joints[i], s, reach, &f)
		}
	}
	flat := m.unit.pitch.of(pitch)
	distance := c.distance
	c.distance = distance - (f.least.radial+q.ovalMid)/(2*m.tanW)
	e.Least = m.play(c) + f.least.other + flat.Least
	c.distance = distance - (f.greatest.radial+q.ovalMid)/(2*m.tanW)
	e.Greatest = m.play(c) + f.greatest.other + flat.Greatest
	return e, f.atJoint
}

// split divides what the pinion adds: run-out moves the axes, tilt does not.
func (q *quick) split(ring, pinion, step float64) part {
	r := q.m.s.PinionRunout.Value * q.m.tanW
	radial := math.Min(math.Max(pinion, -r), r)
	return part{ring + radial, pinion - radial + step}
}

// here returns what run-out and oval of the ring add at a place, less the oval's mean.
func (q *quick) here(b *assembly, x float64) float64 {
	return q.runout*math.Cos(x-b.ring) + q.ovalSwing*math.Cos(2*(x-b.oval))
}

// smooth returns the extremes of what comes round without joints. With one or
// two phases of the pinion at a place, the turn is walked in twelfths of a turn
// of the pinion; with more, a pinion's extreme comes near enough to the ring's.
func (q *quick) smooth(b *assembly) found {
	if q.turns > 2 {
		r, p := at(q.ring, 2*(b.oval-b.ring)), at(q.pinion, b.tilt-b.pinion)
		return found{least: q.split(r.Least, p.Least, 0), greatest: q.split(r.Greatest, p.Greatest, 0)}
	}
	f := none()
	n := 12 * q.m.z2 / q.m.z1
	for i := range n {
		x := 2 * math.Pi * float64(i) / float64(n)
		here := q.here(b, x)
		for k := range q.turns {
			f.add(q.split(here, q.m.pinionPart(q.m.pinionAngle(x, k), b.pinion, b.tilt), 0), false)
		}
	}
	return f
}

func none() found {
	return found{least: part{other: math.Inf(1)}, greatest: part{other: math.Inf(-1)}}
}

// near takes a joint in. Nothing is looked at in detail that cannot change what
// has been found elsewhere.
func (q *quick) near(b *assembly, x, step, reach float64, f *found) {
	here := q.here(b, x)
	u := q.m.stepAt(step, reach-(here+q.ovalMid)/(2*q.m.tanW))
	p := at(q.pinion, b.tilt-b.pinion)
	bound := Effect{here + u.Least + p.Least, here + u.Greatest + p.Greatest}
	if bound.Least >= f.least.sum() && bound.Greatest <= f.greatest.sum() {
		return
	}
	if q.turns < fewPhases {
		p = Effect{math.Inf(1), math.Inf(-1)}
		half := math.Pi / float64(q.m.z2)
		for k := range q.turns {
			for w := -1.0; w <= 1; w++ {
				p = p.hull(q.m.pinionPart(q.m.pinionAngle(x+w*half, k), b.pinion, b.tilt))
			}
		}
	}
	f.add(q.split(here, p.Least, u.Least), true)
	f.add(q.split(here, p.Greatest, u.Greatest), true)
}
