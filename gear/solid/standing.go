package solid

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// standing is a wall in the making: the points of its loop and the rings of
// vertices at the heights where it bends or ends.
type standing struct {
	wall  *Wall
	loop  plane.Loop // the wall's, unfolded if a channel passes it
	roof  *roof
	turns []plane.Similarity
	base  []plane.Vec // points of the loop, all units
	foot  rim         // at Low
	low   rim         // where the vertical part begins
	high  rim         // where it ends
	head  rim         // at High
	holes []*opening
}

// rim is a closed polygon of vertices at one height.
type rim struct {
	ids []int32
	pts []plane.Vec
}

// errCorners is the error of an edge that needs a loop without corners.
var errCorners = errors.New("an edge that adds material, or a round one, needs an outline without corners")

// stand divides the wall's loop. need lists, by piece, the parameters at which
// points must lie; the loop is then unfolded.
func stand(w *Wall, need map[int][]float64, chord float64) (*standing, error) {
	st := &standing{wall: w, loop: w.Loop}
	if need != nil {
		st.loop = unfold(w.Loop)
	}
	var marks []float64
	out := 0.0
	round := false
	for _, e := range []Edge{w.Foot, w.Head} {
		if e.Shift < 0 {
			marks = append(marks, -e.Shift)
		}
		out = math.Max(out, e.Shift)
		round = round || e.Round
	}
	slices.Sort(marks)
	if round {
		chord /= 2 // half for the outline, half for the edge's own arc: both may add up
	}
	var err error
	if st.roof, err = newRoof(st.loop, marks, out, chord, need); err != nil {
		return nil, err
	}
	if (round || out > 0) && (!st.roof.smooth() || len(st.roof.points) > 0) {
		return nil, errCorners
	}
	for i := range st.loop.Turns() {
		st.turns = append(st.turns, stepOf(st.loop, i))
	}
	st.layBase()
	return st, nil
}

// unfold returns the loop with all its pieces in one unit.
func unfold(l plane.Loop) plane.Loop {
	out := plane.Loop{Fold: 1, Centre: l.Centre, Unit: make([]plane.Piece, 0, l.Turns()*len(l.Unit))}
	for p := range l.All() {
		out.Unit = append(out.Unit, p)
	}
	return out
}

func (st *standing) layBase() {
	st.base = make([]plane.Vec, 0, st.roof.bases*len(st.turns))
	for i, m := range st.turns {
		last := -1
		for _, c := range st.roof.cols {
			if c.base == last {
				continue
			}
			last = c.base
			if i == 0 {
				st.base = append(st.base, c.p)
			} else {
				st.base = append(st.base, m.Point(c.p))
			}
		}
	}
}

// index returns the number of the point at parameter u of a piece.
func (st *standing) index(piece int, u float64) (int, error) {
	rf := st.roof
	for f, o := range rf.owner {
		if o != piece {
			continue
		}
		if u == 1 {
			return rf.cols[rf.first[f+1]%len(rf.cols)].base, nil
		}
		for _, c := range rf.cols[rf.first[f]:rf.first[f+1]] {
			if c.u == u {
				return c.base, nil
			}
		}
	}
	return 0, fmt.Errorf("piece %d has no point at %g", piece, u)
}

// raise adds the wall's rings to the mesh, with its sloping edges.
func (st *standing) raise(m *Mesh) {
	w := st.wall
	low, high := w.upright()
	st.low = m.addRing(st.base, low)
	st.high = st.low
	if high > low {
		st.high = m.addRing(st.base, high)
	}
	st.foot = st.slope(m, w.Foot, st.low, w.Low, low, false)
	st.head = st.slope(m, w.Head, st.high, w.High, high, true)
}

// addRing adds points at height z.
func (m *Mesh) addRing(pts []plane.Vec, z float64) rim {
	r := rim{ids: make([]int32, len(pts)), pts: pts}
	for i, p := range pts {
		r.ids[i] = m.addVertex(p, z)
	}
	return r
}

func (m *Mesh) addVertex(p plane.Vec, z float64) int32 {
	m.Vertices = append(m.Vertices, Point3{p.X, p.Y, z})
	return int32(len(m.Vertices) - 1)
}

// slope adds the facets of an edge between the ring from at height bend and the
// wall's end, and returns the ring there.
func (st *standing) slope(m *Mesh, e Edge, from rim, end, bend float64, up bool) rim {
	switch {
	case e.square():
		return from
	case e.Round || e.Shift > 0:
		return st.stairs(m, e, from, end, bend, up)
	}
	s := &sloper{standing: st, m: m, depth: -e.Shift, end: end, bend: bend, from: from, up: up}
	return s.run()
}

// stairs adds an edge of a loop without corners, in as many bands as a round
// one needs.
func (st *standing) stairs(m *Mesh, e Edge, from rim, end, bend float64, up bool) rim {
	n := 1
	if e.Round {
		n = arcCount(e.Height, math.Pi/2, st.roof.chord)
	}
	for k := 1; k <= n; k++ {
		s, z := e.Shift, end
		if k < n {
			a := math.Pi / 2 * float64(k) / float64(n)
			s = math.Copysign(e.Height*(1-math.Cos(a)), e.Shift)
			z = bend + (end-bend)*math.Sin(a)
		}
		next := m.addRing(st.shifted(s), z)
		for i := range from.ids {
			j := (i + 1) % len(from.ids)
			m.addBand(from.ids[i], from.ids[j], next.ids[j], next.ids[i], up)
		}
		from = next
	}
	return from
}

// shifted returns the loop's points moved to the right by s along the normals.
func (st *standing) shifted(s float64) []plane.Vec {
	out := make([]plane.Vec, 0, len(st.base))
	for i, m := range st.turns {
		for _, c := range st.roof.cols {
			p := c.p.Sub(c.n.Mul(s))
			if i > 0 {
				p = m.Point(p)
			}
			out = append(out, p)
		}
	}
	return out
}

// addBand adds the quadrilateral between a step a, b of a ring and the step d, c
// of another that lies above it (up) or below; corners may coincide.
func (m *Mesh) addBand(a, b, c, d int32, up bool) {
	if !up {
		a, b, c, d = d, c, b, a
	}
	if a != b && b != c && c != a {
		m.Facets = append(m.Facets, [3]int32{a, b, c})
	}
	if a != c && c != d && d != a && !(a == b && c == d) {
		m.Facets = append(m.Facets, [3]int32{a, c, d})
	}
}
