package drive

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/stock"
	"ringtrack/involute"
)

// The proportions of fixings. Common practice.
const (
	edgeOfTip     = 0.25 // a default edge takes at most this share of the thinnest tip,
	edgeMost      = 0.4  // or this, if the first layer's spread asks for it or it is given
	flangeOverTip = 2.0  // m: a flange stands this far, in diameter, over the tips
	ribLines      = 4.0  // printed lines that a locating step is wide
	ribLeast      = 1.6  // mm, or this
	slotWall      = 1.2  // of the least wall: between a nut's slot and the bore
	ribInset      = 0.5  // mm that what stands on the rim keeps from its chamfered edges
)

// fixings settles what the bodies have beyond their sections, and checks it.
func (d *Design) fixings() {
	d.fixPinion()
	d.fixRing()
	d.checkFirstLayer("pinion", d.Job.Pinion.Making, d.Pinion.Shape.Edge)
	d.checkFirstLayer("ring", d.Job.Ring.Making, d.Ring.Shape.Edge)
}

// edge returns a member's edge: as given, otherwise the default but no more
// than a quarter of its thinnest drawn tip, or what covers the first layer's
// spread. A given one that leaves no tip on the face is a fault.
func (d *Design) edge(who string, mk job.Making, tip drawnTip) float64 {
	key := d.keyOf(who, "edge")
	left := tip.left(mk.Growth - mk.Kerf/2)
	if d.Job.Given(key) || mk.Edge == 0 {
		if most := edgeMost * left; mk.Edge > most {
			d.add(find.Fault, find.ThinTip, key, mk.Edge, most, "mm",
				"an edge of %.3g mm leaves no tip on the %s's faces: at most %.3f mm do", mk.Edge, who, most)
			return math.Max(0, most)
		}
		return mk.Edge
	}
	most := math.Floor(100*math.Max(edgeOfTip*left, math.Min(mk.Foot, edgeMost*left))+1e-9) / 100
	if most = math.Max(0, most); most < mk.Edge {
		d.Pair.Chosen = append(d.Pair.Chosen, gear.Chosen{Key: key, Value: most,
			Reason: fmt.Sprintf("what the %s's tips, drawn %.2f mm wide, can spare", who, left)})
		return most
	}
	return mk.Edge
}

// drawnTip is a tip as designed: its thickness and the flanks' pressure angle there.
type drawnTip struct{ thick, angle float64 }

// left returns about how thick the tip is in the drawing: the flanks move toward
// each other by what the drawing takes off, per side.
func (t drawnTip) left(off float64) float64 { return t.thick - 2*off/math.Cos(t.angle) }

func (d *Design) pinionTip() drawnTip {
	p := d.Pair.Pinion
	return drawnTip{p.TipThickness, involute.PressureAngle(p.BaseDiameter/2, p.TipDiameter/2)}
}

func (d *Design) ringTip() drawnTip {
	r := d.Pair.Ring
	return drawnTip{r.TipThickness, involute.PressureAngle(r.BaseDiameter/2, r.TipDiameter/2)}
}

// checkFirstLayer cautions when the first layer spreads past the chamfer.
func (d *Design) checkFirstLayer(who string, mk job.Making, edge float64) {
	if mk.Kind == "printed" && mk.Foot > edge+1e-9 {
		d.add(find.Caution, find.FirstLayer, d.keyOf(who, "edge"), edge, mk.Foot, "mm",
			"the first layer of the %s spreads by %.2f mm, past the edge's chamfer of %.2f mm: its teeth will catch there", who, mk.Foot, edge)
	}
}

// fixPinion settles the pinion's shape.
func (d *Design) fixPinion() {
	j := d.Job.Pinion
	s := part.Shape{Bore: d.Pinion.Bore, Edge: d.edge("pinion", j.Making, d.pinionTip())}
	s.Flipped = (j.Hub != nil && j.Hub.Side == "below") || (j.Hub == nil && j.Flange != nil && j.Flange.Side == "above")
	if h := j.Hub; h != nil {
		s.Hub = &part.Hub{Diameter: h.Diameter, Length: h.Length, Foot: h.Foot, Round: h.FootShape == "fillet"}
	}
	if f := j.Flange; f != nil {
		s.Flange = d.flange(f)
	}
	if h := d.Pinion.Holes; h != nil {
		s.Holes = append(s.Holes, *h)
	}
	if b := s.Bore; b != nil && b.Coupling != nil {
		s.Holes = append(s.Holes, b.Coupling.Screws)
	}
	if s.Flipped {
		s = d.turnOver(s)
	}
	d.Pinion.Shape = s
	d.checkHub()
	d.setScrews()
}

// flange settles the flange's diameter.
func (d *Design) flange(f *job.Flange) *part.Flange {
	out := &part.Flange{Diameter: f.Diameter.Value, Thickness: f.Thickness}
	p := d.Pair.Pinion
	if !f.Diameter.Given {
		out.Diameter = math.Ceil(p.TipDiameter + flangeOverTip*p.Module)
		d.Pair.Chosen = append(d.Pair.Chosen, gear.Chosen{Key: "pinion.flange.diameter", Value: out.Diameter,
			Reason: "over the tips by a module all round, up to a whole mm"})
	}
	if out.Diameter <= p.TipDiameter {
		d.add(find.Fault, find.OutOfRange, "pinion.flange.diameter", out.Diameter, p.TipDiameter, "mm",
			"the flange does not reach past the pinion's tips (%.3f mm): it would keep nothing in line", p.TipDiameter)
	}
	if h := d.Job.Pinion.Hub; h != nil && h.Side == f.Side {
		d.add(find.Fault, find.Contradicts, "pinion.flange.side", math.NaN(), math.NaN(), "",
			"hub and flange stand on the same side; the flange belongs opposite the hub")
	}
	return out
}

// turnOver returns the shape seen from the other side: what was counter-clockwise
// is clockwise, what was above is below.
func (d *Design) turnOver(s part.Shape) part.Shape {
	if s.Bore != nil {
		b := *s.Bore
		b.FlatAngle = -b.FlatAngle
		if b.Coupling != nil {
			c := *b.Coupling
			c.Screws = turnedOver(c.Screws)
			if c.Recess != nil {
				r := *c.Recess
				r.Angle = -r.Angle
				c.Recess = &r
			}
			b.Coupling = &c
		}
		s.Bore = &b
	}
	for i, h := range s.Holes {
		s.Holes[i] = turnedOver(h)
	}
	return s
}

func turnedOver(h part.Holes) part.Holes {
	h.Angle = -h.Angle
	h.Head.Above = !h.Head.Above && h.Head.Diameter > 0
	return h
}

// wall returns the least wall of a member's way of making.
func (d *Design) wall() float64 { return limits(d.Job.Pinion.Making).Wall }

// checkHub reports a hub that meets the teeth, leaves no wall round the bore, or
// does not pass the ring's opening.
func (d *Design) checkHub() {
	h := d.Pinion.Shape.Hub
	if h == nil {
		return
	}
	p, r := d.Pair.Pinion, d.Pair.Ring
	most := p.RootDiameter - 2*(h.Foot+d.Pinion.Shape.Edge)
	if h.Diameter > most+1e-9 {
		d.add(find.Fault, find.HubMeetsTeeth, "pinion.hub.diameter", h.Diameter, most, "mm",
			"the hub with its foot runs into the teeth: at most %.3f mm fit inside their roots", most)
	}
	if room := 2 * (r.TipDiameter/2 - d.Pair.CentreDistance); h.Diameter > room {
		d.add(find.Fault, find.HubMeetsTeeth, "pinion.hub.diameter", h.Diameter, room, "mm",
			"the hub does not pass the ring's opening: at most %.3f mm do at this centre distance", room)
	}
	if b := d.Pinion.Shape.Bore; b != nil {
		if wall := b.WallInside(h.Diameter / 2); wall < d.wall() {
			d.add(find.Fault, find.ThinWall, "pinion.hub.diameter", wall, d.wall(), "mm", "%s",
				part.WallText(wall, d.wall(), "the bore", "the hub's outside"))
		}
	}
}

// fixRing settles the ring's shape: heads of its screws, a locating step, a
// stand-off. What lies against the bearing is on top in the file.
func (d *Design) fixRing() {
	j := d.Job.Ring
	s := part.Shape{Edge: d.edge("ring", j.Making, d.ringTip())}
	if h := d.Ring.Holes; h != nil {
		s.Holes = append(s.Holes, *h)
	}
	if j.Step != nil || j.StandOff > 0 {
		s.Flipped = j.Step == nil || j.Step.Side == "below"
	}
	if j.StandOff > 0 {
		s.Ribs = append(s.Ribs, d.standOff(j.StandOff, s.Edge))
	}
	if j.Step != nil {
		s.Ribs = append(s.Ribs, d.locatingStep(j.Step, s.Edge))
	}
	if s.Flipped {
		s = d.turnOver(s)
	}
	d.Ring.Shape = s
}

// standOff returns the raised seat that keeps the ring off the bearing's plate:
// nearly all of the rim's face.
func (d *Design) standOff(height, edge float64) part.Rib {
	inset := edge + ribInset
	return part.Rib{Inner: d.Pair.Ring.RootDiameter/2 + inset, Outer: d.Ring.Outer/2 - inset, Height: height}
}

// locatingStep returns the step that centres the ring: within the bearing's bore
// or around its rim. It must stand on the rim.
func (d *Design) locatingStep(t *job.Step, edge float64) part.Rib {
	wide := math.Max(ribLeast, ribLines*d.Job.Ring.Making.LineWidth)
	out := part.Rib{Height: t.Height}
	if t.Fits == "rim" {
		out.Inner = (t.Diameter + t.Clearance) / 2
		out.Outer = out.Inner + wide
	} else {
		out.Outer = (t.Diameter - t.Clearance) / 2
		out.Inner = out.Outer - wide
	}
	inner, outer := d.Pair.Ring.RootDiameter/2+edge+ribInset, d.Ring.Outer/2-edge-ribInset
	if out.Inner < inner || out.Outer > outer {
		low, high := 2*(inner+wide), 2*outer
		if t.Fits == "rim" {
			low, high = 2*inner, 2*(outer-wide)
		}
		limit := low
		if t.Diameter > high {
			limit = high
		}
		d.add(find.Fault, find.OutOfRange, "ring.step.diameter", t.Diameter, limit, "mm",
			"a step for %.3g mm does not stand on the ring's rim: from about %.1f to %.1f mm it does", t.Diameter, low, high)
	}
	if h := d.Ring.Holes; h != nil && out.Inner < h.Outer() && out.Outer > h.Inner() {
		d.add(find.Fault, find.ThinWall, "ring.step.diameter", t.Diameter, math.NaN(), "mm",
			"the step runs over the screw holes (%.1f to %.1f mm across)", 2*h.Inner(), 2*h.Outer())
	}
	return out
}

// ScrewFit is what a set screw comes to, for the report.
type ScrewFit struct {
	Size    string
	Length  float64 // mm
	Recess  float64 // mm that its end stays inside the hub
	Seat    string
	Key     float64 // mm across flats
	OverRim float64 // mm from the key to the ring's face, along the axis; negative: the ring is in its way
}

// seats are the seats by their words.
var seats = map[string]part.Seat{
	"plain": part.Plain, "tapped": part.Tapped, "hex-nut": part.Nut, "square-nut": part.Nut, "insert": part.Insert,
}

// channel turns a job's set screw into a channel in the file's frame.
func (d *Design) channel(s job.SetScrew) part.Screw {
	shape := d.Pinion.Shape
	base := d.floor() + d.Job.Pinion.FaceWidth
	z := base + shape.Hub.Length/2
	if s.Height.Given {
		z = s.Height.Value
		if shape.Flipped {
			z = base + shape.Hub.Length - s.Height.Value
		}
	}
	out := part.Screw{Angle: shape.Bore.FlatAngle + s.Angle, Z: z, Seat: seats[s.Seat]}
	screw, _ := stock.FindScrew(s.Size)
	tap, _ := stock.FindTap(s.Size)
	out.Hole = screw.Medium
	switch s.Seat {
	case "tapped":
		out.Hole = tap.Deep
	case "hex-nut", "square-nut":
		nut, _ := stock.FindNut(s.Seat[:len(s.Seat)-len("-nut")], s.Size)
		out.Width, out.Thickness = nut.Pocket()
		out.Drop = math.Max(out.Width/2, nut.CornersToClear()/2)
		if s.Seat == "square-nut" {
			out.Drop = out.Width / 2
		}
		out.At = d.boreAt(s) + slotWall*d.wall() + out.Thickness/2
	case "insert":
		in, _ := stock.FindInsert(s.Size)
		out.InsertHole, out.InsertDepth = in.Hole, in.Depth
	}
	return out
}

// floor returns the height at which the pinion's teeth begin in the file.
func (d *Design) floor() float64 {
	if f := d.Pinion.Shape.Flange; f != nil {
		return f.Thickness
	}
	return 0
}

// boreAt returns how far the bore's wall lies from the axis where the screw
// comes through it; on the shaft's flat when the screw bears on it.
func (d *Design) boreAt(s job.SetScrew) float64 {
	b := d.Pinion.Shape.Bore
	if b.Shape == "d" && math.Abs(math.Remainder(s.Angle, 2*math.Pi)) < 1e-6 {
		return b.FlatDistance()
	}
	return b.Reach()
}

// shaftAt returns the same for the shaft's own surface.
func (d *Design) shaftAt(s job.SetScrew) float64 {
	return d.boreAt(s) - d.Pinion.Shape.Bore.Clearance/2
}

// fixingsFault reports whether a fault about a member's hub, screws, flange,
// step or holes stands already.
func (d *Design) fixingsFault(who string) bool {
	for _, f := range d.Findings {
		if f.Level == find.Fault && strings.HasPrefix(f.About, who+".") && f.About != who+".tip_diameter" {
			return true
		}
	}
	return false
}
