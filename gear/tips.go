package gear

import (
	"errors"
	"fmt"
	"math"

	"ringtrack/gear/find"
	"ringtrack/involute"
)

// shapePinion builds the pinion's tooth with its tip at full depth or where its
// land is still wide enough (step 2 of the rule), or where it is given.
func (s *state) shapePinion() bool {
	t := s.w.Pinion.TipRadius
	s.tip1 = tip{full: s.r1() + s.m()*(s.rack1.Addendum+s.x1)}
	s.tip1.radius = t.or(s.tip1.full)
	point := s.toothSpec(0).PointRadius()
	if t.Given && s.tip1.radius >= point {
		s.fault(find.PointedTip, "pinion.tip_diameter", find.Num(2*t.Value), find.Num(2*point), "mm",
			"the pinion's teeth come to a point at a diameter of %.3f mm, inside the tip circle", 2*point)
	}
	s.tip1.radius = math.Min(s.tip1.radius, point*(1-1e-6))
	if !s.buildTooth() {
		return false
	}
	if t.Given {
		return true
	}
	land := math.Max(landReserve*s.m(), s.w.LeastTip)
	if r := s.tooth.RadiusOfLand(land, s.tip1.full); r > s.tooth.FormRadius*(1+1e-9) {
		s.lowerPinionTip(r, fmt.Sprintf("so that its land is %.3g mm wide", land))
	}
	return s.buildTooth()
}

// lowerPinionTip lowers an open tip to r and remembers why.
func (s *state) lowerPinionTip(r float64, why string) {
	if r < s.tip1.radius || (s.tip1.why == "" && r < s.tip1.full) {
		s.tip1.radius, s.tip1.why = math.Min(r, s.tip1.radius), why
	}
}

// buildTooth makes the tooth at the settled tip, or reports why there is none.
func (s *state) buildTooth() bool {
	t, err := involute.NewTooth(s.toothSpec(s.tip1.radius))
	if err == nil {
		s.tooth = t
		return true
	}
	var d *involute.DomainError
	errors.As(err, &d)
	switch d.Cause {
	case involute.RootLost:
		s.fault(find.OutlineLost, "teeth.pinion_shift", find.Num(2*d.Value), find.Num(0), "mm",
			"nothing is left of the pinion's root circle: its diameter would be %.3f mm", 2*d.Value)
	case involute.CutOff:
		s.fault(find.Undercut, "teeth.pinion_shift", find.Num(d.Value), find.Num(0), "mm",
			"undercut cuts the pinion's teeth off at their root (%.3f mm would be left)", d.Value)
	case involute.TipInside:
		about := "teeth.pinion_shift"
		if s.w.Pinion.TipRadius.Given {
			about = "pinion.tip_diameter"
		}
		s.fault(find.OutlineLost, about, find.Num(2*d.Value), nil, "mm",
			"the pinion's tip circle (%.3f mm) leaves no true flank above its root", 2*d.Value)
	default:
		s.fault(find.OutlineLost, "teeth.pinion", nil, nil, "", "the pinion has no valid tooth: %s", err)
	}
	return false
}

// shapeRing builds the ring's space: its tip by steps 3 and 4 of the rule, or
// as given; its root corners so that the pinion's tip stays on the true flank;
// and lowers the pinion's tip where the ring's root asks for it.
func (s *state) shapeRing() bool {
	s.raiseRingTip()
	clear := clearanceReserve*s.m() + s.w.Spread
	if !s.w.Pinion.TipRadius.Given {
		root := s.r2() + s.m()*(s.rack2.Dedendum+s.x2)
		s.lowerPinionTip(root-s.nominal.a-clear, fmt.Sprintf("so that %.3g mm stay clear of the ring's root", clear))
		if !s.buildTooth() {
			return false
		}
	}
	for range 4 {
		if !s.buildSpace() {
			return false
		}
		if s.w.Pinion.TipRadius.Given || !s.pinionTipTooHigh(clear) {
			return true
		}
		if !s.buildTooth() {
			return false
		}
	}
	return true
}

// raiseRingTip settles the ring's tip radius.
func (s *state) raiseRingTip() {
	m := s.m()
	s.tip2 = tip{full: s.r2() - m*(s.rack2.Addendum-s.x2)}
	t := s.w.Ring.TipRadius
	s.tip2.radius = t.or(s.tip2.full)
	base := s.rb2() + baseReserve*m
	if t.Given {
		if t.Value < base {
			s.fault(find.RingTipInterference, "ring.tip_diameter", find.Num(2*t.Value), find.Num(2*base), "mm",
				"the ring's tip circle must stay %.3g mm outside its base circle, where its flanks begin: at least %.3f mm in diameter",
				baseReserve*m, 2*base)
			s.tip2.radius = base
		}
		return
	}
	raise := func(r float64, why string) {
		if r > s.tip2.radius {
			s.tip2.radius, s.tip2.why = r, why
		}
	}
	raise(base, fmt.Sprintf("to stay %.3g mm outside the ring's base circle", baseReserve*m))
	for _, e := range s.ends() {
		l := e.tangent + s.tooth.FormLength + marginReserve*m
		raise(math.Hypot(s.rb2(), l), fmt.Sprintf(
			"so that it stays %.3g mm clear of the pinion's root fillet at %.3f mm centre distance", marginReserve*m, s.far.a))
	}
	clear := clearanceReserve*m + s.w.Spread
	raise(s.nominal.a+s.tooth.RootRadius+clear, fmt.Sprintf("so that %.3g mm stay clear of the pinion's root", clear))
}

// reach returns the ring's string length that the pinion's tip comes to at the
// end of the spread where it reaches farthest, with the reserve.
func (s *state) reach() float64 {
	return s.far.tangent + involute.StringLength(s.rb1(), s.tooth.TipRadius) + marginReserve*s.m()
}

// buildSpace makes the space with the largest corner arc, up to the rack's, that
// keeps out of the pinion's reach.
func (s *state) buildSpace() bool {
	corner := s.rack2.RootRadius * s.m()
	p, err := involute.NewSpace(s.spaceSpec(s.tip2.radius, corner))
	if err == nil && !s.w.Ring.RootRadius.Given && p.FormLength < s.reach() {
		corner = math.Min(corner, math.Max(p.CornerFor(s.reach()), leastCorner*s.m()))
		p, err = involute.NewSpace(s.spaceSpec(s.tip2.radius, corner))
	}
	if err == nil {
		s.space = p
		return true
	}
	var d *involute.DomainError
	errors.As(err, &d)
	about := "teeth.ring_shift"
	switch {
	case d.Cause == involute.Pointed:
		s.fault(find.PointedTip, about, find.Num(d.Value), find.Num(0), "mm",
			"the ring's teeth come to a point before their tip circle")
	case d.Cause == involute.BadCorner && s.w.Ring.RootRadius.Given:
		s.fault(find.OutlineLost, "ring.root_radius", find.Num(s.w.Ring.RootRadius.Value), nil, "x m",
			"no arc of this radius stands in the ring's root corners")
	default:
		if s.w.Ring.TipRadius.Given {
			about = "ring.tip_diameter"
		}
		s.fault(find.OutlineLost, about, find.Num(2*s.tip2.radius), nil, "mm",
			"the ring has no valid tooth space: %s", err)
	}
	return false
}

// pinionTipTooHigh lowers an open pinion tip to what the finished ring root
// allows and reports whether it had to.
func (s *state) pinionTipTooHigh(clear float64) bool {
	before := s.tip1.radius
	s.lowerPinionTip(s.space.RootRadius-s.nominal.a-clear, fmt.Sprintf("so that %.3g mm stay clear of the ring's root", clear))
	if l := s.space.FormLength - s.far.tangent - marginReserve*s.m(); l > 0 {
		s.lowerPinionTip(math.Hypot(s.rb1(), l), fmt.Sprintf(
			"so that it stays %.3g mm short of the ring's root corner at %.3f mm centre distance", marginReserve*s.m(), s.far.a))
	}
	return s.tip1.radius < before-1e-12
}
