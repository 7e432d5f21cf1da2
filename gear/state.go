package gear

import (
	"math"

	"ringtrack/gear/find"
	"ringtrack/involute"
)

// state is a pair in the making: what Resolve has settled so far.
type state struct {
	w            Wish
	rack1, rack2 involute.Rack
	rule1, rule2 involute.RadiusRule
	x1, x2       float64
	invW0        float64 // inv alpha_w0 of the unthinned teeth without play; negative where they never meet
	nominal      mesh
	near, far    mesh // at both ends of the centre distance's spread
	backlash     Backlash
	thin1, wide2 float64 // arcs on the reference circles
	tip1, tip2   tip
	tooth        *involute.Tooth
	space        *involute.Space
	chosen       []Chosen
	findings     []find.Finding
}

// tip is a member's tip radius and why it is so.
type tip struct {
	radius, full float64
	why          string // empty: full depth, or given
}

func (s *state) m() float64   { return s.w.Module }
func (s *state) r1() float64  { return s.m() * float64(s.w.Pinion.Teeth) / 2 }
func (s *state) r2() float64  { return s.m() * float64(s.w.Ring.Teeth) / 2 }
func (s *state) rb1() float64 { return s.r1() * math.Cos(s.w.PressureAngle) }
func (s *state) rb2() float64 { return s.r2() * math.Cos(s.w.PressureAngle) }

// basePitch returns the distance of neighbouring flanks along the line of action.
func (s *state) basePitch() float64 { return math.Pi * s.m() * math.Cos(s.w.PressureAngle) }

// shiftDifference returns x2 - x1 of unthinned teeth that meet without play at
// the working pressure angle alphaW.
func (s *state) shiftDifference(alphaW float64) float64 {
	dz := float64(s.w.Ring.Teeth - s.w.Pinion.Teeth)
	return dz * (involute.Inv(alphaW) - involute.Inv(s.w.PressureAngle)) / (2 * math.Tan(s.w.PressureAngle))
}

// involuteOf is the inverse: inv alpha_w of unthinned teeth that meet without
// play at this difference x2 - x1; 0 or less where no centre distance brings
// them together.
func (s *state) involuteOf(difference float64) float64 {
	dz := float64(s.w.Ring.Teeth - s.w.Pinion.Teeth)
	return involute.Inv(s.w.PressureAngle) + 2*math.Tan(s.w.PressureAngle)*difference/dz
}

// setMesh settles centre distance and spread.
func (s *state) setMesh(a float64) bool {
	var ok bool
	if s.nominal, ok = meshAt(a, s.rb1(), s.rb2()); !ok {
		return false
	}
	s.far, _ = meshAt(a+s.w.Spread, s.rb1(), s.rb2())
	if s.near, ok = meshAt(a-s.w.Spread, s.rb1(), s.rb2()); !ok {
		s.near = s.nominal
	}
	return true
}

// ends returns the nominal mesh and both ends of the spread.
func (s *state) ends() [3]mesh { return [3]mesh{s.nominal, s.near, s.far} }
