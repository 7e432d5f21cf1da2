package solid

import (
	"fmt"
	"math"
	"slices"
)

// PrecisionError says that 32-bit numbers cannot hold a mesh.
type PrecisionError struct {
	At     Point3  // where
	Step   float64 // spacing of 32-bit numbers there, mm: the tolerance must be coarser
	Facets int     // facets concerned, at least
	Reason string
}

// Error says it in one sentence.
func (e *PrecisionError) Error() string {
	return fmt.Sprintf("32-bit numbers step by %.3g mm at (%.6g, %.6g, %.6g): %s; choose a coarser chordal tolerance, or move the part nearer the origin",
		e.Step, e.At.X, e.At.Y, e.At.Z, e.Reason)
}

// Float32 returns the mesh as 32-bit numbers hold it. m must be sound (Check).
//
// Each vertex is rounded once. Vertices that become equal become one; facets
// that then have an edge of no length vanish. A facet whose corners come to lie
// on one line, or that turns over, gives its longest edge to the neighbour there:
// the two are divided along the other diagonal. The result has no facet of zero
// area as float64 computes it, none turned over, and every edge has its twin.
// No vertex moves by more than half the step of 32-bit numbers in each
// coordinate, and the mesh m is not changed.
//
// Errors: *PrecisionError when no such mesh is found, as when the tolerance
// used is finer than 32-bit numbers hold, or when a coordinate exceeds them.
// A m that is not sound is an error that names its first problem.
func (m *Mesh) Float32() (*Mesh, error) {
	if p := m.badIndices(); len(p) > 0 {
		return nil, p[0]
	}
	r := &rounding{from: m}
	if err := r.roundAll(); err != nil {
		return nil, err
	}
	if allApart(r.to.Vertices) && r.keepsAll() {
		r.to.Facets = slices.Clone(m.Facets)
		return &r.to, nil
	}
	number := r.weld()
	r.renumber(number)
	if err := r.listBad(); err != nil {
		return nil, err
	}
	twin, again := twins(r.to.Facets)
	if h := slices.Index(twin, -1); h >= 0 || len(again) > 0 {
		return nil, r.unclosed(h, again)
	}
	if err := r.repair(twin); err != nil {
		return nil, err
	}
	r.dropUnused()
	if err := r.to.Check().Err(); err != nil {
		return nil, r.fail(m.Vertices[0], 1, "the rounded surface would be broken: "+err.Error())
	}
	return &r.to, nil
}

// rounding is the state of one call of Float32.
type rounding struct {
	from *Mesh
	to   Mesh
	was  []Point3 // each facet's normal before rounding
	bad  []int32  // facets without area or turned over
}

// roundAll rounds the vertices of from into to, by index.
func (r *rounding) roundAll() error {
	r.to.Vertices = make([]Point3, len(r.from.Vertices))
	for i, v := range r.from.Vertices {
		// + 0 turns -0 into 0.
		q := Point3{float64(float32(v.X)) + 0, float64(float32(v.Y)) + 0, float64(float32(v.Z)) + 0}
		if !v.finite() {
			return Problem{NotFinite, -1, i, v}
		}
		if !q.finite() {
			return r.fail(v, 1, "the coordinate exceeds their range")
		}
		r.to.Vertices[i] = q
	}
	return nil
}

// weld makes equal vertices of to one and returns each one's new number.
func (r *rounding) weld() []int32 {
	var w Welder
	w.Reserve(len(r.to.Vertices))
	number := make([]int32, len(r.to.Vertices))
	for i, v := range r.to.Vertices {
		number[i] = w.Add(v.float32())
	}
	r.to.Vertices = r.to.Vertices[:len(w.points)]
	for i, p := range w.points {
		r.to.Vertices[i] = Point3{float64(p[0]), float64(p[1]), float64(p[2])}
	}
	return number
}

func (p Point3) float32() [3]float32 {
	return [3]float32{float32(p.X), float32(p.Y), float32(p.Z)}
}

// allApart reports whether no two of the points, which 32 bits hold, are equal.
//
// Method: equal points have equal hashes. One pass marks hashes and those met
// twice; only points with such a hash, few by chance, are then compared. The
// marks are small enough to stay near the processor.
func allApart(pts []Point3) bool {
	bits := 10
	for 1<<bits < 32*len(pts) && bits < 31 {
		bits++
	}
	met, twice := make([]uint64, 1<<bits/64), make([]uint64, 1<<bits/64)
	for _, p := range pts {
		h := pointHash(p.float32()) >> (32 - bits)
		twice[h/64] |= met[h/64] & (1 << (h % 64))
		met[h/64] |= 1 << (h % 64)
	}
	var w Welder
	n := 0
	for _, p := range pts {
		h := pointHash(p.float32()) >> (32 - bits)
		if twice[h/64]&(1<<(h%64)) == 0 {
			continue
		}
		if w.Add(p.float32()) < int32(n) {
			return false
		}
		n++
	}
	return true
}

// keepsAll reports whether every facet of from is sound with the vertices of to.
func (r *rounding) keepsAll() bool {
	for f, c := range r.from.Facets {
		if !r.sound(c[0], c[1], c[2], r.from.Normal(f)) {
			return false
		}
	}
	return true
}

// renumber copies the facets that keep three corners.
func (r *rounding) renumber(number []int32) {
	r.to.Facets = make([][3]int32, 0, len(r.from.Facets))
	r.was = make([]Point3, 0, len(r.from.Facets))
	for f, c := range r.from.Facets {
		a, b, d := number[c[0]], number[c[1]], number[c[2]]
		if a != b && b != d && d != a {
			r.to.Facets = append(r.to.Facets, [3]int32{a, b, d})
			r.was = append(r.was, r.from.Normal(f))
		}
	}
}

// sound reports whether facet (a, b, c) has an area and looks to the side of n.
func (r *rounding) sound(a, b, c int32, n Point3) bool {
	v := r.to.Vertices
	return normal(v[a], v[b], v[c]).Dot(n) > 0
}

func (r *rounding) listBad() error {
	for f, c := range r.to.Facets {
		if r.sound(c[0], c[1], c[2], r.was[f]) {
			continue
		}
		if r.was[f].Dot(r.was[f]) == 0 {
			return Problem{ZeroArea, f, int(c[0]), r.to.Vertices[c[0]]}
		}
		r.bad = append(r.bad, int32(f))
	}
	return nil
}

// repair flips bad facets away. Each flip leaves one bad facet less; those that
// must wait for another are tried again as long as any was mended.
func (r *rounding) repair(twin []int32) error {
	isBad := make([]bool, len(r.to.Facets))
	for _, f := range r.bad {
		isBad[f] = true
	}
	for len(r.bad) > 0 {
		rest := r.bad[:0]
		for _, f := range r.bad {
			if !r.mend(twin, isBad, f) {
				rest = append(rest, f)
			}
		}
		if len(rest) == len(r.bad) {
			c := r.to.Facets[rest[0]]
			return r.fail(r.to.Vertices[c[0]], len(rest), "facets collapse there")
		}
		r.bad = rest
	}
	return nil
}

// mend flips the longest edge of bad facet f, if both facets are sound then.
func (r *rounding) mend(twin []int32, isBad []bool, f int32) bool {
	h := r.longest(f)
	g := twin[h]
	if isBad[g/3] {
		return false
	}
	fs := r.to.Facets
	a, b, c, d := start(fs, h), start(fs, g), start(fs, nextHalf(nextHalf(h))), start(fs, nextHalf(nextHalf(g)))
	n := r.was[g/3]
	v := r.to.Vertices
	flat := normal(v[a], v[b], v[c]) == Point3{}
	if !flat && !(n.Dot(r.was[f]) > 0) {
		return false // turned over into another face: the outline itself is lost
	}
	if c == d || !r.sound(a, d, c, n) || !r.sound(d, b, c, n) || joined(fs, twin, nextHalf(nextHalf(h)), d) {
		return false
	}
	flip(fs, twin, h)
	r.was[f], isBad[f] = n, false
	return true
}

// longest returns the half-edge of facet f that is longest.
func (r *rounding) longest(f int32) int32 {
	best, at := -1.0, 3*f
	for h := 3 * f; h < 3*f+3; h++ {
		e := r.to.Vertices[start(r.to.Facets, nextHalf(h))].Sub(r.to.Vertices[start(r.to.Facets, h)])
		if l := e.Dot(e); l > best {
			best, at = l, h
		}
	}
	return at
}

// joined reports whether an edge leads from the start of half-edge h to d,
// looking round the facets about it.
func joined(f [][3]int32, twin []int32, h, d int32) bool {
	for k := h; ; {
		if start(f, nextHalf(k)) == d {
			return true
		}
		k = nextHalf(twin[k])
		if k == h {
			return false
		}
	}
}

// dropUnused removes vertices that no facet names.
func (r *rounding) dropUnused() {
	number := make([]int32, len(r.to.Vertices))
	for _, c := range r.to.Facets {
		for _, v := range c {
			number[v] = 1
		}
	}
	kept := r.to.Vertices[:0]
	for i, v := range r.to.Vertices {
		if number[i] == 1 {
			number[i] = int32(len(kept))
			kept = append(kept, v)
		}
	}
	r.to.Vertices = kept
	for f, c := range r.to.Facets {
		r.to.Facets[f] = [3]int32{number[c[0]], number[c[1]], number[c[2]]}
	}
}

func (r *rounding) unclosed(open int, again []int32) error {
	h := int32(open)
	if len(again) > 0 {
		h = again[0]
	}
	return r.fail(r.to.Vertices[start(r.to.Facets, h)], max(1, len(again)), "walls that lie apart fall together, or the mesh was not closed")
}

func (r *rounding) fail(at Point3, facets int, reason string) error {
	big := math.Max(math.Abs(at.X), math.Max(math.Abs(at.Y), math.Abs(at.Z)))
	f := float32(math.Min(big, math.MaxFloat32/2))
	step := float64(math.Nextafter32(f, math.MaxFloat32)) - float64(f)
	return &PrecisionError{At: at, Step: step, Facets: facets, Reason: reason}
}
