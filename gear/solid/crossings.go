package solid

import (
	"math"
	"slices"
)

// Crossings returns the pairs of facets that have a point in common which is not
// a corner or an edge that both name: facets that cross, that touch, or that lie
// on one another. A sound surface of a solid has none. The mesh's indices must be
// good and its facets have an area (see Check).
//
// Every pair whose boxes touch is tested, and decided exactly. Method: the facets
// are put into a tree of boxes, which is compared with itself. With n facets, of
// which each one's box touches k others, this takes O(n (log n + k)).
func (m *Mesh) Crossings() [][2]int32 {
	t := newBoxTree(m)
	if len(t.nodes) > 0 {
		t.within(0)
	}
	slices.SortFunc(t.found, func(a, b [2]int32) int {
		if a[0] != b[0] {
			return int(a[0] - b[0])
		}
		return int(a[1] - b[1])
	})
	return t.found
}

// boxTree is a binary tree of boxes over a mesh's facets.
type boxTree struct {
	m     *Mesh
	boxes []Box3 // of the facets
	order []int32
	nodes []boxNode
	found [][2]int32
}

// boxNode holds the facets order[from:to]; leaves have no children (0).
type boxNode struct {
	box         Box3
	from, to    int32
	left, right int32
}

const leafSize = 4

func newBoxTree(m *Mesh) *boxTree {
	t := &boxTree{m: m, boxes: make([]Box3, len(m.Facets)), order: make([]int32, len(m.Facets))}
	for f, c := range m.Facets {
		a, b, d := m.Vertices[c[0]], m.Vertices[c[1]], m.Vertices[c[2]]
		t.boxes[f] = Box3{
			Point3{min(a.X, b.X, d.X), min(a.Y, b.Y, d.Y), min(a.Z, b.Z, d.Z)},
			Point3{max(a.X, b.X, d.X), max(a.Y, b.Y, d.Y), max(a.Z, b.Z, d.Z)},
		}
		t.order[f] = int32(f)
	}
	if len(t.order) > 0 {
		t.build(0, int32(len(t.order)))
	}
	return t
}

// build makes the node of order[from:to] and returns its number: halves by the
// boxes' middles along the longest side.
func (t *boxTree) build(from, to int32) int32 {
	n := int32(len(t.nodes))
	inf := math.Inf(1)
	box := Box3{Point3{inf, inf, inf}, Point3{-inf, -inf, -inf}}
	mid := box
	for _, f := range t.order[from:to] {
		b := t.boxes[f]
		box = box.union(b)
		c := b.Min.Add(b.Max)
		mid = mid.union(Box3{c, c})
	}
	t.nodes = append(t.nodes, boxNode{box: box, from: from, to: to})
	if to-from <= leafSize {
		return n
	}
	size := mid.Size()
	key := func(f int32) float64 { return t.boxes[f].Min.X + t.boxes[f].Max.X }
	switch {
	case size.Y >= size.X && size.Y >= size.Z:
		key = func(f int32) float64 { return t.boxes[f].Min.Y + t.boxes[f].Max.Y }
	case size.Z >= size.X && size.Z >= size.Y:
		key = func(f int32) float64 { return t.boxes[f].Min.Z + t.boxes[f].Max.Z }
	}
	slices.SortFunc(t.order[from:to], func(a, b int32) int {
		if s := sign(key(a) - key(b)); s != 0 {
			return s
		}
		return int(a - b)
	})
	half := (from + to) / 2
	left := t.build(from, half)
	right := t.build(half, to)
	t.nodes[n].left, t.nodes[n].right = left, right
	return n
}

func (b Box3) union(c Box3) Box3 {
	return Box3{
		Point3{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y), min(b.Min.Z, c.Min.Z)},
		Point3{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y), max(b.Max.Z, c.Max.Z)},
	}
}

// meets reports whether the closed boxes have a point in common.
func (b Box3) meets(c Box3) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y && b.Min.Z <= c.Max.Z && c.Min.Z <= b.Max.Z
}

// within tests the pairs inside node n.
func (t *boxTree) within(n int32) {
	c := t.nodes[n]
	if c.left == 0 {
		for i := c.from; i < c.to; i++ {
			for j := i + 1; j < c.to; j++ {
				t.test(t.order[i], t.order[j])
			}
		}
		return
	}
	t.within(c.left)
	t.within(c.right)
	t.across(c.left, c.right)
}

// across tests the pairs of a facet in node a with one in node b.
func (t *boxTree) across(a, b int32) {
	c, d := &t.nodes[a], &t.nodes[b]
	if !c.box.meets(d.box) {
		return
	}
	switch {
	case c.left == 0 && d.left == 0:
		for _, f := range t.order[c.from:c.to] {
			for _, g := range t.order[d.from:d.to] {
				t.test(f, g)
			}
		}
	case d.left == 0 || c.left != 0 && c.to-c.from >= d.to-d.from:
		t.across(c.left, b)
		t.across(c.right, b)
	default:
		t.across(a, d.left)
		t.across(a, d.right)
	}
}

func (t *boxTree) test(f, g int32) {
	if t.boxes[f].meets(t.boxes[g]) && t.m.cross(f, g) {
		t.found = append(t.found, [2]int32{min(f, g), max(f, g)})
	}
}

// cross reports whether two facets have a point in common that is not a corner or
// an edge of both.
func (m *Mesh) cross(f, g int32) bool {
	a, b := m.Facets[f], m.Facets[g]
	shared := 0
	for i := range 3 { // bring shared corners to the front of both
		if k := slices.Index(b[shared:], a[i]); k >= 0 {
			a[shared], a[i] = a[i], a[shared]
			b[shared], b[shared+k] = b[shared+k], b[shared]
			shared++
		}
	}
	s, t := m.triangle(a), m.triangle(b)
	switch shared {
	case 3:
		return true
	case 2:
		return orient3(s[0], s[1], s[2], t[2]) == 0 && sameSide(s, t)
	}
	var ps, pt [3]int // sides of the other's plane
	for i := shared; i < 3; i++ {
		ps[i] = orient3(t[0], t[1], t[2], s[i])
		pt[i] = orient3(s[0], s[1], s[2], t[i])
	}
	if shared == 1 {
		return t.meetsSegment(s[1], s[2], ps[1], ps[2]) || s.meetsSegment(t[1], t[2], pt[1], pt[2])
	}
	if oneSide(ps) || oneSide(pt) {
		return false
	}
	for i := range 3 {
		j := (i + 1) % 3
		if t.meetsSegment(s[i], s[j], ps[i], ps[j]) || s.meetsSegment(t[i], t[j], pt[i], pt[j]) {
			return true
		}
	}
	return false
}

func (m *Mesh) triangle(c [3]int32) *triangle3 {
	return &triangle3{m.Vertices[c[0]], m.Vertices[c[1]], m.Vertices[c[2]]}
}

func oneSide(s [3]int) bool {
	return s[0] > 0 && s[1] > 0 && s[2] > 0 || s[0] < 0 && s[1] < 0 && s[2] < 0
}

// sameSide reports whether two triangles in one plane, with the first two corners
// in common, have their third on the same side of these.
func sameSide(s, t *triangle3) bool {
	axis := s.axis()
	if axis == 3 {
		return false
	}
	a, b := shadow(s[0], axis), shadow(s[1], axis)
	return orient(a, b, shadow(s[2], axis)) == orient(a, b, shadow(t[2], axis))
}
