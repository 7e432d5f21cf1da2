package plane

import (
	"fmt"
	"iter"
	"math"
)

// Loop is a closed outline. Unit holds the pieces of one pitch, in order, each
// starting where the one before it ends; the whole loop is the unit turned
// about Centre by 2 pi/Fold, |Fold| times. A negative Fold turns clockwise, as
// the unit of a clockwise loop must; Fold 1 or -1 is a loop without symmetry.
// Fold 0 is read as 1.
type Loop struct {
	Unit   []Piece
	Fold   int
	Centre Vec
}

// Region is a section: material on the left of every loop. Outer runs
// counter-clockwise, every hole clockwise.
type Region struct {
	Outer Loop
	Holes []Loop
}

// CircleLoop returns a circle as a loop, counter-clockwise.
func CircleLoop(c Vec, r float64) Loop {
	return Loop{Unit: []Piece{Circle(c, r)}, Fold: 1, Centre: c}
}

// Turns returns how often the unit is repeated, at least 1.
func (l Loop) Turns() int {
	n := l.Fold
	if n < 0 {
		n = -n
	}
	return max(n, 1)
}

// step returns the turn from one unit to the next, 0 for a loop of one unit.
func (l Loop) step() float64 {
	if l.Turns() == 1 {
		return 0
	}
	return 2 * math.Pi / float64(l.Fold)
}

// turn returns the map that puts unit i in its place.
func (l Loop) turn(i int) Similarity {
	if i == 0 || l.Turns() == 1 {
		return Same()
	}
	a := l.step() * float64(i)
	return Moved(l.Centre.Mul(-1)).Then(Turned(a)).Then(Moved(l.Centre))
}

// All yields every piece of the loop in order, unit after unit.
func (l Loop) All() iter.Seq[Piece] {
	return func(yield func(Piece) bool) {
		for i := range l.Turns() {
			m := l.turn(i)
			for _, p := range l.Unit {
				if i > 0 {
					p = p.Map(m)
				}
				if !yield(p) {
					return
				}
			}
		}
	}
}

// Reverse returns the loop in the opposite direction.
func (l Loop) Reverse() Loop {
	out := Loop{Fold: -l.Fold, Centre: l.Centre, Unit: make([]Piece, len(l.Unit))}
	if l.Fold == 0 {
		out.Fold = -1
	}
	for i, p := range l.Unit {
		out.Unit[len(l.Unit)-1-i] = p.Reverse()
	}
	return out
}

// Map returns the loop's image. A mirror turns the direction; the loop is then
// reversed so that what lay on its left still does.
func (l Loop) Map(m Similarity) Loop {
	out := Loop{Fold: l.Fold, Centre: m.Point(l.Centre), Unit: make([]Piece, len(l.Unit))}
	for i, p := range l.Unit {
		out.Unit[i] = p.Map(m)
	}
	if m.mirror {
		out.Fold = -out.Fold
		return out.Reverse()
	}
	return out
}

// Map returns the region's image.
func (r Region) Map(m Similarity) Region {
	out := Region{Outer: r.Outer.Map(m)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, h.Map(m))
	}
	return out
}

// Loops returns the outer loop and the holes, in that order.
func (r Region) Loops() []Loop { return append([]Loop{r.Outer}, r.Holes...) }

// Check returns an error unless every piece starts where the one before it
// ends, within tol mm, all the way round.
func (l Loop) Check(tol float64) error {
	if len(l.Unit) == 0 {
		return fmt.Errorf("the loop has no pieces")
	}
	next := l.turn(1)
	for i, p := range l.Unit {
		want := next.Point(l.Unit[0].At(0))
		if i+1 < len(l.Unit) {
			want = l.Unit[i+1].At(0)
		}
		end := p.At(1)
		if gap := end.Sub(want).Len(); !(gap <= tol) {
			return fmt.Errorf("piece %d ends at (%.9g, %.9g), %.3g mm from the start of the next", i, end.X, end.Y, gap)
		}
	}
	return nil
}

// Flatten returns the loop as a polygon: n points, the first not repeated, in
// the loop's direction, every one on the exact outline; no chord leaves it by
// more than chord mm. chord must be positive. Every unit is divided alike.
func (l Loop) Flatten(chord float64) []Vec {
	unit := make([]Vec, 0, 64)
	for _, p := range l.Unit {
		us := p.nodes(chord)
		for _, u := range us[:len(us)-1] {
			unit = append(unit, p.At(u))
		}
	}
	out := make([]Vec, 0, len(unit)*l.Turns())
	for i := range l.Turns() {
		m := l.turn(i)
		for _, p := range unit {
			out = append(out, m.Point(p))
		}
	}
	return out
}
