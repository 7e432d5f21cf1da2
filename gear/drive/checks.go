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
		who string
		mk  job.Making
	}{{"pinion", j.Pinion.Making}, {"ring", j.Ring.Making}} {
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
		thick float64
	}{
		{"pinion", d.Job.Pinion.Making, d.Pair.Pinion.TipThickness},
		{"ring", d.Job.Ring.Making, d.Pair.Ring.TipThickness},
	} {
		if limit := 2 * m.mk.LineWidth; m.mk.Kind == "printed" && m.thick < limit-1e-9 && m.thick >= d.Job.Teeth.LeastTip-1e-9 {
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
		if room := math.Min(m.mk.Bed[0], m.mk.Bed[1]); m.across > room {
			d.add(find.Caution, find.OutsideBed, d.keyOf(m.who, "bed"), m.across, room, "mm",
				"the %s is %.1f mm across; the bed takes %.4g mm", m.who, m.across, room)
		} else if m.high > m.mk.Bed[2] {
			d.add(find.Caution, find.OutsideBed, d.keyOf(m.who, "bed"), m.high, m.mk.Bed[2], "mm",
				"the %s is %.1f mm high; the bed takes %.4g mm", m.who, m.high, m.mk.Bed[2])
		}
	}
}
