package job

import (
	"ringtrack/gear/stock"
)

// usualClearance is the default clearance of a fit, in total, by the way of
// making, mm: common practice.
func usualClearance(kind string) float64 {
	switch kind {
	case "printed":
		return 0.1
	case "cut":
		return 0.05
	}
	return 0
}

// bore fills in the pinion's bore, nil when there is none.
func (r *reading) bore(kind string) *Bore {
	const s = "pinion.bore"
	if !r.hasSection(s) {
		return nil
	}
	b := &Bore{
		Shape:      r.entry(s + ".shape").text,
		Diameter:   r.num(s+".diameter", 0),
		AcrossFlat: r.num(s+".across_flat", 0),
		Clearance:  r.num(s+".clearance", usualClearance(kind)),
		FlatAngle:  r.num(s+".flat_angle", 0),
		Depth:      r.num(s+".depth", 0),
	}
	switch b.Shape {
	case "keyed":
		r.keyway(b)
	case "coupling":
		b.Coupling = r.coupling(b.Diameter)
	}
	return b
}

// keyway fills in key and keyways: what is given, else what the standard says.
func (r *reading) keyway(b *Bore) {
	k, _ := r.standardKey(b.Diameter)
	b.KeyWidth = r.num("pinion.bore.key_width", k.Width)
	b.KeyHeight = r.num("pinion.bore.key_height", k.Height)
	b.KeyDepth = r.num("pinion.bore.key_depth", k.Shaft)
	b.KeyHub = b.KeyHeight - b.KeyDepth + stock.LeastKeyRoom
	if b.KeyHeight == k.Height && b.KeyDepth == k.Shaft {
		b.KeyHub = k.Hub
	}
	for _, name := range []string{"key_width", "key_height", "key_depth"} {
		if !r.setting("pinion.bore." + name).Given {
			b.KeySource = k.Source
		}
	}
}

// standardKey returns the standard's key of the given width, else the one for
// the diameter.
func (r *reading) standardKey(diameter float64) (stock.ParallelKey, bool) {
	if w := r.setting("pinion.bore.key_width"); w.Given {
		return stock.ParallelKeyOfWidth(w.Value)
	}
	return stock.FindParallelKey(diameter)
}

// coupling fills in the pattern of a flange coupling, nil when there is none.
//
//	middle  mm, diameter of what stands in the middle
func (r *reading) coupling(middle float64) *Coupling {
	const s = "pinion.coupling"
	if !r.hasSection(s) {
		return nil
	}
	c := &Coupling{
		Count:  int(r.num(s+".count", 0)),
		Circle: r.num(s+".circle", 0),
		Angle:  r.num(s+".angle", 0),
		Side:   r.entry(s + ".side").text,
		Drill:  r.drill(s),
	}
	if n := int(r.num(s+".recess_count", 0)); n > 0 {
		c.Recess = &Recess{
			Count:    n,
			Circle:   r.num(s+".recess_circle", middle),
			Diameter: r.num(s+".recess_diameter", 0),
			Depth:    r.num(s+".recess_depth", 0),
			Angle:    r.num(s+".recess_angle", 0),
		}
	}
	return c
}

// drill fills in one screw hole with the room for its head.
func (r *reading) drill(s string) Drill {
	d := Drill{Screw: r.entry(s + ".screw").text, Head: r.entry(s + ".head").text}
	if screw, ok := stock.FindScrew(d.Screw); ok {
		d.Hole = screw.Medium
	}
	switch d.Head {
	case "pilot":
		d.Hole, _ = stock.Pilot(d.Screw)
	case "countersunk":
		h, _ := stock.FindHead("countersunk", d.Screw)
		d.HeadDiameter, d.HeadAngle = h.Diameter, h.Angle
	case "counterbored":
		h, _ := stock.FindHead("cap", d.Screw)
		d.HeadDiameter, d.HeadDepth = h.Bore, h.Sink
	}
	d.Hole = r.num(s+".hole", d.Hole)
	return d
}

// bolts fills in a circle of screw holes, nil when there is none.
func (r *reading) bolts(s string) *Bolts {
	if !r.hasSection(s) {
		return nil
	}
	b := &Bolts{
		Count:      int(r.num(s+".count", 0)),
		Circle:     r.setting(s + ".circle"),
		Angle:      r.num(s+".angle", 0),
		Side:       r.word(s+".side", "above"),
		SlotLength: r.num(s+".slot_length", 0),
		Drill:      r.drill(s),
	}
	return b
}

// word returns a key's good word, else its constant default, else fallback.
func (r *reading) word(path, fallback string) string {
	if e := r.entry(path); e.ok {
		return e.text
	}
	return fallback
}

// hub fills in the pinion's hub, nil when there is none.
func (r *reading) hub() *Hub {
	const s = "pinion.hub"
	if !r.hasSection(s) {
		return nil
	}
	return &Hub{
		Diameter:  r.num(s+".diameter", 0),
		Length:    r.num(s+".length", 0),
		Side:      r.entry(s + ".side").text,
		Foot:      r.num(s+".foot", 0),
		FootShape: r.entry(s + ".foot_shape").text,
	}
}

// setScrews fills in the set screws in the order of the file.
func (r *reading) setScrews() []SetScrew {
	var out []SetScrew
	for i := range r.count("pinion.set_screw") {
		s := numbered("pinion.set_screw", i)
		out = append(out, SetScrew{
			Size:   r.entry(s + ".size").text,
			Angle:  r.num(s+".angle", 0),
			Height: r.setting(s + ".height"),
			Seat:   r.entry(s + ".seat").text,
			Length: r.setting(s + ".length"),
		})
	}
	return out
}

// flange fills in the pinion's flange, nil when there is none.
func (r *reading) flange() *Flange {
	const s = "pinion.flange"
	if !r.hasSection(s) {
		return nil
	}
	side := "below"
	if r.hasSection("pinion.hub") && r.entry("pinion.hub.side").text == "below" {
		side = "above"
	}
	return &Flange{
		Diameter:  r.setting(s + ".diameter"),
		Thickness: r.num(s+".thickness", 0),
		Side:      r.word(s+".side", side),
	}
}

// step fills in the ring's step, nil when there is none.
func (r *reading) step(kind string) *Step {
	const s = "ring.step"
	if !r.hasSection(s) {
		return nil
	}
	return &Step{
		Diameter:  r.num(s+".diameter", 0),
		Clearance: r.num(s+".clearance", usualClearance(kind)),
		Height:    r.num(s+".height", 0),
		Side:      r.entry(s + ".side").text,
		Fits:      r.entry(s + ".fits").text,
	}
}
