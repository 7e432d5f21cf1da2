package plane

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// ErrLost means that an offset leaves nothing of the loop.
var ErrLost = errors.New("nothing is left of the outline")

// leastOffset is the offset in mm below which a loop is returned as it is: it
// is the accuracy to which offset pieces join.
const leastOffset = 1e-9

// Offset returns the loop moved by d mm to the right of its direction: a
// counter-clockwise loop grows for d > 0. Every piece is offset exactly; a
// corner that opens is joined by an arc of radius |d| about it, pieces that run
// into one another are cut at their crossing, and whatever lies nearer to the
// loop than |d| is dropped, pieces and all. The symmetry is kept.
//
// Below 1e-9 mm, to which pieces join, the loop is returned as it is.
//
// Errors: ErrLost when nothing remains; an error that names the place when the
// pieces that remain do not join.
func (l Loop) Offset(d float64) (Loop, error) {
	if math.Abs(d) < leastOffset {
		return l, nil
	}
	o := newOffsetter(l, d)
	kept := o.kept()
	if len(kept) == 0 {
		return Loop{}, ErrLost
	}
	out := Loop{Unit: kept, Fold: l.Fold, Centre: l.Centre}.welded(1e-6 * math.Abs(d))
	if err := out.Check(1e-8); err != nil {
		return Loop{}, fmt.Errorf("offset by %.6g mm: %w", d, err)
	}
	return out, nil
}

// offsetter holds the raw offset of one unit and of its neighbours on both
// sides: with the symmetry of a toothed loop nothing further off can meet it.
type offsetter struct {
	d      float64
	source []Piece // the loop's own pieces, neighbouring units included
	raw    []Piece // their offsets and the arcs that join them, in order
	lo, hi int     // raw[lo:hi] comes from the unit itself
	turns  int     // of the loop
	near   *grid   // of source
	beside *grid   // of raw
}

func newOffsetter(l Loop, d float64) *offsetter {
	o := &offsetter{d: d, turns: l.Turns()}
	first, last := -1, 1
	if l.Turns() < 4 { // the whole loop
		first, last = 0, l.Turns()-1
	}
	for i := first; i <= last; i++ {
		if i == 0 {
			o.lo = len(o.raw)
		}
		m := l.turn(i)
		next := l.turn(i + 1)
		for k, p := range l.Unit {
			q := next.Point(l.Unit[0].At(0))
			after := l.Unit[0].Map(next)
			if k+1 < len(l.Unit) {
				after = l.Unit[k+1].Map(m)
				q = after.At(0)
			}
			p = p.Map(m)
			o.source = append(o.source, p)
			o.raw = append(o.raw, p.offset(d)...)
			if a, ok := joint(p, after, q, d); ok {
				o.raw = append(o.raw, a)
			}
		}
		if i == 0 {
			o.hi = len(o.raw)
		}
	}
	o.near, o.beside = newGrid(boxes(o.source)), newGrid(boxes(o.raw))
	return o
}

func boxes(pieces []Piece) []Box {
	out := make([]Box, len(pieces))
	for i, p := range pieces {
		out[i] = p.Box()
	}
	return out
}

// joint returns the arc about the corner q that closes the gap which an offset
// by d opens between p and the piece after it; none where the corner is smooth
// or the offsets overlap.
func joint(p, after Piece, q Vec, d float64) (Arc, bool) {
	a, b := p.Frame(1).V.unit(), after.Frame(0).V.unit()
	turn := math.Atan2(a.Cross(b), a.Dot(b))
	if math.Abs(turn) < 1e-9 || (turn > 0) != (d > 0) {
		return Arc{}, false
	}
	start := a.Right().Mul(d).Angle()
	return Arc{C: q, R: math.Abs(d), A0: start, Sweep: turn}, true
}

// part is the piece raw[i] from u0 to u1.
type part struct {
	i      int
	u0, u1 float64
}

// kept cuts the unit's raw pieces at every crossing with any other and returns
// the parts that lie at distance |d| from the loop, in order; neighbouring parts
// of one piece stay one.
func (o *offsetter) kept() []Piece {
	var parts []part
	for i := o.lo; i < o.hi; i++ {
		p := o.raw[i]
		start := -1.0
		for k, cuts := 1, o.cuts(i); k < len(cuts); k++ {
			u0, u1 := cuts[k-1], cuts[k]
			if u1-u0 < 1e-12 {
				continue
			}
			stands := o.stands(p, u0, u1)
			if stands && start < 0 {
				start = u0
			}
			if !stands && start >= 0 {
				parts = append(parts, part{i, start, u0})
				start = -1
			}
		}
		if start >= 0 {
			parts = append(parts, part{i, start, 1})
		}
	}
	o.meet(parts)
	out := make([]Piece, len(parts))
	for k, p := range parts {
		out[k] = o.raw[p.i].Cut(p.u0, p.u1)
	}
	return out
}

// meet lets neighbouring parts end at their crossing. Where an offset has just
// passed the radius of curvature, its swallowtail is so flat that distance alone
// does not tell what lies behind the crossing from what lies before it.
func (o *offsetter) meet(parts []part) {
	for k := range parts {
		a, b := &parts[k], &parts[(k+1)%len(parts)]
		j := b.i
		if k+1 == len(parts) && o.turns > 1 { // the next unit's
			j = (j + o.hi - o.lo) % len(o.raw)
		}
		p, q := o.raw[a.i], o.raw[j]
		if a.i == j || p.At(a.u1).Sub(q.At(b.u0)).Len() < 1e-10 {
			continue
		}
		lost := math.Inf(1)
		u1, u0 := a.u1, b.u0
		for _, c := range endCrossings(p, q) {
			l := math.Abs(a.u1-c.u) + math.Abs(c.v-b.u0)
			if c.u > a.u0 && c.v < b.u1 && l < lost && o.clear(p.At(c.u), 1e-7) {
				lost, u1, u0 = l, c.u, c.v
			}
		}
		a.u1, b.u0 = u1, u0
	}
}

// endCrossings returns the crossings of p with q, looking closely where p ends
// and q begins.
func endCrossings(p, q Piece) []crossing {
	out := crossings(p, q)
	const n = 10
	for i := 1; i <= n; i++ {
		for j := 1; j <= n; j++ {
			if c, ok := polish(p, q, 1-math.Pow(4, -float64(i)), math.Pow(4, -float64(j))); ok && !known(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// cuts returns 0, the parameters at which raw piece i crosses another, and 1.
func (o *offsetter) cuts(i int) []float64 {
	us := []float64{0, 1}
	o.beside.near(o.beside.boxes[i], func(j int) {
		if j == i {
			return
		}
		for _, c := range crossings(o.raw[i], o.raw[j]) {
			us = append(us, c.u)
		}
	})
	sort.Float64s(us)
	return us
}

// stands reports whether the part of p from u0 to u1 belongs to the offset: its
// middle is no nearer to the loop than |d|.
func (o *offsetter) stands(p Piece, u0, u1 float64) bool {
	return o.clear(p.At((u0+u1)/2), 1e-9*(1+math.Abs(o.d)))
}

// clear reports whether a point lies no nearer to the loop than |d| less slack.
func (o *offsetter) clear(m Vec, slack float64) bool {
	need := math.Abs(o.d) - slack
	clear := true
	o.near.near(NoBox().Add(m).Grow(need), func(k int) {
		if clear && boxDistance(o.near.boxes[k], m) < need && distance(o.source[k], m) < need {
			clear = false
		}
	})
	return clear
}
