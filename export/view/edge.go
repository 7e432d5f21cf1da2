package view

import "slices"

// kind of an edge that is drawn.
type kind uint8

const (
	crease  kind = iota
	contour      // or a rim
	kinds        // their number
)

// edge is a side of the facet front, which faces the eye; other is the facet
// beyond it, or -1.
type edge struct {
	a, b         int32
	front, other int32
	kind         kind
}

// edges returns the edges to be drawn, hidden ones too, in the facets' order;
// facets whose normals have a cosine below least meet in a crease.
func (s *scene) edges(least float64) []edge {
	var out []edge
	for h, t := range s.twin {
		f := int32(h / 3)
		if !s.faces[f].front {
			continue
		}
		k := s.facets[f]
		e := edge{a: k[h%3], b: k[(h+1)%3], front: f, other: -1, kind: contour}
		switch {
		case t < 0:
			out = append(out, e)
		case !s.faces[t/3].front:
			if e.other = t / 3; s.behind(f, t) {
				out = append(out, e)
			}
		case int(t) > h && s.bend(f, t/3) < least:
			e.other, e.kind = t/3, crease
			out = append(out, e)
		}
	}
	return out
}

// bend returns the cosine between the normals of two facets.
func (s *scene) bend(f, g int32) float64 { return s.faces[f].normal.Dot(s.faces[g].normal) }

// behind reports whether the facet of half-edge t, which shares an edge with
// facet f, lies behind f's plane: else the edge is at the bottom of a groove,
// whose near side hides it.
func (s *scene) behind(f, t int32) bool {
	k := s.facets[t/3]
	return s.at[k[(t+2)%3]].Sub(s.at[k[t%3]]).Dot(s.faces[f].normal) <= 0
}

// twins returns, for each half-edge 3f+i, which is side i of facet f, the
// half-edge that runs against it, or -1.
//
// Method: half-edges in buckets by their lesser end, sorted by the greater one.
func twins(facets [][3]int32, vertices int) []int32 {
	n := 3 * len(facets)
	first := make([]int32, vertices+1)
	ends := func(h int) (int32, int32) { return facets[h/3][h%3], facets[h/3][(h+1)%3] }
	for h := range n {
		a, b := ends(h)
		first[min(a, b)+1]++
	}
	for i := range vertices {
		first[i+1] += first[i]
	}
	sorted, next := make([]uint64, n), slices.Clone(first)
	for h := range n {
		a, b := ends(h)
		sorted[next[min(a, b)]] = uint64(uint32(max(a, b)))<<32 | uint64(uint32(h))
		next[min(a, b)]++
	}
	twin := make([]int32, n)
	for h := range twin {
		twin[h] = -1
	}
	for v := range vertices {
		bucket := sorted[first[v]:first[v+1]]
		slices.Sort(bucket)
		for i := 1; i < len(bucket); i++ {
			g, h := int32(uint32(bucket[i-1])), int32(uint32(bucket[i]))
			ga, gb := ends(int(g))
			if ha, hb := ends(int(h)); ga == hb && gb == ha && twin[g] < 0 {
				twin[g], twin[h] = h, g
			}
		}
	}
	return twin
}
