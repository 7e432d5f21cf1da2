package drive

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
)

// processPlay is what the default backlash adds for the way of making, mm:
// common practice.
var processPlay = map[string]float64{"exact": 0, "cut": 0.10, "printed": 0.15}

// Resolve works the job out. Findings have their lines but no cures.
func Resolve(j *job.Job) *Design {
	d := teeth(j, settle(j))
	if d.Pair != nil {
		d.draw()
		d.measure()
		d.spend()
	}
	d.finish()
	return d
}

// teeth finds what needs no drawn outline: teeth, mesh, rims and holes. s is the
// job's wish, solved.
func teeth(j *job.Job, s solved) *Design {
	d := &Design{Job: j, from: s}
	d.Pair, d.Findings = s.again()
	d.sound = sound(d.Pair, d.Findings)
	d.Findings = superseded(d.Findings, d.sound)
	d.Findings = append(d.Findings, unmeasured(j)...)
	if d.Pair == nil {
		return d
	}
	d.Pinion = Member{Make: j.Pinion.Make, Making: making(j.Pinion)}
	d.Ring = Member{Make: j.Ring.Make, Making: making(j.Ring)}
	d.fit()
	d.load(s)
	d.checkTips()
	d.checkRoots()
	d.checkBed()
	d.checkTolerance()
	return d
}

// finish gives the findings their lines and order.
func (d *Design) finish() {
	for i := range d.Findings {
		f := &d.Findings[i]
		if f.Line == 0 {
			f.Line = d.Job.Line(f.About)
		}
	}
	find.Sort(d.Findings)
}

// wish turns the job into what the pair is resolved from.
func wish(j *job.Job) gear.Wish {
	t := j.Teeth
	half := func(s job.Setting) gear.Choice { return gear.Choice{Value: s.Value / 2, Given: s.Given} }
	same := func(s job.Setting) gear.Choice { return gear.Choice{Value: s.Value, Given: s.Given} }
	member := func(z int, shift job.Setting, m job.Member) gear.MemberWish {
		return gear.MemberWish{
			Teeth: z, Shift: same(shift), TipRadius: half(m.TipDiameter),
			Addendum: same(m.Addendum), Dedendum: same(m.Dedendum), RootRadius: same(m.RootRadius),
		}
	}
	return gear.Wish{
		Module: t.Module, PressureAngle: t.PressureAngle,
		Pinion:         member(t.Pinion, t.PinionShift, j.Pinion),
		Ring:           member(t.Ring, t.RingShift, j.Ring),
		CentreDistance: same(t.CentreDistance), Backlash: same(t.Backlash), Share: t.BacklashShare,
		RackType: t.Rack, LeastTip: t.LeastTip, Spread: j.Mounting.CentreDistanceSpread,
		ProcessPlay: math.Max(processPlay[j.Pinion.Making.Kind], processPlay[j.Ring.Making.Kind]),
	}
}

// making returns the allowances of a member; a bought one is as designed.
func making(m job.Member) gear.Making {
	if !m.Make {
		return gear.Making{}
	}
	k := m.Making
	return gear.Making{Shrinkage: k.Shrinkage, Growth: k.Growth, HoleShrink: k.HoleShrink, Kerf: k.Kerf}
}

// fit places bore, rim and screw holes and checks the walls between them.
func (d *Design) fit() {
	j, p := d.Job, d.Pair
	if b := j.Pinion.Bore; b != nil {
		d.Pinion.Bore = bore(b)
	}
	d.Pinion.Holes = holes(j.Pinion.Bolts)
	d.Ring.Holes = holes(j.Ring.Bolts)
	d.Ring.Outer = j.Ring.OuterDiameter.Value
	if !j.Ring.OuterDiameter.Given {
		d.Ring.Outer = part.OuterDiameter(p.Ring, d.Ring.Holes)
		p.Chosen = append(p.Chosen, gear.Chosen{Key: "ring.outer_diameter", Value: d.Ring.Outer,
			Reason: "root diameter plus twice the larger of 3.5 m and what the screw holes need, up to a whole mm"})
	}
	d.openCircles()
	d.fixings()
	d.Findings = append(d.Findings, part.CheckPinion(p.Pinion, d.Pinion.Bore, d.Pinion.Holes, limits(j.Pinion.Making))...)
	d.Findings = append(d.Findings, part.CheckRing(p.Ring, d.Ring.Outer, d.Ring.Holes, limits(j.Ring.Making))...)
}

func holes(b *job.Bolts) *part.Holes {
	if b == nil {
		return nil
	}
	return &part.Holes{
		Count: b.Count, Circle: b.Circle.Value, Diameter: b.Hole, Angle: b.Angle, Slot: b.SlotLength, Head: head(b.Drill, b.Side == "above"),
	}
}

// head returns the room for a screw's head, in the upper face or the lower one.
func head(d job.Drill, above bool) part.Head {
	return part.Head{Diameter: d.HeadDiameter, Depth: d.HeadDepth, Angle: d.HeadAngle, Above: above && d.HeadDiameter > 0}
}

// bore turns the job's bore into the part's.
func bore(b *job.Bore) *part.Bore {
	out := &part.Bore{
		Shape: b.Shape, Diameter: b.Diameter, AcrossFlat: b.AcrossFlat, Clearance: b.Clearance, FlatAngle: b.FlatAngle, Depth: b.Depth,
		Key: part.Key{Width: b.KeyWidth, Height: b.KeyHeight, Shaft: b.KeyDepth, Hub: b.KeyHub},
	}
	c := b.Coupling
	if c == nil {
		return out
	}
	out.Coupling = &part.Coupling{Above: c.Side == "above", Screws: part.Holes{
		Count: c.Count, Circle: c.Circle, Diameter: c.Hole, Angle: c.Angle, Head: head(c.Drill, c.Side == "below"),
	}}
	if r := c.Recess; r != nil {
		out.Coupling.Recess = &part.Recess{Count: r.Count, Circle: r.Circle, Diameter: r.Diameter, Depth: r.Depth, Angle: r.Angle}
	}
	return out
}

// openCircles puts screw holes whose circle is open in the middle of their rim.
func (d *Design) openCircles() {
	p := d.Pair
	choose := func(h *part.Holes, b *job.Bolts, key string, inner, outer float64) {
		if h == nil || b.Circle.Given {
			return
		}
		h.Circle = (inner + outer) / 2
		p.Chosen = append(p.Chosen, gear.Chosen{Key: key, Value: h.Circle, Reason: "middle of the rim"})
	}
	inner := 0.0
	if d.Pinion.Bore != nil {
		inner = 2 * d.Pinion.Bore.Reach()
	}
	choose(d.Pinion.Holes, d.Job.Pinion.Bolts, "pinion.bolts.circle", inner, p.Pinion.RootDiameter)
	choose(d.Ring.Holes, d.Job.Ring.Bolts, "ring.bolts.circle", p.Ring.RootDiameter, d.Ring.Outer)
}

// limits returns the least wall of a way of making: two lines when printed, one
// millimetre when cut (both common practice), half of one otherwise.
func limits(m job.Making) part.Limits {
	switch m.Kind {
	case "printed":
		return part.Limits{Wall: 2 * m.LineWidth}
	case "cut":
		return part.Limits{Wall: 1}
	}
	return part.Limits{Wall: 0.5}
}
