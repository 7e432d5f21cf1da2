package drive

import (
	"math"
	"strings"

	"ringtrack/gear/job"
	"ringtrack/involute"
)

// span is where a key stands now, as it would be written in the job file, how
// far either way the design stays much the same, and where a cure may go.
type span struct{ now, near, least, most, step float64 }

// rangeOf returns the span of a numeric key that cures may change; ok is false
// for keys that they may not, or that have no meaning in this job.
func (d *Design) rangeOf(key string) (span, bool) {
	j := d.Job
	m := j.Teeth.Module
	deg := 180 / math.Pi
	section, name := key[:strings.IndexByte(key, '.')], key[strings.LastIndexByte(key, '.')+1:]
	switch key {
	case "teeth.pinion":
		z := float64(j.Teeth.Pinion)
		return span{z, math.Max(6, 0.3*z), 5, math.Min(300, float64(j.Teeth.Ring-1)), 1}, true
	case "teeth.ring":
		z := float64(j.Teeth.Ring)
		return span{z, math.Max(12, 0.3*z), float64(j.Teeth.Pinion + 1), 1000, 1}, true
	case "teeth.module":
		return span{m, m / 2, 0.2, 50, 0.05}, true
	case "teeth.diametral_pitch":
		p := 25.4 / m
		return span{p, p / 3, 0.508, 127, pitchStep(p)}, true
	case "teeth.pressure_angle":
		return span{j.Teeth.PressureAngle * deg, 5, 14.5, 30, 0.5}, true
	case "teeth.pinion_shift", "teeth.ring_shift":
		return span{d.shift(key), 1, -1, 2, 0.01}, true
	case "teeth.centre_distance":
		a := float64(j.Teeth.Ring-j.Teeth.Pinion) * m / 2
		now := j.Teeth.CentreDistance.Value
		return span{now, 2 * m, math.Max(a-2*m, 0.1), a + 4*m, 0.001}, j.Teeth.CentreDistance.Given
	case "teeth.backlash":
		return span{d.backlash(), m / 2, 0, m, 0.01}, true
	case "teeth.least_tip":
		return span{j.Teeth.LeastTip, m, 0.01, 20, 0.01}, true
	case "mounting.centre_distance_spread":
		return span{j.Mounting.CentreDistanceSpread, 10, 0, 10, 0.01}, true
	case "output.tolerance":
		return span{j.Output.Tolerance, 1, 0.00002, 1, 0.0001}, true
	}
	if s, ok := d.rangeOfPlay(key); ok {
		return s, true
	}
	if name == "addendum" || name == "dedendum" || name == "root_radius" {
		return d.rangeOfRack(section, name)
	}
	if d.Pair == nil {
		return span{}, false
	}
	if s, ok := d.rangeOfLoad(key); ok {
		return s, true
	}
	if section == "making" {
		return d.rangeOfMaking(key, name)
	}
	return d.rangeOfPart(key)
}

// pitchStep returns the step of diametral pitches: coarse teeth have whole ones.
func pitchStep(p float64) float64 {
	if p < 4 {
		return 0.1
	}
	return 0.5
}

// rangeOfRack continues rangeOf for the proportions of the basic rack, over m.
func (d *Design) rangeOfRack(section, name string) (span, bool) {
	r, _, _ := involute.StandardRack(d.Job.Teeth.Rack, d.Job.Teeth.PressureAngle)
	member := d.Job.Pinion
	if section == "ring" {
		member = d.Job.Ring
	}
	or := func(s job.Setting, v float64) float64 {
		if s.Given {
			return s.Value
		}
		return v
	}
	switch name {
	case "addendum":
		return span{or(member.Addendum, r.Addendum), 0.5, 0.1, 2, 0.01}, true
	case "dedendum":
		return span{or(member.Dedendum, r.Dedendum), 0.5, 0.1, 2.5, 0.01}, true
	}
	now := or(member.RootRadius, r.RootRadius)
	if d.Pair != nil && section == "ring" {
		now = d.Pair.Ring.Rack.RootRadius
	}
	return span{now, 0.5, 0, 1, 0.01}, true
}

// rangeOfPart continues rangeOf for diameters, widths and screw holes.
func (d *Design) rangeOfPart(key string) (span, bool) {
	j := d.Job
	m := j.Teeth.Module
	p, r := d.Pair.Pinion, d.Pair.Ring
	switch key {
	case "pinion.tip_diameter":
		now := d.tip(j.Pinion.TipDiameter, p.TipDiameter)
		return span{now, 2 * m, math.Max(0.1, p.RootDiameter), p.TipDiameter + 4*m, 0.01}, true
	case "ring.tip_diameter":
		now := d.tip(j.Ring.TipDiameter, r.TipDiameter)
		return span{now, 2 * m, math.Max(0.1, r.TipDiameter-4*m), r.RootDiameter, 0.01}, true
	case "ring.outer_diameter":
		return span{d.Ring.Outer, 12 * m, r.RootDiameter, 60000, 0.1}, true
	case "pinion.face_width":
		return span{j.Pinion.FaceWidth, j.Pinion.FaceWidth, 1, 1000, 0.1}, true
	case "ring.face_width":
		return span{j.Ring.FaceWidth, j.Ring.FaceWidth, 1, 1000, 0.1}, true
	case "pinion.bolts.circle", "pinion.bolts.hole", "pinion.bolts.count":
		return d.rangeOfHoles(key, d.Pinion, 0.5, p.RootDiameter)
	case "ring.bolts.circle", "ring.bolts.hole", "ring.bolts.count":
		return d.rangeOfHoles(key, d.Ring, r.RootDiameter, d.Ring.Outer+40*m)
	}
	b := d.Pinion.Bore
	switch {
	case b == nil:
	case key == "pinion.bore.diameter":
		least := 0.5
		if b.Shape == "d" {
			least = b.AcrossFlat + 0.01
		}
		return span{b.Diameter, b.Diameter / 2, least, 500, 0.1}, true
	case key == "pinion.bore.clearance":
		return span{b.Clearance, 1, -1, 5, 0.01}, true
	}
	return d.rangeOfFixings(key)
}

// rangeOfHoles continues rangeOf for a member's circle of screw holes, which may
// lie between two diameters.
func (d *Design) rangeOfHoles(key string, m Member, least, most float64) (span, bool) {
	h := m.Holes
	switch {
	case h == nil:
	case strings.HasSuffix(key, "circle"):
		return span{h.Circle, 12 * d.Job.Teeth.Module, least, most, 0.1}, true
	case strings.HasSuffix(key, "count"):
		return span{float64(h.Count), math.Max(4, float64(h.Count)/2), 3, 64, 1}, true
	default:
		return span{h.Diameter, h.Diameter / 2, 0.5, 100, 0.1}, d.Job.Given(key)
	}
	return span{}, false
}

// rangeOfMaking continues rangeOf for the ways of making.
func (d *Design) rangeOfMaking(key, name string) (span, bool) {
	mk := d.Job.Ring.Making
	if strings.HasPrefix(key, "making.pinion.") {
		mk = d.Job.Pinion.Making
	}
	switch {
	case name == "growth" && mk.Kind == "printed":
		return span{mk.Growth, 0.2, -1, 1, 0.01}, true
	case name == "hole_shrink" && mk.Kind == "printed":
		return span{mk.HoleShrink, 0.5, -1, 2, 0.01}, true
	case name == "shrinkage" && mk.Kind == "printed":
		return span{100 * mk.Shrinkage, 2, -1, 10, 0.1}, true
	case name == "kerf" && mk.Kind == "cut":
		return span{mk.Kerf, 0.5, 0, 3, 0.01}, true
	case name == "line_width" && mk.Kind == "printed":
		return span{mk.LineWidth, mk.LineWidth / 2, 0.05, 3, 0.01}, true
	}
	return d.rangeOfFixings(key)
}

// shift returns a profile shift as it stands or was chosen.
func (d *Design) shift(key string) float64 {
	s := d.Job.Teeth.RingShift
	if key == "teeth.pinion_shift" {
		s = d.Job.Teeth.PinionShift
	}
	if s.Given || d.Pair == nil {
		return s.Value
	}
	if key == "teeth.pinion_shift" {
		return d.Pair.Pinion.Shift
	}
	return d.Pair.Ring.Shift
}

func (d *Design) backlash() float64 {
	if d.Job.Teeth.Backlash.Given || d.Pair == nil {
		return d.Job.Teeth.Backlash.Value
	}
	return d.Pair.Backlash.Asked
}

// tip returns a tip diameter as given, or as chosen.
func (d *Design) tip(given job.Setting, chosen float64) float64 {
	if given.Given {
		return given.Value
	}
	return chosen
}
