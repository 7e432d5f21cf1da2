package view

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// scene is a mesh in pixels: x to the right, y upward, z towards the eye, all in
// the same unit.
type scene struct {
	pixel  float64   // mm of the mesh
	corner plane.Vec // mm, the raster's lower left corner as seen
	at     []solid.Point3
	facets [][3]int32
	faces  []face
	twin   []int32 // of half-edges, see twins
	patch  []int32 // of facets, see patches
	raster raster
}

// face is what a facet looks like.
type face struct {
	normal solid.Point3 // in the eye's frame, length 1; zero for a facet of no area
	front  bool
}

// edgeOn is the least cosine between the direction to the eye and the normal of
// a facet that faces it: less is rounding.
const edgeOn = 1e-9

// border is how many empty pixels surround the part on the raster.
const border = 2

// newScene puts the mesh on a raster; facets whose normals have a cosine below
// least meet in a crease.
func newScene(m *solid.Mesh, f frame, box plane.Box, pixel, least float64) *scene {
	s := &scene{pixel: pixel, facets: m.Facets, twin: twins(m.Facets, len(m.Vertices))}
	s.corner = box.Min.Sub(plane.Vec{X: border * pixel, Y: border * pixel})
	s.at = make([]solid.Point3, len(m.Vertices))
	for i, v := range m.Vertices {
		p := f.see(v)
		s.at[i] = solid.Point3{X: (p.X - s.corner.X) / pixel, Y: (p.Y - s.corner.Y) / pixel, Z: p.Z / pixel}
	}
	s.faces = make([]face, len(m.Facets))
	for i, k := range m.Facets {
		n := s.at[k[1]].Sub(s.at[k[0]]).Cross(s.at[k[2]].Sub(s.at[k[0]]))
		if l := n.Len(); l > 0 {
			n = n.Mul(1 / l)
		}
		s.faces[i] = face{normal: n, front: n.Z > edgeOn}
	}
	s.patch = s.patches(least)
	size := func(lo, hi float64) int { return int(math.Ceil((hi-lo)/pixel)) + 2*border }
	s.raster = newRaster(size(box.Min.X, box.Max.X), size(box.Min.Y, box.Max.Y))
	for i, f := range s.faces {
		if f.front {
			k := s.facets[i]
			s.raster.facet(s.at[k[0]], s.at[k[1]], s.at[k[2]], f.normal, int32(i))
		}
	}
	return s
}

// patches returns, for each facet, a number that it shares with those that it is
// joined to over edges that are no creases.
//
// Method: union and find, with halved paths.
func (s *scene) patches(least float64) []int32 {
	p := make([]int32, len(s.facets))
	for i := range p {
		p[i] = int32(i)
	}
	root := func(i int32) int32 {
		for p[i] != i {
			p[i] = p[p[i]]
			i = p[i]
		}
		return i
	}
	for h, t := range s.twin {
		if f := int32(h / 3); int(t) > h && s.bend(f, t/3) >= least {
			if a, b := root(f), root(t/3); a < b {
				p[b] = a
			} else {
				p[a] = b
			}
		}
	}
	for i := range p {
		p[i] = root(int32(i))
	}
	return p
}
