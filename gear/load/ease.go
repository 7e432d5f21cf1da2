package load

import (
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/involute"
)

// Taper is a tip relief: Amount mm off the flank along its normal at the tip,
// fading out as the square over Length mm along the line of action.
type Taper struct{ Amount, Length float64 }

// EasePinion returns the pinion's teeth made thicker by an arc in mm on the
// reference circle and taken back at their tips. The tip circle stays: the
// relieved flanks are drawn on to it.
//
// Errors: *InputError for a relief that the flank cannot hold and for teeth
// thicker than unthinned ones.
func EasePinion(p gear.Pinion, thicker float64, r Taper) (*gear.Flexible, error) {
	spec := p.Tooth.Spec
	if err := r.check(thicker, spec.Thinning); err != nil {
		return nil, err
	}
	spec.Thinning -= thicker
	t, err := involute.NewTooth(spec)
	if err != nil {
		return nil, err
	}
	f := &gear.Flexible{Thicker: thicker, Relief: r.Amount, Length: r.Length, Outline: gear.ToothLoop(t), TipThickness: t.ThicknessAt(t.TipRadius)}
	if r.Amount == 0 {
		return f, nil
	}
	over, begin, err := r.fit(t.Flank(1), false)
	if err != nil {
		return nil, err
	}
	halves := func(hand float64) (plain, eased plane.Piece) {
		a, b := t.Flank(hand), t.Flank(hand)
		a.T1, b.T0 = begin, begin
		b.T1 += over / b.Base
		return plane.NewCurve(a), plane.NewCurve(r.on(b, over, false))
	}
	p1, e1 := halves(1)
	p2, e2 := halves(-1)
	half := e2.At(1).Angle()
	if !(half > 0) {
		return nil, &InputError{"the tip relief in mm", r.Amount, "less than what brings the tip to a point"}
	}
	u := f.Outline.Unit
	f.Outline.Unit = append([]plane.Piece{u[0], p1, e1, plane.Arc{R: t.TipRadius, A0: -half, Sweep: 2 * half}, e2.Reverse(), p2.Reverse()}, u[4:]...)
	f.From, f.TipThickness = math.Hypot(t.BaseRadius, begin*t.BaseRadius), 2*t.TipRadius*half
	return f, nil
}

// EaseRing is EasePinion for the ring: its spaces get narrower, its tips are
// taken back toward its rim.
func EaseRing(g gear.Ring, thicker float64, r Taper) (*gear.Flexible, error) {
	spec := g.Space.Spec
	if err := r.check(thicker, spec.Widening); err != nil {
		return nil, err
	}
	spec.Widening -= thicker
	s, err := involute.NewSpace(spec)
	if err != nil {
		return nil, err
	}
	pitch := math.Pi / float64(spec.Teeth)
	f := &gear.Flexible{Thicker: thicker, Relief: r.Amount, Length: r.Length, Outline: gear.SpaceLoop(s), TipThickness: 2 * s.TipRadius * (pitch - s.HalfAngle(s.TipRadius))}
	if r.Amount == 0 {
		return f, nil
	}
	over, begin, err := r.fit(s.Flank(1), true)
	if err != nil {
		return nil, err
	}
	halves := func(hand float64) (plain, eased plane.Piece) {
		a, b := s.Flank(hand), s.Flank(hand)
		a.T0, b.T1 = begin, begin
		b.T0 -= over / b.Base
		return plane.NewCurve(a), plane.NewCurve(r.on(b, over, true))
	}
	p1, e1 := halves(1)
	p2, e2 := halves(-1)
	tooth := pitch - math.Abs(e1.At(0).Angle())
	if !(tooth > 0) {
		return nil, &InputError{"the tip relief in mm", r.Amount, "less than what brings the tip to a point"}
	}
	u := f.Outline.Unit
	n := len(u)
	unit := append([]plane.Piece{e2, p2}, u[1:n-2]...)
	f.Outline.Unit = append(unit, p1.Reverse(), e1.Reverse(), plane.Arc{R: s.TipRadius, A0: -pitch + tooth, Sweep: -2 * tooth})
	f.From, f.TipThickness = math.Hypot(s.BaseRadius, begin*s.BaseRadius), 2*s.TipRadius*tooth
	return f, nil
}

// check returns an *InputError for teeth made thicker than unthinned ones.
func (r Taper) check(thicker, thinning float64) error {
	if thicker >= 0 && thicker <= thinning+1e-12 && r.Amount >= 0 {
		return nil
	}
	return &InputError{"what is given back to the teeth's thickness in mm", thicker, fmt.Sprintf("from 0 to the %.6g that were taken off for backlash", thinning)}
}

// fit returns how much longer, mm of string, the flank gets until the relieved
// one meets the tip circle, and the roll angle at which the relief begins.
//
// The relieved flank at the string length e beyond the tip lies A (1 + e/L)^2
// back along the string, and so on the tip circle where that is e: a quadratic.
func (r Taper) fit(flank involute.Curve, ring bool) (over, begin float64, err error) {
	a := r.Amount / r.Length
	if !(r.Amount > 0 && a <= 0.2) {
		return 0, 0, &InputError{"the tip relief in mm", r.Amount, "more than 0, at most a fifth of its length"}
	}
	over = ((1 - 2*a) - math.Sqrt(1-4*a)) / (2 * a) * r.Length
	begin = flank.T1 - r.Length/flank.Base
	inside := begin > flank.T0
	if ring {
		begin = flank.T0 + r.Length/flank.Base
		inside = begin < flank.T1 && flank.T0 > over/flank.Base
	}
	if !inside {
		return 0, 0, &InputError{"the length of the tip relief in mm along the line of action", r.Length, "less than the flank's"}
	}
	return over, begin, nil
}

// on returns the relieved part of a flank that has been drawn on by over.
func (r Taper) on(flank involute.Curve, over float64, ring bool) Relieved {
	k := 1 + over/r.Length
	return Relieved{Curve: flank, Amount: r.Amount * k * k, Length: r.Length * k, Ring: ring}
}
