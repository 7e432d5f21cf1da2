package part

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// Pinion returns the pinion's body: its teeth, and its bore and screw holes as
// the shape has them.
func Pinion(p gear.Pinion, face float64, s Shape) Body {
	b := Body{Name: "pinion", Height: face, Shape: s, Contours: []Contour{{Name: TeethContour, Role: gear.Teeth, Designed: p.Outline()}}}
	if s.Bore != nil {
		b.Contours = append(b.Contours, Contour{Name: BoreContour, Role: gear.Hole, Designed: s.Bore.Loop()})
	}
	b.addHoles(s.Holes)
	return b
}

// Ring returns the ring's body: its outside, its teeth and its screw holes.
func Ring(r gear.Ring, outer, face float64, s Shape) Body {
	b := Body{Name: "ring", Height: face, Shape: s, Contours: []Contour{
		{Name: OutsideContour, Role: gear.Outside, Designed: plane.CircleLoop(plane.Vec{}, outer/2)},
		{Name: TeethContour, Role: gear.Teeth, Designed: r.Outline()},
	}}
	b.addHoles(s.Holes)
	return b
}

func (b *Body) addHoles(holes []Holes) {
	for _, h := range holes {
		for _, l := range h.Loops() {
			b.Contours = append(b.Contours, Contour{Name: ScrewHole, Role: gear.Hole, Designed: l})
		}
	}
}

// The proportions of rims. Common practice unless a source is named.
const (
	RimOverModule   = 3.5 // rim behind the ring's teeth: rim factor 1 (ISO 6336-3, from memory)
	ThinRim         = 1.75
	wallPerHole     = 1.0 // wall on either side of a screw hole, in hole diameters
	wholeMillimeter = 1.0
)

// OuterDiameter returns the ring's outer diameter where none is given: the root
// diameter plus twice the larger of 3.5 m and what the screw holes need, up to
// a whole millimetre. On an open circle the holes stand in the middle of the
// rim and need their own diameter of wall on either side.
func OuterDiameter(r gear.Ring, holes *Holes) float64 {
	rim := RimOverModule * r.Module
	d := r.RootDiameter + 2*rim
	if holes != nil {
		need := holes.Slot + holes.Width() + 2*wallPerHole*holes.Diameter
		if holes.Circle > 0 {
			d = math.Max(d, holes.Circle+need)
		} else {
			d = math.Max(d, r.RootDiameter+2*need)
		}
	}
	return math.Ceil(d/wholeMillimeter-1e-9) * wholeMillimeter
}
