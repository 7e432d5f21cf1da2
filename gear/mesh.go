package gear

import (
	"math"

	"ringtrack/involute"
)

// mesh is two base circles at one centre distance.
type mesh struct {
	a        float64 // centre distance
	alphaW   float64 // working pressure angle
	tangent  float64 // a sin(alpha_w): between the two base tangent points
	rb1, rb2 float64
}

// meshAt returns the mesh at centre distance a; ok is false where the base
// circles leave no line of action (a < rb2 - rb1).
func meshAt(a, rb1, rb2 float64) (mesh, bool) {
	m := mesh{a: a, rb1: rb1, rb2: rb2}
	d := rb2 - rb1
	if !(a > d) {
		return m, false
	}
	m.tangent = math.Sqrt((a - d) * (a + d))
	m.alphaW = math.Atan2(m.tangent, d)
	return m, true
}

// path returns where on the line of action the members' circles lie, all from
// the pinion's base tangent point: the ring's tip, the pinion's form point, the
// pinion's tip and the ring's form point.
type path struct{ ringTip, pinionForm, pinionTip, ringForm float64 }

func (m mesh) path(p *involute.Tooth, r *involute.Space) path {
	return path{
		ringTip:    involute.StringLength(m.rb2, r.TipRadius) - m.tangent,
		pinionForm: p.FormLength,
		pinionTip:  involute.StringLength(m.rb1, p.TipRadius),
		ringForm:   r.FormLength - m.tangent,
	}
}

// usable returns the stretch of true contact over the base pitch: from the
// ring's tip or the pinion's form point, whichever comes later, to the
// pinion's tip.
func (p path) usable(basePitch float64) float64 {
	return math.Max(0, p.pinionTip-math.Max(p.ringTip, p.pinionForm)) / basePitch
}

// formula returns the contact ratio as the standards' formula has it.
func (p path) formula(basePitch float64) float64 { return (p.pinionTip - p.ringTip) / basePitch }

// tipToTip returns the angle between the two tip corners of a flank pair in
// contact where the tip circles cross on the leaving side, times the ring's tip
// radius: what is left before tip meets tip. crosses is false where the tip
// circles do not cross at all.
//
// Source: the trochoid interference condition of the handbooks (eq. 5-4 of that in
// testdata/published/metric-handbook.txt), as an arc.
func (m mesh) tipToTip(ra1, ra2 float64) (margin float64, crosses bool) {
	c1 := (ra2*ra2 - ra1*ra1 - m.a*m.a) / (2 * m.a * ra1)
	c2 := (m.a*m.a + ra2*ra2 - ra1*ra1) / (2 * m.a * ra2)
	if math.Abs(c1) >= 1 || math.Abs(c2) >= 1 {
		return 0, false
	}
	inv := involute.Inv
	w := inv(m.alphaW)
	t1 := math.Acos(c1) + inv(involute.PressureAngle(m.rb1, ra1)) - w
	t2 := math.Acos(c2) + inv(involute.PressureAngle(m.rb2, ra2)) - w
	return ra2 * (t1*m.rb1/m.rb2 - t2), true
}

// radialAssembly returns the same while the pinion is pushed in along the line
// of centres, for the worst position of a tooth: where both tip corners pass at
// the same distance from that line. A pinion larger than the ring's opening
// falls short by the difference of the radii. exists is false where no tooth
// comes to such a position.
//
// Source: the trimming condition of the handbooks (eq. 5-9, 5-10 of that in
// testdata/published/metric-handbook.txt), as an arc.
func (m mesh) radialAssembly(ra1, ra2 float64) (margin float64, exists bool) {
	if ra1 >= ra2 {
		return ra2 - ra1, true
	}
	a1, a2 := involute.PressureAngle(m.rb1, ra1), involute.PressureAngle(m.rb2, ra2)
	ratio := m.rb1 / m.rb2
	k := math.Cos(a1) / math.Cos(a2)
	s1 := (1 - k*k) / (1 - ratio*ratio)
	s2 := (1/(k*k) - 1) / (1/(ratio*ratio) - 1)
	if !(s1 >= 0 && s1 <= 1 && s2 >= 0 && s2 <= 1) {
		return 0, false
	}
	w := involute.Inv(m.alphaW)
	t1 := math.Asin(math.Sqrt(s1)) + involute.Inv(a1) - w
	t2 := math.Asin(math.Sqrt(s2)) + involute.Inv(a2) - w
	return ra2 * (t1*ratio - t2), true
}
