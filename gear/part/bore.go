package part

import (
	"math"

	"ringtrack/gear/plane"
)

// Bore is a hole for a shaft. Diameter and AcrossFlat are the SHAFT's; the
// clearance is added to both, in total.
type Bore struct {
	Shape      string  // round, d
	Diameter   float64 // mm
	AcrossFlat float64 // mm, from the flat to the far side; d only
	Clearance  float64 // mm in total
	FlatAngle  float64 // radians from +x: where the flat faces
}

// HoleDiameter returns the designed hole's diameter.
func (b Bore) HoleDiameter() float64 { return b.Diameter + b.Clearance }

// FlatDistance returns the distance of the designed flat from the centre.
func (b Bore) FlatDistance() float64 { return b.AcrossFlat + b.Clearance - b.HoleDiameter()/2 }

// Loop returns the designed hole, clockwise: the material lies on its left.
func (b Bore) Loop() plane.Loop {
	r := b.HoleDiameter() / 2
	if b.Shape != "d" {
		return plane.CircleLoop(plane.Vec{}, r).Reverse()
	}
	half := math.Acos(b.FlatDistance() / r)
	arc := plane.Arc{R: r, A0: b.FlatAngle + half, Sweep: 2*math.Pi - 2*half}
	l := plane.Loop{Unit: []plane.Piece{arc, plane.Line{A: arc.At(1), B: arc.At(0)}}, Fold: 1}
	return l.Reverse()
}

// ShaftCorners returns the corners of the shaft itself where its flat begins
// and ends; none for a round shaft.
func (b Bore) ShaftCorners() []plane.Vec {
	if b.Shape != "d" {
		return nil
	}
	r := b.Diameter / 2
	half := math.Acos((b.AcrossFlat - r) / r)
	return []plane.Vec{plane.Polar(r, b.FlatAngle+half), plane.Polar(r, b.FlatAngle-half)}
}

// Holes is a circle of equal round holes.
type Holes struct {
	Count    int
	Circle   float64 // diameter through the centres, mm
	Diameter float64 // of each hole as designed, mm
	Angle    float64 // radians from +x to the first
}

// Loops returns the designed holes, clockwise, the first one at Angle.
func (h Holes) Loops() []plane.Loop {
	out := make([]plane.Loop, h.Count)
	for i := range out {
		c := plane.Polar(h.Circle/2, h.Angle+2*math.Pi*float64(i)/float64(h.Count))
		out[i] = plane.CircleLoop(c, h.Diameter/2).Reverse()
	}
	return out
}
