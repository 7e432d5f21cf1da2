package outline

import (
	"fmt"
	"io"
	"math"

	"ringtrack/export/stl"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// section reads an STL and returns its outlines at the height z, or at half its
// height when z is NaN.
func section(r io.Reader, z float64) ([]plane.Loop, error) {
	m, err := stl.Read(r, stl.ReadOptions{MaxFacets: mostFacets})
	if err != nil {
		return nil, err
	}
	box := m.Box()
	if math.IsNaN(z) {
		z = (box.Min.Z + box.Max.Z) / 2
	}
	return cut(m, freeHeight(m, z, box.Max.Z))
}

// mostFacets bounds what is read of an STL to about 1 GB of memory.
const mostFacets = 5_000_000

// freeHeight returns a height at z, or a little above it, at which no vertex lies.
func freeHeight(m *solid.Mesh, z, top float64) float64 {
	used := map[float64]bool{}
	for _, v := range m.Vertices {
		used[v.Z] = true
	}
	step := (top - z) / 1024
	for at := z; at < top; at += step {
		if !used[at] {
			return at
		}
	}
	return z
}

// cut returns the closed outlines of the mesh at height z, at which no vertex
// lies: every facet that passes z gives a straight piece from one of its edges
// to another, material on the left, and edges join the pieces.
func cut(m *solid.Mesh, z float64) ([]plane.Loop, error) {
	type edge [2]int32
	key := func(a, b int32) edge { return edge{min(a, b), max(a, b)} }
	next := map[edge]edge{}
	for _, f := range m.Facets {
		var up, down edge
		n := 0
		for i := range 3 {
			a, b := f[i], f[(i+1)%3]
			switch za, zb := m.Vertices[a].Z, m.Vertices[b].Z; {
			case za < z && zb > z:
				up, n = key(a, b), n+1
			case za > z && zb < z:
				down, n = key(a, b), n+1
			}
		}
		if n != 2 {
			continue
		}
		// Seen from outside with z upward, the material is behind the facet: the
		// piece that keeps it on the left runs from the falling to the rising edge.
		if _, twice := next[down]; twice {
			return nil, fmt.Errorf("the surface meets itself: an edge belongs to more than two facets")
		}
		next[down] = up
	}
	if len(next) == 0 {
		return nil, fmt.Errorf("nothing stands at half the height")
	}
	at := func(e edge) plane.Vec {
		a, b := m.Vertices[e[0]], m.Vertices[e[1]]
		t := (z - a.Z) / (b.Z - a.Z)
		return plane.Vec{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
	}
	var loops []plane.Loop
	for _, f := range m.Facets { // in the file's order
		for i := range 3 {
			start := key(f[i], f[(i+1)%3])
			if _, ok := next[start]; !ok {
				continue
			}
			var pts []plane.Vec
			for e, ok := start, true; ; {
				pts = append(pts, at(e))
				var to edge
				if to, ok = next[e]; !ok {
					return nil, fmt.Errorf("the surface is open at half its height, near (%.3f, %.3f)", at(e).X, at(e).Y)
				}
				delete(next, e)
				if e = to; e == start {
					break
				}
			}
			if l, ok := polygon(pts); ok {
				loops = append(loops, l)
			}
		}
	}
	return loops, nil
}

// polygon makes a loop of points; points that repeat are dropped.
func polygon(pts []plane.Vec) (plane.Loop, bool) {
	var unit []plane.Piece
	for i, a := range pts {
		if b := pts[(i+1)%len(pts)]; a != b {
			unit = append(unit, plane.Line{A: a, B: b})
		}
	}
	return plane.Loop{Unit: unit, Fold: 1}, len(unit) >= 3
}
