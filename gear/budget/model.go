package budget

import (
	"context"
	"math"

	"ringtrack/gear"
)

// model is the pair in numbers, with its spreads.
type model struct {
	p          *gear.Pair
	s          Spreads
	a          float64 // nominal centre distance
	cosW, tanW float64
	rb1, rb2   float64
	psi1, psi2 float64 // half angles of tooth and space on the base circles
	working    float64 // radius of the ring's working circle
	z1, z2     int
	zone       zone
	unit       units
	depth      depths
	joints     []int // spaces that hold a joint, rising
}

// newModel makes the pair ready.
//
// Errors: ctx.Err() when the context ends first.
func newModel(ctx context.Context, p *gear.Pair, s Spreads, workers int) (*model, error) {
	sin, cos := math.Sincos(p.WorkingPressureAngle)
	m := &model{
		p: p, s: s, a: p.CentreDistance, cosW: cos, tanW: sin / cos,
		rb1: p.Pinion.BaseDiameter / 2, rb2: p.Ring.BaseDiameter / 2,
		z1: p.Pinion.Teeth, z2: p.Ring.Teeth,
	}
	m.psi1 = p.Pinion.Tooth.HalfAngle(m.rb1)
	m.psi2 = p.Ring.Space.HalfAngle(m.rb2)
	m.working = m.rb2 / cos
	if err := m.measureDepths(ctx, workers); err != nil {
		return nil, err
	}
	m.zone = m.contactZone()
	if s.Segments > 1 {
		for i := range s.Segments {
			k := s.FirstJoint + int(math.Round(float64(i*m.z2)/float64(s.Segments)))
			m.joints = append(m.joints, ((k%m.z2)+m.z2)%m.z2)
		}
	}
	m.measure()
	return m, nil
}

// with returns the same model with other spreads.
func (m *model) with(s Spreads) *model {
	c := *m
	c.s = s
	return &c
}

// change is what moves a pair as a whole.
type change struct {
	distance            float64 // mm added to the centre distance
	flank1, flank2      float64 // mm by which flanks stand further out of the material
	grow1, grow2, plate float64 // linear growth of pinion, ring and plate
	deeper              float64 // mm by which teeth reach further in, for tips and roots alone
}

// play returns j_wt, mm, an arc on the nominal working circles, for a tooth in
// mid space: that of the involutes, and what tips and roots take from it.
func (m *model) play(c change) float64 {
	return m.involutes(c) + m.depth.of(m.reaches(c))
}

// reaches returns how much further than drawn the teeth reach into each other, mm.
func (m *model) reaches(c change) float64 {
	r2 := m.working
	r1 := r2 * float64(m.z1) / float64(m.z2)
	return m.a*c.plate + c.distance + c.deeper + r1*c.grow1 - r2*c.grow2
}

// involutes returns the play by the formula of involutes alone. A centre distance at which the base circles leave no line of action
// gives the play at the least one that does.
func (m *model) involutes(c change) float64 {
	rb1, rb2 := m.rb1*(1+c.grow1), m.rb2*(1+c.grow2)
	d := rb2 - rb1
	a := m.a*(1+c.plate) + c.distance
	inv := 0.0
	if a > d {
		t := math.Sqrt((a-d)*(a+d)) / d
		inv = t - math.Atan(t)
	}
	normal := 2*(rb2*m.psi2-rb1*m.psi1) - 2*d*inv - 2*(c.flank1+c.flank2)
	return normal / m.cosW
}

// nominal returns j_wt as designed.
func (m *model) nominal() float64 { return m.involutes(change{}) }

// climate returns what temperature and moisture do to the play of a tooth in mid
// space, and by how much the ring's pitch then exceeds the pinion's, as a
// fraction.
func (m *model) climate(temperature, damp float64) (c change, pitch float64) {
	c.grow1, c.grow2, c.plate = m.s.Climate.growth(temperature, damp)
	return c, c.grow2 - c.grow1
}

// tilted returns what a tilt adds to the play of true involutes while its
// direction stands at the angle psi from the line of centres: at one end of the
// face it takes from one flank, at the other end from the other.
func (m *model) tilted(psi float64) float64 {
	sin, cos := math.Sincos(psi)
	return -m.s.Tilt.Value * m.s.FaceWidth * math.Max(m.tanW*math.Abs(cos), math.Abs(sin))
}

// leaning returns the play while the pinion leans in the direction psi. Each flank
// is bounded at the end of the face where it has least room; roots and tips take
// half of what they take from each.
func (m *model) leaning(c change, psi float64) float64 {
	half := m.s.Tilt.Value * m.s.FaceWidth / 2
	if half == 0 {
		return m.play(c)
	}
	sin, cos := math.Sincos(psi)
	d := m.reaches(c)
	up, down := m.depth.of(d+half*cos)/2, m.depth.of(d-half*cos)/2
	one, other := half*(sin+m.tanW*cos), half*(m.tanW*cos-sin)
	return m.involutes(c) + math.Min(up-one, down+one) + math.Min(up-other, down+other)
}
