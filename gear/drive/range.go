package drive

import (
	"math"
	"strings"
)

// span is where a key stands now, as it would be written in the job file, and
// where a cure may go.
type span struct{ now, least, most, step float64 }

// rangeOf returns the span of a numeric key that cures may change; ok is false
// for keys that they may not, or that have no meaning in this job.
func (d *Design) rangeOf(key string) (span, bool) {
	j := d.Job
	m := j.Teeth.Module
	deg := 180 / math.Pi
	a := math.Abs(float64(j.Teeth.Ring-j.Teeth.Pinion)) * m / 2
	switch key {
	case "teeth.pinion":
		return span{float64(j.Teeth.Pinion), 5, math.Min(300, float64(j.Teeth.Ring-1)), 1}, true
	case "teeth.ring":
		return span{float64(j.Teeth.Ring), float64(j.Teeth.Pinion + 1), 1000, 1}, true
	case "teeth.module":
		return span{m, 0.2, math.Min(50, 8*m), 0.05}, true
	case "teeth.diametral_pitch":
		return span{25.4 / m, 25.4 / math.Min(50, 8*m), 25.4 / 0.2, 0.5}, true
	case "teeth.pressure_angle":
		return span{j.Teeth.PressureAngle * deg, 14.5, 30, 0.5}, true
	case "teeth.pinion_shift":
		return span{d.shift(true), -1, 2, 0.01}, true
	case "teeth.ring_shift":
		return span{d.shift(false), -1, 2, 0.01}, true
	case "teeth.centre_distance":
		if !j.Teeth.CentreDistance.Given {
			return span{}, false
		}
		return span{j.Teeth.CentreDistance.Value, math.Max(a-2*m, 0.01), a + 2*m, 0.001}, true
	case "teeth.backlash":
		return span{d.backlash(), 0, m, 0.01}, true
	case "teeth.least_tip":
		return span{j.Teeth.LeastTip, 0.01, m, 0.01}, true
	case "mounting.centre_distance_spread":
		return span{j.Mounting.CentreDistanceSpread, 0, m, 0.01}, true
	case "output.tolerance":
		return span{j.Output.Tolerance, 0.00002, 1, 0.0001}, true
	case "teeth.dedendum", "pinion.dedendum", "ring.dedendum":
		return d.dedendum(key)
	}
	return d.rangeOfPart(key)
}

// rangeOfPart continues rangeOf for diameters and allowances.
func (d *Design) rangeOfPart(key string) (span, bool) {
	j := d.Job
	m := j.Teeth.Module
	if d.Pair == nil {
		return span{}, false
	}
	p, r := d.Pair.Pinion, d.Pair.Ring
	switch key {
	case "pinion.tip_diameter":
		return span{d.tip(j.Pinion.TipDiameter.Value, p.TipDiameter), p.RootDiameter, p.TipDiameter + 4*m, 0.01}, true
	case "ring.tip_diameter":
		return span{d.tip(j.Ring.TipDiameter.Value, r.TipDiameter), r.TipDiameter - 4*m, r.RootDiameter, 0.01}, true
	case "ring.root_radius", "pinion.root_radius":
		v := r.Rack.RootRadius
		if key[0] == 'p' {
			v = p.Rack.RootRadius
		}
		return span{v, 0.05, 0.6, 0.01}, true
	case "ring.outer_diameter":
		return span{d.Ring.Outer, r.RootDiameter, math.Max(d.Ring.Outer, r.RootDiameter) + 20*m, 0.1}, true
	case "pinion.bore.diameter":
		if d.Pinion.Bore == nil {
			return span{}, false
		}
		least := 0.1
		if d.Pinion.Bore.Shape == "d" {
			least = d.Pinion.Bore.AcrossFlat + 0.01
		}
		return span{d.Pinion.Bore.Diameter, least, 2 * p.RootDiameter, 0.1}, true
	case "pinion.bore.clearance":
		if d.Pinion.Bore == nil {
			return span{}, false
		}
		return span{d.Pinion.Bore.Clearance, 0, d.Pinion.Bore.Diameter / 4, 0.01}, true
	}
	return d.rangeOfMore(key)
}

// rangeOfMore continues rangeOf for screw holes and ways of making.
func (d *Design) rangeOfMore(key string) (span, bool) {
	j := d.Job
	p, r := d.Pair.Pinion, d.Pair.Ring
	for _, h := range []struct {
		who    string
		member *Member
		bounds [2]float64
	}{{"pinion", &d.Pinion, [2]float64{0.1, p.RootDiameter}}, {"ring", &d.Ring, [2]float64{r.RootDiameter, d.Ring.Outer}}} {
		if h.member.Holes == nil {
			continue
		}
		switch key {
		case h.who + ".bolts.circle":
			return span{h.member.Holes.Circle, h.bounds[0], h.bounds[1] + 40*j.Teeth.Module, 0.1}, true
		case h.who + ".bolts.hole":
			return span{h.member.Holes.Diameter, 0.5, 2 * h.member.Holes.Diameter, 0.1}, d.Job.Given(key)
		case h.who + ".bolts.count":
			return span{float64(h.member.Holes.Count), 3, 64, 1}, true
		}
	}
	if !strings.HasPrefix(key, "making.") {
		return span{}, false
	}
	mk := j.Ring.Making
	if strings.HasPrefix(key, "making.pinion.") {
		mk = j.Pinion.Making
	}
	switch name := key[strings.LastIndexByte(key, '.')+1:]; {
	case name == "growth" && mk.Kind == "printed":
		return span{mk.Growth, 0, 2, 0.01}, true
	case name == "kerf" && mk.Kind == "cut":
		return span{mk.Kerf, 0, 5, 0.01}, true
	case name == "line_width" && mk.Kind == "printed":
		return span{mk.LineWidth, 0.1, 2, 0.01}, true
	}
	return span{}, false
}

// shift returns a profile shift as it stands or was chosen.
func (d *Design) shift(pinion bool) float64 {
	s := d.Job.Teeth.RingShift
	if pinion {
		s = d.Job.Teeth.PinionShift
	}
	if s.Given || d.Pair == nil {
		return s.Value
	}
	if pinion {
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
func (d *Design) tip(given, chosen float64) float64 {
	if given > 0 {
		return given
	}
	return chosen
}

// dedendum returns the span of a dedendum, given or the rack's.
func (d *Design) dedendum(key string) (span, bool) {
	v := 1.25
	if d.Job.Teeth.Rack == 'D' {
		v = 1.4
	}
	given := d.Job.Ring.Dedendum
	if key == "pinion.dedendum" {
		given = d.Job.Pinion.Dedendum
	}
	if given.Given {
		v = given.Value
	}
	return span{v, 0.5, 2, 0.01}, true
}
