package gear

import (
	"fmt"
	"math"

	"ringtrack/gear/find"
	"ringtrack/involute"
)

// The figures of the rule by which open values are chosen, over m unless said.
const (
	formReserve      = 0.1  // least L_F of the pinion that the shift provides
	shiftStep        = 0.01 // shifts are multiples of this
	marginReserve    = 0.05 // least margin at a root, along the line of action
	clearanceReserve = 0.15 // least tip clearance, to which the spread is added
	landReserve      = 0.2  // least land of the pinion's tip
	baseReserve      = 0.02 // the ring's tip circle stays this far outside its base circle
	leastCorner      = 0.1  // the ring's corner arc is made no smaller to save the pinion's tip
	mostRingShift    = 0.5  // by which the ring's shift may grow so that tips pass
)

// chooseShifts settles x1, x2, the centre distance and alpha_w0 (step 1 of the
// rule): the smallest multiple of 0.01, not below 0, that leaves L_F >= 0.1 m,
// for both members, so that the centre distance stays the reference one; a given
// centre distance fixes the difference, a given shift the other one.
func (s *state) chooseShifts() bool {
	w := s.w
	p, r := w.Pinion.Shift, w.Ring.Shift
	least := math.Max(0, math.Ceil(s.rack1.SmallestShift(w.Pinion.Teeth, formReserve)/shiftStep-1e-9)*shiftStep)
	why := fmt.Sprintf("smallest multiple of 0.01 that leaves %.1f m of true flank below the pinion's pitch point on the line of action", formReserve)
	if least == 0 {
		why = "the rack undercuts nothing at this number of teeth: no shift is needed"
	}
	if w.CentreDistance.Given {
		return s.shiftsAtDistance(least, why)
	}
	switch {
	case p.Given && r.Given:
		s.x1, s.x2 = p.Value, r.Value
	case p.Given:
		s.x1, s.x2 = p.Value, p.Value
		s.choose("teeth.ring_shift", s.x2, "as the given pinion_shift, so that the centre distance is the reference one")
	case r.Given:
		s.x1, s.x2 = r.Value, r.Value
		s.choose("teeth.pinion_shift", s.x1, "as the given ring_shift, so that the centre distance is the reference one")
	default:
		s.x1, s.x2 = least, least
		s.choose("teeth.pinion_shift", s.x1, why)
		s.choose("teeth.ring_shift", s.x2, "as the pinion's, so that the centre distance is the reference one")
	}
	return s.distanceOfShifts()
}

// distanceOfShifts settles the centre distance at which unthinned teeth of the
// chosen shifts meet without play.
func (s *state) distanceOfShifts() bool {
	s.invW0 = s.involuteOf(s.x2 - s.x1)
	aw, err := involute.InvInverse(s.invW0)
	if err != nil || !s.setMesh((s.rb2()-s.rb1())/math.Cos(aw)) {
		limit := s.shiftDifference(0) + s.x1
		s.fault(find.Contradicts, "teeth.ring_shift", find.Num(s.x2), find.Num(limit), "",
			"with these shifts no centre distance brings the teeth together: ring_shift must be more than %.4g", limit)
		return false
	}
	return true
}

// shiftsAtDistance settles the shifts at a given centre distance.
func (s *state) shiftsAtDistance(least float64, why string) bool {
	w := s.w
	a := w.CentreDistance.Value
	if !s.setMesh(a) {
		s.fault(find.Contradicts, "teeth.centre_distance", find.Num(a), find.Num(s.rb2()-s.rb1()), "mm",
			"at this centre distance the base circles leave no line of action: it must be more than %.4f mm", s.rb2()-s.rb1())
		return false
	}
	s.invW0 = involute.Inv(s.nominal.alphaW)
	diff := s.shiftDifference(s.nominal.alphaW)
	p, r := w.Pinion.Shift, w.Ring.Shift
	switch {
	case p.Given && r.Given:
		s.x1, s.x2 = p.Value, r.Value
		s.invW0 = s.involuteOf(s.x2 - s.x1)
		return true
	case p.Given:
		s.x1, s.x2 = p.Value, p.Value+diff
	case r.Given:
		s.x1, s.x2 = r.Value-diff, r.Value
	default:
		s.x1, s.x2 = least, least+diff
	}
	if !p.Given {
		if r.Given {
			why = "what ring_shift and the given centre distance leave"
		}
		s.choose("teeth.pinion_shift", s.x1, why)
	}
	if !r.Given {
		s.choose("teeth.ring_shift", s.x2, "what pinion_shift and the given centre distance leave")
	}
	return s.shiftsInRange()
}

// shiftsInRange reports a shift that the given centre distance drives out of
// the allowed range.
func (s *state) shiftsInRange() bool {
	ok := true
	for _, x := range []struct {
		key string
		v   float64
	}{{"teeth.pinion_shift", s.x1}, {"teeth.ring_shift", s.x2}} {
		if x.v < -1 || x.v > 2 {
			ok = false
			limit := math.Min(2, math.Max(-1, x.v))
			s.fault(find.OutOfRange, "teeth.centre_distance", find.Num(x.v), find.Num(limit), "",
				"the given centre distance drives %s to %.4g; -1 to 2 is allowed", x.key[6:], x.v)
		}
	}
	return ok
}

// choose records one choice.
func (s *state) choose(key string, v float64, why string) {
	for i := range s.chosen {
		if s.chosen[i].Key == key {
			s.chosen[i] = Chosen{key, v, why}
			return
		}
	}
	s.chosen = append(s.chosen, Chosen{key, v, why})
}

// fault, caution and note record a finding about the job's key.
func (s *state) fault(code find.Code, about string, found, limit *float64, unit, format string, args ...any) {
	s.report(find.Fault, code, about, found, limit, unit, format, args...)
}

func (s *state) report(level find.Level, code find.Code, about string, found, limit *float64, unit, format string, args ...any) {
	s.findings = append(s.findings, find.Finding{
		Code: code, Level: level, About: about, Found: found, Limit: limit, Unit: unit,
		Text: fmt.Sprintf(format, args...),
	})
}

// toothSpec and spaceSpec join what is settled.
func (s *state) toothSpec(tip float64) involute.ToothSpec {
	return involute.ToothSpec{
		Module: s.m(), Teeth: s.w.Pinion.Teeth, Rack: s.rack1, Shift: s.x1, TipRadius: tip, Thinning: s.thin1,
	}
}

func (s *state) spaceSpec(tip, corner float64) involute.SpaceSpec {
	return involute.SpaceSpec{
		Module: s.m(), Teeth: s.w.Ring.Teeth, Rack: s.rack2, Shift: s.x2, TipRadius: tip, Corner: corner, Widening: s.wide2,
	}
}
