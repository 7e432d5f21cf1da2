package budget

import "math"

// perPitch is the number of positions a pitch at which displaced teeth are
// looked at.
const perPitch = 24

// extremes returns the least and the greatest that displaced teeth add, from
// place x over the given number of pitches, with the axes d mm further apart.
func (m *model) extremes(h *shape, x, d float64, pitches int) Effect {
	e := Effect{math.Inf(1), math.Inf(-1)}
	for i := range pitches * perPitch {
		v := m.local(h, x+2*math.Pi*float64(i)/float64(m.z2*perPitch), d)
		e.Least, e.Greatest = math.Min(e.Least, v), math.Max(e.Greatest, v)
	}
	return e
}

// curve is an effect over an amount from -most to most, in even steps, straight
// between and beyond them.
type curve struct {
	most float64
	at   []Effect
}

// curveSize is the number of steps of a curve, even, so that 0 is one of them.
const curveSize = 16

func newCurve(most float64, f func(float64) Effect) curve {
	c := curve{most: most}
	if most == 0 {
		return c
	}
	for i := range curveSize + 1 {
		c.at = append(c.at, f(most*(2*float64(i)/curveSize-1)))
	}
	return c
}

// of returns the effect of an amount.
func (c *curve) of(v float64) Effect {
	if c.most == 0 {
		return Effect{}
	}
	u := (v/c.most + 1) / 2 * curveSize
	i := min(max(int(u), 0), curveSize-1)
	f := u - float64(i)
	a, b := c.at[i], c.at[i+1]
	return Effect{a.Least + f*(b.Least-a.Least), a.Greatest + f*(b.Greatest-a.Greatest)}
}

// units holds what displaced teeth do to the play.
type units struct {
	pitch curve             // of an even error of the ring's pitch, as a fraction
	step  [stepDepths]curve // of a step at one joint, far from others, mm, over how far the axes stand apart
	oval  Effect            // per mm of ovality
}

// measure fills in the units for amounts up to those of the spreads; steps drawn
// by chance may be twice as large.
func (m *model) measure() {
	c := &m.s.Climate
	largest := 0.0
	for _, t := range []float64{c.Low, c.High} {
		for _, damp := range []float64{0, 1} {
			p, r, _ := c.growth(t, damp)
			largest = math.Max(largest, math.Abs(r-p))
		}
	}
	m.unit.pitch = newCurve(largest, func(v float64) Effect { return m.extremes(&shape{pitch: v}, 0, 0, 1) })
	if len(m.joints) > 0 {
		most := 2 * m.s.JointStep.Value
		for i := range m.unit.step {
			d := m.depth.reach * float64(i) / (stepDepths - 1)
			m.unit.step[i] = newCurve(most, func(v float64) Effect { return m.joint(v, d) })
		}
	}
	if o := m.s.RingOvality.Value; o != 0 {
		h := &shape{oval: o / 2}
		pitch := 2 * math.Pi / float64(m.z2)
		tight, loose := m.extremes(h, math.Pi/2-pitch/2, 0, 1), m.extremes(h, -pitch/2, 0, 1)
		m.unit.oval = Effect{tight.Least / o, loose.Greatest / o}
	}
}

// stepDepths is the number of distances, from the drawn one to the farthest that
// radial causes bring, at which steps are looked at: further apart, more teeth
// touch at once.
const stepDepths = 6

// stepAt returns the effect of a step where the axes stand d mm further apart.
func (m *model) stepAt(step, d float64) Effect {
	u := math.Min(math.Max(0, d/m.depth.reach), 1) * (stepDepths - 1)
	i := min(int(u), stepDepths-2)
	a, b, f := m.unit.step[i].of(step), m.unit.step[i+1].of(step), u-float64(i)
	return Effect{a.Least + f*(b.Least-a.Least), a.Greatest + f*(b.Greatest-a.Greatest)}
}

// joint returns what one step adds to the play of the teeth that meet near it,
// with the axes d mm further apart.
func (m *model) joint(step, d float64) Effect {
	mid := m.z2 / 2
	h := &shape{steps: []float64{step}, from: []int{mid}}
	const reach = 3
	e := m.extremes(h, 2*math.Pi*float64(mid-reach)/float64(m.z2), d, 2*reach)
	return Effect{math.Min(e.Least, 0), math.Max(e.Greatest, 0)}
}
