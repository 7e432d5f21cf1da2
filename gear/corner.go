package gear

import "math"

// tipCornerGap returns the least distance of the pinion's tip corner from the
// ring's root corner (arc or root circle) while a flank pair in contact passes,
// at the nominal centre distance; negative when it cuts in.
func (s *state) tipCornerGap() float64 {
	gap := func(l float64) float64 { return s.cornerDistance(l) }
	// The corner is deepest in the ring near the end of contact and after it.
	top := math.Sqrt(s.tooth.TipRadius*s.tooth.TipRadius - s.rb1()*s.rb1())
	lo, hi := top-s.basePitch(), top+2*s.basePitch()
	const n = 300
	best, at := math.Inf(1), lo
	for i := range n + 1 {
		l := lo + (hi-lo)*float64(i)/n
		if g := gap(l); g < best {
			best, at = g, l
		}
	}
	a, b := at-(hi-lo)/n, at+(hi-lo)/n
	for range 60 { // golden section
		const phi = 0.6180339887498949
		u, v := b-phi*(b-a), a+phi*(b-a)
		if gap(u) < gap(v) {
			b = v
		} else {
			a = u
		}
	}
	return math.Min(best, gap((a+b)/2))
}

// cornerDistance returns the distance from the pinion's tip corner to the
// ring's root corner when the flank pair's contact lies, or would lie, at the
// length l along the line of action; +Inf while the corner is elsewhere.
//
// The line of action touches the base circles at the polar angle alpha_w; the
// flanks in contact are those with hand +1 of package involute, whose string
// there has the length l (pinion) and l + a sin(alpha_w) (ring).
func (s *state) cornerDistance(l float64) float64 {
	t, p, n := s.tooth, s.space, s.nominal
	base1 := -t.Flank(1).Phase // half tooth angle on the base circle
	base2 := -p.Flank(1).Phase
	tooth := n.alphaW - l/n.rb1 + base1
	space := n.alphaW - (l+n.tangent)/n.rb2 + base2
	corner := tooth - t.HalfAngle(t.TipRadius)
	sc, cc := math.Sincos(corner)
	x, y := n.a+t.TipRadius*cc, t.TipRadius*sc
	ss, cs := math.Sincos(-space)
	x, y = cs*x-ss*y, ss*x+cs*y
	r, angle := math.Hypot(x, y), math.Atan2(y, x)
	if r < p.FormRadius || math.Abs(angle) > math.Pi/float64(p.Spec.Teeth) {
		return math.Inf(1)
	}
	if math.Abs(angle) < p.RootHalf() {
		return p.RootRadius - r
	}
	c := p.Corner(1)
	return c.R - math.Hypot(x-c.X, y+math.Copysign(c.Y, angle))
}
