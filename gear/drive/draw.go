package drive

import (
	"fmt"
	"math"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// draw works out what the files will hold, measures it, keeps the ledger and
// checks what the printer or cutter can make of it.
func (d *Design) draw() {
	d.drawMember(&d.Pinion, d.Job.Pinion.Making, "pinion")
	d.drawMember(&d.Ring, d.Job.Ring.Making, "ring")
	if d.Pinion.Drawn {
		teeth, _ := d.Pinion.Body.Contour(part.TeethContour)
		d.Pinion.Gauge = d.Pair.Pinion.MeasurePinion(teeth.Drawn)
		bore, drawn := d.boreDiameters()
		d.Ledger = append(d.Ledger, d.Pair.Pinion.LedgerPinion(d.Pinion.Making, teeth.Drawn, bore, drawn)...)
	}
	if d.Ring.Drawn {
		teeth, _ := d.Ring.Body.Contour(part.TeethContour)
		d.Ring.Gauge = d.Pair.Ring.MeasureRing(teeth.Drawn)
		d.Ledger = append(d.Ledger, d.Pair.Ring.LedgerRing(d.Ring.Making, teeth.Drawn)...)
	}
	d.checkTolerance()
}

// boreDiameters returns the designed bore and the one measured on the drawn
// loop; NaN without a bore.
func (d *Design) boreDiameters() (designed, drawn float64) {
	c, ok := d.Pinion.Body.Contour(part.BoreContour)
	if !ok {
		return math.NaN(), math.NaN()
	}
	_, r := c.Drawn.Radii()
	if d.Pinion.Bore.Shape == "d" {
		// Where the flat begins the offset has a rounded corner: measure opposite the flat.
		r = farSide(c, d.Pinion.Bore.FlatAngle)
	}
	return d.Pinion.Bore.HoleDiameter(), 2 * r
}

// drawMember draws one member's contours and checks them.
func (d *Design) drawMember(m *Member, mk job.Making, who string) {
	lost, err := m.Body.Draw(m.Making)
	if err != nil {
		key, v := d.makingKey(mk, who)
		d.add(find.Fault, find.OutlineLost, key, v, math.NaN(), "mm",
			"with these allowances the drawn %s of the %s is lost: %v", lost, who, err)
		return
	}
	m.Drawn = true
	d.checkGaps(m, mk, who)
}

// makingKey returns the key of the allowance that moves a member's outline, and
// its value.
func (d *Design) makingKey(mk job.Making, who string) (key string, v float64) {
	name, v := "growth", mk.Growth
	if mk.Kind == "cut" {
		name, v = "kerf", mk.Kerf
	}
	return d.keyOf(who, name), v
}

// keyOf returns making.WHO.name where that stands in the file, or where only the
// member's own section says its kind; making.name otherwise.
func (d *Design) keyOf(who, name string) string {
	own := "making." + who + "." + name
	if d.Job.Given(own) || (d.Job.Given("making."+who+".kind") && !d.Job.Given("making."+name)) {
		return own
	}
	return "making." + name
}

// checkGaps reports root corners and spaces that the line or the cut cannot
// follow, and a shaft's edge that a rounded bore corner would not let pass.
func (d *Design) checkGaps(m *Member, mk job.Making, who string) {
	gap, corner, radiusKey := d.rootGap(who)
	switch mk.Kind {
	case "printed":
		if gap < mk.LineWidth {
			d.add(find.Caution, find.NarrowGap, d.keyOf(who, "line_width"), gap, mk.LineWidth, "mm",
				"the %s's tooth spaces are only %.3f mm wide at their root, less than a line (%.3g mm): expect them to fill", who, gap, mk.LineWidth)
		}
	case "cut":
		if corner < mk.Kerf/2 {
			d.add(find.Caution, find.NarrowGap, radiusKey, corner, mk.Kerf/2, "mm",
				"the %s's root corners have a radius of %.3f mm; the cut leaves them at half the kerf, %.3f mm", who, corner, mk.Kerf/2)
		}
	}
	if who == "pinion" && d.Pinion.Bore != nil && m.Making.Kerf > 0 {
		d.checkShaft(m)
	}
}

// rootGap returns how wide a member's space is at its root, beside the corners'
// beginning, and the corners' least radius, and which key sets it.
func (d *Design) rootGap(who string) (gap, corner float64, key string) {
	if who == "ring" {
		s := d.Pair.Ring.Space
		return 2 * (s.RootRadius*s.RootHalf() + s.CornerRadius), s.CornerRadius, "ring.root_radius"
	}
	t := d.Pair.Pinion.Tooth
	rho := t.Spec.Rack.RootRadius * t.Spec.Module
	return 2 * (t.RootRadius*t.RootHalf() + rho), rho, "pinion.root_radius"
}

// checkShaft reports a bore whose cut corners come out so round that the
// shaft's edge does not pass.
func (d *Design) checkShaft(m *Member) {
	c, _ := m.Body.Contour(part.BoreContour)
	made, err := m.Making.Made(c.Drawn, c.Role)
	if err != nil {
		return
	}
	for _, p := range d.Pinion.Bore.ShaftCorners() {
		if made.Contains(p) {
			continue
		}
		d.add(find.Caution, find.NarrowGap, "pinion.bore.clearance", made.Distance(p), 0, "mm",
			"the cut rounds the bore's corners by half the kerf, so the shaft's edge stands %.3f mm into the wall", made.Distance(p))
		return
	}
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

// add records a finding; a NaN found or limit is left out.
func (d *Design) add(level find.Level, code find.Code, about string, found, limit float64, unit, format string, args ...any) {
	f := find.Finding{Code: code, Level: level, About: about, Unit: unit, Text: fmt.Sprintf(format, args...)}
	if !math.IsNaN(found) {
		f.Found = find.Num(found)
	}
	if !math.IsNaN(limit) {
		f.Limit = find.Num(limit)
	}
	d.Findings = append(d.Findings, f)
}

// farSide returns how far a hole's drawn loop reaches opposite to the angle at
// which its flat faces.
func farSide(c part.Contour, flat float64) float64 {
	reach := 0.0
	for p := range c.Drawn.All() {
		if r, inside := plane.Extent(p, flat+math.Pi); inside {
			reach = math.Max(reach, r)
		}
	}
	return reach
}
