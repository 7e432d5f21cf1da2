package drive

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

// draw makes the bodies and the outlines that the files will hold, and checks
// what is left of them.
func (d *Design) draw() {
	j, p := d.Job, d.Pair
	d.Pinion.Body = part.Pinion(p.Pinion, j.Pinion.FaceWidth, d.Pinion.Shape)
	d.Ring.Body = part.Ring(p.Ring, d.Ring.Outer, j.Ring.FaceWidth, d.Ring.Shape)
	d.drawMember(&d.Pinion, j.Pinion.Making, "pinion")
	d.drawMember(&d.Ring, j.Ring.Making, "ring")
	if d.Pinion.Drawn && d.Pinion.Bore != nil && d.Pinion.Making.Kerf > 0 {
		d.checkShaft()
	}
}

// measure takes the figures of the drawn outlines and keeps the ledger.
func (d *Design) measure() {
	d.weigh(&d.Pinion, d.Job.Pinion.Material)
	d.weigh(&d.Ring, d.Job.Ring.Material)
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
	return d.Pinion.Bore.HoleDiameter(), d.Pinion.Shape.Bore.MeasureDiameter(c.Drawn)
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
	if m.Solid, err = m.Body.Solid(m.Making); err != nil {
		d.add(find.Fault, find.OutlineLost, d.keyOf(who, "edge"), mk.Edge, math.NaN(), "mm",
			"the %s cannot be made solid: %v", who, err)
		return
	}
	m.Drawn = true
}

// weigh takes a body's volume and, where its material is in stock, its mass. A
// solid that contradicts itself (channels, slots, edges) is a fault.
func (d *Design) weigh(m *Member, material string) {
	if !m.Drawn {
		return
	}
	v, err := m.Solid.Volume()
	if err != nil && m.Body.Shape.Edge > 0 {
		v, err = d.square(m, err)
	}
	if err != nil {
		m.Drawn, m.Solid = false, nil
		if !d.fixingsFault(m.Body.Name) { // otherwise it has been said, and better
			d.add(find.Fault, find.OutlineLost, d.solidKey(m), math.NaN(), math.NaN(), "",
				"the %s is no solid as it stands: %v", m.Body.Name, err)
		}
		return
	}
	m.Volume = v
	if s, ok := stock.FindMaterial(material); ok {
		m.Mass = v * d.density(m, s.Density) * 1e-6 // mm3 x kg/m3
	}
}

// square gives up the edge of a body that is no solid with it: a flank that
// begins within the drawn allowance of its base circle has no parallel for one.
// It returns the volume without the edge, or the first error if that is no solid
// either.
func (d *Design) square(m *Member, first error) (float64, error) {
	edge := m.Body.Shape.Edge
	m.Body.Shape.Edge = 0
	plain, err := m.Body.Solid(m.Making)
	if err != nil {
		return 0, first
	}
	v, err := plain.Volume()
	if err != nil {
		m.Body.Shape.Edge = edge
		return 0, first
	}
	m.Solid, m.Shape.Edge = plain, 0
	d.add(find.Note, find.FirstLayer, d.keyOf(m.Body.Name, "edge"), edge, math.NaN(), "mm",
		"the %s's flanks begin too near their base circle for an edge: its faces stay square, so trim the first layer by hand", m.Body.Name)
	return v, nil
}

// solidKey returns the key to look at first when a body is no solid.
func (d *Design) solidKey(m *Member) string {
	switch {
	case m.Body.Shape.Hub != nil && len(m.Body.Shape.Screws) > 0:
		return "pinion.set_screw[0].height"
	case m.Body.Shape.Hub != nil:
		return "pinion.hub.diameter"
	case len(m.Body.Shape.Ribs) > 0:
		return "ring.step.diameter"
	}
	return d.keyOf(m.Body.Name, "edge")
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
	for _, p := range d.Pinion.Shape.Bore.ShaftCorners() {
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
