package solid

import "ringtrack/gear/plane"

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
