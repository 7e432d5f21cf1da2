package plane

import (
	"fmt"
	"math"
)

// ArcFit is a loop made of lines and circular arcs alone that stands for
// another loop.
type ArcFit struct {
	Loop     Loop
	Distance float64 // mm: no point of the exact outline is farther from the arcs
	Break    float64 // radians: greatest turn at a joint where the exact outline has no corner
}

const (
	// LeastArcTolerance in mm: finer arcs are lost in the decimals of every format.
	LeastArcTolerance = 1e-6
	// cornerTurn in radians, 0.0006 degrees: pieces that meet at a smaller turn
	// are meant to be smooth, and what separates them is rounding.
	cornerTurn = 1e-5
)

// Arcs returns the loop with every smooth piece replaced by circular arcs (and
// straight lines where an arc would be one) that leave it by no more than tol.
// Lines and arcs stay as they are, corners stay where they are, and the
// symmetry is kept.
//
//	tol  mm, at least LeastArcTolerance
//
// Where the exact outline has no corner the arcs join with one tangent. Their
// ends lie on the exact outline; between, they cross it. A row of smooth pieces
// is divided as a whole, and into the fewest arcs that these rules admit up to
// the grid on which joints are sought; among equally many the arcs are those
// whose largest distance is near its least.
//
// Method: see arcsSearch. Distance is a bound, not a sample: it includes what
// the outline can do between the points at which it is measured, provided that
// its tangent turns against the arc's one way between neighbouring points.
//
// Errors: a tolerance out of range, a loop that does not join, a point that is
// not a number, a smooth piece that turns too sharply for any arc.
func (l Loop) Arcs(tol float64) (ArcFit, error) {
	if !(tol >= LeastArcTolerance) || math.IsInf(tol, 0) {
		return ArcFit{}, fmt.Errorf("an arc tolerance of %g mm; it must be at least %g", tol, LeastArcTolerance)
	}
	if err := l.Check(1e-6); err != nil {
		return ArcFit{}, err
	}
	l = l.fromHardJoint()
	fit := ArcFit{Loop: Loop{Fold: l.Fold, Centre: l.Centre}}
	for i := 0; i < len(l.Unit); {
		if _, smooth := l.Unit[i].(Curve); !smooth {
			fit.Loop.Unit = append(fit.Loop.Unit, l.Unit[i])
			i++
			continue
		}
		end := i + 1
		for end < len(l.Unit) && l.hardness(end) == smoothCurves {
			end++
		}
		arcs, distance, err := l.arcRun(i, end, tol)
		if err != nil {
			return ArcFit{}, fmt.Errorf("pieces %d to %d: %w", i, end-1, err)
		}
		fit.Loop.Unit = append(fit.Loop.Unit, arcs...)
		fit.Distance = math.Max(fit.Distance, distance)
		i = end
	}
	fit.Break = fit.Loop.greatestBreak(l)
	return fit, nil
}

// hard says what the joint before a piece of the unit asks of the arcs.
type hard int

const (
	smoothCurves hard = iota // smooth pieces on both sides, no corner
	smoothJoint              // no corner, but a line or an arc on one side
	corner
)

// before returns the piece before piece i of the unit, in its place.
func (l Loop) before(i int) Piece {
	if i > 0 {
		return l.Unit[i-1]
	}
	return l.Unit[len(l.Unit)-1].Map(l.turn(l.Turns() - 1))
}

// after returns the piece behind piece i of the unit, in its place.
func (l Loop) after(i int) Piece {
	if i+1 < len(l.Unit) {
		return l.Unit[i+1]
	}
	return l.Unit[0].Map(l.turn(1))
}

func (l Loop) hardness(i int) hard {
	p, q := l.before(i), l.Unit[i]
	if math.Abs(turnBetween(heading(p, 1), heading(q, 0))) > cornerTurn {
		return corner
	}
	_, a := p.(Curve)
	_, b := q.(Curve)
	if a && b {
		return smoothCurves
	}
	return smoothJoint
}

// fromHardJoint returns the same loop with a unit that does not begin in the
// middle of a row of smooth pieces, if it can begin elsewhere.
func (l Loop) fromHardJoint() Loop {
	for i := range l.Unit {
		if l.hardness(i) == smoothCurves {
			continue
		}
		out := Loop{Fold: l.Fold, Centre: l.Centre, Unit: append([]Piece{}, l.Unit[i:]...)}
		for _, p := range l.Unit[:i] {
			out.Unit = append(out.Unit, p.Map(l.turn(1)))
		}
		return out
	}
	return l
}

// arcRun replaces the smooth pieces from i up to end. Its end tangents are
// those of the neighbours, or its own where it meets itself; free at corners.
func (l Loop) arcRun(i, end int, tol float64) ([]Piece, float64, error) {
	free := l.hardness(i) == corner
	last := end - 1
	freeEnd := math.Abs(turnBetween(heading(l.Unit[last], 1), heading(l.after(last), 0))) > cornerTurn
	// Mirrored rows come out as mirror images: each is divided from the end
	// that lies nearer to the loop's centre.
	row := append([]Piece{}, l.Unit[i:end]...)
	inward := row[len(row)-1].At(1).Sub(l.Centre).Len() < row[0].At(0).Sub(l.Centre).Len()
	if inward {
		row = reversed(row)
		free, freeEnd = freeEnd, free
	}
	arcs, distance, err := arcsAlong(row, free, freeEnd, tol, 0)
	if inward {
		arcs = reversed(arcs)
	}
	return arcs, distance, err
}

func reversed(row []Piece) []Piece {
	out := make([]Piece, len(row))
	for i, p := range row {
		out[len(row)-1-i] = p.Reverse()
	}
	return out
}

// heading returns the direction of travel at u; where a curve stands still
// (an involute on its base circle) the direction beside it.
func heading(p Piece, u float64) Vec {
	v := p.Frame(u).V
	if v.Len() > 1e-9 {
		return v.unit()
	}
	const beside = 1e-6
	return p.Frame(math.Min(math.Max(u, beside), 1-beside)).V.unit()
}

// turnBetween returns the angle from one direction to another in (-pi, pi].
func turnBetween(a, b Vec) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// greatestBreak returns the greatest turn at joints of l where the exact loop
// has no corner.
func (l Loop) greatestBreak(exact Loop) float64 {
	var corners []Vec
	for i, p := range exact.Unit {
		if exact.hardness(i) == corner {
			corners = append(corners, p.At(0))
		}
	}
	worst := 0.0
joints:
	for i, p := range l.Unit {
		for _, c := range corners {
			if c.Sub(p.At(0)).Len() < 1e-9 {
				continue joints
			}
		}
		worst = math.Max(worst, math.Abs(turnBetween(heading(l.before(i), 1), heading(p, 0))))
	}
	return worst
}

// arcThrough returns the arc from a to b whose tangent at a is turned by -half
// against the chord; a line where it would leave the chord by less than a
// twenty-millionth of its length.
func arcThrough(a, b Vec, half float64) Piece {
	if math.Abs(half) < 2e-7 {
		return Line{a, b}
	}
	c := b.Sub(a)
	left := Vec{-c.Y, c.X}
	centre := a.Add(c.Mul(0.5)).Add(left.Mul(0.5 / math.Tan(half)))
	return Arc{C: centre, R: a.Sub(centre).Len(), A0: a.Sub(centre).Angle(), Sweep: 2 * half}
}
