package gear

import (
	"ringtrack/gear/plane"
)

// Making says how a made outline departs from the drawn one.
type Making struct {
	Shrinkage  float64 // linear, as a fraction: made = (1 - Shrinkage) x ...
	Growth     float64 // mm per side: ... x (drawn, moved outward by this); toothed contours and outsides
	HoleShrink float64 // mm in total: a drawn hole comes out smaller by this
	Kerf       float64 // mm in total: the width of the cut, centred on the drawn path
}

// Role says which allowance a loop takes.
type Role int

// The roles.
const (
	Teeth   Role = iota // toothed contours, inner or outer
	Outside             // outsides of parts
	Hole                // bores, screw holes, pockets, slots
)

// removal returns how far the making moves a drawn loop of that role into the
// material, in mm; negative when the material grows.
func (m Making) removal(r Role) float64 {
	if r == Hole {
		return m.Kerf/2 - m.HoleShrink/2
	}
	return m.Kerf/2 - m.Growth
}

// Draw returns what to draw so that the designed loop is what comes out:
// designed/(1 - shrinkage), moved against what the making will do. The offset
// is exact; the material lies on the loop's left.
//
// Errors: plane.ErrLost, or the place where the offset pieces do not join.
func (m Making) Draw(designed plane.Loop, r Role) (plane.Loop, error) {
	return designed.Map(plane.Scaled(1 / (1 - m.Shrinkage))).Offset(m.removal(r))
}

// Made returns what comes out of a drawn loop. Convex corners of a grown
// outline and concave ones of a cut one come out rounded.
func (m Making) Made(drawn plane.Loop, r Role) (plane.Loop, error) {
	l, err := drawn.Offset(-m.removal(r))
	if err != nil {
		return plane.Loop{}, err
	}
	return l.Map(plane.Scaled(1 - m.Shrinkage)), nil
}
