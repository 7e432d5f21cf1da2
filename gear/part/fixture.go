package part

import "ringtrack/gear/plane"

// Hub is a collar on the pinion's upper face in the file's frame.
type Hub struct {
	Diameter, Length float64 // mm
	Foot             float64 // mm, fillet radius or chamfer at its foot; 0: none
	Round            bool    // a fillet
}

// Flange is a disc below the pinion's teeth in the file's frame.
type Flange struct{ Diameter, Thickness float64 }

// Seat is what a set screw holds in.
type Seat int

// The seats.
const (
	Plain  Seat = iota // a clear hole: the thread is elsewhere
	Tapped             // a thread cut in the plastic
	Nut                // a nut in a slot that is open to the hub's end
	Insert             // a threaded insert pressed in from outside
)

// Screw is a radial channel through the hub, for a set screw.
type Screw struct {
	Angle float64 // radians from +x, the direction outward
	Z     float64 // mm, height of the axis in the file's frame
	Hole  float64 // mm, diameter of the channel
	Seat  Seat
	// Slot of a Nut: Width across the flats, Thickness along the screw, Drop
	// from the axis down to the slot's floor, At the middle's distance from the
	// pinion's axis.
	Width, Thickness, Drop, At float64
	// An Insert's hole and its depth from the hub's outside.
	InsertHole, InsertDepth float64
}

// SlotLoop returns the slot of a nut, clockwise; ok is false for other seats.
func (s Screw) SlotLoop() (l plane.Loop, ok bool) {
	if s.Seat != Nut {
		return plane.Loop{}, false
	}
	a, b := s.Thickness/2, s.Width/2
	p := [4]plane.Vec{{X: s.At - a, Y: -b}, {X: s.At - a, Y: b}, {X: s.At + a, Y: b}, {X: s.At + a, Y: -b}}
	var unit []plane.Piece
	for i, v := range p {
		unit = append(unit, plane.Line{A: v.Turn(s.Angle), B: p[(i+1)%4].Turn(s.Angle)})
	}
	return plane.Loop{Unit: unit, Fold: -1}, true
}

// Rib is a ring-shaped wall on the ring's upper face in the file's frame: a
// locating step, or a stand-off.
type Rib struct {
	Inner, Outer float64 // radii, mm
	Height       float64 // mm
}
