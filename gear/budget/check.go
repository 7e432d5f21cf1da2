package budget

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

// checking collects what is wrong with the input.
type checking struct{ found []find.Finding }

func (c *checking) fault(code find.Code, about string, found, limit float64, unit, format string, args ...any) {
	f := find.Finding{Code: code, Level: find.Fault, About: about, Unit: unit, Text: text(format, args...)}
	if finite(found) {
		f.Found = find.Num(found)
	}
	if finite(limit) {
		f.Limit = find.Num(limit)
	}
	c.found = append(c.found, f)
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// within refuses what is not a number from 0 to most.
func (c *checking) within(about, what string, v, most float64, unit, why string) {
	switch {
	case !finite(v):
		c.fault(find.OutOfRange, about, v, most, unit, "%s is not a number", what)
	case v < 0:
		c.fault(find.OutOfRange, about, v, 0, unit, "%s is %g %s; a spread is never negative", what, v, unit)
	case v > most:
		c.fault(find.OutOfRange, about, v, most, unit, "%s is %g %s; more than %g %s%s cannot be carried through", what, v, unit, most, unit, why)
	}
}

// check returns a fault for everything in the input that has no budget.
func check(p *gear.Pair, s Spreads, o Options) []find.Finding {
	var c checking
	c.lengths(p, s)
	c.joints(p, s, o)
	c.climate(s.Climate)
	c.target(p, o)
	find.Sort(c.found)
	return c.found
}

func (c *checking) lengths(p *gear.Pair, s Spreads) {
	m := p.Pinion.Module
	for _, a := range []struct {
		about, what string
		v           float64
	}{
		{"making.pinion.spread", "the pinion's making spread", s.MakingPinion.Value},
		{"making.ring.spread", "the ring's making spread", s.MakingRing.Value},
		{"mounting.centre_distance_spread", "the spread of the centre distance", s.CentreDistance.Value},
		{"mounting.bearing_play", "the bearing's play", s.BearingPlay.Value},
		{"mounting.ring_runout", "the ring's run-out", s.RingRunout.Value},
		{"mounting.pinion_runout", "the pinion's run-out", s.PinionRunout.Value},
		{"mounting.ring_ovality", "the ring's ovality", s.RingOvality.Value},
		{"mounting.joint_step", "the step at the joints", s.JointStep.Value},
	} {
		c.within(a.about, a.what, a.v, m, "mm", " (the module)")
	}
	deg := 180 / math.Pi
	switch {
	case s.Tilt.Value == 0:
	case !(s.FaceWidth > 0) || !finite(s.FaceWidth):
		c.fault(find.OutOfRange, "ring.face_width", s.FaceWidth, 0, "mm", "a tilt needs a face width above 0 mm; it is %g", s.FaceWidth)
	default:
		c.within("mounting.tilt", "the tilt", s.Tilt.Value*deg, m/s.FaceWidth*deg, "deg", " (the module over the face width)")
	}
}

func (c *checking) joints(p *gear.Pair, s Spreads, o Options) {
	const about = "mounting.joint_step"
	switch {
	case s.Segments < 0 || s.Segments > p.Ring.Teeth:
		c.fault(find.OutOfRange, "ring.segments", float64(s.Segments), float64(p.Ring.Teeth), "", "%d segments for %d teeth", s.Segments, p.Ring.Teeth)
	case s.Segments < 2 && s.JointStep.Value > 0:
		c.fault(find.Contradicts, about, s.JointStep.Value, 0, "mm", "a step at the joints is given, but the ring has none: it is one piece")
	}
	d := o.Directions
	if d == nil {
		return
	}
	if !finite(d.Ring, d.Oval, d.Pinion, d.Tilt) || !finite(d.Steps...) {
		c.fault(find.OutOfRange, "mounting", math.NaN(), math.NaN(), "", "a measured direction or step is not a number")
	}
	joints := s.Segments
	if joints < 2 {
		joints = 0
	}
	if n := len(d.Steps); n != 0 && n != joints {
		c.fault(find.Contradicts, about, float64(n), float64(joints), "", "%d steps are measured for %d joints", n, joints)
	}
	for _, v := range d.Steps {
		if math.Abs(v) > p.Pinion.Module {
			c.fault(find.OutOfRange, about, v, p.Pinion.Module, "mm", "a measured step of %g mm is larger than the module", v)
		}
	}
}

func (c *checking) climate(k Climate) {
	const about = "mounting.temperature"
	switch {
	case !finite(k.Low, k.High, k.Set):
		c.fault(find.OutOfRange, about, math.NaN(), math.NaN(), "degC", "a temperature is not a number")
	case k.Low > k.High:
		c.fault(find.Contradicts, about, k.Low, k.High, "degC", "the lowest temperature, %g degC, is above the highest, %g degC", k.Low, k.High)
	case k.Low < -100 || k.High > 200:
		c.fault(find.OutOfRange, about, k.High, 200, "degC", "temperatures from %g to %g degC; -100 to 200 can be carried through", k.Low, k.High)
	case k.Set < k.Low || k.Set > k.High:
		c.fault(find.Contradicts, about, k.Set, math.NaN(), "degC", "the drive is set at %g degC, which is outside its range of %g to %g degC", k.Set, k.Low, k.High)
	}
	for _, b := range []struct {
		about, who string
		m          Movement
	}{{"pinion.material", "pinion", k.Pinion}, {"ring.material", "ring", k.Ring}, {"mounting.base", "base plate", k.Base}} {
		if !finite(b.m.Expansion, b.m.Moisture) || math.Abs(b.m.Expansion) > 1e-3 || b.m.Moisture < 0 || b.m.Moisture > 0.05 {
			c.fault(find.OutOfRange, b.about, math.NaN(), math.NaN(), "",
				"the %s grows by %g per kelvin and %g by moisture; up to 0.001 and 0.05 can be carried through", b.who, b.m.Expansion, b.m.Moisture)
		}
	}
}

func (c *checking) target(p *gear.Pair, o Options) {
	c.within("teeth.backlash", "the least play to keep", o.Target, p.Pinion.Module, "mm", " (the module)")
	if b := p.Backlash; b.Source == "given" && o.Target > b.Asked && finite(o.Target) {
		c.fault(find.Contradicts, "teeth.backlash", b.Asked, o.Target, "mm",
			"the play contradicts itself: %s mm of backlash cannot keep at least %s mm", num(b.Asked), num(o.Target))
	}
	if !finite(o.RimRadius) || o.RimRadius < 0 {
		c.fault(find.OutOfRange, "platform.diameter", o.RimRadius, 0, "mm", "the platform's radius is %g mm", o.RimRadius)
	}
}
