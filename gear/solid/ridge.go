package solid

import (
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// ridge is where the parallels of two neighbouring faces meet as they move away
// from the loop: it starts in a corner that turns left, or where a face between
// the two has vanished, and is followed by the distance s.
type ridge struct {
	a, b   int                // faces, in the order of the loop
	wrap   int                // 1 where b belongs to the next unit
	fa, fb *face              // fb as it stands in its own unit
	over   []plane.Similarity // empty, or the turn that takes fb to its place
	trail  []crossing         // places found so far, by rising s
	spots  []spot             // the places that are drawn
	fold   int                // born in a fold: of face a (-1), of face b (+1), else 0
}

// crossing is a place on a ridge: parameters on the two faces at a distance s.
type crossing struct{ s, u, v float64 }

// spot is a place on a ridge that becomes a vertex.
type spot struct {
	crossing
	point int // index of the vertex
	turn  int // units between face a and the vertex's own unit
}

func (r *ridge) start() crossing { return r.trail[0] }

// other returns the point and derivative of the second face's parallel.
func (r *ridge) other(v, s float64) (p, d plane.Vec) {
	q, n, d := r.fb.frame(v, s)
	p = q.Add(n.Mul(s))
	for _, m := range r.over {
		p, d = m.Point(p), m.Direction(d)
	}
	return p, d
}

// back returns a direction at the second face as it stands in its own unit.
func (r *ridge) back(d plane.Vec) plane.Vec {
	for _, m := range r.over {
		d = stepBack(m, d)
	}
	return d
}

// at returns the ridge's place at distance s, from its start on. It reports
// false where the two parallels do not meet.
func (r *ridge) at(s, depth float64) (crossing, bool) {
	k := len(r.trail) - 1
	for k > 0 && r.trail[k].s > s {
		k--
	}
	c := r.trail[k]
	for c.s < s {
		next := math.Min(s, c.s+depth/8)
		if s-next < 1e-3*depth {
			next = s
		}
		d, ok := r.meet(crossing{next, c.u, c.v})
		if !ok && r.fold != 0 {
			d, ok = r.unfold(next)
		}
		if !ok {
			return crossing{}, false
		}
		c = d
		if c.s > r.trail[len(r.trail)-1].s {
			r.trail = append(r.trail, c)
		}
	}
	return c, true
}

// meet runs Newton's method on a(u) = b(v), both at the distance c.s.
func (r *ridge) meet(c crossing) (crossing, bool) {
	last := math.Inf(1)
	for range 50 {
		q, n, da := r.fa.frame(c.u, c.s)
		pa := q.Add(n.Mul(c.s))
		pb, db := r.other(c.v, c.s)
		det := da.Cross(db)
		if math.Abs(det) <= 1e-13*da.Len()*db.Len() {
			return c, false
		}
		gap := pb.Sub(pa)
		du, dv := gap.Cross(db)/det, gap.Cross(da)/det
		du, dv = math.Max(-0.25, math.Min(0.25, du)), math.Max(-0.25, math.Min(0.25, dv))
		c.u, c.v = c.u+du, c.v+dv
		if c.u < -0.5 || c.u > 1.5 || c.v < -0.5 || c.v > 1.5 || math.IsNaN(c.u+c.v) {
			return c, false
		}
		move := math.Max(math.Abs(du), math.Abs(dv))
		if move < 1e-14 || (move < 1e-10 && move >= last) {
			break
		}
		last = move
	}
	q, n, da := r.fa.frame(c.u, c.s)
	p, db := r.other(c.v, c.s)
	gap := q.Add(n.Mul(c.s)).Sub(p).Len()
	return c, gap < 1e-12*(1+da.Len()) && r.fa.forward(c.u, da) && r.fb.forward(c.v, r.back(db))
}

// unfold finds the ridge's place at s when it was born in a fold: beyond its
// cusp the parallel of one face comes back across the other's. Close to the
// birth the cusp lies half way between the ends of what is folded away, up to
// the third power of their distance.
func (r *ridge) unfold(s float64) (crossing, bool) {
	f, end := r.fb, 0.0
	if r.fold < 0 {
		f, end = r.fa, 1.0
	}
	speed := func(u float64) float64 { return 1 - s*f.piece.Frame(u).K }
	if speed(end) > 0 {
		return crossing{s, 1, 0}, true
	}
	if speed(1-end) <= 0 {
		return crossing{}, false
	}
	cusp := math.Abs(zero(speed, end, 1-end, 1e-15) - end)
	const close = 1e-4 // mm
	if near := f.at(end, 0).Sub(f.at(math.Abs(end-cusp), 0)).Len(); near < close {
		if r.fold < 0 {
			return crossing{s, 1 - 2*cusp, 0}, true
		}
		return crossing{s, 1, 2 * cusp}, true
	}
	for _, k := range []float64{2, 2.25, 2.5, 3, 1.75, 1.5, 4} {
		c := crossing{s, 1, k * cusp}
		if r.fold < 0 {
			c = crossing{s, 1 - k*cusp, 0}
		}
		if c, ok := r.meet(c); ok {
			return c, true
		}
	}
	return crossing{}, false
}

// where returns the place at which the ridge stands at u on its first face
// (first) or at v on its second, between its start and s = end.
func (r *ridge) where(want, end, depth float64, first bool) crossing {
	lo, hi := r.start().s, end
	get := func(c crossing) float64 {
		if first {
			return -c.u
		}
		return c.v
	}
	if first {
		want = -want
	}
	var c crossing
	for range 80 {
		m := (lo + hi) / 2
		if c, _ = r.at(m, depth); get(c) < want {
			lo = m
		} else {
			hi = m
		}
	}
	if first {
		c.u = -want
	} else {
		c.v = want
	}
	return c
}

// draw fills the list of places from the ridge's start to its end: those at the
// distances marks and at the given parameters, and as many between as keep both
// faces and the ridge itself within chord of what is drawn.
func (r *ridge) draw(end crossing, rf *roof, needA, needB []float64) []crossing {
	list := []crossing{r.start(), end}
	for _, s := range rf.marks {
		if s > r.start().s && s < end.s {
			if c, ok := r.at(s, rf.depth); ok {
				list = append(list, c)
			}
		}
	}
	for _, u := range needA {
		if u < r.start().u && u > end.u {
			list = append(list, r.where(u, end.s, rf.depth, true))
		}
	}
	for _, v := range needB {
		if v > r.start().v && v < end.v {
			list = append(list, r.where(v, end.s, rf.depth, false))
		}
	}
	slices.SortFunc(list, func(a, b crossing) int { return sign(a.s - b.s) })
	out := list[:1:1]
	for i := 1; i < len(list); i++ {
		if list[i].s > out[len(out)-1].s {
			out = r.refine(out, list[i], rf, 0)
		}
	}
	return out
}

// refine appends c to the list, after as many places between as are needed.
func (r *ridge) refine(list []crossing, c crossing, rf *roof, depth int) []crossing {
	const deepest = 16
	b := list[len(list)-1]
	if depth < deepest && !r.straight(b, c, rf) {
		if m, ok := r.at((b.s+c.s)/2, rf.depth); ok && m.s > b.s && m.s < c.s {
			list = r.refine(list, m, rf, depth+1)
			return r.refine(list, c, rf, depth+1)
		}
	}
	return append(list, c)
}

// straight reports whether both faces and the ridge may be drawn straight
// between two places.
func (r *ridge) straight(b, c crossing, rf *roof) bool {
	if r.fa.departure(c.u, b.u, rf.depth, rf.out) > rf.chord || r.fb.departure(b.v, c.v, rf.depth, rf.out) > rf.chord {
		return false
	}
	m, ok := r.at((b.s+c.s)/2, rf.depth)
	if !ok {
		return true
	}
	p, q := r.fa.at(b.u, b.s), r.fa.at(c.u, c.s)
	return r.fa.at(m.u, m.s).Sub(p.Add(q).Mul(0.5)).Len() <= rf.chord
}
