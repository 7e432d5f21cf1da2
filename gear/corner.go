package gear

import (
	"math"

	"ringtrack/involute"
)

// tipCornerGap returns the least distance of the pinion's tip corner from the
// ring's root corner (arc or root circle) while a flank pair in contact passes,
// at the nominal centre distance; negative when it cuts in.
func (s *state) tipCornerGap() float64 {
	gap := s.cornerDistance
	// The corner is deepest in the ring where it crosses the line of centres,
	// before it leaves contact at the length top.
	top := involute.StringLength(s.rb1(), s.tooth.TipRadius)
	deepest := s.rb1() * (s.nominal.alphaW + involute.Inv(involute.PressureAngle(s.rb1(), s.tooth.TipRadius)))
	lo, hi := math.Min(top, deepest)-s.basePitch(), top+s.basePitch()
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
// length l along the line of action; +Inf while the corner is in another space.
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
	if math.Abs(angle) > math.Pi/float64(p.Spec.Teeth) {
		return math.Inf(1)
	}
	if math.Abs(angle) < p.RootHalf() {
		return p.RootRadius - r
	}
	// The arc of the flank that is nearer; the other one is its mirror image.
	c := p.Corner(1)
	dx, dy := x-c.X, -math.Abs(y)-c.Y
	along := math.Atan2(math.Sin(math.Atan2(dy, dx)-c.From), math.Cos(math.Atan2(dy, dx)-c.From)) / (c.To - c.From)
	if along >= 0 && along <= 1 {
		return c.R - math.Hypot(dx, dy)
	}
	// Nearest is one of the arc's ends, at the flank or at the root circle.
	end := func(a float64) float64 {
		s, k := math.Sincos(a)
		return math.Hypot(dx-c.R*k, dy-c.R*s)
	}
	return math.Min(end(c.From), end(c.To))
}
