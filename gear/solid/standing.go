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

// sloper adds a straight edge that takes material away.
type sloper struct {
	*standing
	m         *Mesh
	depth     float64 // how far it goes to the left
	end, bend float64 // heights of its end and of the ring from
	from      rim
	up        bool
	tops      []int32 // by column, all units; -1 where it ends in a ridge
	peaks     []int32 // by ridge point, all units; -1 where it lies beyond
	scratch   [2][]int32
}

func (s *sloper) run() rim {
	s.place()
	nc := len(s.roof.cols)
	var out rim
	add := func(id int32) {
		if n := len(out.ids); n == 0 || out.ids[n-1] != id {
			out.ids = append(out.ids, id)
		}
	}
	for t := range s.turns {
		for c := range nc {
			t1, c1 := t, c+1
			if c1 == nc {
				t1, c1 = (t+1)%len(s.turns), 0
			}
			s.m.zip(s.upright(t, c, 1), s.upright(t1, c1, 0), s.up)
			if s.roof.cols[c].life >= s.depth {
				add(s.top(t, c))
			}
			for _, more := range s.roof.cols[c].more {
				if n := len(more); n > 0 && s.roof.points[more[n-1].point].s == s.depth {
					add(s.peak(t, more[n-1]))
				}
			}
		}
	}
	for len(out.ids) > 1 && out.ids[0] == out.ids[len(out.ids)-1] {
		out.ids = out.ids[:len(out.ids)-1]
	}
	for _, id := range out.ids {
		v := s.m.Vertices[id]
		out.pts = append(out.pts, plane.Vec{X: v.X, Y: v.Y})
	}
	return out
}

// upright returns the vertices of column c of unit t from the wall outward, as
// seen from the face before it (0) or after it (1).
func (s *sloper) upright(t, c, from int) []int32 {
	col := &s.roof.cols[c]
	out := append(s.scratch[from][:0], s.from.ids[t*s.roof.bases+col.base])
	if top := s.top(t, c); top != out[0] {
		out = append(out, top)
	}
	if col.life < s.depth {
		for _, p := range col.more[from] {
			if s.roof.points[p.point].s <= s.depth {
				out = append(out, s.peak(t, p))
			}
		}
	}
	s.scratch[from] = out
	return out
}

// place adds the vertices at the edge's end and on its ridges.
func (s *sloper) place() {
	rf := s.roof
	s.tops, s.peaks = make([]int32, 0, len(rf.cols)*len(s.turns)), make([]int32, 0, len(rf.points)*len(s.turns))
	for t, m := range s.turns {
		for _, c := range rf.cols {
			id := int32(-1)
			if c.life > s.depth || (c.life == s.depth && c.point < 0) {
				id = s.m.addVertex(moved(m, t, c.p.Add(c.n.Mul(s.depth))), s.end)
			}
			s.tops = append(s.tops, id)
		}
		for _, p := range rf.points {
			id := int32(-1)
			switch {
			case p.s == s.depth:
				id = s.m.addVertex(moved(m, t, p.p), s.end)
			case p.s < s.depth:
				id = s.m.addVertex(moved(m, t, p.p), s.bend+(s.end-s.bend)*p.s/s.depth)
			}
			s.peaks = append(s.peaks, id)
		}
	}
}

// moved maps p by m, unless t is 0: the first unit stays as it is, bit for bit.
func moved(m plane.Similarity, t int, p plane.Vec) plane.Vec {
	if t == 0 {
		return p
	}
	return m.Point(p)
}

// top returns the vertex in which column c of unit t ends.
func (s *sloper) top(t, c int) int32 {
	rf := s.roof
	if id := s.tops[t*len(rf.cols)+c]; id >= 0 {
		return id
	}
	col := &rf.cols[c]
	if col.point < 0 { // the corner itself
		return s.from.ids[t*rf.bases+col.base]
	}
	return s.peak(t, peak{col.point, col.turn})
}

// peak returns the vertex of a ridge's point as seen from unit t.
func (s *sloper) peak(t int, p peak) int32 {
	n := len(s.turns)
	return s.peaks[((t+p.turn)%n+n)%n*len(s.roof.points)+p.point]
}
