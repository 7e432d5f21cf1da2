package drive

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// draw makes the bodies and the outlines that the files will hold, and checks
// what is left of them.
func (d *Design) draw() {
	j, p := d.Job, d.Pair
	d.Pinion.Body = part.Pinion(p.Pinion, j.Pinion.FaceWidth, d.Pinion.Bore, d.Pinion.Holes)
	d.Ring.Body = part.Ring(p.Ring, d.Ring.Outer, j.Ring.FaceWidth, d.Ring.Holes)
	d.drawMember(&d.Pinion, j.Pinion.Making, "pinion")
	d.drawMember(&d.Ring, j.Ring.Making, "ring")
	if d.Pinion.Drawn && d.Pinion.Bore != nil && d.Pinion.Making.Kerf > 0 {
		d.checkShaft()
	}
}

// measure takes the figures of the drawn outlines and keeps the ledger.
func (d *Design) measure() {
	d.Pinion.Mass = mass(d.Job.Pinion.Material, d.Pinion.Body)
	d.Ring.Mass = mass(d.Job.Ring.Material, d.Ring.Body)
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

// drawMember draws one member's contours, or reports which one is lost.
func (d *Design) drawMember(m *Member, mk job.Making, who string) {
	lost, err := m.Body.Draw(m.Making)
	if err != nil {
		name, v := allowance(mk, lost)
		d.add(find.Fault, find.OutlineLost, d.keyOf(who, name), v, math.NaN(), "mm",
			"a %s of %.3g mm leaves nothing of the %s's %s that can be drawn", strings.ReplaceAll(name, "_", " "), v, who, lost)
		return
	}
	m.Drawn = true
}

// allowance returns the name and the value of what moves a contour.
func allowance(mk job.Making, contour string) (name string, v float64) {
	switch {
	case mk.Kind == "cut":
		return "kerf", mk.Kerf
	case contour == part.BoreContour || contour == part.ScrewHole:
		return "hole_shrink", mk.HoleShrink
	}
	return "growth", mk.Growth
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

// checkShaft reports a bore whose cut corners come out so round that the
// shaft's edge does not pass.
func (d *Design) checkShaft() {
	c, _ := d.Pinion.Body.Contour(part.BoreContour)
	made, err := d.Pinion.Making.Made(c.Drawn, c.Role)
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
