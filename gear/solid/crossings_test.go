package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// with returns the two meshes as one.
func with(a, b *Mesh) *Mesh {
	n := int32(len(a.Vertices))
	m := &Mesh{append(append([]Point3(nil), a.Vertices...), b.Vertices...), append([][3]int32(nil), a.Facets...)}
	for _, f := range b.Facets {
		m.Facets = append(m.Facets, [3]int32{f[0] + n, f[1] + n, f[2] + n})
	}
	return m
}

func movedBy(m *Mesh, v Point3) *Mesh {
	out := &Mesh{Facets: m.Facets}
	for _, p := range m.Vertices {
		out.Vertices = append(out.Vertices, p.Add(v))
	}
	return out
}

func TestCrossingsOfCubes(t *testing.T) {
	require.Empty(t, (&Mesh{}).Crossings())
	require.Empty(t, cube().Crossings())
	for _, tt := range []struct {
		name  string
		by    Point3
		apart bool
	}{
		{"apart", Point3{1.5, 0, 0}, true},
		{"hardly apart", Point3{math.Nextafter(1, 2), 0, 0}, true},
		{"overlapping", Point3{0.5, 0.5, 0.5}, false},
		{"a face in common", Point3{1, 0, 0}, false},
		{"part of a face in common", Point3{1, 0.3, 0.4}, false},
		{"an edge in common", Point3{1, 1, 0}, false},
		{"part of an edge in common", Point3{1, 1, 0.25}, false},
		{"a corner in common", Point3{1, 1, 1}, false},
		{"hardly crossing", Point3{math.Nextafter(1, 0), 0.3, 0.4}, false},
		{"the same", Point3{}, false},
	} {
		m := with(cube(), movedBy(cube(), tt.by))
		require.Equal(t, tt.apart, len(m.Crossings()) == 0, tt.name)
	}
	small := cube()
	for i := range small.Vertices {
		small.Vertices[i] = small.Vertices[i].Mul(0.5).Add(Point3{0.25, 0.25, 0.25})
	}
	require.Empty(t, with(cube(), small).Crossings(), "one within the other")
}

func TestCrossingsOfFacetsWithCornersInCommon(t *testing.T) {
	p := []Point3{{0, 0, 0}, {4, 0, 0}, {0, 4, 0}, {4, 4, 0}, {1, 1, 0}, {2, 1, 0}, {2, 2, 3}, {1, 1, -1}, {1, 1, 1}, {-3, -3, 0}, {-3, 0, 0}}
	for _, tt := range []struct {
		a, b  [3]int32
		cross bool
	}{
		{[3]int32{0, 1, 2}, [3]int32{1, 3, 2}, false}, // neighbours in a plane
		{[3]int32{0, 1, 2}, [3]int32{2, 1, 4}, true},  // folded over
		{[3]int32{0, 1, 2}, [3]int32{2, 1, 6}, false}, // neighbours at an angle
		{[3]int32{0, 1, 2}, [3]int32{0, 4, 5}, true},  // a corner in common, one in the other
		{[3]int32{0, 1, 2}, [3]int32{0, 7, 8}, true},  // a corner in common, through the middle
		{[3]int32{0, 1, 2}, [3]int32{0, 9, 10}, false},
		{[3]int32{0, 1, 2}, [3]int32{0, 6, 10}, false},
		{[3]int32{0, 1, 2}, [3]int32{2, 0, 1}, true}, // the same
	} {
		m := &Mesh{Vertices: p, Facets: [][3]int32{tt.a, tt.b}}
		require.Equal(t, tt.cross, len(m.Crossings()) == 1, "%v %v", tt.a, tt.b)
		m.Facets[0], m.Facets[1] = m.Facets[1], m.Facets[0]
		require.Equal(t, tt.cross, len(m.Crossings()) == 1, "%v %v", tt.b, tt.a)
	}
}

// pierces reports by ordinary arithmetic whether segment pq passes through t.
func pierces(p, q Point3, t [3]Point3) bool {
	n := normal(t[0], t[1], t[2])
	d := q.Sub(p)
	k := t[0].Sub(p).Dot(n) / d.Dot(n)
	if !(k > 0 && k < 1) {
		return false
	}
	x := p.Add(d.Mul(k))
	for i := range 3 {
		if t[(i+1)%3].Sub(t[i]).Cross(x.Sub(t[i])).Dot(n) < 0 {
			return false
		}
	}
	return true
}

// Triangles thrown about: the tree finds what trying every pair by ordinary
// arithmetic finds; none touch by chance.
func TestCrossingsOfRandomFacets(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		m := &Mesh{}
		for i := range int32(120) {
			c := Point3{r.Float64(), r.Float64(), r.Float64()}
			for range 3 {
				m.Vertices = append(m.Vertices, c.Add(Point3{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.Mul(0.15)))
			}
			m.Facets = append(m.Facets, [3]int32{3 * i, 3*i + 1, 3*i + 2})
		}
		var want [][2]int32
		for i := range int32(len(m.Facets)) {
			for j := i + 1; j < int32(len(m.Facets)); j++ {
				a, b := [3]Point3(m.Vertices[3*i:3*i+3]), [3]Point3(m.Vertices[3*j:3*j+3])
				for k := range 3 {
					if pierces(a[k], a[(k+1)%3], b) || pierces(b[k], b[(k+1)%3], a) {
						want = append(want, [2]int32{i, j})
						break
					}
				}
			}
		}
		require.NotEmpty(t, want)
		require.Equal(t, want, m.Crossings())
	}
}

func TestOrientationInSpace(t *testing.T) {
	a, b, c := Point3{0, 0, 0}, Point3{1, 0, 0}, Point3{0, 1, 0}
	require.Equal(t, 1, orient3(a, b, c, Point3{0, 0, -1}))
	require.Equal(t, -1, orient3(a, b, c, Point3{5, 5, 1e-300}))
	require.Equal(t, 0, orient3(a, b, c, Point3{5, -7, 0}))
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		// Points of a plane, rounded: nearly or exactly in it.
		u, v := Point3{r.Float64(), r.Float64(), r.Float64()}, Point3{r.Float64(), r.Float64(), r.Float64()}
		at := func() Point3 { return u.Mul(float64(r.IntN(8))).Add(v.Mul(float64(r.IntN(8)))) }
		p, q, s, d := at(), at(), at(), at()
		want := orient3Exact(p, q, s, d)
		require.Equal(t, want, orient3(p, q, s, d))
		require.Equal(t, -want, orient3(q, p, s, d))
		require.Equal(t, -want, orient3(p, q, d, s))
	}
}
