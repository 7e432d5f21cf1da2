package gear

import (
	"math"

	"ringtrack/gear/find"
)

// The limits of the checks. Common practice unless a source is named.
const (
	undercutNote     = 0.005 // over m: below this an undercut is a note
	lowContactRatio  = 1.2
	leastContact     = 1.0
	leastClearance   = 0.1 // over m: a tip clearance below this at the spread's end is a caution
	playNegligible   = 1e-9
	bindingTolerance = 1e-6 // mm of overlap that rounding of given values may cause
)

// checkSpread reports a spread that reaches past the last line of action.
func (s *state) checkSpread() {
	room := s.nominal.a - (s.rb2() - s.rb1())
	if s.w.Spread >= room {
		s.fault(find.OutOfRange, "mounting.centre_distance_spread", find.Num(s.w.Spread), find.Num(room), "mm",
			"at the smaller end of this spread the base circles leave no line of action: it must be less than %.4f mm", room)
	}
}

// checkTeeth reports what is wrong with either member's teeth alone.
func (s *state) checkTeeth(p *Pair) {
	m := s.m()
	if u := p.Pinion.Undercut; u > 0 {
		level := find.Caution
		if u < undercutNote*m {
			level = find.Note
		}
		s.report(level, find.Undercut, "teeth.pinion_shift", find.Num(u), find.Num(0), "mm",
			"the rack undercuts the pinion: %.3g mm of its involute are lost above the base circle", u)
	}
	for _, t := range []struct {
		who   string
		thick float64
	}{{"pinion", p.Pinion.TipThickness}, {"ring", p.Ring.TipThickness}} {
		if t.thick < s.w.LeastTip-1e-9 {
			s.fault(find.ThinTip, t.who+".tip_diameter", find.Num(t.thick), find.Num(s.w.LeastTip), "mm",
				"the %s's tips are %.3f mm wide; at least %.3f mm is needed", t.who, t.thick, s.w.LeastTip)
		}
	}
}

// checkMesh reports what is wrong with the mesh.
func (s *state) checkMesh(p *Pair) {
	s.checkMargins(p)
	s.checkContact()
	s.checkClearance("pinion", p.TipClearancePinion)
	s.checkClearance("ring", p.TipClearanceRing)
	s.checkPlay(p)
}

func (s *state) checkMargins(p *Pair) {
	tipKey := func(who string, t tip) string {
		if t.why == "" { // full depth or given: the tip itself is the matter
			return who + ".tip_diameter"
		}
		return "teeth.pinion_shift"
	}
	report := func(m Margin, code find.Code, about, text string) {
		if m.Clear() {
			return
		}
		s.fault(code, about, find.Num(m.Least()), find.Num(0), "mm",
			text+" (margin %.3f mm at %.3f mm centre distance, %.3f mm at %.3f mm)",
			m.Nominal, p.CentreDistance, m.AtSpread, m.AtCentre)
	}
	i := p.Interference
	report(i.RingTip, find.RingTipInterference, tipKey("ring", s.tip2), "the ring's tip runs into the pinion's root")
	report(i.PinionTip, find.PinionTipInterference, tipKey("pinion", s.tip1), "the pinion's tip runs into the ring's root corner")
	report(i.TipOnTip, find.TipOnTip, "teeth.ring_shift", "tip meets tip where the tip circles cross")
	if !i.Radial.Clear() {
		s.report(find.Note, find.RadialAssembly, "teeth.ring", find.Num(i.Radial.Least()), find.Num(0), "mm",
			"the pinion cannot be pushed in toward the ring: slide it in along its axis")
	}
}

// checkContact takes the least contact ratio over the spread.
func (s *state) checkContact() {
	least := math.Inf(1)
	for _, e := range s.ends() {
		least = math.Min(least, e.path(s.tooth, s.space).usable(s.basePitch()))
	}
	if least >= lowContactRatio {
		return
	}
	level, limit := find.Caution, lowContactRatio
	if least < leastContact {
		level, limit = find.Fault, leastContact
	}
	s.report(level, find.LowContactRatio, "teeth.pinion", find.Num(least), find.Num(limit), "",
		"the usable contact ratio falls to %.3f within the spread of the centre distance; %.1f is wanted", least, limit)
}

// checkClearance takes the tip clearance at the larger end of the spread.
func (s *state) checkClearance(who string, nominal float64) {
	c := nominal - s.w.Spread
	if c >= leastClearance*s.m()-1e-9 {
		return
	}
	mate := map[string]string{"pinion": "ring", "ring": "pinion"}[who]
	level, limit := find.Caution, leastClearance*s.m()
	if c <= 0 {
		level, limit = find.Fault, 0
	}
	s.report(level, find.SmallTipClearance, who+".tip_diameter", find.Num(c), find.Num(limit), "mm",
		"the %s's tip comes within %.3f mm of the %s's root at the end of the centre distance's spread", who, c, mate)
}

// checkPlay reports teeth that jam, play beyond what was asked and play that
// the spread uses up.
func (s *state) checkPlay(p *Pair) {
	b := p.Backlash
	if b.Free < -bindingTolerance {
		s.fault(find.Jams, "teeth.centre_distance", find.Num(b.Free), find.Num(0), "mm",
			"with both shifts given the teeth overlap by %.4f mm at this centre distance: it must be smaller, nearer the ring's centre", -b.Free)
	}
	if b.Circumferential > b.Asked+playNegligible {
		s.report(find.Caution, find.MuchPlay, "teeth.centre_distance", find.Num(b.Circumferential), find.Num(b.Asked), "mm",
			"shifts and centre distance alone leave %.3f mm of backlash where %.3f mm is asked for; nothing is thickened", b.Circumferential, b.Asked)
	}
	if b.AtFar < -playNegligible {
		s.report(find.Caution, find.LittleBacklash, "teeth.backlash", find.Num(b.AtFar), find.Num(0), "mm",
			"at the larger end of the centre distance's spread (%.3f mm) the teeth would bind by %.3f mm", s.far.a, -b.AtFar)
	}
}
