package part

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// Coupling is what a bore for a bought flange coupling has beside the hole in
// the middle: screw holes for the flange, and round pockets that leave room for
// the coupling's own set screws.
type Coupling struct {
	Screws Holes
	Above  bool    // the flange lies against the upper face
	Recess *Recess // nil for none
}

// Recess is a circle of round pockets, open to the coupling's side.
type Recess struct {
	Count    int
	Circle   float64 // diameter through the centres, mm
	Diameter float64 // of each, mm; no clearance is added
	Depth    float64 // mm
	Angle    float64 // radians from +x to the first
}

// CouplingLoops returns the designed holes of a coupling's plate where there are
// neither heads nor recesses, clockwise: the middle, then the screws.
func (b Bore) CouplingLoops() []plane.Loop {
	out := []plane.Loop{b.Loop()}
	if b.Coupling != nil {
		out = append(out, b.Coupling.Screws.Loops()...)
	}
	return out
}

// RecessError says why recesses have no outline.
type RecessError struct {
	Key    string  // of the job, to change
	Found  float64 // mm
	Limit  float64 // mm
	Reason string
}

// Error gives the reason with its numbers.
func (e *RecessError) Error() string {
	return fmt.Sprintf("%s: %s (%.4g mm, limit %.4g mm)", e.Key, e.Reason, e.Found, e.Limit)
}

// RecessLoops returns the designed middle with its recesses, at the depth where
// they are, clockwise: one loop where they run into the middle, else the middle
// and each recess. Without recesses it is the middle alone.
//
// Errors: *RecessError when a recess lies within the middle and does nothing,
// or when recesses run into one another outside it.
func (b Bore) RecessLoops() ([]plane.Loop, error) {
	middle := b.HoleDiameter() / 2
	if b.Coupling == nil || b.Coupling.Recess == nil {
		return []plane.Loop{b.Loop()}, nil
	}
	rec := *b.Coupling.Recess
	c, q := rec.Circle/2, rec.Diameter/2
	if c+q <= middle {
		return nil, &RecessError{"pinion.coupling.recess_diameter", rec.Diameter, 2 * (middle - c), "the recess lies within the bore"}
	}
	if err := rec.apart(middle); err != nil {
		return nil, err
	}
	pockets := Holes{Count: rec.Count, Circle: rec.Circle, Diameter: rec.Diameter, Angle: rec.Angle}
	switch {
	case c >= middle+q:
		return append([]plane.Loop{b.Loop()}, pockets.Loops()...), nil
	case c+middle <= q:
		return pockets.Loops(), nil
	}
	return []plane.Loop{lobed(middle, c, q, rec.Angle, rec.Count).Reverse()}, nil
}

// apart returns an error when neighbouring recesses meet outside the middle: on
// the ray between them their circles reach as far as the greater root.
func (rec Recess) apart(middle float64) error {
	if rec.Count < 2 {
		return nil
	}
	s, cos := math.Sincos(math.Pi / float64(rec.Count))
	c, q := rec.Circle/2, rec.Diameter/2
	under := q*q - c*c*s*s
	if under < 0 || c*cos+math.Sqrt(under) < middle {
		return nil
	}
	return &RecessError{"pinion.coupling.recess_diameter", rec.Diameter, 2 * c * s, "the recesses run into one another"}
}

// lobed returns a circle of radius r with n circles of radius q, whose centres
// lie at the radius c, joined to it; counter-clockwise, the first at the angle at.
func lobed(r, c, q, at float64, n int) plane.Loop {
	beta := math.Acos((r*r + c*c - q*q) / (2 * r * c))
	delta := math.Atan2(r*math.Sin(beta), r*math.Cos(beta)-c)
	lobe := plane.Arc{C: plane.Polar(c, at), R: q, A0: at - delta, Sweep: 2 * delta}
	rest := plane.Arc{R: r, A0: at + beta, Sweep: 2*math.Pi/float64(n) - 2*beta}
	return plane.Loop{Unit: []plane.Piece{lobe, rest}, Fold: n}
}
