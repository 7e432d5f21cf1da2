package drive

import (
	"math"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// unmeasured notes the allowances that are defaults: a measurement of the
// builder's own printer or cutter is worth more.
func unmeasured(j *job.Job) []find.Finding {
	d := Design{Job: j}
	seen := map[string]bool{}
	for _, m := range []struct {
		who  string
		mk   job.Making
		make bool
	}{{"pinion", j.Pinion.Making, j.Pinion.Make}, {"ring", j.Ring.Making, j.Ring.Make}} {
		if !m.make {
			continue
		}
		note := func(name string, given bool, v float64, unit, format string) {
			key := d.keyOf(m.who, name)
			if given || seen[key] {
				return
			}
			seen[key] = true
			d.add(find.Note, find.Unmeasured, key, v, math.NaN(), unit, format, v)
		}
		switch m.mk.Kind {
		case "printed":
			note("growth", m.mk.Measured.Growth, m.mk.Growth, "mm",
				"growth of outlines is taken as %.3g mm per side (common practice); measure a test piece")
			note("hole_shrink", m.mk.Measured.HoleShrink, m.mk.HoleShrink, "mm",
				"holes are taken to shrink by %.3g mm in diameter (common practice); measure a test piece")
			note("shrinkage", m.mk.Measured.Shrinkage, 100*m.mk.Shrinkage, "%",
				"shrinkage is taken as %.3g %%; published figures for one plastic differ by a factor of two or three")
		case "cut":
			note("kerf", m.mk.Measured.Kerf, m.mk.Kerf, "mm",
				"the kerf is taken as %.3g mm; measure it on your machine and sheet")
		}
	}
	return d.Findings
}

// checkTips cautions about tips narrower than two printed lines.
func (d *Design) checkTips() {
	for _, m := range []struct {
		who   string
		mk    job.Making
		make  bool
		thick float64
	}{
		{"pinion", d.Job.Pinion.Making, d.Job.Pinion.Make, d.Pair.Pinion.TipThickness},
		{"ring", d.Job.Ring.Making, d.Job.Ring.Make, d.Pair.Ring.TipThickness},
	} {
		if limit := 2 * m.mk.LineWidth; m.make && m.mk.Kind == "printed" && m.thick < limit-1e-9 && m.thick >= d.Job.Teeth.LeastTip-1e-9 {
			d.add(find.Caution, find.ThinTip, m.who+".tip_diameter", m.thick, limit, "mm",
				"the %s's tips are %.3f mm wide, less than two printed lines (%.3g mm)", m.who, m.thick, limit)
		}
	}
}

// checkBed cautions about parts that do not fit the bed, lying as they are.
func (d *Design) checkBed() {
	for _, m := range []struct {
		who    string
		member Member
		mk     job.Making
		across float64
		high   float64
	}{
		{"pinion", d.Pinion, d.Job.Pinion.Making, d.Pair.Pinion.TipDiameter, d.Job.Pinion.FaceWidth},
		{"ring", d.Ring, d.Job.Ring.Making, d.Ring.Outer, d.Job.Ring.FaceWidth},
	} {
		if m.mk.Kind == "exact" || !m.member.Make {
			continue
		}
		if key := d.keyOf(m.who, "bed"); m.mk.Kind == "cut" && d.Job.Sheet != nil && !d.Job.Given(key) {
			continue // the sheet says how large a part may be
		}
		if room := math.Min(m.mk.Bed[0], m.mk.Bed[1]); m.across > room {
			d.add(find.Caution, find.OutsideBed, d.keyOf(m.who, "bed"), m.across, room, "mm",
				"the %s is %.1f mm across; the bed takes %.4g mm", m.who, m.across, room)
		} else if m.high > m.mk.Bed[2] {
			d.add(find.Caution, find.OutsideBed, d.keyOf(m.who, "bed"), m.high, m.mk.Bed[2], "mm",
				"the %s is %.1f mm high; the bed takes %.4g mm", m.who, m.high, m.mk.Bed[2])
		}
	}
}

// checkRoots cautions about root corners and spaces that the line or the cut
// cannot follow; a space that the cut cannot enter is a fault.
func (d *Design) checkRoots() {
	for _, m := range []struct {
		who    string
		member job.Member
	}{{"pinion", d.Job.Pinion}, {"ring", d.Job.Ring}} {
		gap, corner := d.root(m.who)
		mk := m.member.Making
		switch {
		case !m.member.Make:
		case mk.Kind == "printed" && gap < mk.LineWidth:
			d.add(find.Caution, find.NarrowGap, d.keyOf(m.who, "line_width"), gap, mk.LineWidth, "mm",
				"the %s's tooth spaces are only %.3f mm wide at their root, less than a line (%.3g mm): expect them to fill", m.who, gap, mk.LineWidth)
		case mk.Kind == "cut" && gap <= mk.Kerf:
			d.add(find.Fault, find.NarrowGap, d.keyOf(m.who, "kerf"), mk.Kerf, gap, "mm",
				"the %s's tooth spaces are %.3f mm wide at their root and the cut is %.3f mm wide: it cannot reach the root", m.who, gap, mk.Kerf)
		case mk.Kind == "cut" && corner < mk.Kerf/2:
			d.add(find.Caution, find.NarrowGap, m.who+".root_radius", corner, mk.Kerf/2, "mm",
				"the %s's root corners have a radius of %.3f mm; the cut leaves them at half the kerf, %.3f mm", m.who, corner, mk.Kerf/2)
		}
	}
}

// root returns how wide a member's space is at its root, where the corners
// begin, and the corners' least radius.
func (d *Design) root(who string) (gap, corner float64) {
	if who == "ring" {
		s := d.Pair.Ring.Space
		return 2 * (s.RootRadius*s.RootHalf() + s.CornerRadius), s.CornerRadius
	}
	t := d.Pair.Pinion.Tooth
	rho := t.Spec.Rack.RootRadius * t.Spec.Module
	return 2 * (t.RootRadius*t.RootHalf() + rho), rho
}

// checkTolerance reports a tolerance finer than the float32 numbers of an STL
// hold at the part's size.
func (d *Design) checkTolerance() {
	writesSTL := false
	for _, f := range d.Job.Output.Formats {
		writesSTL = writesSTL || f == "stl"
	}
	if !writesSTL {
		return
	}
	r := math.Max(d.Ring.Outer, d.Pair.Pinion.TipDiameter) / 2
	if step := float64(math.Nextafter32(float32(r), math.MaxFloat32) - float32(r)); d.Job.Output.Tolerance < 2*step {
		d.add(find.Fault, find.ToleranceTooFine, "output.tolerance", d.Job.Output.Tolerance, 2*step, "mm",
			"an STL file holds numbers to %.2g mm at this size; a tolerance of %.2g mm is finer than it can keep", step, d.Job.Output.Tolerance)
	}
}
