package part

import (
	"math"

	"ringtrack/gear/plane"
)

// Shapes of a bore.
const (
	RoundBore    = "round"
	DBore        = "d"
	DoubleDBore  = "double-d"
	HexagonBore  = "hexagon"
	KeyedBore    = "keyed"
	CouplingBore = "coupling"
)

// Bore is a hole for a shaft. Its measures are the SHAFT's. The clearance is
// given in total: every line and arc of the designed hole stands outside the
// shaft's by half of it, so that diameter, width across flats and width of the
// keyway all grow by the whole.
type Bore struct {
	Shape      string    // one of the shapes above
	Diameter   float64   // mm; 0 for a hexagon; of a coupling: of what stands in the middle
	AcrossFlat float64   // mm; d: from the flat to the far side; double-d, hexagon: from flat to flat
	Clearance  float64   // mm in total
	FlatAngle  float64   // radians from +x: where the flat, or the key, faces
	Key        Key       // keyed only
	Depth      float64   // mm from the face opposite the hub; 0: through
	Coupling   *Coupling // coupling only
}

// Key is a parallel key and its keyways.
type Key struct {
	Width  float64 // mm
	Height float64 // mm
	Shaft  float64 // mm, how deep it lies in the shaft
	Hub    float64 // mm, depth of the keyway in the hub, from the bore's rim; more than Height - Shaft
}

// Through reports whether the bore goes through the pinion.
func (b Bore) Through() bool { return b.Depth == 0 }

// HoleDiameter returns the diameter of the designed hole's round part; of a
// hexagon its width across flats.
func (b Bore) HoleDiameter() float64 {
	if b.Shape == HexagonBore {
		return b.AcrossFlat + b.Clearance
	}
	return b.Diameter + b.Clearance
}

// FlatDistance returns the distance of the designed hole's flats from the
// centre; where there is none, the hole's radius.
func (b Bore) FlatDistance() float64 {
	switch b.Shape {
	case DBore:
		return b.AcrossFlat + b.Clearance - b.HoleDiameter()/2
	case DoubleDBore, HexagonBore:
		return (b.AcrossFlat + b.Clearance) / 2
	}
	return b.HoleDiameter() / 2
}

// least returns the least measure of the designed hole, mm: across the round
// part, the flats, or the keyway. A hole is left when it is more than nothing.
func (b Bore) least() float64 {
	v := b.HoleDiameter()
	switch b.Shape {
	case DBore, DoubleDBore:
		v = math.Min(v, b.AcrossFlat+b.Clearance)
	case KeyedBore:
		v = math.Min(v, b.Key.Width+b.Clearance)
	}
	return v
}

// Loop returns the designed hole, clockwise: the material lies on its left. Of a
// coupling it is the hole in the middle.
//
// The measures must agree: flats within the round part, a key narrower than the
// shaft and standing out of it. Sharp corners stay sharp.
func (b Bore) Loop() plane.Loop { return b.outline(b.Key.Hub).Reverse() }

// ShaftLoop returns the shaft's own outline, key included, counter-clockwise.
func (b Bore) ShaftLoop() plane.Loop {
	b.Clearance = 0
	return b.outline(b.Key.Height - b.Key.Shaft)
}

// outline returns the outline of shaft with clearance, counter-clockwise.
//
//	out  mm by which the key or its keyway stands out of the round part
func (b Bore) outline(out float64) plane.Loop {
	r := b.HoleDiameter() / 2
	switch b.Shape {
	case DBore:
		half := math.Acos(b.FlatDistance() / r)
		return flatted(r, b.FlatAngle, half, 1)
	case DoubleDBore:
		half := math.Acos(b.FlatDistance() / r)
		return flatted(r, b.FlatAngle, half, 2)
	case HexagonBore:
		corner := r / math.Cos(math.Pi/6)
		side := plane.Line{A: plane.Polar(corner, b.FlatAngle-math.Pi/6), B: plane.Polar(corner, b.FlatAngle+math.Pi/6)}
		return plane.Loop{Unit: []plane.Piece{side}, Fold: 6}
	case KeyedBore:
		return keyed(r, (b.Key.Width+b.Clearance)/2, r+out, b.FlatAngle)
	}
	return plane.CircleLoop(plane.Vec{}, r)
}

// flatted returns a circle with n equal flats, the first one facing at, each
// seen from the centre under twice half.
func flatted(r, at, half float64, n int) plane.Loop {
	arc := plane.Arc{R: r, A0: at + half, Sweep: 2*math.Pi/float64(n) - 2*half}
	flat := plane.Line{A: arc.At(1), B: plane.Polar(r, at+half+2*math.Pi/float64(n))}
	return plane.Loop{Unit: []plane.Piece{arc, flat}, Fold: n}
}

// keyed returns a circle with a rectangle standing out of it at an angle.
//
//	r, half, reach  mm: radius, half the rectangle's width, its far side from the centre
func keyed(r, half, reach, at float64) plane.Loop {
	root := math.Asin(half / r)
	arc := plane.Arc{R: r, A0: at + root, Sweep: 2*math.Pi - 2*root}
	right, left := plane.Vec{X: reach, Y: -half}.Turn(at), plane.Vec{X: reach, Y: half}.Turn(at)
	return plane.Loop{Fold: 1, Unit: []plane.Piece{
		arc, plane.Line{A: arc.At(1), B: right}, plane.Line{A: right, B: left}, plane.Line{A: left, B: arc.At(0)},
	}}
}

// ShaftCorners returns the corners of the shaft itself that must pass the hole:
// where flats begin and end, the corners of a hexagon, the outer edges of a key.
// A round shaft has none.
func (b Bore) ShaftCorners() []plane.Vec {
	var out []plane.Vec
	switch b.Shape {
	case DBore, DoubleDBore, HexagonBore:
		for p := range b.ShaftLoop().All() {
			if l, ok := p.(plane.Line); ok {
				out = append(out, l.A)
				if b.Shape != HexagonBore {
					out = append(out, l.B)
				}
			}
		}
	case KeyedBore:
		top := b.Diameter/2 + b.Key.Height - b.Key.Shaft
		for _, y := range []float64{-b.Key.Width / 2, b.Key.Width / 2} {
			out = append(out, plane.Vec{X: top, Y: y}.Turn(b.FlatAngle))
		}
	}
	return out
}

// Reach returns the greatest distance of the designed hole from the centre, mm:
// the round part's radius, a hexagon's corners, a keyway's. What a coupling has
// beside its middle is not in it.
func (b Bore) Reach() float64 {
	r := b.HoleDiameter() / 2
	switch b.Shape {
	case HexagonBore:
		return r / math.Cos(math.Pi/6)
	case KeyedBore:
		return math.Hypot(r+b.Key.Hub, (b.Key.Width+b.Clearance)/2)
	}
	return r
}

// WallInside returns the wall between the designed hole and a circle of radius
// r about the centre that encloses it, mm; negative when the hole crosses it.
func (b Bore) WallInside(r float64) float64 { return r - b.Reach() }

// WallBeside returns the wall between the designed hole and a round hole of
// radius r about c, mm; negative when they overlap.
func (b Bore) WallBeside(c plane.Vec, r float64) float64 { return wallBeside(b.Loop(), c, r) }

// wallBeside returns the wall between a hole's loop and a round hole beside it.
func wallBeside(hole plane.Loop, c plane.Vec, r float64) float64 {
	d := hole.Distance(c)
	if hole.Contains(c) {
		d = -d
	}
	return d - r
}

// MeasureDiameter returns what HoleDiameter is on a drawn or made loop of this
// bore, mm: across the round part, where there is one opposite to flat or key,
// else the least diameter.
func (b Bore) MeasureDiameter(l plane.Loop) float64 {
	switch b.Shape {
	case DBore, KeyedBore:
		return 2 * farSide(l, b.FlatAngle+math.Pi)
	case DoubleDBore:
		return 2 * farSide(l, b.FlatAngle+math.Pi/2)
	}
	least, _ := l.Radii()
	return 2 * least
}

// farSide returns how far the inside of the loop's pieces reaches in a
// direction: corners do not count.
func farSide(l plane.Loop, direction float64) float64 {
	reach := 0.0
	for p := range l.All() {
		if r, inside := plane.Extent(p, direction); inside {
			reach = math.Max(reach, r)
		}
	}
	return reach
}

// sizeKey returns the job's key that makes the bore larger or smaller.
func (b Bore) sizeKey() string {
	if b.Shape == HexagonBore {
		return "pinion.bore.across_flat"
	}
	return "pinion.bore.diameter"
}
