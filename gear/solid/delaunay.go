package solid

import (
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// fabric is a triangulation in the making. Its points are those given and then
// three outer ones, whose triangle holds all. Triangles are counter-clockwise
// and twin pairs their half-edges; those of the outer triangle have none.
type fabric struct {
	pts  []plane.Vec
	tris [][3]int32
	twin []int32
	half []int32 // one half-edge that starts at each point; filled by index
	todo []int32
	seed uint32
}

// delaunay triangulates distinct points that do not all lie on one line.
//
// Method: points are inserted one by one in rounds of a random half each, within
// a round along a Hilbert curve (Amenta, Choi and Rote), and edges flipped as
// long as the circle test is certain (Lawson). The shape is valid whatever that
// test says: every split and walk is decided exactly.
func delaunay(pts []plane.Vec) *fabric {
	n := len(pts)
	f := &fabric{
		pts:  append(make([]plane.Vec, 0, n+3), pts...),
		tris: make([][3]int32, 1, 2*n+1), twin: make([]int32, 3, 6*n+3), seed: 1,
	}
	b := plane.NoBox()
	for _, p := range pts {
		b = b.Add(p)
	}
	f.surround(b)
	at := int32(0)
	for _, k := range insertionOrder(pts, b) {
		at = f.insert(k, at)
	}
	f.index()
	return f
}

// surround adds the three outer points, far enough that hardly a triangle
// reaches them past an edge of the outline, and their triangle.
func (f *fabric) surround(b plane.Box) {
	n := int32(len(f.pts))
	c, size := b.Min.Add(b.Max).Mul(0.5), b.Size()
	far := 1000 * math.Max(size.X, size.Y)
	f.pts = append(f.pts, c.Add(plane.Vec{X: -2 * far, Y: -far}), c.Add(plane.Vec{X: 2 * far, Y: -far}), c.Add(plane.Vec{Y: 2 * far}))
	f.tris[0] = [3]int32{n, n + 1, n + 2}
	f.twin[0], f.twin[1], f.twin[2] = -1, -1, -1
}

// insertionOrder returns the points' indices: rounds that double, each along a
// Hilbert curve through the box.
func insertionOrder(pts []plane.Vec, b plane.Box) []int32 {
	const bits = 28 // of an index
	size := b.Size()
	k := (hilbertSide - 1) / math.Max(size.X, size.Y)
	list := make([]uint64, len(pts))
	for i, p := range pts {
		along := hilbert(uint32(k*(p.X-b.Min.X)), uint32(k*(p.Y-b.Min.Y)))
		list[i] = round(uint32(i))<<58 | uint64(along)<<bits | uint64(i)
	}
	slices.Sort(list)
	out := make([]int32, len(pts))
	for i, key := range list {
		out[i] = int32(key & (1<<bits - 1))
	}
	return out
}

// hilbertSide is the number of cells a side of the Hilbert curve's square.
const hilbertSide = 1 << 15

// round returns the round in which point i is inserted: the last with chance
// 1/2, the one before with 1/4 and so on, always the same for the same i.
func round(i uint32) uint64 {
	h := (i + 1) * 0x9E3779B1
	h = (h ^ h>>15) * 0x85EBCA77
	h ^= h >> 13
	r := uint64(31)
	for ; h&1 == 1 && r > 0; h >>= 1 {
		r--
	}
	return r
}

// hilbert returns how far along a Hilbert curve cell (x, y) lies.
func hilbert(x, y uint32) (d uint32) {
	for s := uint32(hilbertSide / 2); s > 0; s >>= 1 {
		var rx, ry uint32
		if x&s != 0 {
			rx = 1
		}
		if y&s != 0 {
			ry = 1
		}
		d += s * s * ((3 * rx) ^ ry)
		if ry == 0 {
			if rx == 1 {
				x, y = ^x, ^y // only bits below s are looked at again
			}
			x, y = y, x
		}
	}
	return d
}

// insert adds point k, looking for it from triangle t on, and returns a
// triangle that has it as a corner.
func (f *fabric) insert(k, t int32) int32 {
	t, on := f.find(f.pts[k], t)
	f.todo = f.todo[:0]
	f.divide(t, k, on)
	for len(f.todo) > 0 {
		h := f.todo[len(f.todo)-1]
		f.todo = f.todo[:len(f.todo)-1]
		if !mayFlip(f.pts, f.tris, f.twin, h) {
			continue
		}
		g := f.twin[h]
		flip(f.tris, f.twin, h)
		// k is the corner opposite h: the far sides are now h and g's third.
		f.todo = append(f.todo, h, nextHalf(nextHalf(g)))
	}
	return t
}

// find walks from triangle t to the one that holds p. on is the half-edge of it
// on which p lies, or -1. Sides are tried in random turn, which ends the walk in
// any triangulation.
func (f *fabric) find(p plane.Vec, t int32) (at, on int32) {
	from := int32(-1)
walk:
	for {
		f.seed = f.seed*1664525 + 1013904223
		on = -1
		h := 3*t + int32(f.seed>>16)%3
		for range 3 {
			if h != from {
				switch orient(f.pts[start(f.tris, h)], f.pts[start(f.tris, nextHalf(h))], p) {
				case -1:
					from = f.twin[h]
					t = from / 3
					continue walk
				case 0:
					on = h
				}
			}
			h = nextHalf(h)
		}
		return t, on
	}
}

// divide divides triangle t at point k, which lies in it, or on its half-edge
// on, and lists the outer sides. Triangle t keeps k as a corner.
func (f *fabric) divide(t, k, on int32) {
	h := 3 * t
	if on >= 0 {
		h = on
	}
	h1 := nextHalf(h)
	h2 := nextHalf(h1)
	a, b, c := start(f.tris, h), start(f.tris, h1), start(f.tris, h2)
	bc, ca := f.twin[h1], f.twin[h2]
	// t becomes (a, b, k); u is (b, c, k), v is (c, a, k).
	f.tris[h2/3][h2%3] = k
	u := int32(len(f.twin))
	v := u + 3
	f.tris = append(f.tris, [3]int32{b, c, k}, [3]int32{c, a, k})
	f.twin = append(f.twin, -1, -1, -1, -1, -1, -1)
	pair(f.twin, u, bc)
	pair(f.twin, v, ca)
	pair(f.twin, h1, u+2)
	pair(f.twin, u+1, v+2)
	pair(f.twin, v+1, h2)
	f.todo = append(f.todo, u, v)
	if on < 0 {
		f.todo = append(f.todo, h)
		return
	}
	// k lies on ab: triangle (a, b, k) has no area, and flipping ab mends it.
	g := f.twin[h]
	flip(f.tris, f.twin, h)
	f.todo = append(f.todo, h, nextHalf(nextHalf(g)))
}

// mayFlip reports whether the far corner of the neighbour across h lies inside
// the circle of h's triangle. The quadrilateral is then convex, so that no
// triangle loses its positive area by the flip; and as each flip is certain,
// each lowers the paraboloid over the triangles, and flipping ends.
func mayFlip(pts []plane.Vec, tris [][3]int32, twin []int32, h int32) bool {
	g := twin[h]
	if g < 0 {
		return false
	}
	t := tris[h/3]
	d := start(tris, nextHalf(nextHalf(g)))
	return inCircle(pts[t[0]], pts[t[1]], pts[t[2]], pts[d])
}

// fatten flips inner edges until each is locally Delaunay. Edges without a twin
// are the outline and stay.
func fatten(pts []plane.Vec, tris [][3]int32, twin []int32) {
	queued := make([]bool, len(twin))
	stack := make([]int32, 0, len(twin)/2)
	for h, g := range twin {
		if int32(h) < g {
			stack = append(stack, int32(h))
			queued[h] = true
		}
	}
	for len(stack) > 0 {
		h := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		queued[h] = false
		if !mayFlip(pts, tris, twin, h) {
			continue
		}
		for _, o := range flip(tris, twin, h) {
			if t := twin[o]; t >= 0 && !queued[min(o, t)] {
				o = min(o, t)
				queued[o] = true
				stack = append(stack, o)
			}
		}
	}
}
