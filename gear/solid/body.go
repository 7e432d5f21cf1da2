package solid

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// Body is a solid given exactly: walls that stand on plane loops, and channels
// drilled through them. It is what a part's features come to; Mesh, Section and
// Volume answer for the same exact shape.
//
// At every height the walls that stand there bound the material: it lies on
// their left, as in a plane.Region. Where walls end or begin, horizontal faces
// close the body; where one wall ends inside another that goes on, nothing has
// to be said. A hub above a toothed disc with a bore through both is three
// walls: the teeth up to the hub's foot, the hub's circle from there, and the
// bore over the whole height.
type Body struct {
	Walls    []Wall
	Channels []Channel
}

// Wall is a vertical wall on a loop, from height Low to height High.
type Wall struct {
	Name      string     // for errors and exporters; may be empty
	Loop      plane.Loop // material on its left
	Low, High float64    // mm, Low < High
	Foot      Edge       // how the wall leaves the vertical at its lower end
	Head      Edge       // and at its upper end
}

// Edge is how a wall ends. The zero Edge is square: the wall is vertical to its
// end. Otherwise it leaves the vertical at Height from its end and stands, at
// the end, on the loop's exact offset by Shift: Shift < 0 takes material away,
// Shift > 0 adds some, as plane.Loop.Offset does.
//
// The slope between is straight (a chamfer where Height = |Shift|; on a circle
// a cone: a countersink) or, if Round, a quarter of a circle that touches the
// wall and the horizontal face (a fillet or a rounding; Height = |Shift|).
//
// A Shift above zero and a Round edge need a loop without corners.
type Edge struct {
	Height float64 // mm, along z
	Shift  float64 // mm
	Round  bool
}

// Chamfer returns the edge that takes c mm off at 45 degrees.
func Chamfer(c float64) Edge { return Edge{Height: c, Shift: -c} }

// square reports whether the wall goes straight to its end.
func (e Edge) square() bool { return e.Shift == 0 }

// tall returns the height over which the wall is not vertical.
func (e Edge) tall() float64 {
	if e.square() {
		return 0
	}
	return e.Height
}

// shiftAt returns how far the wall stands from its loop at the height h above
// the edge's end (below it, for a head), 0 <= h <= Height.
func (e Edge) shiftAt(h float64) float64 {
	switch {
	case e.square() || h >= e.Height:
		return 0
	case e.Round:
		r, v := e.Height, e.Height-h
		return math.Copysign(r-math.Sqrt(math.Max(0, r*r-v*v)), e.Shift)
	}
	return e.Shift * (1 - h/e.Height)
}

// check returns an error for an edge that is no edge.
func (e Edge) check() error {
	switch {
	case e == Edge{}:
		return nil
	case !(e.Height > 0) || math.IsInf(e.Height, 0) || e.Shift == 0 || math.IsNaN(e.Shift-e.Shift):
		return fmt.Errorf("an edge of height %g mm and shift %g mm is none", e.Height, e.Shift)
	case e.Round && e.Height != math.Abs(e.Shift):
		return fmt.Errorf("a round edge is as high as wide, not %g by %g mm", e.Height, math.Abs(e.Shift))
	}
	return nil
}

// upright returns the heights between which the wall is vertical.
func (w *Wall) upright() (low, high float64) { return w.Low + w.Foot.tall(), w.High - w.Head.tall() }

// shiftAt returns how far the wall stands from its loop at height z, Low <= z <= High.
func (w *Wall) shiftAt(z float64) float64 {
	low, high := w.upright()
	switch {
	case z < low:
		return w.Foot.shiftAt(z - w.Low)
	case z > high:
		return w.Head.shiftAt(w.High - z)
	}
	return 0
}

// check returns an error for heights or edges that make no wall.
func (w *Wall) check() error {
	if !(w.Low < w.High) || math.IsInf(w.Low, 0) || math.IsInf(w.High, 0) {
		return fmt.Errorf("heights %g and %g mm do not enclose a wall", w.Low, w.High)
	}
	for _, e := range []Edge{w.Foot, w.Head} {
		if err := e.check(); err != nil {
			return err
		}
	}
	if low, high := w.upright(); low > high {
		return fmt.Errorf("edges of %g and %g mm are higher than the wall of %g mm", w.Foot.tall(), w.Head.tall(), w.High-w.Low)
	}
	return nil
}

// check returns an error for a body that cannot be looked at further.
func (b *Body) check() error {
	if len(b.Walls) == 0 {
		return fmt.Errorf("a body without walls")
	}
	for i := range b.Walls {
		if err := b.Walls[i].check(); err != nil {
			return fmt.Errorf("%s: %w", b.wallName(i), err)
		}
		if len(b.Walls[i].Loop.Unit) == 0 {
			return fmt.Errorf("%s: the loop has no pieces", b.wallName(i))
		}
	}
	for i := range b.Channels {
		if err := b.Channels[i].check(); err != nil {
			return fmt.Errorf("channel %d: %w", i, err)
		}
	}
	return nil
}

// wallName returns how errors call wall i.
func (b *Body) wallName(i int) string {
	if n := b.Walls[i].Name; n != "" {
		return fmt.Sprintf("wall %d (%s)", i, n)
	}
	return fmt.Sprintf("wall %d", i)
}

// size returns the greatest width of the body's loops in x or y.
func (b *Body) size() float64 {
	box := plane.NoBox()
	for i := range b.Walls {
		box = box.Union(b.Walls[i].Loop.Box())
	}
	return math.Max(box.Size().X, box.Size().Y)
}
