package plane

import "math"

// welded returns the loop with its pieces' ends made to meet where they miss
// each other by more than 1e-9 mm and no more than most. An outline read from a
// file has joints that turn by the rounding of its numbers; offsets of the two
// pieces then overlap, or part, by the distance times that angle, too little for
// a crossing to be told. Lines and arcs keep their turn; a loop that has other
// pieces, or a symmetry, comes from no file and stays as it is.
func (l Loop) welded(most float64) Loop {
	n := len(l.Unit)
	starts := make([]Vec, n)
	moved := false
	for i, p := range l.Unit {
		switch p.(type) {
		case Line, Arc:
		default:
			return l
		}
		starts[i] = p.At(0)
		end := l.Unit[(i+n-1)%n].At(1)
		if gap := end.Sub(starts[i]).Len(); gap > 1e-9 && gap <= most {
			starts[i], moved = end.Add(starts[i]).Mul(0.5), true
		}
	}
	if !moved || l.Turns() != 1 {
		return l
	}
	unit := make([]Piece, n)
	for i, p := range l.Unit {
		unit[i] = between(p, starts[i], starts[(i+1)%n])
	}
	l.Unit = unit
	return l
}

// between returns a line, or an arc of the same sweep, from a to b.
func between(p Piece, a, b Vec) Piece {
	arc, ok := p.(Arc)
	if !ok {
		return Line{A: a, B: b}
	}
	chord := b.Sub(a)
	half := arc.Sweep / 2
	// The centre lies beside the chord's middle, left of it for a short left turn.
	middle := a.Add(b).Mul(0.5)
	c := middle.Add(chord.Right().Mul(-0.5 / math.Tan(half)))
	from := a.Sub(c)
	return Arc{C: c, R: from.Len(), A0: from.Angle(), Sweep: arc.Sweep}
}
