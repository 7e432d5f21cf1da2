package gear

import (
	"fmt"
	"math"

	"ringtrack/gear/find"
	"ringtrack/involute"
)

// Resolve settles what the wish leaves open, by the rule in shift.go and
// tips.go, and works out the pair.
//
// The pair is nil only when no teeth can be drawn at all; the findings then
// hold a fault that says why. Findings come without lines and without cures.
func Resolve(w Wish) (*Pair, []find.Finding) {
	s := &state{w: w}
	if !s.chooseRacks() || !s.chooseShifts() {
		return nil, s.findings
	}
	if !s.letTipsPass() {
		return nil, s.findings
	}
	p := s.pair()
	s.checkSpread()
	s.checkTeeth(p)
	s.checkMesh(p)
	find.Sort(s.findings)
	return p, s.findings
}

// chooseRacks settles both basic racks.
func (s *state) chooseRacks() bool {
	var err1, err2 error
	s.rack1, s.rule1, err1 = s.w.rack(s.w.Pinion)
	s.rack2, s.rule2, err2 = s.w.rack(s.w.Ring)
	for _, e := range []struct {
		err  error
		who  string
		wish MemberWish
	}{{err1, "pinion", s.w.Pinion}, {err2, "ring", s.w.Ring}} {
		if e.err == nil {
			continue
		}
		about := "teeth.pressure_angle"
		if e.wish.RootRadius.Given {
			about = e.who + ".root_radius"
		} else if e.wish.Dedendum.Given {
			about = e.who + ".dedendum"
		}
		s.fault(find.RackWithoutLand, about, nil, nil, "", "no basic rack for the %s: %s", e.who, e.err)
		if err1 != nil && err2 != nil && err1.Error() == err2.Error() && about == "teeth.pressure_angle" {
			break // the same for both: say it once
		}
	}
	return err1 == nil && err2 == nil
}

// shape settles backlash, tips, tooth and space at the present shifts.
func (s *state) shape() bool {
	s.setBacklash()
	return s.shapePinion() && s.shapeRing()
}

// letTipsPass shapes the teeth and, where tip meets tip, lets an open ring shift
// grow until they pass (step 5 of the rule). If nothing helps, the shifts stay
// as they were.
func (s *state) letTipsPass() bool {
	before := len(s.findings)
	if !s.shape() {
		return false
	}
	if s.w.Ring.Shift.Given || s.w.CentreDistance.Given || s.margins().TipOnTip.Clear() {
		s.chooseRest()
		return true
	}
	start := *s
	for i := 1; float64(i)*shiftStep <= mostRingShift+1e-9; i++ {
		t := start
		t.chosen = append([]Chosen(nil), start.chosen...)
		t.findings = append([]find.Finding(nil), start.findings[:before]...)
		t.x2 = start.x2 + float64(i)*shiftStep
		if !t.distanceOfShifts() || !t.shape() {
			break
		}
		if t.margins().TipOnTip.Clear() {
			t.choose("teeth.ring_shift", t.x2, fmt.Sprintf("grown by %.2f until tip passes tip", float64(i)*shiftStep))
			*s = t
			break
		}
	}
	s.chooseRest()
	return true
}

// chooseRest records the choices that follow from the shifts.
func (s *state) chooseRest() {
	w := s.w
	if !w.CentreDistance.Given {
		s.choose("teeth.centre_distance", s.nominal.a, "where unthinned teeth of these shifts meet without play")
	}
	if !w.Backlash.Given {
		s.choose("teeth.backlash", s.backlash.Asked,
			"2/3 (0.06 + 0.0005 a + 0.03 m)/cos alpha_w, plus what the centre distance's spread can take, plus the process's share")
	}
	why := func(t tip, word string) string {
		if t.why == "" {
			return "full depth"
		}
		return fmt.Sprintf("%s by %.3f m, %s", word, math.Abs(t.full-t.radius)/s.m(), t.why)
	}
	if !w.Pinion.TipRadius.Given {
		s.choose("pinion.tip_diameter", 2*s.tip1.radius, why(s.tip1, "shortened"))
	}
	if !w.Ring.TipRadius.Given {
		s.choose("ring.tip_diameter", 2*s.tip2.radius, why(s.tip2, "shortened"))
	}
	if !w.Ring.RootRadius.Given && s.space.CornerRadius < s.rack2.RootRadius*s.m()*(1-1e-9) {
		reason := "reduced from the rack's to full round"
		if !s.space.FullRound {
			reason = "reduced from the rack's to stay out of the pinion's reach"
		}
		s.choose("ring.root_radius", s.space.CornerRadius/s.m(), reason)
	}
}

// pair gathers the figures of the finished pair.
func (s *state) pair() *Pair {
	w, n := s.w, s.nominal
	path := n.path(s.tooth, s.space)
	p := &Pair{
		Wish:                    w,
		ReferenceCentreDistance: s.r2() - s.r1(),
		CentreDistance:          n.a,
		WorkingPressureAngle:    n.alphaW,
		ContactRatio:            path.usable(s.basePitch()),
		ContactRatioFormula:     path.formula(s.basePitch()),
		Path:                    Path{path.ringTip, path.pinionForm, path.pinionTip, path.ringForm},
		Backlash:                s.backlash,
		TipClearancePinion:      s.space.RootRadius - n.a - s.tooth.TipRadius,
		TipClearanceRing:        s.space.TipRadius - n.a - s.tooth.RootRadius,
		Interference:            s.margins(),
		Chosen:                  s.chosen,
	}
	p.TipCornerGap = s.tipCornerGap()
	s.fillPinion(p, path)
	s.fillRing(p, path)
	return p
}

func (s *state) member(z int, x float64, rack involute.Rack, rule involute.RadiusRule) Member {
	d := s.m() * float64(z)
	return Member{
		Teeth: z, Module: s.m(), PressureAngle: s.w.PressureAngle, Rack: rack, RadiusRule: rule, Shift: x,
		ReferenceDiameter: d, BaseDiameter: d * math.Cos(s.w.PressureAngle),
	}
}

func (s *state) fillPinion(p *Pair, path path) {
	t := s.tooth
	m := s.member(s.w.Pinion.Teeth, s.x1, s.rack1, s.rule1)
	m.WorkingDiameter = m.BaseDiameter / math.Cos(s.nominal.alphaW)
	m.TipDiameter, m.RootDiameter, m.FormDiameter = 2*t.TipRadius, 2*t.RootRadius, 2*t.FormRadius
	m.ActiveDiameter = 2 * math.Hypot(t.BaseRadius, math.Max(path.ringTip, path.pinionForm))
	m.ToothThickness = t.Thickness
	m.SpaceWidth = math.Pi*s.m() - t.Thickness
	m.TipThickness = t.ThicknessAt(t.TipRadius)
	m.Thinning = s.thin1
	m.Pins = choosePin(t.IdealPin(math.Max(t.ReferenceRadius+s.x1*s.m(), (t.FormRadius+t.TipRadius)/2)),
		t.OverPins, func(q involute.Pins) bool {
			return q.Contact > t.FormRadius && q.Contact < t.TipRadius && q.Centre+q.Diameter/2 > t.TipRadius
		})
	p.Pinion = Pinion{Member: m, Tooth: t, Undercut: t.Undercut}
	if k, _, ok := t.SpanTeeth(); ok {
		p.Pinion.SpanTeeth, p.Pinion.SpanLength = k, t.Span(k)
	}
}

func (s *state) fillRing(p *Pair, path path) {
	q := s.space
	rack := s.rack2
	rack.RootRadius = q.CornerRadius / s.m()
	rule := s.rule2
	if rack.RootRadius < s.rack2.RootRadius*(1-1e-9) {
		rule = "the pinion's reach"
		if q.FullRound {
			rule = involute.RadiusOfRound
		}
	}
	m := s.member(s.w.Ring.Teeth, s.x2, rack, rule)
	m.WorkingDiameter = m.BaseDiameter / math.Cos(s.nominal.alphaW)
	m.TipDiameter, m.RootDiameter, m.FormDiameter = 2*q.TipRadius, 2*q.RootRadius, 2*q.FormRadius
	m.ActiveDiameter = 2 * math.Hypot(q.BaseRadius, math.Min(path.pinionTip, path.ringForm)+s.nominal.tangent)
	m.SpaceWidth = q.Width
	m.ToothThickness = math.Pi*s.m() - q.Width
	m.TipThickness = q.ToothThicknessAt(q.TipRadius)
	m.Thinning = s.wide2
	mid := (q.FormRadius + q.TipRadius) / 2
	m.Pins = choosePin(q.IdealPin(math.Min(math.Max(q.ReferenceRadius+s.x2*s.m(), q.TipRadius), mid)),
		q.BetweenPins, func(v involute.Pins) bool {
			return v.Contact > q.TipRadius && v.Contact < q.FormRadius &&
				v.Centre-v.Diameter/2 < q.TipRadius && v.Centre+v.Diameter/2 < q.RootRadius
		})
	p.Ring = Ring{Member: m, Space: q}
}

// choosePin returns the dimension for a drill shank near the ideal pin: in
// steps of 0.5 mm if one of those touches the true flanks and stands proud,
// otherwise of 0.1 mm; nil when none does.
func choosePin(ideal float64, measure func(float64) (involute.Pins, error), good func(involute.Pins) bool) *involute.Pins {
	for _, step := range []float64{0.5, 0.1} {
		first := math.Round(ideal / step)
		for _, k := range []float64{0, 1, -1, 2, -2, 3, -3} {
			d := math.Round((first+k)*step*10) / 10
			if d <= 0 {
				continue
			}
			if q, err := measure(d); err == nil && good(q) {
				return &q
			}
		}
	}
	return nil
}
