package gear

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/involute"
)

// Outline returns the pinion's toothed outline as designed: one loop,
// counter-clockwise, centre at the origin, a tooth's centre on +x. Per tooth:
// fillet, flank, tip arc, flank, fillet, root arc. Flexible teeth have their
// changes in it.
func (p Pinion) Outline() plane.Loop {
	if p.Flexible != nil {
		return p.Flexible.Outline
	}
	return ToothLoop(p.Tooth)
}

// Outline returns the ring's toothed outline as designed: one loop, clockwise
// because the material lies outside it, centre at the origin, a space's centre
// on +x. Per space: flank, corner, root arc, corner, flank, tip arc.
func (r Ring) Outline() plane.Loop {
	if r.Flexible != nil {
		return r.Flexible.Outline
	}
	return SpaceLoop(r.Space)
}

// ToothLoop returns the outline of a gear with this tooth.
func ToothLoop(t *involute.Tooth) plane.Loop {
	z := float64(t.Spec.Teeth)
	half := t.HalfAngle(t.TipRadius)
	unit := []plane.Piece{
		plane.NewCurve(t.Fillet(1)).Reverse(),
		plane.NewCurve(t.Flank(1)),
		plane.Arc{R: t.TipRadius, A0: -half, Sweep: 2 * half},
		plane.NewCurve(t.Flank(-1)).Reverse(),
		plane.NewCurve(t.Fillet(-1)),
	}
	if root := t.RootHalf(); root*t.RootRadius > leastRootArc {
		unit = append(unit, plane.Arc{R: t.RootRadius, A0: math.Pi/z - root, Sweep: 2 * root})
	}
	return plane.Loop{Unit: unit, Fold: t.Spec.Teeth}
}

// leastRootArc is the half length in mm below which a root arc is rounding, not
// a piece.
const leastRootArc = 1e-10

// SpaceLoop returns the toothed outline of a ring with this space.
func SpaceLoop(s *involute.Space) plane.Loop {
	z := float64(s.Spec.Teeth)
	tooth := math.Pi/z - s.HalfAngle(s.TipRadius)
	unit := []plane.Piece{
		plane.NewCurve(s.Flank(-1)),
		cornerArc(s.Corner(-1)),
	}
	if root := s.RootHalf(); root*s.RootRadius > leastRootArc {
		unit = append(unit, plane.Arc{R: s.RootRadius, A0: root, Sweep: -2 * root})
	}
	unit = append(unit,
		cornerArc(s.Corner(1)).Reverse(),
		plane.NewCurve(s.Flank(1)).Reverse(),
		plane.Arc{R: s.TipRadius, A0: -math.Pi/z + tooth, Sweep: -2 * tooth},
	)
	return plane.Loop{Unit: unit, Fold: -s.Spec.Teeth}
}

func cornerArc(c involute.CornerArc) plane.Arc {
	return plane.Arc{C: plane.Vec{X: c.X, Y: c.Y}, R: c.R, A0: c.From, Sweep: c.To - c.From}
}
