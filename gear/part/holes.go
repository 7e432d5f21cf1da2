package part

import (
	"math"

	"ringtrack/gear/plane"
)

// Holes is a circle of equal screw holes, round or slots along the radius.
type Holes struct {
	Count    int
	Circle   float64 // diameter through the centres, mm
	Diameter float64 // of each hole as designed, or width of a slot, mm
	Angle    float64 // radians from +x to the first
	Slot     float64 // mm, way of a screw along the radius, half of it on either side of the circle; 0: round
	Head     Head    // room for the heads; zero for none
}

// Head is the room for a screw's head in one face: a counterbore, or a cone.
type Head struct {
	Diameter float64 // mm, in the face; 0: none
	Depth    float64 // mm, of a counterbore; 0 for a cone
	Angle    float64 // radians, full angle of a cone; 0 for a counterbore
	Above    bool    // in the upper face
}

// Sunk returns how deep the head's room reaches below its face, mm; a cone to
// where it meets a hole of the given diameter.
func (h Head) Sunk(hole float64) float64 {
	if h.Angle == 0 {
		return h.Depth
	}
	return (h.Diameter - hole) / 2 / math.Tan(h.Angle/2)
}

// Centres returns the holes' centres, the first one at Angle.
func (h Holes) Centres() []plane.Vec {
	out := make([]plane.Vec, h.Count)
	for i := range out {
		out[i] = plane.Polar(h.Circle/2, h.angle(i))
	}
	return out
}

// angle returns the polar angle of hole i.
func (h Holes) angle(i int) float64 { return h.Angle + 2*math.Pi*float64(i)/float64(h.Count) }

// Loops returns the designed holes, clockwise, the first one at Angle.
func (h Holes) Loops() []plane.Loop {
	out := make([]plane.Loop, h.Count)
	for i, c := range h.Centres() {
		if h.Slot > 0 {
			out[i] = slot(c, h.angle(i), h.Slot, h.Diameter/2).Reverse()
		} else {
			out[i] = plane.CircleLoop(c, h.Diameter/2).Reverse()
		}
	}
	return out
}

// slot returns a slot about c, counter-clockwise: its ends' centres lie way
// apart along the angle at.
func slot(c plane.Vec, at, way, r float64) plane.Loop {
	half := plane.Polar(way/2, at)
	far := plane.Arc{C: c.Add(half), R: r, A0: at - math.Pi/2, Sweep: math.Pi}
	near := plane.Arc{C: c.Sub(half), R: r, A0: at + math.Pi/2, Sweep: math.Pi}
	return plane.Loop{Fold: 1, Centre: c, Unit: []plane.Piece{
		far, plane.Line{A: far.At(1), B: near.At(0)}, near, plane.Line{A: near.At(1), B: far.At(0)},
	}}
}

// HeadLoops returns the outlines of the heads' rooms in their face, clockwise;
// none without heads.
func (h Holes) HeadLoops() []plane.Loop {
	if h.Head.Diameter == 0 {
		return nil
	}
	wide := h
	wide.Diameter = h.Head.Diameter
	return wide.Loops()
}

// Width returns the diameter of hole or head, the larger, mm.
func (h Holes) Width() float64 { return math.Max(h.Diameter, h.Head.Diameter) }

// Inner returns the least distance of the holes and their heads from the
// centre, mm; negative when they reach over it.
func (h Holes) Inner() float64 { return (h.Circle - h.Slot - h.Width()) / 2 }

// Outer returns the greatest distance of the holes and their heads from the
// centre, mm.
func (h Holes) Outer() float64 { return (h.Circle + h.Slot + h.Width()) / 2 }

// Apart returns the wall between neighbouring holes or heads, mm; negative when
// they overlap.
func (h Holes) Apart() float64 {
	return (h.Circle-h.Slot)*math.Sin(math.Pi/float64(h.Count)) - h.Width()
}
