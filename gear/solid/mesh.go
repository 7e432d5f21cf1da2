package solid

import "math"

// Point3 is a point or a direction in space, in mm.
type Point3 struct{ X, Y, Z float64 }

// Add returns p + q.
func (p Point3) Add(q Point3) Point3 { return Point3{p.X + q.X, p.Y + q.Y, p.Z + q.Z} }

// Sub returns p - q.
func (p Point3) Sub(q Point3) Point3 { return Point3{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }

// Mul returns k p.
func (p Point3) Mul(k float64) Point3 { return Point3{k * p.X, k * p.Y, k * p.Z} }

// Dot returns the scalar product of p and q.
func (p Point3) Dot(q Point3) float64 { return p.X*q.X + p.Y*q.Y + p.Z*q.Z }

// Cross returns the vector product p x q.
func (p Point3) Cross(q Point3) Point3 {
	return Point3{p.Y*q.Z - p.Z*q.Y, p.Z*q.X - p.X*q.Z, p.X*q.Y - p.Y*q.X}
}

// Len returns the length of p.
func (p Point3) Len() float64 { return math.Sqrt(p.Dot(p)) }

func (p Point3) finite() bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y) && !math.IsNaN(p.Z-p.Z)
}

// Mesh is a surface of triangles. Facets name their corners by index into
// Vertices, counter-clockwise as seen from outside.
type Mesh struct {
	Vertices []Point3
	Facets   [][3]int32
}

// Box3 is an axis-parallel box.
type Box3 struct{ Min, Max Point3 }

// Size returns the box's extents.
func (b Box3) Size() Point3 { return b.Max.Sub(b.Min) }

// Box returns the least box that holds all vertices; the zero box when there
// are none.
func (m *Mesh) Box() Box3 {
	if len(m.Vertices) == 0 {
		return Box3{}
	}
	b := Box3{m.Vertices[0], m.Vertices[0]}
	for _, v := range m.Vertices[1:] {
		b.Min = Point3{math.Min(b.Min.X, v.X), math.Min(b.Min.Y, v.Y), math.Min(b.Min.Z, v.Z)}
		b.Max = Point3{math.Max(b.Max.X, v.X), math.Max(b.Max.Y, v.Y), math.Max(b.Max.Z, v.Z)}
	}
	return b
}

// Normal returns the outward normal of facet f, not scaled: its length is
// twice the facet's area.
func (m *Mesh) Normal(f int) Point3 {
	c := m.Facets[f]
	return normal(m.Vertices[c[0]], m.Vertices[c[1]], m.Vertices[c[2]])
}

func normal(a, b, c Point3) Point3 { return b.Sub(a).Cross(c.Sub(a)) }

// Volume returns the enclosed volume in mm3, positive for a closed outward
// mesh. The relative rounding error of a prism is below 1e-12, see the package
// comment.
//
// Method: divergence theorem about the middle of the box, compensated sum.
func (m *Mesh) Volume() float64 {
	b := m.Box()
	o := b.Min.Add(b.Size().Mul(0.5))
	var s sum
	for _, f := range m.Facets {
		p, q, r := m.Vertices[f[0]].Sub(o), m.Vertices[f[1]].Sub(o), m.Vertices[f[2]].Sub(o)
		s.add(p.Dot(q.Cross(r)))
	}
	return s.value() / 6
}

// Area returns the surface area in mm2.
func (m *Mesh) Area() float64 {
	var s sum
	for f := range m.Facets {
		s.add(m.Normal(f).Len())
	}
	return s.value() / 2
}

// sum adds numbers and keeps what rounding loses.
type sum struct{ s, lost float64 }

func (a *sum) add(v float64) {
	t := a.s + v
	if math.Abs(a.s) >= math.Abs(v) {
		a.lost += (a.s - t) + v
	} else {
		a.lost += (v - t) + a.s
	}
	a.s = t
}

func (a *sum) value() float64 { return a.s + a.lost }
