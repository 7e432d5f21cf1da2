package solid

import "ringtrack/gear/plane"

// status holds the edges that cross the sweep line, from bottom to top: a
// treap for finding a place among them and a list for their neighbours. Nodes
// are indices; 0 is none.
type status struct {
	nodes []crossEdge
	free  []int32
	root  int32
	seed  uint32
}

// crossEdge is an edge that crosses the sweep line.
type crossEdge struct {
	edge          int32 // the index of the point it starts at
	left, right   plane.Vec
	inside        bool  // the area lies above this edge
	below, above  int32 // neighbours in order
	up            int32 // parent
	less, greater int32 // children
	weight        uint32
}

func newStatus() status { return status{nodes: make([]crossEdge, 1, 64), seed: 1} }

// take returns an unused node.
func (t *status) take() int32 {
	if k := len(t.free); k > 0 {
		n := t.free[k-1]
		t.free = t.free[:k-1]
		t.nodes[n] = crossEdge{}
		return n
	}
	t.nodes = append(t.nodes, crossEdge{})
	return int32(len(t.nodes) - 1)
}

// random returns the next number of a fixed sequence (xorshift): weights need
// no other property than having nothing to do with the input.
func (t *status) random() uint32 {
	t.seed ^= t.seed << 13
	t.seed ^= t.seed >> 17
	t.seed ^= t.seed << 5
	return t.seed
}

// below returns the topmost edge that runs below p, 0 when there is none, and
// an edge on which p lies, 0 when there is none.
func (t *status) below(p plane.Vec) (n, touched int32) {
	for k := t.root; k != 0; {
		e := &t.nodes[k]
		switch orient(e.left, e.right, p) {
		case 1:
			n, k = k, e.greater
		case -1:
			k = e.less
		default:
			return n, k
		}
	}
	return n, 0
}

// insertAfter puts a new node right above node b; b = 0 puts it lowest.
func (t *status) insertAfter(b int32) int32 {
	n := t.take()
	e := &t.nodes[n]
	e.weight = t.random()
	e.below = b
	if b != 0 {
		e.above = t.nodes[b].above
		t.nodes[b].above = n
	} else {
		e.above = t.lowest()
	}
	if e.above != 0 {
		t.nodes[e.above].below = n
	}
	t.hang(n, b, e.above)
	t.rise(n)
	return n
}

// lowest returns the lowest node.
func (t *status) lowest() int32 {
	k := t.root
	for k != 0 && t.nodes[k].less != 0 {
		k = t.nodes[k].less
	}
	return k
}

// hang makes n a leaf between its neighbours: of two neighbours in order one
// always has its child's place toward the other free.
func (t *status) hang(n, below, above int32) {
	switch {
	case below != 0 && t.nodes[below].greater == 0:
		t.nodes[below].greater, t.nodes[n].up = n, below
	case above != 0:
		t.nodes[above].less, t.nodes[n].up = n, above
	default:
		t.root = n
	}
}

// rise turns n upward until its parent's weight is no less.
func (t *status) rise(n int32) {
	for {
		p := t.nodes[n].up
		if p == 0 || t.nodes[p].weight >= t.nodes[n].weight {
			return
		}
		t.lift(n)
	}
}

// lift turns n with its parent.
func (t *status) lift(n int32) {
	p := t.nodes[n].up
	g := t.nodes[p].up
	var child int32
	if t.nodes[p].less == n {
		child = t.nodes[n].greater
		t.nodes[p].less, t.nodes[n].greater = child, p
	} else {
		child = t.nodes[n].less
		t.nodes[p].greater, t.nodes[n].less = child, p
	}
	if child != 0 {
		t.nodes[child].up = p
	}
	t.nodes[p].up = n
	t.replace(p, n, g)
}

// replace makes n stand where p stood below g.
func (t *status) replace(p, n, g int32) {
	if n != 0 {
		t.nodes[n].up = g
	}
	switch {
	case g == 0:
		t.root = n
	case t.nodes[g].less == p:
		t.nodes[g].less = n
	default:
		t.nodes[g].greater = n
	}
}

// remove takes n out.
func (t *status) remove(n int32) {
	for t.nodes[n].less != 0 && t.nodes[n].greater != 0 {
		l, g := t.nodes[n].less, t.nodes[n].greater
		if t.nodes[l].weight > t.nodes[g].weight {
			t.lift(l)
		} else {
			t.lift(g)
		}
	}
	e := t.nodes[n]
	t.replace(n, e.less+e.greater, e.up)
	if e.below != 0 {
		t.nodes[e.below].above = e.above
	}
	if e.above != 0 {
		t.nodes[e.above].below = e.below
	}
	t.free = append(t.free, n)
}
