package solid

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// Prism returns the body that stands on region r from height z0 to z1.
//
//	r      material on the left of every loop
//	z0,z1  heights, mm, z0 < z1
//	chord  greatest distance of a flattened chord from the true outline, mm,
//	       at least 1e-12 of the region's greatest width
//
// Vertices are the points of the flattened loops in their order, outer first,
// at z0, then the same points at z1. Facets are the bottom, the top, then the
// walls. Of points that follow each other with equal coordinates one is kept.
//
// Errors: *ShapeError (wrapped) when the flattened loops touch or cross or run
// the wrong way round; loop 0 is the outer, loop i the hole i-1. Others name the
// argument. A loop whose pieces leave a gap of more than chord is refused.
func Prism(r plane.Region, z0, z1, chord float64) (*Mesh, error) {
	if !(z0 < z1) || math.IsInf(z0, 0) || math.IsInf(z1, 0) {
		return nil, fmt.Errorf("prism: heights %g and %g mm do not enclose a body", z0, z1)
	}
	loops, err := flatten(r, chord)
	if err != nil {
		return nil, fmt.Errorf("prism: %w", err)
	}
	tris, err := Triangulate(loops)
	if err != nil {
		return nil, fmt.Errorf("prism: %w", err)
	}
	return extrude(loops, tris, z0, z1), nil
}

// flatten returns the region's loops as polygons.
func flatten(r plane.Region, chord float64) ([][]plane.Vec, error) {
	loops := r.Loops()
	size := r.Outer.Box().Size()
	if least := 1e-12 * math.Max(size.X, size.Y); !(chord > 0 && chord >= least) || math.IsInf(chord, 0) {
		return nil, fmt.Errorf("a chordal tolerance of %g mm is not usable here, at least %.3g mm is", chord, least)
	}
	for i, l := range loops {
		if err := l.Check(chord); err != nil {
			return nil, fmt.Errorf("loop %d: %w", i, err)
		}
	}
	out := make([][]plane.Vec, len(loops))
	for i, l := range loops {
		out[i] = distinct(l.Flatten(chord))
	}
	return out, nil
}

// distinct returns the polygon without points equal to the one before them.
func distinct(p []plane.Vec) []plane.Vec {
	out := p[:0]
	for i, v := range p {
		if i == 0 || v != out[len(out)-1] {
			out = append(out, v)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}

// extrude raises triangulated polygons from z0 to z1.
func extrude(loops [][]plane.Vec, tris [][3]int32, z0, z1 float64) *Mesh {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	m := &Mesh{
		Vertices: make([]Point3, 0, 2*n),
		Facets:   make([][3]int32, 0, 2*len(tris)+2*n),
	}
	low := m.addLevel(loops, z0)
	high := m.addLevel(loops, z1)
	m.addCap(tris, low, false)
	m.addCap(tris, high, true)
	at := int32(0)
	for _, l := range loops {
		m.addWall(low+at, high+at, int32(len(l)))
		at += int32(len(l))
	}
	return m
}

// addLevel adds the loops' points at height z and returns the first's index.
func (m *Mesh) addLevel(loops [][]plane.Vec, z float64) int32 {
	first := int32(len(m.Vertices))
	for _, l := range loops {
		for _, p := range l {
			m.Vertices = append(m.Vertices, Point3{p.X, p.Y, z})
		}
	}
	return first
}

// addCap adds a flat face whose point 0 is vertex first, looking up or down.
func (m *Mesh) addCap(tris [][3]int32, first int32, up bool) {
	for _, t := range tris {
		if !up {
			t[1], t[2] = t[2], t[1]
		}
		m.Facets = append(m.Facets, [3]int32{first + t[0], first + t[1], first + t[2]})
	}
}

// addWall adds the wall between two copies of a closed polygon of n points, the
// one starting at vertex low, the other above it at vertex high; the material
// lies on the left.
func (m *Mesh) addWall(low, high, n int32) {
	for i := range n {
		k := i + 1
		if k == n {
			k = 0
		}
		m.Facets = append(m.Facets,
			[3]int32{low + i, low + k, high + k},
			[3]int32{low + i, high + k, high + i})
	}
}
