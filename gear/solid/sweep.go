package solid

import "ringtrack/gear/plane"

// sweep is the state of the search for edges that touch or cross. Edge i runs from point i to point
// next[i]; node[i] is its place in the status while it crosses the sweep line.
type sweep struct {
	loops      [][]plane.Vec
	pts        []plane.Vec
	next, prev []int32
	node       []int32
	events     []event
	status     status
	euler      int // parts less holes of what lies behind the sweep line
}

// before reports whether the sweep reaches p before q.
func before(p, q plane.Vec) bool { return p.X < q.X || (p.X == q.X && p.Y < q.Y) }

func (s *sweep) run() error {
	s.status = newStatus()
	for _, e := range s.events {
		if err := s.visit(e.i); err != nil {
			return err
		}
	}
	return nil
}

// visit handles point v by where its two edges lie.
func (s *sweep) visit(v int32) error {
	in := before(s.pts[s.prev[v]], s.pts[v])  // the edge that ends here comes from the left
	out := before(s.pts[s.next[v]], s.pts[v]) // the edge that starts here goes to the left
	switch {
	case in && out:
		return s.close(v)
	case in:
		return s.passBelow(v)
	case out:
		return s.passAbove(v)
	}
	return s.open(v)
}

// place puts edge e into node n.
func (s *sweep) place(n, e int32) {
	a, b := s.pts[e], s.pts[s.next[e]]
	c := &s.status.nodes[n]
	c.edge, c.left, c.right, c.inside = e, a, b, true
	if before(b, a) {
		c.left, c.right, c.inside = b, a, false
	}
	s.node[e] = n
}

// passBelow handles v on the lower side of the area.
func (s *sweep) passBelow(v int32) error {
	n := s.node[s.prev[v]]
	s.place(n, v)
	return s.checkBoth(n)
}

// passAbove handles v on the upper side of the area.
func (s *sweep) passAbove(v int32) error {
	n := s.node[v]
	b := s.status.nodes[n].below
	if b == 0 || !s.status.nodes[b].inside {
		return s.fail(WrongWay, v, v, s.pts[v])
	}
	s.place(n, s.prev[v])
	return s.checkBoth(n)
}

// open handles v with both edges to its right: the area begins here, or a
// stretch of it is split by a hole or a hollow.
func (s *sweep) open(v int32) error {
	p := s.pts[v]
	out, in := v, s.prev[v]
	turn := orient(p, s.pts[s.next[v]], s.pts[in])
	if turn == 0 {
		return s.fail(Crossing, in, out, p)
	}
	b, touched := s.status.below(p)
	if touched != 0 {
		return s.fail(Crossing, s.status.nodes[touched].edge, v, p)
	}
	within := b != 0 && s.status.nodes[b].inside
	if within != (turn < 0) {
		return s.fail(WrongWay, v, v, p)
	}
	lo := s.status.insertAfter(b)
	hi := s.status.insertAfter(lo)
	if within {
		s.place(lo, in)
		s.place(hi, out)
	} else {
		s.place(lo, out)
		s.place(hi, in)
		s.euler++
	}
	if err := s.check(b, lo); err != nil {
		return err
	}
	return s.check(hi, s.status.nodes[hi].above)
}

// close handles v with both edges to its left: the area ends here, or two
// stretches of it meet.
func (s *sweep) close(v int32) error {
	lo, hi := s.node[s.prev[v]], s.node[v]
	t := &s.status
	if t.nodes[lo].above != hi {
		lo, hi = hi, lo
		s.euler--
	}
	if t.nodes[lo].above != hi {
		return s.fail(Crossing, s.prev[v], v, s.pts[v])
	}
	b, a := t.nodes[lo].below, t.nodes[hi].above
	t.remove(lo)
	t.remove(hi)
	return s.check(b, a)
}

func (s *sweep) checkBoth(n int32) error {
	if err := s.check(s.status.nodes[n].below, n); err != nil {
		return err
	}
	return s.check(n, s.status.nodes[n].above)
}

// check returns an error when the edges of two neighbouring nodes have a point
// in common that is not the joint of two steps of one loop.
func (s *sweep) check(lo, hi int32) error {
	if lo == 0 || hi == 0 {
		return nil
	}
	e, f := &s.status.nodes[lo], &s.status.nodes[hi]
	var bad bool
	at := f.left
	switch {
	case s.next[e.edge] == f.edge || s.next[f.edge] == e.edge:
		bad = overlap(e, f)
	case e.left.Y < f.left.Y && e.left.Y < f.right.Y && e.right.Y < f.left.Y && e.right.Y < f.right.Y:
	default:
		bad = meet(e.left, e.right, f.left, f.right)
	}
	if !bad {
		return nil
	}
	if before(f.left, e.left) {
		at = e.left
	}
	return s.fail(Crossing, e.edge, f.edge, nearCrossing(e, f, at))
}

// overlap reports whether two edges that share an end lie on each other.
func overlap(e, f *crossEdge) bool {
	switch {
	case e.left == f.left:
		return orient(e.left, e.right, f.right) == 0
	case e.right == f.right:
		return orient(e.right, e.left, f.left) == 0
	}
	return false
}

// meet reports whether the closed segments ab and cd have a common point. Each
// is given in the order of the sweep.
func meet(a, b, c, d plane.Vec) bool {
	c1, d1 := orient(a, b, c), orient(a, b, d)
	if c1*d1 > 0 {
		return false
	}
	if c1 == 0 && d1 == 0 {
		return !before(b, c) && !before(d, a)
	}
	return orient(c, d, a)*orient(c, d, b) <= 0
}

// nearCrossing returns about where two edges cross, or at when they are parallel.
func nearCrossing(e, f *crossEdge, at plane.Vec) plane.Vec {
	v, w := e.right.Sub(e.left), f.right.Sub(f.left)
	if d := v.Cross(w); d != 0 {
		if t := f.left.Sub(e.left).Cross(w) / d; t >= 0 && t <= 1 {
			return e.left.Add(v.Mul(t))
		}
	}
	return at
}
